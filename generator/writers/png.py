"""A Drawing of lines and filled outlines as a PNG, for readers that show no SVG."""

from __future__ import annotations

from io import BytesIO

from PIL import Image, ImageDraw

from generator.drawings.canvas import Drawing
from generator.drawings.extent import Point
from generator.drawings.shapes import Line, Polyline
from generator.writers.looks import INK, LOOKS, PAPER_TONES

FINER = 3
"""It is drawn so many times as large and made smaller, so that its edges are smooth."""
MARGIN = 0.05
"""White on each side, as a part of the height."""


def to_png(drawing: Drawing, width: int, height: int) -> bytes:
    """The drawing in the middle of a white picture of `width` x `height` pixels.

    Raises TypeError for a shape that is neither a line nor a run of lines.
    """
    across, down, edge = width * FINER, height * FINER, MARGIN * height * FINER
    scale = min((across - 2 * edge) / drawing.width, (down - 2 * edge) / drawing.height)
    left, top = (across - scale * drawing.width) / 2, (down - scale * drawing.height) / 2

    def place(point: Point) -> Point:
        return (left + scale * point[0], top + scale * point[1])

    image = Image.new("RGB", (across, down), "white")
    pen = ImageDraw.Draw(image)
    for shape in drawing.shapes:
        look = LOOKS[shape.style]
        line = max(1, round(look.line * scale)) if look.line else 0
        match shape:
            case Line():
                pen.line([place(shape.start), place(shape.end)], _tone(look.stroke), line)
            case Polyline():
                points = [place(point) for point in shape.points]
                if look.fill:
                    pen.polygon(points, _tone(look.fill))
                if line:
                    ring = [*points, *points[:2]] if shape.closed else points
                    pen.line(ring, _tone(look.stroke), line, joint="curve")
            case _:
                raise TypeError(f"no such shape in a PNG: {shape!r}")
    target = BytesIO()
    image.resize((width, height), Image.Resampling.LANCZOS).quantize(128).save(target, "PNG", optimize=True)
    return target.getvalue()


def _tone(name: str) -> str:
    return "#000" if name == INK else PAPER_TONES[name]
