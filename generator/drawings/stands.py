"""What the bench stands on, in a scene of blocks and in a view, from the facts of its kind."""

from __future__ import annotations

from dataclasses import replace

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
    for place in sorted({float(point[right]) * scale for point in stand.points}):
        circles, polygons = iter(stand.silhouette.circles), iter(stand.silhouette.polygons)
        for what in stand.silhouette.order:
            if what == "circle":
                z, radius, style = next(circles)
                canvas.circle((place, floor - z * scale), radius * scale, style)
            else:
                points, style = next(polygons)
                canvas.polygon(tuple((place + x * scale, floor - z * scale) for x, z in points), style)
