"""A bar that was cut to another length, and the spec that suits it."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.bench.suiting import suiting
from tests.bench.benches import DEMO, solved


def cut(mark: str, size: int) -> str:
    return f"- {{date: 2026-11-05, cut: {{mark: {mark}, size: {size}}}}}\n"


@pytest.mark.parametrize(
    ("mark", "size", "path", "planned", "value"),
    [
        # posts of 725 in a bench of 880, long rails of 2000 less two posts of 40, a spine post up to the tray's rail
        ("A1", 723, "bench.height", 880, 878),
        ("B1", 1923, "bench.length", 2000, 2003),
        ("E1", 484, "tray.end_rail_bottom", 525, 524),
    ],
)
def test_the_size_that_a_bar_follows_from_changes_by_what_it_is_off(
    mark: str, size: int, path: str, planned: int, value: int
) -> None:
    ((told, wish),) = suiting(solved(DEMO, cut(mark, size)))
    assert (told, wish.path, wish.planned, wish.value) == (mark, path, planned, value)
    section, key = path.split(".")
    assert getattr(getattr(wish.loaded.spec, section), key) == Fraction(value)


def test_the_newest_cut_counts_and_a_bar_of_its_length_asks_for_nothing() -> None:
    again = cut("A1", 723) + cut("A1", 725).replace("11-05", "11-06")
    assert list(suiting(solved(DEMO, again))) == []
