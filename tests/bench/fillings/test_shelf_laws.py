"""What holds shelves: room above them, a post that ends behind them, boards that they do not meet."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.bench.fillings.shelf_laws import SHELF_HEIGHT, shelf_verdicts
from generator.findings import Change
from tests.bench.benches import STACK, solved

#: Three bays over the length: the outer two are closed by end frames, with the tray's end rail at 500.
ROW = """spec: 1
title: A row of shelves
bench: {length: 3000, depth: 700, height: 900}
materials: {bar: {use: profile 40}}
tray: {end_rail_bottom: 500}
zones: [{depth: share, name: only, bays: [%s]}]
"""


def test_shelves_at_the_ends_lie_below_the_rail_of_the_tray() -> None:
    """In between the opening is what limits them: 500 + 40 less the tray's tongue and slot is above the rail."""
    bench = solved(ROW % ", ".join(f"{{name: {name}, stack: [{{shelf: 300}}]}}" for name in "ABC"))
    levels = bench.layout.levels
    limits = {each.where[4]: each.limit for each in shelf_verdicts(bench) if each.law is SHELF_HEIGHT}
    assert limits == {"A": Fraction(500), "B": levels.base_top + levels.opening, "C": Fraction(500)}
    assert limits["B"] > 500


@pytest.mark.parametrize("low", ["shelf: 60}, {shelf: 520", "shelf: 520}, {shelf: 60"])
def test_a_shelf_that_is_too_high_is_lowered_by_its_own_key(low: str) -> None:
    """The upper one of two, whatever their order in the spec: 485 above the base rail is the end rail's underside."""
    bench = solved(STACK % f"{{{low}}}")
    (failed,) = [each for each in shelf_verdicts(bench) if each.law is SHELF_HEIGHT and not each.ok]
    place = ("60", "520").index(low.split("}", maxsplit=1)[0].removeprefix("shelf: "))
    assert failed.remedy == (Change(f"zones[0].bays[0].stack[{1 - place}].shelf", "485 mm"),)
