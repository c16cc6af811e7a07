"""What is fixed to walls lies on them, and nothing that is fixed overlaps."""

from __future__ import annotations

import pytest

from generator.bench.role import DRAWER, STRIPS, Role
from tests.bench.benches import DEMO, MIXED, REAR, WALL, part, solved


@pytest.mark.parametrize("text", [DEMO, WALL, MIXED, REAR], ids=["demo", "wall", "mixed", "rear"])
def test_what_is_fixed_lies_on_its_walls_and_nothing_fixed_overlaps(text: str) -> None:
    bench = solved(text)
    strips, boards = bench.of(*STRIPS), bench.of(*STRIPS, *DRAWER, Role.SHELF)
    walls = bench.of(Role.DIVIDER, Role.END_PANEL)
    for strip in strips:
        left = strip.place.wall == "left"
        beside = [wall for wall in walls if strip.box.y.overlap(wall.box.y) > 0]
        faces = [wall.box.x.high if left else wall.box.x.low for wall in beside]
        assert (strip.box.x.low if left else strip.box.x.high) in faces, strip.mark
    grooved = {Role.DRAWER_BOTTOM}
    for number, one in enumerate(boards):
        for other in boards[number + 1 :]:
            if not {one.role, other.role} & grooved:
                assert not one.box.overlaps(other.box), (one.mark, other.mark)
    marks = [each.mark for each in boards]
    assert len(set(marks)) == len(marks)
    assert part(bench, marks[0])
