"""Checks of a top of several boards that are not glued: each joint has a bar below it, each board its own brackets."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from generator.bench.law import Law, by_the_check, said
from generator.bench.model import Bench
from generator.bench.role import Role
from generator.bench.tops.boards import across_of, board_spans, joints_of
from generator.bench.tops.edging import taken
from generator.codes import Code
from generator.figures.checks.check_result import CheckResult, at_least, at_most
from generator.findings import Change
from generator.provenance import constant

#: Common practice, no source (mm).
BEARS = constant(10, "board that bears on the bar on its side of a joint")
CLOSE = constant(600, "most between two bars below boards that are not glued")
#: Brackets that hold a board: with one it turns about it.
FEWEST = constant(2, "brackets below each board", unit="")

JOINT_OFF_BAR = Law(
    Code.JOINT_OFF_BAR, "error", "Every dry joint of the top is over a bar",
    "A dry joint of the top has no bar below it",
    "Choose the widths of the boards so that they meet over a bar, or glue them.",
    "The two edges move against each other, and nothing carries them.", by_the_check,
    quantity="distance of the joint from the middle of the nearest bar",
)  # fmt: skip
BOARDS_SAG = Law(
    Code.BOARDS_SAG, "error", "Bars below boards that are not glued are close enough",
    "Bars below boards that are not glued are too far apart",
    "Glue the boards, or add a bay, so that a bar comes between.",
    "Each board bends by itself, and a step comes between them.", "a bay more or glue: the maker's choice",
    quantity="distance from bar to bar",
)  # fmt: skip
BOARD_HELD = Law(
    Code.BOARD_HELD, "error", "Each board of the top has its own brackets", "A board of the top has too few brackets",
    "Make the board wider, so that it reaches two brackets, or glue the boards.",
    "A board that nothing holds lifts and shifts.", "widths, brackets and glue share in it: the maker's choice",
    quantity="brackets below the board",
)  # fmt: skip


def board_checks(bench: Bench) -> Iterator[CheckResult]:
    """Nothing for one board, and nothing for boards that are glued."""
    top = bench.spec.top
    if len(top.boards) < 2 or top.joint != "dry":
        return
    middles = _bars(bench)
    if top.run == "length":
        gap = max(right - left for left, right in pairwise(middles))
        yield at_most(BOARDS_SAG, gap, CLOSE, "below the top", ("top", "joint"))
    else:
        yield from _joints(bench, middles)
    for part in bench.of(Role.TOP):
        held = sum(
            part.box.x.low <= x <= part.box.x.high and part.box.y.low <= y <= part.box.y.high
            for x, y in (each.at for each in bench.brackets)
        )
        yield at_least(BOARD_HELD, Fraction(held), FEWEST, part.mark, ("top", "boards"))


def _bars(bench: Bench) -> list[Fraction]:
    """Middles of the upper bars that cross the length, from the frame's left end."""
    bars = bench.of(Role.TOP_CROSS_MEMBER, Role.TOP_END_MEMBER)
    return sorted({bar.box.x.middle for bar in bars})


def _joints(bench: Bench, middles: list[Fraction]) -> Iterator[CheckResult]:
    """Each joint against the nearest bar; the remedy sets every joint on its bar."""
    over, off = bench.spec.top.overhang, taken(bench.loaded)
    low = off.left - over.left
    size = bench.layout.length + over.along - off.left - off.right
    assert across_of(bench.spec.top) == "x"
    spans = board_spans(bench.loaded, size)
    limit = bench.layout.section / 2 - BEARS
    nearest = [_nearest(middles, low + joint) for joint in joints_of(spans)]
    widths = [right - left for left, right in pairwise((Fraction(0), *(bar - low for bar in nearest), size))]
    gap = spans[1].low - spans[0].high
    words = [said(bench.spec, width - gap, down=True) for width in widths[:-1]]
    cure = (
        (Change("top.boards", f"[{', '.join((*words, 'share'))}]"),) if all(w > gap for w in widths) else ()
    )
    for joint, bar in zip(joints_of(spans), nearest, strict=True):
        away = abs(low + joint - bar)
        where = f"joint at {said(bench.spec, joint)} from the left, bar at {said(bench.spec, bar - low)}"
        yield at_most(
            JOINT_OFF_BAR, away, limit, where, ("top", "boards"), remedy=cure if away > limit else ()
        )


def _nearest(bars: list[Fraction], at: Fraction) -> Fraction:
    return min(bars, key=lambda bar: abs(bar - at))
