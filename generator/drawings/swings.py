"""What turns about a pin, in plan: closed, open, and the way of its edge between."""

from __future__ import annotations

from math import hypot

from generator.bench.fillings.facts import Swing
from generator.drawings.canvas import Canvas, Drawing
from generator.drawings.dimensions import Row, Ruler, overall
from generator.drawings.extent import Point
from generator.drawings.lettering import fitting, notes
from generator.figures.model import Figures

PLAN_SIZE = 150.0
"""Length of the frame on the paper, in mm."""
STEP = 3.0
"""The way of an edge is drawn through points this many degrees apart."""


def draw_swings(figures: Figures, ruler: Ruler) -> Drawing:
    """The frame from above, front edge below, with all doors closed and open."""
    return fitting(lambda size: plan_drawing(figures, ruler, size), PLAN_SIZE)


def plan_drawing(figures: Figures, ruler: Ruler, size: float) -> Drawing:
    """The plan, its frame `size` mm long on the paper."""
    canvas, layout = Canvas(), figures.layout
    scale = size / float(layout.length)
    width, height = float(layout.length) * scale, float(layout.depth) * scale
    canvas.rect(0.0, -height, width, height, "fill-bar")
    for swing in figures.fillings.swings:
        draw_swing(canvas, swing, scale)
    below = Row("x", canvas.extents().bottom + 6.0, 1)
    overall(canvas, below, 0.0, width, ruler.text(layout.length), foot=0.0)
    lines = facts(figures, ruler)
    notes(canvas, (0.0, canvas.extents().bottom + 8.0), "Doors, from above", lines)
    return canvas.finish("doors", "Doors, closed and open", " ".join(lines))


def draw_swing(canvas: Canvas, swing: Swing, scale: float) -> None:
    """One door: filled where it is closed, dashed where it is open, its far corner's way between."""
    turning = swing.turning

    def on_paper(point: Point) -> Point:
        return (point[0] * scale, -point[1] * scale)

    canvas.polygon([on_paper(point) for point in turning.outline], "fill-front")
    canvas.polygon([on_paper(point) for point in turning.at(turning.angle)], "hidden")
    far = max(
        range(len(turning.outline)),
        key=lambda number: hypot(*(a - b for a, b in zip(turning.outline[number], turning.pin, strict=True))),
    )
    angles = [*(STEP * number for number in range(int(turning.angle / STEP) + 1)), turning.angle]
    canvas.polyline([on_paper(turning.at(angle)[far]) for angle in angles], "thin")


def facts(figures: Figures, ruler: Ruler) -> list[str]:
    """Notes below the drawing."""
    found: dict[str, list[str]] = {}
    for swing in figures.fillings.swings:
        found.setdefault(ruler.text(swing.reach), []).append(swing.name)
    return [
        f"Dashed: open. Front edge below. {ruler.note}",
        *(f"Free floor before {'; '.join(names)}: {reach}." for reach, names in found.items()),
    ]
