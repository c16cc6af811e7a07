"""The guide: a first bench by examples, with what the program makes of each."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

import yaml

from generator.drawings.dimensions import Ruler
from generator.figures.model import Figures
from generator.pages.page import Context, Page
from generator.resources import bundled

FILE = "my-bench.yml"


@cache
def typed() -> Mapping[str, str]:
    """What the reader types: the `first` spec, and the lines that change it."""
    return _texts("guide.yml")


@cache
def appears() -> Mapping[str, str]:
    """What the program made of it. A test makes it again and compares, so that no build has to."""
    return _texts("guide-appears.yml")


def _texts(name: str) -> Mapping[str, str]:
    text = (bundled("site_templates") / name).read_text(encoding="utf-8")
    found: Mapping[str, str] = yaml.load(text, yaml.BaseLoader)
    return found


def context(figures: Figures, ruler: Ruler) -> Context:
    """What to type, and what appears."""
    return {"file": FILE, "typed": typed(), "appears": appears()}


PAGE = Page(
    "guide",
    "Write a spec",
    "your first bench in 30 minutes, from an idea to the first cut",
    context,
    about_specs=True,
)
