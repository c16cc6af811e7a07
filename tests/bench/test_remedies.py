"""Cures that more than one kind has."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.bench.law import Case
from generator.bench.remedies import more_walls, thicker
from generator.findings import Change
from tests.bench.benches import DEMO, changed, solved


@pytest.mark.parametrize(("sag", "thickness"), [(2, "24 mm"), (8, "39 mm")])
def test_a_board_that_sags_is_a_little_thicker_than_by_the_cube_root(sag: int, thickness: str) -> None:
    bench = solved()
    case = Case(bench.loaded, bench.layout, (), Fraction(sag), Fraction(1), True)
    assert thicker(lambda spec: spec.shelves.material)(case) == (
        Change("materials.ply-18.thickness", thickness),
    )
    # a beam's sag is as its load by the cube of its height: here a tenth of the load is the board's own weight,
    # which grows with it
    times = float(thickness.removesuffix(" mm")) / 18
    assert (0.9 + 0.1 * times) / times**3 <= 1 / sag
    assert times <= 1.1 * sag ** (1 / 3)


@pytest.mark.parametrize(
    ("walls", "wanted"),
    [
        ("[dividers, ends, spine]", ()),
        ("[spine]", ("[spine, dividers, ends]",)),
        ("[ends, spine]", ("[ends, spine, dividers]",)),
    ],
)
def test_walls_are_added_behind_those_that_are_there(walls: str, wanted: tuple[str, ...]) -> None:
    bench = solved(changed(DEMO, ("walls: [dividers, ends, spine]", f"walls: {walls}")))
    case = Case(bench.loaded, bench.layout, (), Fraction(0), Fraction(0), False)
    assert tuple(change.value for change in more_walls(case)) == wanted
