"""Marks and sizes of a record against the pieces of a bench."""

from __future__ import annotations

import pytest

from tests.bench.benches import STACK, changed, codes, faults

BENCH = changed(STACK % "{totes: bin}", ("tray: {", "tray: {trim: angle-15, "))


def entry(text: str) -> str:
    return f"- {{date: 2026-11-05, {text}}}\n"


@pytest.mark.parametrize(
    ("text", "found"),
    [
        # a bar, an angle and a strip have one size to be measured, a board two; a runner is ripped to its width too
        ("cut: {mark: A1, size: 725}", []),
        ("cut: {mark: A1, size: 725 x 40}", ["wrong-sizes"]),
        ("cut: {mark: T1, size: 498}", []),
        ("cut: {mark: T1, size: 498 x 15}", ["wrong-sizes"]),
        ("cut: {mark: FD1, size: 520 x 509}", []),
        ("cut: {mark: FD1, size: 520}", ["wrong-sizes"]),
        ("cut: {mark: TR1, size: 498}", []),
        ("cut: {mark: TR1, size: 498 x 31}", []),
        ("installed: [A1, FD1]", []),
        ("installed: [A1, FD9]", ["unknown-mark"]),
        ("cut: {mark: A9, size: 725}", ["unknown-mark"]),
    ],
)
def test_a_piece_has_the_sizes_of_its_kind(text: str, found: list[str]) -> None:
    assert codes(BENCH, entry(text)) == found


def test_what_is_told() -> None:
    (wrong,) = faults(BENCH, entry("cut: {mark: A1, size: 725 x 40}"))
    assert (wrong.found, wrong.allowed) == ("725 mm x 40 mm", "one length")
    (board,) = faults(BENCH, entry("cut: {mark: FD1, size: 520}"))
    assert (board.found, board.allowed) == ("520 mm", "length x width")
    (mark,) = faults(BENCH, entry("installed: [FD11]"))
    assert mark.found == "FD11"
    assert mark.nearest == "FD1"
