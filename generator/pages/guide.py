"""The guide: a first bench by examples, with what the program makes of each."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from fractions import Fraction
from functools import cache

from generator.bench.frames.panels import panel_rules
from generator.bench.solve import solve
from generator.drawings.dimensions import Ruler
from generator.figures.model import Figures
from generator.findings import SpecError
from generator.pages.page import Context, Page
from generator.resources import bundled
from generator.spec.load import read_spec
from generator.spec.reader import read_document
from generator.spec.text_file import read_text

FILE = "my-bench.yml"


@cache
def typed() -> Mapping[str, str]:
    """What the reader types: the `first` spec, and the lines that change it."""
    path = bundled("site_templates") / "guide.yml"
    found: Mapping[str, str] = read_document(read_text(path), path.name).data
    return found


def changed(number: int, *lines: str) -> str:
    """The first spec with lines in place of the one of this number, counted from 1."""
    old = typed()["first"].splitlines()
    return "\n".join((*old[: number - 1], *lines, *old[number:])) + "\n"


def with_middle() -> str:
    """The longer bench with a bay more."""
    lines = changed(4, typed()["longer"]).splitlines()
    return "\n".join((*lines[:-1], typed()["middle"], lines[-1])) + "\n"


@cache
def said(text: str) -> str:
    """What the program says of a spec with faults."""
    try:
        solve(read_spec(text, FILE))
    except SpecError as error:
        return "\n".join(finding.explained() for finding in error.findings)
    raise AssertionError("the guide's example has no fault")


@cache
def rabbets() -> tuple[Fraction, Fraction]:
    """Depth of the rabbets with the typical sheet, and with the measured one (mm)."""
    first = typed()["first"]
    typical, measured = _depths(first, first + typed()["measured"])
    return typical, measured


def _depths(*texts: str) -> Iterator[Fraction]:
    for text in texts:
        yield panel_rules(read_spec(text, FILE)).fit.rabbet_depth


def context(figures: Figures, ruler: Ruler) -> Context:
    """What to type, and what appears."""
    typical, measured = rabbets()
    return {
        "file": FILE,
        "typed": typed(),
        "misspelt_says": said(changed(4, typed()["misspelt"])),
        "too_low_says": said(changed(8, typed()["too_low"])),
        "rabbet_typical": f"{float(typical):g} mm",
        "rabbet_measured": f"{float(measured):g} mm",
    }


PAGE = Page(
    "guide",
    "Write a spec",
    "your first bench in 30 minutes, from an idea to the first cut",
    context,
    about_specs=True,
)
