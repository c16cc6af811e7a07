"""Checks a sheet plan with nothing of the planner: shapely for overlap and edges, own kerf, demand and guillotine.

A problem with `break_down`, `{max_length, kerf}`, has two saws: what is longer is cut by the one, the rest by the
other.
"""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from shapely import box
from shapely.strtree import STRtree

from generator.calculators.cutting.sheets import CutSheet, SheetPlan

Rectangle = tuple[Fraction, Fraction, Fraction, Fraction]


def check_plan(problem: dict[str, Any], plan: SheetPlan) -> None:
    """Raise AssertionError at the first thing that a practitioner would send back."""
    kerf, trim = Fraction(problem["kerf"]), Fraction(problem["trim"])
    made: dict[int, int] = {}
    used: dict[int, int] = {}
    cost = Fraction(0)
    for sheet in plan.sheets:
        width, height, price, _ = problem["sheets"][sheet.stock]
        cost += Fraction(price)
        used[sheet.stock] = used.get(sheet.stock, 0) + 1
        assert sheet.pieces, "a sheet without a piece"
        for placed in sheet.pieces:
            wide, high, _count, turns = problem["pieces"][placed.piece]
            lies = (high, wide) if placed.turned else (wide, high)
            assert (placed.area.width, placed.area.height) == tuple(map(Fraction, lies))
            assert turns or not placed.turned, "a piece with grain was turned"
            made[placed.piece] = made.get(placed.piece, 0) + 1
        thinnest = min(kerf, _saw_of(problem, Fraction(10**9))[1])
        _check_places(sheet, Fraction(width), Fraction(height), thinnest, trim)
        usable = (trim, trim, Fraction(width) - trim, Fraction(height) - trim)
        rectangles = [_rectangle(placed.area) for placed in sheet.pieces]
        assert guillotine(usable, rectangles, thinnest), "cannot be cut from edge to edge"
        _check_cuts(sheet, usable, problem)
    assert made == {place: piece[2] for place, piece in enumerate(problem["pieces"]) if piece[2]}
    for stock, count in used.items():
        limit = problem["sheets"][stock][3]
        assert limit is None or count <= limit
    assert plan.cost == cost
    assert plan.bound <= cost
    assert plan.proved == (plan.bound == cost)


def _rectangle(area: Any) -> Rectangle:
    return (area.x, area.y, area.x + area.width, area.y + area.height)


def _check_places(sheet: CutSheet, width: Fraction, height: Fraction, kerf: Fraction, trim: Fraction) -> None:
    """Within the trimmed edges, and a kerf apart: shapely finds the neighbours, fractions measure the distance."""
    rectangles = [_rectangle(placed.area) for placed in sheet.pieces]
    usable = box(float(trim), float(trim), float(width - trim), float(height - trim)).buffer(1e-6)
    shapes = [box(*map(float, rectangle)) for rectangle in rectangles]
    for shape in shapes:
        assert usable.covers(shape), "a piece over the edge"
    tree = STRtree([shape.buffer(float(kerf) + 1e-6) for shape in shapes])
    for place, shape in enumerate(shapes):
        for other in tree.query(shape):
            if other <= place:
                continue
            assert shape.intersection(shapes[other]).area < 1e-6, "two pieces overlap"
            left, right = rectangles[place], rectangles[int(other)]
            gap_x = max(left[0] - right[2], right[0] - left[2])
            gap_y = max(left[1] - right[3], right[1] - left[3])
            assert max(gap_x, gap_y) >= kerf, "no room for the saw between two pieces"


def guillotine(area: Rectangle, rectangles: list[Rectangle], kerf: Fraction) -> bool:
    """Whether straight cuts through whole parts free every rectangle."""
    if len(rectangles) <= 1:
        return True
    for axis in (0, 1):
        ordered = sorted(rectangles, key=lambda rectangle: rectangle[axis])
        reach = ordered[0][axis + 2]
        for place in range(1, len(ordered)):
            if ordered[place][axis] >= reach + kerf:
                return guillotine(area, ordered[:place], kerf) and guillotine(area, ordered[place:], kerf)
            reach = max(reach, ordered[place][axis + 2])
    return False


def _saw_of(problem: dict[str, Any], length: Fraction) -> tuple[bool, Fraction]:
    """Whether a part of this length is cut by track saw, and what the cut takes."""
    rule = problem.get("break_down")
    if rule is None or length <= rule["max_length"]:
        return False, Fraction(problem["kerf"])
    return True, Fraction(rule.get("kerf", problem["kerf"]))


def _check_cuts(sheet: CutSheet, usable: Rectangle, problem: dict[str, Any]) -> None:
    """Follow the listed cuts, each through one whole part; what is left must be the pieces and the off-cuts."""
    parts = {usable}
    for cut in sheet.cuts:
        part = _rectangle(cut.area)
        assert part in parts, "a cut through something that is no part"
        parts.remove(part)
        by_track, kerf = _saw_of(problem, max(part[2] - part[0], part[3] - part[1]))
        assert (cut.by_track, cut.kerf) == (by_track, kerf)
        low, high = (part[0], part[2]) if cut.upright else (part[1], part[3])
        assert low < cut.at < high
        assert cut.setting == cut.at - low
        near = (part[0], part[1], cut.at, part[3]) if cut.upright else (part[0], part[1], part[2], cut.at)
        parts.add(near)
        if cut.at + kerf < high:
            start = cut.at + kerf
            parts.add(
                (start, part[1], part[2], part[3]) if cut.upright else (part[0], start, part[2], part[3])
            )
    expected = [_rectangle(placed.area) for placed in sheet.pieces] + [_rectangle(a) for a in sheet.offcuts]
    assert len(expected) == len(set(expected))
    assert parts == set(expected)
