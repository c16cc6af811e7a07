"""The bench from the front, the right and above for a phone: each view has few sizes, and all three have them all."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from generator.drawings.canvas import Canvas, Drawing
from generator.drawings.dimensions import Row, Ruler, Stretch, Tick, chain, overall, running
from generator.drawings.elevation import (
    FRONT,
    NO_LINKS,
    PLAN,
    SIDE,
    dimension_heights,
    dimension_plan_depth,
    draw_floor,
    finish,
    paint,
)
from generator.drawings.letter_sizes import SMALL_TEXT
from generator.drawings.lettering import MARGIN, fitting
from generator.drawings.slim import SLIM_WIDTH
from generator.figures.model import Figures

WIDEST, DEEPEST = 110.0, 70.0
"""Largest length and depth of the bench on the phone's paper, in mm."""
LEAST = 32.0
"""Its least depth there (mm): the names of heights need the other half."""


@dataclass(frozen=True)
class _Bench:
    """A bench and how it is written."""

    figures: Figures
    ruler: Ruler
    links: Mapping[str, str]


def draw_slim_views(
    figures: Figures, ruler: Ruler, links: Mapping[str, str] = NO_LINKS
) -> tuple[Drawing, Drawing, Drawing]:
    """From the front with the bays, from the right with the heights, from above with every post."""
    bench = _Bench(figures, ruler, links)
    return (
        _fitted(bench, _front, WIDEST, WIDEST * 2 / 3),
        _fitted(bench, _side, DEEPEST, LEAST),
        _fitted(bench, _plan, WIDEST, WIDEST * 2 / 3),
    )


def _fitted(bench: _Bench, draw: Callable[[_Bench, float], Drawing], largest: float, least: float) -> Drawing:
    return fitting(lambda width: draw(bench, width), largest, SLIM_WIDTH - 1.0, least=least)


def _front(bench: _Bench, width: float) -> Drawing:
    canvas, figures, ruler = Canvas(), bench.figures, bench.ruler
    scale = width / float(figures.layout.length)
    paint(canvas, figures, FRONT, scale, bench.links)
    floor = draw_floor(canvas, figures, scale, figures.layout.length)
    zone = figures.layout.zones[0].name
    bays = [
        Stretch(
            float(bay.left) * scale,
            float(bay.left + bay.width) * scale,
            f"{bay.name}: {ruler.text(bay.width)}",
        )
        for bay in figures.layout.bays
        if bay.zone == zone
    ]
    row = Row("x", floor + 8.0, 1)
    row = row.next(chain(canvas, row, bays, floor, SMALL_TEXT) + 4.0)
    overall(canvas, row, 0.0, width, ruler.text(figures.layout.length), floor)
    return _finish(canvas, bench, "Front view", "elevation-front-slim")


def _side(bench: _Bench, width: float) -> Drawing:
    canvas, figures, ruler = Canvas(), bench.figures, bench.ruler
    depth = figures.layout.depth
    scale = width / float(depth)
    paint(canvas, figures, SIDE, scale, bench.links)
    floor = draw_floor(canvas, figures, scale, depth)
    dimension_heights(canvas, figures, ruler, scale, depth)
    overall(canvas, Row("x", floor + 8.0, 1), 0.0, width, ruler.text(depth), floor)
    return _finish(canvas, bench, "Side view, from the right", "elevation-side-slim")


def _plan(bench: _Bench, width: float) -> Drawing:
    canvas, figures, ruler = Canvas(), bench.figures, bench.ruler
    layout = figures.layout
    scale = width / float(layout.length)
    paint(canvas, figures, PLAN, scale, bench.links)
    posts = {
        edge + part for edges in layout.post_edges.values() for edge in edges for part in (0, layout.section)
    }
    labels = [Tick(float(edge) * scale, ruler.text(edge)) for edge in sorted(posts | {layout.length}) if edge]
    running(canvas, Row("x", 8.0, 1), 0.0, labels, 0.0, zero_note="left")
    dimension_plan_depth(canvas, figures, ruler, scale)
    return _finish(canvas, bench, "Plan, top taken off", "elevation-plan-slim")


def _finish(canvas: Canvas, bench: _Bench, title: str, id: str) -> Drawing:
    right = canvas.extents().left + SLIM_WIDTH - 2 * MARGIN
    return finish(canvas, bench.figures, bench.ruler, title, id, right)
