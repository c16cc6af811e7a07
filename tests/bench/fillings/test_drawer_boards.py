"""Boxes, faces and packing strips as boards: the worked ones, and what they must keep clear of."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

import pytest

from generator.bench.model import Bench, Part
from generator.bench.role import DRAWER, STRIPS, Role
from tests.bench.benches import DEMO, MIXED, REAR, THIN_TRAY, WALL, solved, span


def of_bay(bench: Bench, bay: str, *roles: Role) -> list[Part]:
    return [each for each in bench.of(*roles) if each.place.bay == bay]


def test_the_worked_strips() -> None:
    """Packing 480 x 50 x 15, twelve: Z 42 to 522, Y 41-91, 256-306, 448-498, 14 behind the bars' faces."""
    bench = solved()
    strips = bench.of(Role.PACKING_STRIP)
    assert len(strips) == 12
    assert {(each.length, each.width, each.thickness) for each in strips} == {(480, 50, 15)}
    assert {span(each, "z") for each in strips} == {(42, 522)}
    assert {span(each, "y") for each in strips} == {(41, 91), (256, 306), (448, 498)}
    assert {span(each, "x") for each in of_bay(bench, "F1", Role.PACKING_STRIP)} == {(26, 41), (539, 554)}
    walls = Counter(each.place.wall for each in strips)
    assert walls == {"left": 6, "right": 6}


def test_the_worked_boxes() -> None:
    """Box 472 x 500 x 140 behind a face of 494 x 165: sides 18 to 518, ends 448 between them, bottom 459 x 487."""
    bench = solved()
    boards = {role: of_bay(bench, "F1", role)[0] for role in DRAWER}
    assert (boards[Role.DRAWER_SIDE].length, boards[Role.DRAWER_SIDE].width) == (500, 140)
    assert span(boards[Role.DRAWER_SIDE], "y") == (18, 518)
    assert (boards[Role.DRAWER_END].length, boards[Role.DRAWER_END].width) == (448, 140)
    assert (boards[Role.DRAWER_BOTTOM].length, boards[Role.DRAWER_BOTTOM].width) == (459, 487)
    assert (boards[Role.DRAWER_FACE].length, boards[Role.DRAWER_FACE].width) == (494, 165)
    assert span(boards[Role.DRAWER_FACE], "x") == (43, 537)
    assert span(boards[Role.DRAWER_FACE], "y") == (0, 18)
    sides = [span(each, "x") for each in of_bay(bench, "F1", Role.DRAWER_SIDE)[:2]]
    assert sides == [(54, 66), (514, 526)]
    ends = [span(each, "y") for each in of_bay(bench, "F1", Role.DRAWER_END)[:2]]
    assert ends == [(18, 30), (506, 518)]


@pytest.mark.parametrize("text", [DEMO, WALL, REAR], ids=["demo", "wall", "rear"])
def test_a_bottom_lies_in_the_grooves_of_its_box(text: str) -> None:
    """Each groove is as wide as the bottom, runs the board's whole length, and the bottom lies in it with its play."""
    bench = solved(text)
    boxes: dict = {}
    for each in bench.of(*DRAWER):
        boxes.setdefault(each.place, []).append(each)
    assert boxes
    deep = bench.spec.drawers.groove
    for boards in boxes.values():
        (bottom,) = (each for each in boards if each.role is Role.DRAWER_BOTTOM)
        for each in boards:
            if each.role not in (Role.DRAWER_SIDE, Role.DRAWER_END):
                continue
            (groove,) = each.operations
            assert (groove.size, groove.depth, groove.at[0]) == (
                (each.length, bottom.thickness),
                deep,
                each.length / 2,
            )
            assert each.box.z.low + groove.at[1] == bottom.box.z.middle
            axis = "x" if each.role is Role.DRAWER_SIDE else "y"
            # the bottom's play of 1 mm is left in the two grooves together
            assert deep - bottom.box.span(axis).overlap(each.box.span(axis)) == Fraction(1, 2)


def test_a_strip_at_an_end_stays_below_the_tray_s_end_rail() -> None:
    """The rail begins at 525. A tray of 6 without trim lies at 542: in the middle bay strips end at 527, 15 below."""
    bench = solved(THIN_TRAY)
    assert {span(each, "z") for bay in "AC" for each in of_bay(bench, bay, Role.PACKING_STRIP)} == {(42, 525)}
    assert {span(each, "z") for each in of_bay(bench, "B", Role.PACKING_STRIP)} == {(42, 527)}
    rails = bench.of(Role.TRAY_END_RAIL)
    assert not [each for each in bench.of(*STRIPS) for rail in rails if each.box.overlaps(rail.box)]


def test_strips_of_a_mixed_bay_leave_the_totes_alone() -> None:
    bench = solved(MIXED)
    (tote,) = bench.storage.totes
    lower, upper = (each.sizes for each in bench.storage.drawers if each.bay == "B")
    runs = sorted({span(each, "z") for each in of_bay(bench, "B", Role.PACKING_STRIP)})
    assert runs == [
        (42, float(lower.front_bottom + lower.front_height)),
        (float(upper.front_bottom), 527),
    ]
    assert runs[0][1] < tote.bottom
    assert tote.top < runs[1][0]


def test_a_zone_that_opens_to_the_rear_is_mirrored() -> None:
    """Depth 1120: what lies so far behind the front face in F1 lies so far before the rear face in B1."""
    bench = solved(REAR)
    for role in (*DRAWER, Role.PACKING_STRIP):
        front = {span(each, "y") for each in of_bay(bench, "F1", role)}
        rear = {tuple(sorted(1120 - end for end in span(each, "y"))) for each in of_bay(bench, "B1", role)}
        assert front == rear, role
    # from 1120 back: the rear face's own thickness of 18
    assert {span(each, "y") for each in of_bay(bench, "B1", Role.DRAWER_FACE)} == {(1102, 1120)}
