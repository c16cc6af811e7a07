"""The steps that fill and finish the closed bench: slides, drawers, shelves, totes, top board, tests."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.frames.slot_nuts import BRACKET, slot_nuts
from generator.bench.role import Role
from generator.figures.rows.assembly import PlaceRow, Step
from generator.figures.steps.finishing import last_finish, late_finish
from generator.figures.steps.words import FILL, StepWriter, step


class FillingSteps(StepWriter):
    """The words of the steps from the slides to the label."""

    def _bracket_lines(self) -> Iterator[str]:
        where = (
            "in each space between the top bars" if self.spec.top.bracket is None else "at each place below"
        )
        yield f"Put one bracket {where}."
        yield "Bolt it to the nut in the bar's inner slot."
        yield "Then screw it up into the top."

    def _brackets(self) -> tuple[PlaceRow, ...]:
        """Where the top's brackets go, bar by bar."""
        found: dict[tuple[str, str], list[Fraction]] = {}
        for nut in slot_nuts(self.bench):
            if nut.purpose == BRACKET:
                found.setdefault((nut.bar.mark, nut.face), []).append(nut.at)
        return tuple(PlaceRow("top bracket", bar, face, tuple(at)) for (bar, face), at in found.items())

    def all(self) -> Iterator[Step]:
        """Steps in the usual order."""
        yield from late_finish(self.bench)
        yield from self.fillings(FILL, early=False)
        yield step(
            FILL,
            "top",
            "Top board",
            self.pick(Role.TOP),
            "down",
            (
                *(
                    ("Drill the dog holes first, from a template.", "Break their edges.")
                    if self.spec.top.holes
                    else ()
                ),
                *(() if self.spec.finish.top else ("Seal both faces of the top.",)),
                "Use brackets with oversize holes, so that the top can move.",
                *self._bracket_lines(),
            ),
            cautions=("lift", "drill", "dust", "finish"),
            places=self._brackets(),
        )
        yield from last_finish(self.bench)
        yield step(
            FILL,
            "load",
            "Load test, tip test, label",
            (),
            "",
            (
                "Load the bench in steps.",
                "Open the drawers one by one, the heaviest first.",
                "Write the limits on a label.",
                "Enter the finished bench in the build record.",
            ),
            cautions=("tip",),
        )
