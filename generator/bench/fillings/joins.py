"""Benches that stand together and are bolted to each other: bolts, holes, the step, and how to part them again."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import ClassVar

from generator.bench.fillings.facts import FillingGoods, FillStep, Need, Solved
from generator.bench.fillings.join_laws import LAWS, SLIDING, verdicts
from generator.bench.fillings.outside import OutsideBays
from generator.bench.fillings.pulls import screw_name
from generator.bench.frames.facts import WorkCard, WorkSetting
from generator.bench.law import Verdict, about
from generator.bench.neighbour import Neighbour
from generator.bench.terms import TermWords
from generator.calculators.joining import SPANNERS, STEP, STEP_SLIDING

KEY = "join"
BOLT, SLEEVE = "joining bolt", "joining sleeve"


class JoinFilling(OutsideBays):
    """The other benches that a spec names."""

    kind, goes_in = KEY, 9
    laws = LAWS
    terms = (
        TermWords(
            "joining bolt",
            "A hexagon bolt through a member of each of two benches. It holds them together and can be taken out.",
            ("joining bolts",),
        ),
        TermWords("shim", "A thin sheet that fills the gap between two members at a bolt.", ("shims",)),
    )
    cautions: ClassVar = {
        KEY: (
            "warning",
            "Benches that are bolted together",
            "Part them before you move one. A bench that is lifted or dragged by the other tears at the bolts, and "
            "both can fall. Each bench must stand safely by itself: do not count on the joint.",
        )
    }
    bought = (
        FillingGoods(BOLT, KEY, "two spanners", mass="0.12"),
        FillingGoods(SLEEVE, KEY, mass="0.05"),
    )
    step_names: ClassVar = {KEY: "joining benches"}

    def needs(self, bench: Solved) -> Iterator[Need]:
        """The bolts of each joint that this bench is the datum of: they are bought once."""
        for each in bench.neighbours:
            card = each.card
            if not each.first:
                continue
            for size, count in each.lengths:
                name = screw_name(card.thread, size.length or size.shortest)
                use = f"to the bench at the {each.join.side} side; with nut and two washers"
                yield Need(BOLT, each.join.bolt, count, use, f"{name}, washer {{}}", card.washer)
            if each.apart and each.bolts:
                sizes = (card.sleeve, each.apart)
                use = f"tubes around the bolts at the {each.join.side} side, between the frames"
                yield Need(SLEEVE, SLEEVE, len(each.bolts), use, "outside x length {}", sizes)

    def cards(self, bench: Solved) -> Iterator[WorkCard]:
        """The holes, side by side with those of the other bench."""
        for each in bench.neighbours:
            if not each.bolts:
                continue
            marks = tuple(dict.fromkeys(bolt.member for bolt in each.bolts))
            places = (
                WorkSetting(f"From the datum end: {mark} {each.join.side}", tuple(
                    sorted(bolt.along for bolt in each.bolts if bolt.member == mark)
                ))
                for mark in marks
            )  # fmt: skip
            fence = tuple(sorted({bolt.across for bolt in each.bolts}))
            yield WorkCard(
                f"join-{each.join.side}",
                f"Holes for joining bolts, {each.join.side} side",
                "drill press with fence and stop, scrap below",
                (
                    WorkSetting("Drill", (each.hole,)),
                    WorkSetting("Fence: from the lower or front edge", fence),
                    *places,
                ),
                (
                    "Mark the members of both benches from one story stick.",
                    f"Drill from the outside, the {each.join.side} face, right through.",
                    "Deburr both ends of each hole.",
                ),
                "Lay the two members together: a bolt drops through both holes.",
                marks,
                ("drill", "dust" if bench.goods.profile is None else "chips"),
            )

    def steps(self, bench: Solved) -> Iterator[FillStep]:
        """One step for all sides, when the bench is finished."""
        if not bench.neighbours:
            return
        works = {each.spec.user.work for each in (bench, *(near.other for near in bench.neighbours))}
        step = about(bench.spec, STEP_SLIDING if works & set(SLIDING) else STEP)
        yield FillStep(
            KEY, "Join the benches", (), "",
            (
                "Set the benches in their place, empty, with their drawers out.",
                "Look up the bolts of each joint under “Openings and drawers”.",
                "Level the bench first whose floor is highest. Bring the other tops up to it.",
                "Try with a straightedge across each joint.",
                *(line for each in bench.neighbours for line in _lines(bench, each)),
                *_spanners(bench),
                "Put each bolt through by hand, a washer at each end.",
                "Where something does not touch at a bolt, fill the gap with shims.",
                "Never pull a gap shut with a bolt: it bends the frame.",
                "Tighten the upper bolts, then the lower ones, until no washer turns.",
                "Write the shims of each bolt into the build record.",
            ),
            (
                f"The step between both tops is {step} or less.",
                "The diagonals of both frames are as before, and every drawer runs freely.",
            ),
            (KEY, "pinch", "lift"),
            last=True,
        )  # fmt: skip

    def uses(self, bench: Solved) -> Iterator[tuple[str, str]]:
        """The bolts."""
        yield from (("hardware", each.join.bolt) for each in bench.neighbours)

    def judge(self, bench: Solved) -> Iterator[Verdict]:
        """All but what needs masses or the bodies of both benches."""
        yield from verdicts(bench)


def _lines(bench: Solved, each: Neighbour) -> Iterator[str]:
    """What is done at one side."""
    side, other = each.join.side.capitalize(), each.other_side
    name = "the next bench" if each.same_spec else f"“{each.name}”"
    yield f"{side} side: push the {other} side of {name} up to it."
    if offset := _offset(each):
        yield f"Its corner is {about(bench.spec, abs(offset))} from the corner of this frame."
    if each.gap:
        yield f"Leave a gap of {about(bench.spec, each.gap)} between the tops."
    if each.apart:
        yield f"Put a tube of {about(bench.spec, each.apart)} on each bolt, between the frames."
    if not each.first:
        yield "The bolts of this joint are bought with the other bench."


def _spanners(bench: Solved) -> Iterator[str]:
    """The spanners of all bolts."""
    sizes = dict.fromkeys(SPANNERS.get(each.card.thread, "") for each in bench.neighbours)
    yield from (f"You need two spanners of {size}." for size in sizes if size)


def _offset(each: Neighbour) -> Fraction:
    """How far the corners of both frames are out of line (mm)."""
    low = each.turned.point((Fraction(0), Fraction(0), Fraction(0)))
    high = each.turned.point((each.other.layout.length, each.other.layout.depth, Fraction(0)))
    index = 1 if each.join.side in ("left", "right") else 0
    return min(low[index], high[index])
