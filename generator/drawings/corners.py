"""The finished bench from its four corners, for a first look; sizes are in the dimensioned views."""

from __future__ import annotations

from generator.drawings.canvas import Canvas, Drawing
from generator.drawings.dimensions import Ruler
from generator.drawings.eye import CORNERS, Eye
from generator.drawings.scene import paint, piece_solid, seen
from generator.drawings.stands import with_stands
from generator.figures.model import Figures

WIDTH = 78.0
"""Two views are side by side on a page (mm)."""
CELLS = 300
"""A face that is smaller than a 300th of so small a picture is not missed."""


def draw_corners(figures: Figures, ruler: Ruler) -> list[Drawing]:
    """One picture from each corner, once round the bench from the front right."""
    return [_draw_corner(figures, ruler, view) for view in CORNERS.values()]


def _draw_corner(figures: Figures, ruler: Ruler, view: Eye) -> Drawing:
    layout, canvas = figures.layout, Canvas()
    solids = [
        piece_solid(shape, block, view, new=False)
        for shape in with_stands(figures).values()
        for block in (shape.seated or ())
    ]
    paint(canvas, seen(solids, view, CELLS), view, WIDTH)
    size = (
        f"{ruler.text(layout.length)} long, {ruler.text(layout.depth)} deep, {ruler.text(layout.height)} high"
    )
    description = f"The finished bench, {size}. {ruler.note}"
    return canvas.finish(
        f"bench-{view.name.replace(' ', '-')}", f"The bench from the {view.name}", description, margin=1.0
    )
