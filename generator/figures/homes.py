"""Where each piece goes: the first step of the assembly that takes it up after it was made."""

from __future__ import annotations

from generator.figures.model import Figures
from generator.figures.rows.assembly import Step

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
