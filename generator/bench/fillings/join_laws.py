"""Laws of benches that are bolted together: places, length and agreement of the bolts, heights, free floor."""

from __future__ import annotations

from collections.abc import Iterator

from generator.bench.fillings.facts import Solved
from generator.bench.law import GOODS, Law, Verdict, at_least, at_most, said
from generator.bench.neighbour import Neighbour
from generator.calculators.joining import STEP, STEP_SLIDING
from generator.codes import Code
from generator.findings import Change

TOGETHER = "both specs change together, and how is the choice of their makers"
#: Work in which boards slide from one top to the other.
SLIDING = ("planing", "outfeed")

BOLTS = Law(
    Code.JOIN_BOLTS, "error", "Every joining bolt has a place in both frames",
    "Not every joining bolt has a place in both frames",
    "Ask for fewer bolts, or give both frames the same depth and height, so that their members face each other.",
    "The benches cannot be bolted together as asked.", TOGETHER, quantity="places for bolts",
)  # fmt: skip
SPREAD = Law(
    Code.JOIN_SPREAD, "warning", "The joining bolts are far enough apart in height",
    "The joining bolts are too near each other in height",
    "Set the frames so that their members face each other at two heights: give both the same rails, or move the other "
    "bench with `at`. Or join them at another side.",
    "The joint opens at its foot when someone leans on the top.", TOGETHER,
    quantity="height from the lowest to the highest bolt",
)  # fmt: skip
LENGTH = Law(
    Code.JOIN_LENGTH, "error", "A bolt on the shelf goes through both members",
    "No bolt on the shelf is long enough for both members",
    "Let the tops reach out less at the joint, so that the frames are nearer.",
    "The nut finds no thread.", GOODS,
)  # fmt: skip
AGREES = Law(
    Code.JOIN_AGREES, "error", "Both specs say the same of their joint", "The two specs do not agree on their joint",
    "Write the same joint in both specs.", "The holes of one bench do not face those of the other.", TOGETHER,
)  # fmt: skip
HEIGHT = Law(
    Code.JOIN_HEIGHT, "warning", "Both tops are at one height", "The tops are not at one height",
    "Give both benches the same height.", "A board that is pushed over the joint catches on the step.",
    "the height is in the spec, and the check names it", quantity="step between both tops",
)  # fmt: skip
ROLLS = Law(
    Code.JOIN_ROLLS, "warning", "Both benches roll, or neither does", "One of both benches rolls, the other does not",
    "Give both the same `base`, or lock every brake as long as they are joined.",
    "Someone pushes the bench that rolls, and the other is dragged over its feet.", TOGETHER,
)  # fmt: skip
FLOOR = Law(
    Code.JOIN_FLOOR, "warning", "The side where the other bench is has no free floor",
    "Free floor is asked for where the other bench is", "Leave out this key: the side is not free.",
    "The manual promises floor that is not there.", "the cure is to leave out a key",
)  # fmt: skip
LAWS = (BOLTS, SPREAD, LENGTH, AGREES, HEIGHT, ROLLS, FLOOR)


def verdicts(bench: Solved) -> Iterator[Verdict]:
    """Each neighbour in turn."""
    for each in bench.neighbours:
        where = f"{each.join.side} side"
        path = ("join", each.index)
        yield Verdict(AGREES, not each.wrong, where, path, advice=each.wrong)
        yield Verdict(
            BOLTS, len(each.bolts) == each.join.bolts, where, (*path, "bolts"), float(len(each.bolts)),
            float(each.join.bolts), "at least", unit="bolts",
        )  # fmt: skip
        yield from _bolts(bench, each, where)
        yield from _stands(bench, each, where)


def _bolts(bench: Solved, each: Neighbour, where: str) -> Iterator[Verdict]:
    """How they are spread, and whether they can be bought."""
    if not each.bolts:
        return
    path = ("join", each.index)
    heights = [bolt.at[2] for bolt in each.bolts]
    frames = (bench.layout.levels.frame_height, each.other.layout.levels.frame_height)
    yield at_least(SPREAD, max(heights) - min(heights), min(frames) / 3, where, (*path, "side"))
    longest = max((bolt.size for bolt in each.bolts), key=lambda size: size.shortest)
    short = longest.length is None
    yield Verdict(LENGTH, not short, where, (*path, "gap"))


def _stands(bench: Solved, each: Neighbour, where: str) -> Iterator[Verdict]:
    """Heights, how both stand, and the floor at the side."""
    path = ("join", each.index)
    works = {spec.user.work for spec in (bench.spec, each.other.spec)}
    limit = STEP_SLIDING if works & set(SLIDING) else STEP
    own = Change("bench.height", said(bench.spec, each.other.layout.height))
    yield at_most(HEIGHT, abs(each.step), limit, where, ("bench", "height"), remedy=(own,))
    yield Verdict(ROLLS, bench.stand.rolls == each.other.stand.rolls, where, (*path, "side"))
    asked = getattr(bench.spec.room, each.join.side) is not None
    yield Verdict(FLOOR, not asked, where, ("room", each.join.side))
