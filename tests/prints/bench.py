"""The shipped benches' figures, drawings and prints, each made once."""

from __future__ import annotations

from functools import cache

from generator.bench.solve import solve
from generator.drawings.canvas import Drawing, drawings_in
from generator.drawings.paper import Paper
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.pages import PAGES
from generator.pages.page import page_ruler, ruler_for
from generator.prints import PRINTS
from generator.prints.print import Bars, stamp_of
from generator.resources import bundled
from generator.spec.load import read_spec_file
from generator.writers.pdf import About, to_pdf

NAMES = ("demo", "wall-bench", "starter")


@cache
def figures_of(name: str) -> Figures:
    loaded = read_spec_file(bundled("specs") / f"{name}.yml")
    return compute(solve(loaded))[0]


@cache
def drawings_of(name: str) -> tuple[Drawing, ...]:
    """The drawings of all pages."""
    figures = figures_of(name)
    contexts = [page.context(figures, page_ruler(figures)) for page in PAGES]
    return tuple(drawings_in(contexts))


@cache
def sheets(name: str, slug: str, paper: Paper, bar: Bars | None = None) -> tuple[Drawing, ...]:
    figures = figures_of(name)
    made = next(each for each in PRINTS if each.slug == slug)
    return made.sheets(figures, ruler_for(figures), paper, stamp_of(figures, bar))


@cache
def pdf(name: str, slug: str, paper: Paper, bar: Bars | None = None) -> bytes:
    return to_pdf(sheets(name, slug, paper, bar), About("test", date="2026-11-02"))
