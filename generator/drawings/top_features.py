"""What is let into the top, on its drawing: recess, opening, slot, with names, places and sizes."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.tops.vises import VISE
from generator.drawings.canvas import Canvas
from generator.drawings.dimensions import Ruler, Tick
from generator.drawings.extent import Extent
from generator.drawings.letter_sizes import SMALL_TEXT
from generator.drawings.shapes import Text
from generator.figures.rows.setting_out import TopFeature, TopGrid

LIFTS = (0.0, 5.0, -5.0, 10.0, -10.0)
"""How far from the middle of a thing its name is tried, in mm."""


def draw_features(canvas: Canvas, grid: TopGrid, scale: float) -> None:
    """All of them in plan, each with its name where there is room. The front edge is below."""
    for each in grid.features:
        x, y = float(each.at[0]) * scale, -float(each.at[1]) * scale
        width, height = (float(side) * scale for side in each.size)
        if each.diameter is not None:
            canvas.circle((x, y), width / 2, "hole")
        else:
            style = "hidden" if each.kind == VISE else "hole" if each.depth is None else "thin"
            radius = float(each.corner) * scale
            canvas.rect(x - width / 2, y - height / 2, width, height, style, radius)
        if each.opening is not None:
            inner, tall = (float(side) * scale for side in each.opening)
            radius = max(0.0, radius - (width - inner) / 2)
            canvas.rect(x - inner / 2, y - tall / 2, inner, tall, "hole", radius)
        _name(canvas, each, (x, y), Extent(x - width / 2, y - height / 2, x + width / 2, y + height / 2))


def _name(canvas: Canvas, feature: TopFeature, at: tuple[float, float], room: Extent) -> None:
    """The name within the thing, along its longer side; left out where it does not fit, for the notes have it."""
    upward = room.height > room.width
    for lift in LIFTS:
        place = (at[0] + SMALL_TEXT / 2, at[1] + lift) if upward else (at[0] + lift, at[1] + SMALL_TEXT / 2)
        if canvas.text_if_free(Text(place, feature.name, SMALL_TEXT, "middle", upward, "note"), room):
            return


def feature_ticks(grid: TopGrid, axis: int, scale: float, ruler: Ruler) -> Iterator[Tick]:
    """Their middles along one axis; a slot from edge to edge has one across it only."""
    whole = (grid.length, grid.width)[axis]
    for each in grid.features:
        if each.size[axis] < whole and each.kind != VISE:
            at = float(each.at[axis]) * scale
            yield Tick(-at if axis else at, ruler.text(each.at[axis]), each.name)


def feature_notes(grid: TopGrid, ruler: Ruler) -> list[str]:
    """One line for each: where its middle is, and its sizes."""
    lines = [_note(each, grid, ruler) for each in grid.features]
    if grid.left_out:
        count = len(grid.left_out)
        lines.append(
            f"{count} {'hole is' if count == 1 else 'holes are'} left out beside what is let into the top."
        )
    return lines


def _note(each: TopFeature, grid: TopGrid, ruler: Ruler) -> str:
    name = each.name[:1].upper() + each.name[1:]
    if each.size[0] >= grid.length or each.size[1] >= grid.width:
        lengthways = each.size[0] >= grid.length
        place, width = (each.at[1], each.size[1]) if lengthways else (each.at[0], each.size[0])
        edge = "front" if lengthways else "left"
        depth = ruler.fine(each.depth or Fraction(0))
        size = f"slot {ruler.fine(width)} wide, {depth} deep"
        return f"{name}: {size}, its middle {ruler.text(place)} from the {edge} edge."
    if each.kind == VISE:
        low, high = (ruler.text(each.at[0] + side * each.size[0] / 2) for side in (-1, 1))
        return f"{name}: from {low} to {high} from the left, {ruler.text(each.size[1])} deep. Dashed: keep clear below."
    where = f"middle {ruler.text(each.at[0])} from the left, {ruler.text(each.at[1])} from the front"
    if each.diameter is not None:
        return f"{name}: {where}; opening {ruler.diameter(each.diameter)}."
    round_ = f", corners R {ruler.text(each.corner)}" if each.corner else ""
    if each.opening is None:
        return f"{name}: {where}; opening {ruler.size(*each.size)}{round_}."
    deep = ruler.fine(each.depth or Fraction(0))
    recess = f"recess {ruler.size(*each.size)}, {deep} deep{round_}"
    return f"{name}: {where}; {recess}; opening {ruler.size(*each.opening)}."
