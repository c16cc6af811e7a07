"""Templates larger than a sheet: all of the outline at true size, joins that meet, nothing outside the frame."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import dist, pi

import pytest

from generator.drawings.dimensions import Ruler
from generator.drawings.extent import Extent
from generator.drawings.paper import A4, LETTER, Paper, Scale
from generator.drawings.shapes import Circle, Line
from generator.drawings.sheet import room
from generator.drawings.strips import INSET, OVERLAP
from generator.drawings.tiled import HEAD, LargeOpening, PatchPainter, patches
from generator.figures.rows.parts import OperationRow
from generator.prints.templates import large_sheets
from tests.prints.bench import figures_of

PLATE = LargeOpening("plate", "TOP", (Fraction(306), Fraction(229)), Fraction(10), at_edge=False)
GRIP = LargeOpening("grip", "DF1", (Fraction(300), Fraction(40)), Fraction(0), at_edge=True)
#: Length of each outline by hand: four sides and a circle for their corners; the sides of a grip and 15 at each end.
OUTLINES = {PLATE: 2 * (286 + 209) + 2 * pi * 10, GRIP: 300 + 2 * 40 + 2 * 15}


def painted(
    opening: LargeOpening, paper: Paper, scale: Scale
) -> list[tuple[Extent, list[Line], list[Circle]]]:
    free = room(paper, full_scale=True)
    found = []
    for patch in patches(opening, (free.width - 2 * INSET, free.height - HEAD), scale):
        canvas = PatchPainter(patch, Ruler(), free, scale).draw()
        assert free.contains(canvas.extents())
        lines = [shape for shape in canvas.shapes if isinstance(shape, Line)]
        found.append(
            (canvas.extents(), lines, [shape for shape in canvas.shapes if isinstance(shape, Circle)])
        )
    return found


@pytest.mark.parametrize("paper", [A4, LETTER])
@pytest.mark.parametrize("opening", [PLATE, GRIP])
def test_all_of_the_outline_is_drawn_at_true_size(opening: LargeOpening, paper: Paper) -> None:
    """What two sheets have in common is drawn on both: taken once, the lines add up to the outline."""
    free = room(paper, full_scale=True)
    own = patches(opening, (free.width - 2 * INSET, free.height - HEAD), Scale())
    assert len(own) > 1
    at: set[tuple[tuple[float, float], tuple[float, float]]] = set()
    for patch, (_, lines, _) in zip(own, painted(opening, paper, Scale()), strict=True):
        # cut at the joins, so that each stretch belongs to one sheet
        x = [float(each) for each in patch.joins_x]
        y = [float(each) for each in patch.joins_y]
        low_x = x[0] if patch.x.low > -15 else -1e6
        high_x = x[-1] if x and (patch.x.low == -15 or len(x) > 1) else 1e6
        low_y = y[0] if patch.y.low > -15 else -1e6
        high_y = y[-1] if y and (patch.y.low == -15 or len(y) > 1) else 1e6
        for line in (each for each in lines if each.style == "outline"):
            ends = []
            for px, py in (line.start, line.end):
                fx = px - free.left - INSET + float(patch.x.low)
                fy = py - free.top - HEAD + float(patch.y.low)
                ends.append((min(max(fx, low_x), high_x), min(max(fy, low_y), high_y)))
            at.add((ends[0], ends[1]))
    assert sum(dist(*ends) for ends in at) == pytest.approx(OUTLINES[opening], rel=1e-3)


def test_neighbours_share_their_joins_and_the_targets_on_them() -> None:
    own = patches(PLATE, (160.0, 200.0), Scale())
    first, second = own[0], own[1]
    assert first.joins_x == (second.joins_x[0],)
    assert first.x.high - second.x.low == OVERLAP
    assert first.joins_x[0] == second.x.low + OVERLAP / 2
    assert {(patch.n, patch.of) for patch in own} == {(n, len(own)) for n in range(1, len(own) + 1)}


def test_a_printer_that_shrinks_is_undone() -> None:
    free, scale = room(A4, full_scale=True), Scale(1.003, 0.998)
    (first, *_) = patches(GRIP, (free.width - 2 * INSET, free.height - HEAD), scale)
    lines = [s for s in PatchPainter(first, Ruler(), free, scale).draw().shapes if isinstance(s, Line)]
    upright = next(s for s in lines if s.style == "outline" and s.start[0] == s.end[0])
    assert abs(upright.end[1] - upright.start[1]) == pytest.approx(40 * 0.998)


def test_the_templates_of_a_bench_have_what_is_too_large_for_a_sheet_and_no_more() -> None:
    figures = figures_of("starter")
    free = room(A4, full_scale=True)
    assert large_sheets(figures, Ruler(), free, Scale()) == []
    board = next(row for row in figures.parts if row.is_board)
    for size, sheets in ((Fraction(306), 2), (Fraction(501), 0), (Fraction(100), 0)):
        cut = OperationRow("cut-out", "top", (size, size), (size, Fraction(80)), None, "plate")
        made = large_sheets(
            replace(figures, parts=(replace(board, length=2 * size, width=2 * size, operations=(cut,)),)),
            Ruler(), free, Scale(),
        )  # fmt: skip
        assert len(made) == sheets
