"""Drawers in their bay: the worked heights, and boxes of no size."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.bench.fillings.drawers import DrawerFilling
from tests.bench.benches import STACK, changed, faults, solved


def test_the_worked_drawers() -> None:
    """Fronts of 165, 130, 107 and 80 from Z 43, 211, 344 and 454; slides' lower edges from 57.5; blocks from 17.5."""
    drawers = [each for each in solved().storage.drawers if each.bay == "F1"]
    assert [each.number for each in drawers] == [1, 2, 3, 4]
    assert [each.sizes.front_bottom for each in drawers] == [43, 211, 344, 454]
    assert [float(each.sizes.slide_lower_edge) for each in drawers] == [57.5, 225.5, 358.5, 468.5]
    assert [float(each.spacer) for each in drawers] == [17.5, 123, 88, 65]
    # the slide begins 2 behind the face of 18; its holes are 37, 261 and 453 from there
    assert {each.slide_front for each in drawers} == {20}
    assert {each.stations for each in drawers} == {(57, 281, 473)}
    assert [each.name for each in drawers[:1]] == ["drawer F1.1"]
    assert drawers[0].slide_name("left") == "slide F1.1 left"


def test_without_drawers_no_bottom_sags() -> None:
    assert list(DrawerFilling().sagging(solved(STACK % "{shelf: 300}"))) == []
    (bottom,) = DrawerFilling().sagging(solved())
    assert bottom.load > 0


def test_the_worked_side_space() -> None:
    """500 less slides of 12.7 and packing 1 proud, twice, less a box of 472: 0.6 left, and at worst 1.4 off."""
    (fit,) = DrawerFilling().clearances(solved())
    assert (fit.where, fit.nominal) == ("bay F1, F4", 500 - 2 * 1 - Fraction("25.4") - 472)
    # bay 0.5, packing 0.2 on each side, box 0.5. Common practice, no source
    assert [float(off.most) for off in fit.sizes if off.most is not None] == [0.5, 0.2, 0.2, 0.5]


@pytest.mark.parametrize(
    ("changes", "found", "allowed"),
    [
        # 10 below and 15 above a box: a front of 25 leaves none; a slide of 45 needs 8 more: 78 (common practice)
        ((("%s", "{drawer: 25}, {drawer: share}"),), "25 mm", "78 mm or more"),
        # between sides of 12, in a bay of 52 less 28 for slides and packing: 4 x 6 mm for a bottom in its grooves
        ((("width: 450", "width: 52"), ("%s", "{drawer: share}")), "52 mm", "76 mm or more"),
        ((("%s", "{drawer: share}"), ("tray:", "hardware: {slide: {use: slide 500, length: 24}}\ntray:")), "24 mm",
         "48 mm or more"),
    ],
)  # fmt: skip
def test_boxes_of_no_size(changes: tuple[tuple[str, str], ...], found: str, allowed: str) -> None:
    """And one millimetre more is a box, if a poor one."""
    no_size = [each for each in faults(changed(STACK, *changes)) if each.code == "no-size"]
    assert (no_size[0].found, no_size[0].allowed.startswith(allowed)) == (found, True)
    number = int(found.split(maxsplit=1)[0])
    more = tuple((old, new.replace(f" {number}", f" {number + 1}")) for old, new in changes)
    assert "no-size" not in [each.code for each in faults(changed(STACK, *more))]


def test_each_drawer_of_no_height_is_named_and_each_bay_once() -> None:
    text = changed(STACK, ("%s", "{drawer: 20}, {drawer: share}, {drawer: 22}"))
    messages = [each.message for each in faults(text)]
    assert messages == [
        "this front is too low for a box (drawer 1 of bay A)",
        "this front is too low for a box (drawer 3 of bay A)",
    ]
    wide = changed(STACK, ("%s", "{drawer: share}"), ("tray:", "drawers: {gap: 225}\ntray:"))
    (fault,) = faults(wide)
    assert (fault.message, fault.found) == ("this gap leaves no width for the fronts of bay A", "225 mm")
    assert not faults(wide.replace("225", "224"))
