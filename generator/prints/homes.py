"""Where each piece goes: the first step of the assembly that takes it up after it was made."""

from __future__ import annotations

from collections.abc import Iterable

from generator.figures.model import Figures, PartRow, Step

MAKING = "Prepare"
"""The stage in which parts are made and fitted out on the flat."""


def homes(figures: Figures) -> dict[str, Step]:
    """Mark of a piece -> its step; a piece that is only made has the last step of its making."""
    found: dict[str, Step] = {}
    for step in figures.assembly.steps:
        for mark in step.parts:
            if mark not in found or found[mark].stage == MAKING:
                found[mark] = step
    return found


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
