"""The pictures of the assembly in shares: they take longer than all other pages, so two processes draw them.

The page itself is made when all shares are there.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from generator.drawings.canvas import Drawing
from generator.figures.model import Figures
from generator.pages import assembly
from generator.pages.assembly import Both
from generator.pages.page import Context, Page, page_ruler

STEPS = 4
"""How many steps a share has: neighbours show nearly the same, and what is hidden in them is worked out once."""


@dataclass(frozen=True)
class DrawnSteps:
    """The pictures of some steps as they are handed on: without their shapes, which are text already."""

    pictures: Mapping[int, Sequence[Both | None]]
    svgs: Mapping[str, Any]
    contexts: Mapping[str, Context] = field(default_factory=dict)
    """What other pages print, by their slugs."""


class StepShares:
    """The shares of one manual. `svg` writes a drawing, or says how it was written; `svgs` is where that is kept."""

    def __init__(self, figures: Figures, svg: Callable[[Drawing], Any], svgs: dict[str, Any]) -> None:
        self._figures, self._svg, self._svgs = figures, svg, svgs
        self._known: dict[int, Sequence[Both | None]] = {}
        self._contexts: dict[str, Context] = {}

    @property
    def jobs(self) -> Sequence[str]:
        """The names of all shares."""
        return [
            f"{assembly.PAGE.slug}/{first}" for first in range(0, len(self._figures.assembly.steps), STEPS)
        ]

    def make(self, job: str) -> DrawnSteps:
        """One share."""
        first = int(job.rpartition("/")[2])
        last = min(first + STEPS, len(self._figures.assembly.steps))
        ruler = page_ruler(self._figures)
        drawn = {place: assembly.pictures(self._figures, ruler, place) for place in range(first, last)}
        every = [each for steps in drawn.values() for both in steps for each in both or ()]
        return DrawnSteps(
            {place: [_bare(both) for both in steps] for place, steps in drawn.items()},
            {each.id: self._svg(each) for each in every},
        )

    def take(self, made: DrawnSteps) -> None:
        """A share that was made."""
        self._known.update(made.pictures)
        self._svgs.update(made.svgs)
        self._contexts.update(made.contexts)

    def context(self, page: Page) -> Context:
        """What a page prints; the assembly's page draws only what no share has."""
        ruler = page_ruler(self._figures)
        if page is assembly.PAGE:
            return assembly.context(self._figures, ruler, self._known)
        return self._contexts.get(page.slug) or page.context(self._figures, ruler)


def _bare(both: Both | None) -> Both | None:
    return both and (replace(both[0], shapes=()), replace(both[1], shapes=()))
