"""The pictures of the guide, drawn from its own specs; run as a module, it renews those that changed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import cache

from generator.bench.solve import solve
from generator.drawings.bar_plan import draw_bar_plans
from generator.drawings.canvas import Drawing
from generator.drawings.corners import draw_corners
from generator.drawings.elevation import draw_views
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.findings import Finding
from generator.pages.guide import FILE, typed, with_middle
from generator.pages.page import ruler_for
from generator.resources import bundled
from generator.spec.load import read_spec
from generator.writers.svg import to_svg

ASSETS = bundled("site_templates") / "assets"


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


if __name__ == "__main__":
    for name, data in pictures().items():
        if not (ASSETS / name).exists() or (ASSETS / name).read_bytes() != data:
            (ASSETS / name).write_bytes(data)
            print(f"renewed {name}")  # noqa: T201
