"""The shipped benches' figures and prints, each made once."""

from __future__ import annotations

from functools import cache

from generator.bench.solve import solve
from generator.drawings.canvas import Drawing
from generator.drawings.paper import Paper
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.pages.page import ruler_for
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
def sheets(name: str, slug: str, paper: Paper, bar: Bars | None = None) -> tuple[Drawing, ...]:
    figures = figures_of(name)
    made = next(each for each in PRINTS if each.slug == slug)
    return made.sheets(figures, ruler_for(figures), paper, stamp_of(figures, bar))


@cache
def pdf(name: str, slug: str, paper: Paper, bar: Bars | None = None) -> bytes:
    return to_pdf(sheets(name, slug, paper, bar), About("test", date="2026-11-02"))
