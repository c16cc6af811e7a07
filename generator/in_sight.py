"""Pictures while a spec is written: those of steps and parts are drawn when they come into the sight of a reader.

Those of all steps take five times as long as the rest of a save. Nothing is kept from one manual to the next but the
sizes of the boxes that wait for pictures, so that no picture is ever an old one.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, partial

from generator.drawings.canvas import Drawing
from generator.drawings.lettering import PAGE_WIDTH
from generator.drawings.part import on_named, part_named
from generator.drawings.set_out import views
from generator.drawings.stands import with_stands
from generator.drawings.step_homes import pictured
from generator.drawings.step_motions import shown_motions
from generator.drawings.step_props import acts_names
from generator.drawings.step_still import still
from generator.figures.model import Figures
from generator.figures.rows.assembly import Shape, Step
from generator.figures.rows.parts import PartRow
from generator.pages import assembly, part_sheets
from generator.pages.assembly import Both
from generator.pages.page import page_ruler
from generator.pages.part_sheets import SheetDrawings
from generator.pages.shares import DrawnSteps
from generator.writers.svg import Svg, to_svg

Sizes = dict[str, tuple[float, float, float]]
"""Name of a picture -> width and height of its sheet and the size of its smallest letters (mm), when it was last
drawn."""
UNKNOWN = (PAGE_WIDTH, 0.6 * PAGE_WIDTH, 0.0)
"""The box of a picture that was never drawn."""
_SLIM = "-slim"


class InSight:
    """The pictures of one manual. `sizes` are those of the manual before, and take in those of this one."""

    def __init__(self, figures: Figures, sizes: Sizes) -> None:
        self._figures, self._sizes = figures, sizes
        self._ruler = page_ruler(figures)
        self._draw: dict[str, Callable[[], Sequence[Drawing | None]]] = {}
        self._drawn: dict[str, Sequence[Svg]] = {}
        self._parts: dict[str, SheetDrawings] = {}
        self._boxes: dict[str, _Box] = {}

    def boxes(self) -> DrawnSteps:
        """For each picture a box that waits for it, as a manual can `take` it; a file of its own is drawn at once."""
        rows = self._steps()
        parts = [self._part(row) for row in self._figures.parts]
        contexts = {part_sheets.PAGE.slug: part_sheets.of_drawings(self._figures, parts)}
        return DrawnSteps(rows, self._boxes, contexts)

    def picture(self, name: str) -> str | None:
        """A picture and the slim one of it as a page has them, by the name of the first; None where there is none."""
        return "".join(each.inline for each in self.drawn(name)) if name in self._draw else None

    def drawn(self, name: str) -> Sequence[Svg]:
        """A picture and the slim one of it if it has one, drawn once."""
        if name not in self._drawn:
            drawings = [each for each in self._draw[name]() if each]
            svgs = self._drawn[name] = [to_svg(each) for each in drawings]
            for drawing, svg in zip(drawings, svgs, strict=True):
                self._sizes[drawing.id] = svg.width, drawing.height, svg.letters
        return self._drawn[name]

    def box(self, bare: Drawing, awaited: str) -> Svg:
        """The empty box of a picture, as large as that was when it was drawn last."""
        svg = to_svg(bare)
        marked = f'{svg.start} data-awaited="{awaited}" data-page="{PAGE_WIDTH:g}"'
        return replace(svg, start=marked, letters=self._sizes.get(bare.id, UNKNOWN)[2])

    def _named(self, awaited: str, id: str, title: str) -> Drawing:
        """A picture by its name alone, in a box that waits."""
        width, height, _ = self._sizes.get(id, UNKNOWN)
        bare = Drawing(id, title, "", width, height, ())
        self._boxes[id] = _Box(bare, awaited, self)
        return bare

    def _steps(self) -> Mapping[int, Sequence[Both | None]]:
        shapes = with_stands(self._figures)
        rows: dict[int, list[Both | None]] = {}
        for place, step in enumerate(self._figures.assembly.steps):
            row = rows[place] = []
            before, after = acts_names(self._figures, step)
            row.append(self._step(place, 0, step, before) if before else None)
            for number, each in enumerate(pictured(self._figures, step), 1):
                row.append(self._step(place, number, each.step) if self._shows(each.step, shapes) else None)
            row.append(self._step(place, len(row), step, after) if after else None)
        return rows

    def _step(self, place: int, number: int, step: Step, of_acts: str = "") -> Both:
        name, title = of_acts or f"picture-{step.key}", f"Step {step.n}: {step.title}"
        draw = partial(assembly.picture, self._figures, self._ruler, place, number)
        self._draw[name] = lambda: draw() or ()
        return self._named(name, name, title), self._named(name, f"{name}{_SLIM}", title)

    def _shows(self, step: Step, shapes: dict[str, Shape]) -> bool:
        """Whether anything of a step is to be seen."""
        if shown_motions(step, shapes):
            return True
        return still(self._figures, step, shapes, self._ruler) is not None

    def _part(self, row: PartRow) -> SheetDrawings:
        own, on = part_named(self._figures, row, self._ruler), on_named(self._figures, row)
        name, title = on or own  # what comes onto a part has the slim picture, where there is any
        slim = self._named(name, f"{name}{_SLIM}", title) if views(self._figures, row) else None
        self._draw[own[0]] = partial(self._drawn_part, row, own=True)
        self._draw[name] = partial(self._drawn_part, row, own=not on, slim=True)
        return SheetDrawings(self._named(own[0], *own), self._named(name, *on) if on else None, slim)

    def _drawn_part(self, row: PartRow, *, own: bool, slim: bool = False) -> Sequence[Drawing | None]:
        if row.mark not in self._parts:
            self._parts[row.mark] = part_sheets.drawings(self._figures, row, self._ruler)
        made = self._parts[row.mark]
        return made.part if own else made.on, made.slim if slim else None


@dataclass(frozen=True)
class _Box:
    """A picture in the page, drawn only where somebody wants it as a file."""

    bare: Drawing
    awaited: str
    pictures: InSight

    @cached_property
    def inline(self) -> str:
        return self.pictures.box(self.bare, self.awaited).inline

    @property
    def alone(self) -> str:
        return self.pictures.drawn(self.awaited)[0].alone
