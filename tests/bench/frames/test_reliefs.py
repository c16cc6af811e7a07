"""Clamp reliefs of the worked bench, and the law that each lies on the outside and clear of the ends."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

import pytest

from generator.bench.frames.reliefs import outward_faces
from generator.geometry import FACES
from tests.bench.benches import DEMO, WALL, part, solved


def reliefs(bench, mark: str) -> list[tuple[str, Fraction]]:
    return [(op.face, op.at[0]) for op in part(bench, mark).operations if op.op == "relief"]


def test_the_worked_reliefs() -> None:
    """Twenty: corner posts at 645, twice; front and back posts at 565; upper rails and ends at 80 from each end."""
    bench = solved()
    count = Counter(each.mark for each in bench.parts for op in each.operations if op.op == "relief")
    assert count == {f"A{n}": 2 for n in range(1, 5)} | dict.fromkeys(
        ("D1", "D2", "D3", "D7"), 1
    ) | dict.fromkeys(("B3", "B4", "C11", "C12"), 2)
    assert reliefs(bench, "A1") == [("left", 645), ("front", 645)]
    assert reliefs(bench, "A4") == [("right", 645), ("rear", 645)]
    assert reliefs(bench, "D1") == [("front", 565)]
    assert reliefs(bench, "D7") == [("rear", 565)]
    assert reliefs(bench, "B3") == [("front", 80), ("front", 1840)]
    assert reliefs(bench, "C12") == [("right", 80), ("right", 740)]
    (relief,) = (op for op in part(bench, "D1").operations if op.op == "relief")
    # 40 along the slot, 16 across it, through the lip of 4.5, in the middle of the bar
    assert (relief.size, relief.depth, relief.at[1]) == ((40, 16), Fraction("4.5"), 20)


@pytest.mark.parametrize("text", [DEMO, WALL], ids=["demo", "wall"])
def test_reliefs_lie_outside(text: str) -> None:
    bench = solved(text)
    size = {"x": bench.layout.length, "y": bench.layout.depth}
    for each in bench.parts:
        outside = {
            FACES[axis][end]
            for axis in "xy" if axis != each.along
            for end, limit in enumerate((0, size[axis]))
            if (each.box.span(axis).low, each.box.span(axis).high)[end] == limit
        }  # fmt: skip
        if each.kind == "profile":
            assert set(outward_faces(each, (size["x"], size["y"]))) == outside
        for op in each.operations:
            if op.op == "relief":
                assert op.face in outside
                assert op.size[0] / 2 < op.at[0] < each.length - op.size[0] / 2
