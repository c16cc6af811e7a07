"""What a page is: a name, a title, a template, and the plain values that the template prints."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from generator.drawings.canvas import Drawing
from generator.drawings.dimensions import Ruler
from generator.figures.model import Figures
from generator.figures.workings import Workings
from generator.pages.made import DrawnAlone

Context = Mapping[str, Any]


@dataclass(frozen=True)
class Page:
    """`context` selects and groups; it adds nothing up and formats nothing. Drawings in it become pictures.

    `purpose` is what the overview says of it. Pages `about_specs` explain words themselves, or are read before a bench
    is built: no term in them leads to the glossary.
    """

    slug: str
    title: str
    purpose: str
    context: Callable[[Figures, Ruler], Context] = lambda figures, ruler: {}
    about_specs: bool = False

    @property
    def file(self) -> str:
        """Name of the Markdown file among the pages."""
        return f"{self.slug}.md"

    @property
    def template(self) -> str:
        """Path of the template below the folder of templates."""
        return f"pages/{self.slug}.md.jinja"


@dataclass(frozen=True)
class Chapter:
    """The pages of one part of the work, under its name in the menu. `purpose` is what a reader does with them."""

    title: str
    pages: tuple[Page, ...]
    purpose: str = ""


@dataclass(frozen=True)
class Slim:
    """The same picture drawn for a phone: in the page only, it has no file of its own."""

    drawing: Drawing | None


NO_SLIM = Slim(None)


def page_ruler(figures: Figures) -> Ruler:
    """Lengths as the spec writes them, and in the other unit for a reader who switches."""
    return Ruler(figures.spec.units, figures.spec.inch_fraction, both=True)


def ruler_for(figures: Figures) -> Ruler:
    """Lengths as the spec writes them: nobody switches what is on paper."""
    return Ruler(figures.spec.units, figures.spec.inch_fraction)


def part_links(figures: Figures) -> dict[str, str]:
    """Mark -> place of its part sheet in the finished site, for links in drawings."""
    return {mark: f"part-sheets.html#{anchor(row.mark)}" for row in figures.parts for mark in row.marks}


def drawing_file(drawing: Drawing | DrawnAlone) -> str:
    """Path of a drawing's own file, relative to the folder of the pages."""
    return f"drawings/{drawing.id}.svg"


def anchor(mark: str) -> str:
    """The name of a part's section on the page of part sheets."""
    return f"part-{mark.lower()}"


#: The page to which every figure leads.
WORKING_FILE = "working.md"


def working_anchor(workings: Workings, key: str) -> str:
    """The name of a working's place on that page."""
    return f"w-{workings.slugs[key]}"
