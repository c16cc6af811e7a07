"""The top with its holes and what is let into it: places from the left front corner, omitted lines as centre lines."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from generator.bench.place import SIDE_WORDS
from generator.drawings.canvas import Canvas, Drawing
from generator.drawings.dimensions import ROW, Row, Ruler, Stretch, Tick, chain, overall, running
from generator.drawings.lettering import fitting, notes
from generator.drawings.top_features import draw_features, feature_notes, feature_ticks
from generator.figures.model import Figures
from generator.figures.rows.setting_out import TopGrid

TOP_SIZE = 150.0
"""Greatest side of the top on the paper, in mm."""


def lines(margin: Fraction, pitch: Fraction, count: int) -> list[Fraction]:
    """Positions of all columns or rows, the omitted ones among them."""
    return [margin + pitch * number for number in range(count)]


def draw_top_grid(figures: Figures, ruler: Ruler) -> Drawing:
    """The top from above, front edge below, with the absolute position of every column and row."""
    core = core_of(figures.top)
    return fitting(lambda size: top_drawing(core, ruler, size), TOP_SIZE)


def core_of(grid: TopGrid) -> TopGrid:
    """The board within its edging: all that is measured from the finished top, from the board's own corner."""
    off = {each.side: each.thickness for each in grid.edging}
    none = Fraction(0)
    left, front = off.get("left", none), off.get("front", none)
    if not off:
        return grid
    return replace(
        grid,
        length=grid.length - left - off.get("right", none),
        width=grid.width - front - off.get("back", none),
        margin_x=grid.margin_x - left,
        margin_y=grid.margin_y - front,
        omitted_columns=tuple(x - left for x in grid.omitted_columns),
        omitted_rows=tuple(y - front for y in grid.omitted_rows),
        features=tuple(replace(each, at=(each.at[0] - left, each.at[1] - front)) for each in grid.features),
        left_out=tuple((x - left, y - front) for x, y in grid.left_out),
    )


def top_drawing(grid: TopGrid, ruler: Ruler, size: float) -> Drawing:
    """The top, its longer side `size` mm on the paper."""
    canvas = Canvas()
    scale = size / float(max(grid.length, grid.width))
    width, height = float(grid.length) * scale, float(grid.width) * scale
    canvas.rect(0.0, -height, width, height, "fill-wood")
    columns = lines(grid.margin_x, grid.pitch, grid.columns)
    rows = lines(grid.margin_y, grid.pitch, grid.rows)
    for x in grid.omitted_columns:
        canvas.line((float(x) * scale, 3.0), (float(x) * scale, -height - 3.0), "centre")
    for y in grid.omitted_rows:
        canvas.line((-3.0, -float(y) * scale), (width + 3.0, -float(y) * scale), "centre")
    for x in columns:
        for y in rows:
            bored = x not in grid.omitted_columns and y not in grid.omitted_rows
            if bored and (x, y) not in grid.left_out:
                canvas.circle((float(x) * scale, -float(y) * scale), float(grid.diameter) * scale / 2, "hole")
    draw_features(canvas, grid, scale)
    dimension(canvas, grid, ruler, scale, columns, rows)
    notes(canvas, (0.0, canvas.extents().bottom + 8.0), "Top, from above", facts(grid, ruler))
    return canvas.finish(*top_named(grid), " ".join(facts(grid, ruler)))


def top_named(grid: TopGrid) -> tuple[str, str]:
    """Id and title of the drawing."""
    return "top-grid", "Top with its holes" if grid.holes else "Top with what is let into it"


def dimension(
    canvas: Canvas, grid: TopGrid, ruler: Ruler, scale: float, columns: list[Fraction], rows: list[Fraction]
) -> None:
    """Positions above and at the left; margins, pitch and outer sizes below and at the right."""
    width, height = float(grid.length) * scale, float(grid.width) * scale
    across = [
        Tick(float(x) * scale, ruler.text(x), "no holes" if x in grid.omitted_columns else "")
        for x in columns
    ]
    upward = [
        Tick(-float(y) * scale, ruler.text(y), "no holes" if y in grid.omitted_rows else "") for y in rows
    ]
    across += feature_ticks(grid, 0, scale, ruler)
    upward += feature_ticks(grid, 1, scale, ruler)
    if across:
        running(canvas, Row("x", -height - 6.0, -1), 0.0, across, -height, zero_note="left")
    if upward:
        running(canvas, Row("y", -7.0, -1), 0.0, upward, 0.0, zero_note="front")
    below, beside = Row("x", 8.0, 1), Row("y", width + 9.0, 1)
    reach = chain(canvas, below, spans(columns, grid.length, grid.pitch, scale, ruler), 0.0)
    overall(canvas, below.next(max(ROW, reach)), 0.0, width, ruler.text(grid.length), foot=0.0)
    upright = spans(rows, grid.width, grid.pitch, scale, ruler)
    turned = [Stretch(-span.high, -span.low, span.text) for span in reversed(upright)]
    reach = chain(canvas, beside, turned, width)
    overall(canvas, beside.next(max(ROW, reach + 3.5)), -height, 0.0, ruler.text(grid.width), foot=width)


def spans(
    places: list[Fraction], whole: Fraction, pitch: Fraction, scale: float, ruler: Ruler
) -> list[Stretch]:
    """Both margins and all pitches between them as one stretch: `19 × 96 = 1824`."""
    if not places:
        return []
    first, last = places[0], places[-1]
    between = f"{len(places) - 1} × {ruler.text(pitch)} = {ruler.text(last - first)}"
    ends = (
        (Fraction(0), first, ruler.text(first)),
        (first, last, between),
        (last, whole, ruler.text(whole - last)),
    )
    return [Stretch(float(low) * scale, float(high) * scale, text) for low, high, text in ends if high > low]


def facts(grid: TopGrid, ruler: Ruler) -> list[str]:
    """Notes below the drawing."""
    lines = [f"{ruler.size(grid.length, grid.width)}, {ruler.text(grid.thickness)} thick. {ruler.note}"]
    if grid.pitch:
        pitch = ruler.text(grid.pitch)
        lines[0] += f" {grid.holes} holes {ruler.diameter(grid.diameter)}, pitch {pitch} both ways."
    if grid.edging:
        sides = ", ".join(
            f"{SIDE_WORDS.get(each.side, each.side)} {ruler.text(each.thickness)}" for each in grid.edging
        )
        lines.append(f"This is the board without its edging: {sides}.")
    lines.append("Positions are centres, measured from the left and the front edge.")
    for name, omitted in (("Columns", grid.omitted_columns), ("Rows", grid.omitted_rows)):
        if omitted:
            where = ", ".join(ruler.text(place) for place in omitted)
            lines.append(f"{name} without holes, over a bar: {where}.")
    return [*lines, *feature_notes(grid, ruler)]
