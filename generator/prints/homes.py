"""Where each piece goes, in the few words that a label or a part sheet has room for."""

from __future__ import annotations

from collections.abc import Iterable

from generator.figures.model import Figures
from generator.figures.rows.assembly import Step
from generator.figures.rows.parts import PartRow


def place(step: Step | None) -> str:
    """Step and sub-assembly in short."""
    if step is None:
        return ""
    return f"step {step.n}, {step.assembly or step.stage}"


def places(row: PartRow, steps: dict[str, Step]) -> str:
    """Where the pieces of a part go, pieces of one step together."""
    found: dict[str, list[str]] = {}
    for mark in row.marks:
        if words := place(steps.get(mark)):
            found.setdefault(words, []).append(mark)
    if len(found) == 1:
        return next(iter(found))
    return "; ".join(f"{', '.join(marks)}: {words}" for words, marks in found.items())


def pieces(figures: Figures) -> Iterable[tuple[PartRow, str]]:
    """Every piece with its part, in the order of the bench."""
    return ((row, mark) for row in figures.parts for mark in row.marks)
