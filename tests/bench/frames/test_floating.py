"""Panels of solid wood in a timber frame: their sizes by the trade's own sum, grooves they move in, what is refused."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.bench.frames.floating import shop_moistures
from generator.bench.piece import Part
from generator.bench.solids import part_bodies
from generator.findings import Finding
from generator.geometry import FACES
from tests.bench.benches import changed, faults, solved
from tests.test_every_key import TIMBER

TEXT = TIMBER.read_text(encoding="utf-8")
#: Both ends and the back float; the grain of the back is upright, between its posts.
BOTH = (("boards: {ends: oak}}", "boards: {ends: oak, back: oak}}\ngrain: {back panel: width}"),)
#: White oak across its rings and along them: Wood Handbook (FPL-GTR-190), table 13-5.
FLAT, QUARTER = Fraction("0.00365"), Fraction("0.00180")


def panels(text: str) -> list[Part]:
    return [part for part in solved(text).parts if part.floating]


def across(part: Part) -> str:
    return next(axis for axis, faces in FACES.items() if part.floating[0] in faces)


@pytest.mark.parametrize(("sawn", "movement"), [("flat", FLAT), ("quarter", QUARTER)])
@pytest.mark.parametrize("moisture", [8, 9, 11])
def test_in_the_dampest_weeks_they_leave_a_millimetre_in_each_groove(
    sawn: str, movement: Fraction, moisture: int
) -> None:
    text = changed(TEXT, *BOTH, ("sawn: quarter", f"sawn: {sawn}"), ("moisture: 9", f"moisture: {moisture}"))
    found = panels(text)
    assert {part.group for part in found} == {"end panel", "back panel"}
    dampest = shop_moistures(solved(text).spec).dampest
    for part in found:
        size = part.box.span(across(part)).size
        damp = size * (1 + movement * (dampest - moisture))
        room = size + sum(10 - part.tongues[edge] for edge in part.floating)
        # to the half millimetre below at each groove, never above
        assert 2 <= room - damp < 3, part.mark


def test_nothing_else_changes_and_along_the_grain_they_are_as_long_as_plywood() -> None:
    usual = {part.mark: part for part in solved(changed(TEXT, ("panels: {boards: {ends: oak}}\n", ""))).parts}
    for part in panels(TEXT):
        own = "y"
        assert part.box.span(own) == usual[part.mark].box.span(own)
        assert part.box.z.size < usual[part.mark].box.z.size
        assert part.box.z.middle == usual[part.mark].box.z.middle


def test_unmeasured_they_are_cut_as_if_they_were_driest() -> None:
    """So that they fit whatever the wood was: 1.1 mm smaller than at 9 % is not enough, they lose all of the range."""
    one, other = panels(TEXT)[0], panels(changed(TEXT, ("moisture: 9, ", "")))[0]
    air = shop_moistures(solved(TEXT).spec)
    for part, made in ((one, Fraction(9)), (other, air.driest)):
        opening = part.box.z.size - 2 * part.tongues["top"]
        exact = (opening + 2 * (10 - 1)) / (1 + QUARTER * (air.dampest - made))
        assert 0 <= exact - part.box.z.size < 1


def test_grooves_go_on_to_where_a_panel_can_grow() -> None:
    """The grooves of the posts are as long as the opening and both grooves of the rails."""
    bench = solved(TEXT)
    panel = panels(TEXT)[0]
    posts = [part for part in bench.parts if part.mark.startswith("A")]
    grooves = [
        op for post in posts for op in post.operations if op.op == "panel groove" and panel.mark in op.purpose
    ]
    assert len(grooves) == 2
    opening = panel.box.z.size - 2 * panel.tongues["top"]
    assert {op.size[0] for op in grooves if isinstance(op.size, tuple)} == {opening + 2 * 10}


def test_no_panel_is_in_a_timber() -> None:
    """The solids of panels and timbers have no common volume, counted block by block."""
    bodies = part_bodies(solved(TEXT).loaded, solved(TEXT).parts)
    walls = [body for body in bodies if body.name in {part.mark for part in panels(TEXT)}]
    timbers = [body for body in bodies if body.kind == "timber"]
    assert walls and timbers
    for wall in walls:
        for timber in timbers:
            for one in wall.blocks:
                for two in timber.blocks:
                    assert any(min(one[i + 3], two[i + 3]) - max(one[i], two[i]) < 1e-6 for i in range(3))


def test_a_divider_hangs_on_its_tray_and_moves_in_the_groove_below() -> None:
    text = changed(TEXT, ("boards: {ends: oak}}", "boards: {dividers: oak}}"))
    usual = {part.mark: part for part in solved(changed(TEXT, ("panels: {boards: {ends: oak}}\n", ""))).parts}
    for part in panels(text):
        assert part.floating == ("bottom",)
        assert part.box.z.high == usual[part.mark].box.z.high
        lost = part.box.z.low - usual[part.mark].box.z.low
        assert lost > 0
        for notch, before in zip(part.notches, usual[part.mark].notches, strict=True):
            assert (notch.along, notch.across) == (before.along, before.across - lost)


def refused(*pairs: tuple[str, str]) -> list[Finding]:
    return faults(changed(TEXT, *pairs))


def test_walls_of_another_thickness_or_place_are_refused() -> None:
    (thick,) = refused(("[30, 10], thickness: 11.7", "[30, 10], thickness: 15"))
    assert (thick.code, thick.where and thick.where.path) == ("no-size", "panels.boards.ends")
    (place,) = refused(("boards: {ends: oak}", "boards: {spine: oak}"))
    assert (place.code, place.where and place.where.path) == ("wall-without-place", "panels.boards.spine")
