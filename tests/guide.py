"""What appears in the guide, made from its own specs; run as a module, it renews what changed."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from pathlib import Path

import yaml

from generator.bench.frames.panels import panel_rules
from generator.bench.solve import solve
from generator.drawings.bar_plan import draw_bar_plans
from generator.drawings.canvas import Drawing
from generator.drawings.corners import draw_corners
from generator.drawings.elevation import draw_views
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.findings import Finding, SpecError
from generator.pages.guide import FILE
from generator.pages.page import ruler_for
from generator.resources import bundled
from generator.spec.load import read_spec
from generator.writers.svg import to_svg

ASSETS = bundled("site_templates") / "assets"


@cache
def typed() -> Mapping[str, str]:
    """What the reader types: the `first` spec, and the lines that change it."""
    text = (Path(__file__).parent / "data" / "guide.yml").read_text(encoding="utf-8")
    found: Mapping[str, str] = yaml.safe_load(text)
    return found


def changed(number: int, *lines: str) -> str:
    """The first spec with lines in place of the one of this number, counted from 1."""
    old = typed()["first"].splitlines()
    return "\n".join((*old[: number - 1], *lines, *old[number:])) + "\n"


def with_middle() -> str:
    """The longer bench with a bay more."""
    lines = changed(4, typed()["longer"]).splitlines()
    return "\n".join((*lines[:-1], typed()["middle"], lines[-1])) + "\n"


def said(text: str) -> str:
    """What the program says of a spec with faults."""
    try:
        solve(read_spec(text, FILE))
    except SpecError as error:
        return "\n".join(finding.explained() for finding in error.findings)
    raise AssertionError("the guide's example has no fault")


def rabbet(text: str) -> str:
    """Depth of the rabbets."""
    return f"{float(panel_rules(read_spec(text, FILE)).fit.rabbet_depth):g} mm"


def appears() -> Mapping[str, str]:
    """What the page shows, by its names."""
    first = typed()["first"]
    return {
        "misspelt": said(changed(4, typed()["misspelt"])),
        "too_low": said(changed(8, typed()["too_low"])),
        "rabbet_typical": rabbet(first),
        "rabbet_measured": rabbet(first + typed()["measured"]),
    }


@cache
def made(text: str) -> tuple[Figures, tuple[Finding, ...]]:
    """Figures and findings of a spec of the guide."""
    return compute(solve(read_spec(text, FILE)))


def drawings() -> Mapping[str, Drawing]:
    """Name of the file among the assets -> drawing."""
    first, longer = made(typed()["first"])[0], made(with_middle())[0]
    ruler = ruler_for(first)
    bars = [bar for bar in first.cutting.bars if bar.material == first.goods.bar]
    found = {
        "front": draw_views(first, ruler)[0],
        "first": draw_corners(first, ruler)[0],
        "longer": draw_corners(longer, ruler)[0],
        "bars": draw_bar_plans(first.goods.bar, bars, ruler, first.materials[first.goods.bar])[0],
    }
    return {f"guide-{name}.svg": replace(each, id=f"guide-{name}") for name, each in found.items()}


def pictures() -> Mapping[str, bytes]:
    """Name of the file among the assets -> its bytes."""
    return {name: to_svg(each).alone.encode() for name, each in drawings().items()}


def files() -> Mapping[Path, bytes]:
    """All of it as files."""
    texts = {"typed": typed(), "appears": appears()}
    found = {ASSETS.parent / "guide.json": (json.dumps(texts, indent=1, ensure_ascii=False) + "\n").encode()}
    return found | {ASSETS / name: data for name, data in pictures().items()}


if __name__ == "__main__":
    for path, data in files().items():
        if not path.exists() or path.read_bytes() != data:
            path.write_bytes(data)
            print(f"renewed {path.name}")  # noqa: T201
