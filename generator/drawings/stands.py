"""What the bench stands on, in a scene of blocks and in a view, from the facts of its kind."""

from __future__ import annotations

from dataclasses import replace

from generator.bench.stands.facts import AlsoCarries, Silhouette, Stand
from generator.drawings.canvas import Canvas
from generator.figures.model import Figures
from generator.figures.rows.assembly import Shape


def with_stands(figures: Figures) -> dict[str, Shape]:
    """The shapes of all pieces by their marks, each with what is fixed to it from below."""
    shapes = {shape.mark: shape for shape in figures.assembly.shapes}
    for picture in figures.stand.facts.pictures:
        shape = shapes[picture.on]
        blocks = picture.blocks
        shapes[shape.mark] = replace(shape, seated=shape.seated + blocks, whole=shape.whole + blocks)
    return shapes


def draw_stands(canvas: Canvas, figures: Figures, right: int, scale: float) -> None:
    """Each stand below the frame, in the order in which its kind lays its lines."""
    stand = figures.stand.facts
    floor = float(figures.layout.floor_to_frame) * scale
    sets: tuple[Stand | AlsoCarries, ...] = (stand, *stand.others)
    for shown in sets:
        for place in sorted({float(point[right]) * scale for point in shown.points}):
            _draw(canvas, shown.silhouette, (place, floor), scale)


def _draw(canvas: Canvas, shown: Silhouette, at: tuple[float, float], scale: float) -> None:
    (place, floor), circles, polygons = at, iter(shown.circles), iter(shown.polygons)
    for what in shown.order:
        if what == "circle":
            z, radius, style = next(circles)
            canvas.circle((place, floor - z * scale), radius * scale, style)
        else:
            points, style = next(polygons)
            canvas.polygon(tuple((place + x * scale, floor - z * scale) for x, z in points), style)
