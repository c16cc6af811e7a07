"""The pictures of the assembly while a spec is written: each is drawn when it comes into the sight of a reader.

All of them take five times as long as the rest of a save. Nothing is kept from one manual to the next but the sizes
of the boxes that wait for pictures, so that no picture is ever an old one.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property

from generator.drawings.canvas import Drawing
from generator.drawings.lettering import PAGE_WIDTH
from generator.drawings.stands import with_stands
from generator.drawings.step_homes import pictured
from generator.drawings.step_motions import shown_motions
from generator.drawings.step_props import acts_names
from generator.drawings.step_still import still
from generator.figures.model import Figures
from generator.figures.rows.assembly import Shape, Step
from generator.pages import assembly
from generator.pages.assembly import Both
from generator.pages.page import page_ruler
from generator.pages.shares import DrawnSteps
from generator.writers.svg import Svg, to_svg

Sizes = dict[str, tuple[float, float, float]]
"""Name of a picture -> width and height of its sheet and the size of its smallest letters (mm), when it was last
drawn."""
UNKNOWN = (PAGE_WIDTH, 0.6 * PAGE_WIDTH, 0.0)
"""The box of a picture that was never drawn."""
AWAITED = "data-awaited"
"""What marks a box: the name of the picture that it waits for."""


class StepsInSight:
    """The pictures of one manual's assembly. `sizes` are those of the manual before, and take in those of this one."""

    def __init__(self, figures: Figures, sizes: Sizes) -> None:
        self._figures, self._sizes = figures, sizes
        self._ruler = page_ruler(figures)
        self._places: dict[str, tuple[int, int]] = {}
        self._drawn: dict[str, tuple[Svg, Svg]] = {}

    def boxes(self) -> DrawnSteps:
        """For each picture a box that waits for it, as a manual can `take` it; a file of its own is drawn at once."""
        shapes = with_stands(self._figures)
        rows: dict[int, list[Both | None]] = {}
        for place, step in enumerate(self._figures.assembly.steps):
            row = rows[place] = []
            own = (
                _named(each.step) if self._shows(each.step, shapes) else None
                for each in pictured(self._figures, step)
            )
            acts = (_named(step, name) if name else None for name in acts_names(self._figures, step))
            for number, both in enumerate((next(acts), *own, next(acts))):
                row.append(both)
                if both:
                    self._places[both[0].id] = place, number
        every = [each for row in rows.values() for both in row for each in both or ()]
        return DrawnSteps(rows, {each.id: _Box(each, self) for each in every})

    def picture(self, name: str) -> str | None:
        """A picture and the slim one of it as a page has them, by the name of the first; None where there is none."""
        both = self.drawn(name) if name in self._places else None
        return both and "".join(each.inline for each in both)

    def drawn(self, name: str) -> tuple[Svg, Svg]:
        """A picture and the slim one of it, drawn once."""
        if name not in self._drawn:
            place, number = self._places[name]
            both = assembly.picture(self._figures, self._ruler, place, number)
            assert both is not None
            svgs = self._drawn[name] = to_svg(both[0]), to_svg(both[1])
            for drawing, svg in zip(both, svgs, strict=True):
                self._sizes[drawing.id] = svg.width, svg.height, svg.letters
        return self._drawn[name]

    def box(self, bare: Drawing) -> Svg:
        """The empty box of a picture, as large as that was when it was drawn last."""
        width, height, letters = self._sizes.get(bare.id, UNKNOWN)
        svg = to_svg(replace(bare, width=width, height=height))
        name = bare.id.removesuffix(_SLIM)
        return replace(svg, start=f'{svg.start} {AWAITED}="{name}"', letters=letters)

    def _shows(self, step: Step, shapes: Mapping[str, Shape]) -> bool:
        """Whether anything of a step is to be seen."""
        if shown_motions(step, dict(shapes)):
            return True
        return still(self._figures, step, shapes, self._ruler) is not None


@dataclass(frozen=True)
class _Box:
    """A picture in the page, drawn only where somebody wants it as a file."""

    bare: Drawing
    steps: StepsInSight

    @cached_property
    def inline(self) -> str:
        return self.steps.box(self.bare).inline

    @property
    def alone(self) -> str:
        return self.steps.drawn(self.bare.id)[0].alone


_SLIM = "-slim"


def _named(step: Step, of_acts: str = "") -> Both:
    """A picture of a step and the slim one, by their names alone; or those of its acts."""
    name, title = of_acts or f"picture-{step.key}", f"Step {step.n}: {step.title}"
    wide = Drawing(name, title, "", 0.0, 0.0, ())
    return wide, replace(wide, id=f"{name}{_SLIM}")
