"""A bench with doors from its spec to figures.json, to its steps and to the page of its openings."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.bench.solve import solve
from generator.drawings.dimensions import Ruler
from generator.drawings.swings import draw_swings
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.pages import before
from generator.pages.openings import context
from generator.spec.load import read_spec
from tests.bench.benches import DEMO, changed

#: A door before the four drawers at the left, two before a bay at the back; the drawers at the right have faces.
TEXT = changed(
    DEMO,
    ("name: F1, width: share,", "name: F1, width: share, door: {hinge: left},"),
    ("name: B2, width: share,", "name: B2, width: share, door: {hinge: pair},"),
    ("  poplar-15: {kind", "  thick: {use: strip 50 x 45}\n  poplar-15: {kind"),
    ("  caster: {", "  pull: {use: pull 128}\n  latch: {use: latch}\n  caster: {"),
    ("shelves: {", "doors: {pull: pull, packing: thick, catch: latch}\nshelves: {"),
    (", holes: {diameter: 20, pitch: 96, edge: 60, keep_clear: 3}", ""),
)


@pytest.fixture(scope="module")
def figures() -> Figures:
    return compute(solve(read_spec(TEXT, "doors.yml")))[0]


def test_the_doors_are_a_section_of_the_figures(figures: Figures) -> None:
    """Openings of 500 and 940 by 497, gaps of 3; birch plywood of 18 at 680 kg/m³. A sixth of 491 from the ends."""
    end = Fraction(491, 6)
    assert [
        (d.bay, d.leaf, d.width, d.height, d.thickness, d.hinge_side, d.hinges) for d in figures.doors
    ] == [
        ("F1", 1, 494, 491, 18, "left", (end, 491 - end)),
        ("B2", 1, Fraction(931, 2), 491, 18, "left", (end, 491 - end)),
        ("B2", 2, Fraction(931, 2), 491, 18, "right", (end, 491 - end)),
    ]
    assert figures.doors[0].mass == pytest.approx(0.494 * 0.491 * 0.018 * 680)


def test_what_is_before_the_frame_counts_outside(figures: Figures) -> None:
    """Pulls project 30 at the front and at the back."""
    assert (figures.layout.depth, figures.layout.outside_depth) == (900, 900 + 30 + 30)


def test_what_the_doors_are_hung_with_is_listed(figures: Figures) -> None:
    bought = {row.kind: (row.item, row.count, row.size) for row in figures.hardware}
    assert bought["hinge"][:2] == ("butt", 6)
    assert bought["hinge bolt"] == ("hinge bolt", 12, "M8x12")
    assert bought["catch"][:2] == ("latch", 3)
    assert bought["pull"][:2] == ("pull", 3)
    nuts = next(row for row in figures.hardware if row.kind == "slot nut")
    assert "12 for hinges" in nuts.for_
    assert nuts.count == 24 + 8 + 8 + 12


def test_the_nuts_are_told_before_their_slots_close_and_the_doors_come_last(figures: Figures) -> None:
    steps = figures.assembly.steps
    doors = next(step for step in steps if step.key == "doors")
    assert figures.assembly.proved
    assert doors.parts == ("DO1", "DO2", "DO3")
    assert {fixing.item for fixing in doors.fixings} == {
        "butt", "hinge bolt", "hinge screw", "latch", "pull", "pull screw",
    }  # fmt: skip
    told = [(step.n, nut.count) for step in steps for nut in step.nuts if nut.purpose == "hinges"]
    assert sum(count for _, count in told) == 12
    assert all(n < doors.n for n, _ in told)


def test_bays_with_and_without_a_door_have_drawings_of_their_own(figures: Figures) -> None:
    kinds = context(figures, Ruler())["kinds"]
    assert [bay.name for bay in next(k["bays"] for k in kinds if k["bays"][0].name == "F1")] == ["F1"]


def test_the_plan_says_how_much_floor_a_door_needs(figures: Figures) -> None:
    """As wide as itself and 5 more. Common practice."""
    assert "Free floor before bay F1, door 1: 499." in draw_swings(figures, Ruler()).description


def test_the_caution_of_doors_is_read_before_the_work_begins(figures: Figures) -> None:
    assert "doors" in before.context(figures, Ruler())["all_cautions"]


def test_doors_of_a_face_are_open_where_it_may_tip(figures: Figures) -> None:
    """The left one has its middle 9 behind the front when shut and 247 before it when open; the others stay shut."""
    front, rear = (next(row for row in figures.stability if row.face == face) for face in ("front", "rear"))
    wide = (494, 465.5, 465.5)
    for row, middles in ((front, (-247, 891, 891)), (rear, (891, -232.75, -232.75))):
        (doors,) = (each for each in row.holds if each.group == "door")
        expected = sum(w * at for w, at in zip(wide, middles, strict=True)) / sum(wide)
        assert doors.behind + row.tip_line == pytest.approx(expected, abs=0.01)
        assert row.margins_alone[0] * 1000 == pytest.approx(sum(each.moment for each in row.holds) * 1000)
