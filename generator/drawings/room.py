"""The bench in its room, in plan: free floor at each side, what opens there, and a person before it."""

from __future__ import annotations

from generator.calculators.room import PERSON
from generator.drawings.canvas import Canvas, Drawing
from generator.drawings.dimensions import Row, Ruler, overall
from generator.drawings.extent import Extent
from generator.drawings.lettering import fitting, notes
from generator.drawings.swings import draw_swing
from generator.figures.model import Figures
from generator.figures.rows.room import Reach, RoomSide

PLAN_SIZE = 130.0
"""Longest side of the bench with its free floor on the paper, in mm."""
WALL = 3.0
"""Thickness of a wall as it is drawn, in mm of paper."""


def draw_room(figures: Figures, ruler: Ruler) -> Drawing:
    """The bench from above, front edge below, with the floor around it."""
    return fitting(lambda size: plan_drawing(figures, ruler, size), PLAN_SIZE)


def plan_drawing(figures: Figures, ruler: Ruler, size: float) -> Drawing:
    """The plan, its longest side `size` mm on the paper."""
    canvas, layout = Canvas(), figures.layout
    sides = {row.side: row for row in layout.room}
    floor = {name: float(max(row.free, row.needed)) for name, row in sides.items()}
    long = float(layout.length) + floor.get("left", 0.0) + floor.get("right", 0.0)
    deep = float(layout.depth) + floor.get("front", 0.0) + floor.get("rear", 0.0)
    scale = size / max(long, deep)
    bench = Extent(0.0, -float(layout.depth) * scale, float(layout.length) * scale, 0.0)
    canvas.rect(bench.left, bench.top, bench.width, bench.height, "fill-bar")
    for row in sides.values():
        draw_wall(canvas, bench, row, scale)
        for reach in row.reaches:
            if reach.person:
                draw_open(canvas, bench, row.side, reach, scale)
    for swing in figures.fillings.swings:
        draw_swing(canvas, swing, scale)
    around = canvas.extents()
    for row in sides.values():
        dimension(canvas, bench, around, row, scale, ruler)
    lines = facts(figures, ruler)
    notes(canvas, (canvas.extents().left, canvas.extents().bottom + 8.0), "The room, from above", lines)
    return canvas.finish("room", "The bench in its room", " ".join(lines))


def draw_wall(canvas: Canvas, bench: Extent, row: RoomSide, scale: float) -> None:
    """The wall at a side, hatched, as far away as the floor is free."""
    away = float(row.free) * scale
    if row.side == "front":
        area = Extent(bench.left, bench.bottom + away, bench.right, bench.bottom + away + WALL)
    elif row.side == "rear":
        area = Extent(bench.left, bench.top - away - WALL, bench.right, bench.top - away)
    elif row.side == "left":
        area = Extent(bench.left - away - WALL, bench.top, bench.left - away, bench.bottom)
    else:
        area = Extent(bench.right + away, bench.top, bench.right + away + WALL, bench.bottom)
    canvas.rect(area.left, area.top, area.width, area.height, "thin")
    canvas.hatch(area)


def draw_open(canvas: Canvas, bench: Extent, side: str, reach: Reach, scale: float) -> None:
    """What is pulled out, dashed, and the floor of a person before it."""
    low, wide = float(reach.low) * scale, float(reach.high - reach.low) * scale
    out, person = float(reach.out) * scale, float(PERSON) * scale
    at = bench.bottom if side == "front" else bench.top - out
    canvas.rect(low, at, wide, out, "hidden")
    middle = bench.bottom + out + person / 2 if side == "front" else bench.top - out - person / 2
    canvas.circle((low + wide / 2, middle), person / 2, "thin")


def dimension(
    canvas: Canvas, bench: Extent, around: Extent, row: RoomSide, scale: float, ruler: Ruler
) -> None:
    """The free floor of a side, beside all that is drawn."""
    away, text = float(row.free) * scale, ruler.text(row.free)
    if not away:
        return
    if row.side in ("front", "rear"):
        low, high = (0.0, away) if row.side == "front" else (bench.top - away, bench.top)
        overall(canvas, Row("y", around.right + 8.0, 1), low, high, text, around.right + 2.0)
    else:
        low, high = (-away, 0.0) if row.side == "left" else (bench.right, bench.right + away)
        overall(canvas, Row("x", around.top - 8.0, -1), low, high, text, around.top - 2.0)


def facts(figures: Figures, ruler: Ruler) -> list[str]:
    """Notes below the drawing."""
    lines = [f"Hatched: walls. Dashed: open. Circle: a person. Front edge below. {ruler.note}"]
    for row in figures.layout.room:
        enough = "enough" if row.free >= row.needed else "too little"
        lines.append(
            f"{row.side.capitalize()}: {ruler.text(row.free)} free, {ruler.text(row.needed)} needed by "
            f"{row.furthest}: {enough}."
        )
    return lines
