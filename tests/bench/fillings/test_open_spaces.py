"""Spaces that a stack leaves empty."""

from __future__ import annotations

from generator.bench.fillings.open_spaces import OpenSpaces
from generator.bench.place import Place
from generator.bench.role import DRAWER, STRIPS
from tests.bench.benches import STACK, solved


def test_a_space_has_its_bay_its_height_and_no_piece() -> None:
    """499 less three gaps of 3 is 490: 200 of it open, above a drawer of 290 that begins at 43."""
    bench = solved(STACK % "{drawer: share}, {open: 200}")
    (space,) = bench.storage.open
    assert (space.bay, space.number, space.bottom, space.height) == ("A", 1, 43 + 290 + 3, 200)
    assert space.place == Place(bay="A")
    (told,) = OpenSpaces().openings(bench)
    assert (told.bay, told.height, told.bottom, told.top) == ("A", 200, 336, 536)
    empty = solved(STACK % "{open: share}")
    assert [each.height for each in empty.storage.open] == [493]
    assert not empty.of(*DRAWER, *STRIPS)
