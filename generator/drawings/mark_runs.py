"""Marks in a row, as a reader counts them."""

from __future__ import annotations

from collections.abc import Sequence


def runs(marks: Sequence[str]) -> str:
    """`A1–A4`, `C2, C5`: runs of numbers as one; what has no number stays as it is."""
    found: list[list[tuple[str, int]]] = []
    for mark in marks:
        letters = mark.rstrip("0123456789")
        number = int(mark[len(letters) :] or 0)
        if found and found[-1][-1] == (letters, number - 1):
            found[-1].append((letters, number))
        else:
            found.append([(letters, number)])
    names = [f"{letters}{number or ''}" for run in found for letters, number in (run[0], run[-1])]
    ends = zip(names[::2], names[1::2], strict=True)
    return ", ".join(first if first == last else f"{first}–{last}" for first, last in ends)


def by_number(mark: str) -> tuple[str, int]:
    """A mark by its letters, then by its number."""
    letters = mark.rstrip("0123456789")
    return letters, int(mark[len(letters) :] or 0)
