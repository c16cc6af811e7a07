"""A bar as seen from its end: its section with the names of its long faces around it."""

from __future__ import annotations

from generator.drawings.canvas import Canvas
from generator.drawings.extent import Point
from generator.drawings.letter_sizes import SMALL_TEXT
from generator.figures.rows.parts import PartRow

#: The end from which the end view is seen, and the faces above, right, below and left in it.
END_VIEWS = {
    "x": ("left", ("top", "front", "bottom", "rear")),
    "y": ("front", ("top", "right", "bottom", "left")),
    "z": ("top", ("rear", "right", "front", "left")),
}
SIDE = 16.0
"""Width of the section on the paper (mm)."""


def draw_end(canvas: Canvas, row: PartRow, centre: Point, opening: float) -> None:
    """The section as seen from one end, with the name of each long face beside it."""
    seen, names = END_VIEWS[row.along]
    scale = SIDE / float(row.width)
    x, y = centre
    # a lying timber has its width upright
    wide = SIDE if row.across != "z" else float(row.thickness) * scale
    canvas.rect(x - wide / 2, y - SIDE / 2, wide, SIDE, fill_of(row))
    slot, depth = opening * scale, SIDE * 0.3
    for turn, name in enumerate(names):
        dx, dy = ((0, -1), (1, 0), (0, 1), (-1, 0))[turn]
        if opening:
            corners = ((-slot / 2, 0.0), (-slot / 2, depth), (slot / 2, depth), (slot / 2, 0.0))
            path = [(x + dx * (SIDE / 2 - d) + dy * a, y + dy * (SIDE / 2 - d) + dx * a) for a, d in corners]
            canvas.polyline(path, "thin")
        reach = (wide if dx else SIDE) / 2 + (1.2 if dx else 2.6)
        at = (x + dx * reach, y + dy * reach + SMALL_TEXT / 2)
        anchor = {-1: "end", 0: "middle", 1: "start"}[dx]
        canvas.text(at, name, SMALL_TEXT, anchor, style="mark")
    if opening:
        canvas.circle(centre, SIDE * 0.085, "hole")
    canvas.text((x, y + SIDE / 2 + 9.5), f"from the {seen} end", SMALL_TEXT, "middle", style="note")


def fill_of(row: PartRow) -> str:
    """The style of a bar's faces."""
    return "fill-bar" if row.metal else "fill-wood"
