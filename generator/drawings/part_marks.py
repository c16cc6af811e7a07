"""The marks of a part in short, and the heading of its drawing."""

from __future__ import annotations

import re
from collections.abc import Sequence

from generator.figures.rows.parts import PartRow

LONGEST_MARKS = 60
"""Longer lists of marks (in letters) are cut short."""
NUMBER = re.compile(r"\d+$")


def pieces(row: PartRow) -> str:
    """The heading of a part's drawing: its marks, name and count."""
    count = "" if row.count == 1 else f", {row.count} pieces"
    return f"{marks_of(row)}: {row.name}{count}"


def marks_of(row: PartRow) -> str:
    """All marks of a row in short, cut where they are too many."""
    text = runs_of(row.marks)
    return text if len(text) <= LONGEST_MARKS else f"{row.mark} and {row.count - 1} more"


def runs_of(marks: Sequence[str]) -> str:
    """Marks with runs of three and more in short: `A1, A4`, `C1 to C3`."""
    runs: list[list[str]] = []
    for mark in marks:
        follows = runs and NUMBER.split(mark)[0] == NUMBER.split(runs[-1][-1])[0]
        if follows and number_of(mark) == number_of(runs[-1][-1]) + 1:
            runs[-1].append(mark)
        else:
            runs.append([mark])
    return ", ".join(f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(run) for run in runs)


def number_of(mark: str) -> int:
    """The number at a mark's end; -1 when it has none, so that no run goes through it."""
    found = NUMBER.search(mark)
    return int(found.group()) if found else -1
