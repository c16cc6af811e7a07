"""Slot nuts: counts of the worked bench, and every nut in the hollow of its slot, under the lips."""

from __future__ import annotations

from collections import Counter

import pytest

from generator.bench.frames.slot_nuts import slot_nuts
from generator.bench.solids import solid_bodies
from generator.calculators.bodies import Body
from generator.calculators.collisions import clashes
from generator.geometry import AXES, FACES
from tests.bench.benches import DEMO, WALL, changed, solved

SMALL_SLOT = changed(DEMO, ("undercut: 15", "undercut: 13"))


def test_the_worked_nuts() -> None:
    """24 for the casters: six in each base rail, four in each end member and in C2. Brackets: eight and eight spare."""
    nuts = slot_nuts(solved())
    plates = Counter()
    brackets = Counter()
    for nut in nuts:
        (brackets if nut.face != "bottom" else plates)[nut.bar.mark] += nut.count
    assert plates == {"B1": 6, "B2": 6, "C7": 4, "C8": 4, "C2": 4}
    assert brackets == {"B3": 8, "B4": 8}
    assert len({nut.body.name for nut in nuts}) == len(nuts)
    assert {nut.face for nut in nuts if nut.bar.mark == "B3"} == {"rear"}
    # the left front caster's rail bolts are 70 and 130 from the frame's end: 30 and 90 along the rail
    assert [nut.at for nut in nuts if nut.bar.mark == "B1"][:2] == [30, 90]
    assert {nut.purpose for nut in nuts} == {"caster plate", "top bracket"}
    assert [nut.spare for nut in nuts if nut.bar.mark == "B3"] == [1, 1, 1, 1]


@pytest.mark.parametrize("text", [DEMO, WALL, SMALL_SLOT], ids=["demo", "wall", "small slot"])
def test_every_nut_lies_in_its_slot(text: str) -> None:
    bench = solved(text)
    slot = bench.spec.materials[bench.spec.frame.material].slot
    nuts = slot_nuts(bench)
    for nut in nuts:
        (block,), box = nut.body.blocks, nut.bar.box
        axis = next(axis for axis, faces in FACES.items() if nut.face in faces)
        across = next(each for each in AXES if each not in (axis, nut.bar.along))
        a, b, c = AXES.index(axis), AXES.index(across), AXES.index(nut.bar.along)
        high = FACES[axis].index(nut.face)
        depths = [
            abs(edge - float((box.span(axis).low, box.span(axis).high)[high]))
            for edge in (block[a], block[a + 3])
        ]
        assert min(depths) == pytest.approx(float(slot.lip))
        assert max(depths) <= float(slot.depth)
        # it turns neither: narrower than the hollow, wider than the opening that it must not fall out of
        assert float(slot.opening) < block[b + 3] - block[b] <= float(slot.undercut) - 1 + 1e-9
        assert block[b] + block[b + 3] == pytest.approx(2 * float(box.span(across).middle))
        place = float(box.span(nut.bar.along).low + nut.at)
        assert (block[c] + block[c + 3]) / 2 == pytest.approx(place)
    fixed = [body for body in solid_bodies(bench) if body.kind == "bar"]
    loose: list[Body] = [nut.body for nut in nuts]
    assert not [
        clash for clash in clashes([*fixed, *loose]) if "nut" in (clash.first.kind, clash.second.kind)
    ]
