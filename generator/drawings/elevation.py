"""The whole bench from the front, the right and above: only what is seen, with the layout's sizes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.bench.fillings.facts import Thing
from generator.drawings.canvas import Canvas, Drawing
from generator.drawings.dimensions import Row, Ruler, Stretch, Tick, chain, overall, running
from generator.drawings.extent import Extent
from generator.drawings.letter_sizes import SMALL_TEXT, text_width
from generator.drawings.lettering import LYING_HEIGHT, LYING_WIDTH, MARGIN, notes
from generator.drawings.shapes import Rect, Text
from generator.drawings.stands import draw_stands
from generator.figures.model import Figures
from generator.figures.rows.parts import PartRow

SHEET_WIDTH, SHEET_HEIGHT = 205.0, 110.0
"""Largest size of the bench on the paper, in mm; all three views share one scale."""
FLOOR_REACH = 8.0
"""How far the floor is drawn beyond the bench, in mm of paper."""
NO_LINKS: Mapping[str, str] = {}

STYLES = {"profile": "fill-bar", "angle": "fill-bar", "sheet": "fill-wood", "strip": "fill-wood"}


@dataclass(frozen=True)
class DrawnBox:
    """A box to draw, in mm of the frame. `along` is a bar's axis; only parts carry a `mark`."""

    low: tuple[float, float, float]
    high: tuple[float, float, float]
    style: str
    mark: str = ""
    part: str = ""
    along: str = ""


@dataclass(frozen=True)
class View:
    """Which axes point to the right and up on the paper, and from which end of the third one looks."""

    name: str
    right: int
    up: int
    depth: int
    from_high: bool

    def nearness(self, solid: DrawnBox) -> float:
        """How near the solid's nearest face is to the eye (mm)."""
        return solid.high[self.depth] if self.from_high else -solid.low[self.depth]

    def extent(self, solid: DrawnBox, scale: float) -> Extent:
        """The solid's face on the paper."""
        return Extent(
            solid.low[self.right] * scale,
            -solid.high[self.up] * scale,
            solid.high[self.right] * scale,
            -solid.low[self.up] * scale,
        )


FRONT = View("front", 0, 2, 1, from_high=False)
SIDE = View("right side", 1, 2, 0, from_high=True)
PLAN = View("plan", 0, 1, 2, from_high=True)


def draw_views(figures: Figures, ruler: Ruler, links: Mapping[str, str] = NO_LINKS) -> tuple[Drawing, ...]:
    """The bench from the front, from the right, from above, as large as a page on its side holds all three.

    `links` lead from a part's mark to its sheet.
    """
    scale = paper_scale(figures, ruler)
    drawn = (draw_front, draw_side, draw_plan)
    views = tuple(draw(figures, ruler, links, scale) for draw in drawn)
    while (excess := max(view.height for view in views) - LYING_HEIGHT) > 0:
        # a part that is far above the frame, which is a finding, makes the first step too long
        scale -= min(scale / 2, (excess + 1.0) / float(max(figures.layout.height, figures.layout.depth)))
        views = tuple(draw(figures, ruler, links, scale) for draw in drawn)
    return views


def draw_front(figures: Figures, ruler: Ruler, links: Mapping[str, str], scale: float) -> Drawing:
    """The bench from the front."""
    canvas = Canvas()
    paint(canvas, figures, FRONT, scale, links)
    floor = draw_floor(canvas, figures, scale, figures.layout.length)
    dimension_heights(canvas, figures, ruler, scale, figures.layout.length)
    zone = figures.layout.zones[0].name
    dimension_posts(canvas, figures, ruler, scale, zone, Row("x", floor + 8.0, 1), floor)
    return finish(canvas, figures, ruler, "Front view", "elevation-front")


def draw_side(figures: Figures, ruler: Ruler, links: Mapping[str, str], scale: float) -> Drawing:
    """The bench from the right, its front to the left."""
    canvas = Canvas()
    paint(canvas, figures, SIDE, scale, links)
    floor = draw_floor(canvas, figures, scale, figures.layout.depth)
    dimension_heights(canvas, figures, ruler, scale, figures.layout.depth)
    dimension_depth(canvas, figures, ruler, scale, Row("x", floor + 8.0, 1), floor)
    return finish(canvas, figures, ruler, "Side view, from the right", "elevation-side")


def draw_plan(figures: Figures, ruler: Ruler, links: Mapping[str, str], scale: float) -> Drawing:
    """The bench from above with its top taken off, front edge below."""
    canvas = Canvas()
    paint(canvas, figures, PLAN, scale, links)
    layout = figures.layout
    rear = -float(layout.depth) * scale
    dimension_posts(canvas, figures, ruler, scale, layout.zones[0].name, Row("x", 8.0, 1), 0.0)
    if len(layout.zones) > 1:
        back = Row("x", rear - 8.0, -1)
        dimension_posts(canvas, figures, ruler, scale, layout.zones[-1].name, back, rear)
    dimension_plan_depth(canvas, figures, ruler, scale)
    return finish(canvas, figures, ruler, "Plan, top taken off", "elevation-plan")


def finish(
    canvas: Canvas, figures: Figures, ruler: Ruler, title: str, id: str, right: float | None = None
) -> Drawing:
    """The drawing with its title and the bench's outer sizes, in lines that end before `right`."""
    layout = figures.layout
    size = (
        f"{ruler.text(layout.length)} long, {ruler.text(layout.depth)} deep, {ruler.text(layout.height)} high"
    )
    notes(canvas, (0.0, canvas.extents().bottom + 8.0), title, [f"Bench {size}. {ruler.note}"], right)
    bays = "; ".join(f"bay {bay.name} {ruler.text(bay.width)} wide" for bay in layout.bays)
    return canvas.finish(id, title, f"{title}. Bench {size}. {bays}.")


def paper_scale(figures: Figures, ruler: Ruler) -> float:
    """Paper mm for a bench mm: one scale for all three views, so that the widest fits a page on its side."""
    layout = figures.layout
    beside = Canvas()
    dimension_heights(beside, figures, ruler, SHEET_WIDTH / float(layout.length), Fraction(0))
    room = LYING_WIDTH - 2 * MARGIN - FLOOR_REACH - 0.1 - beside.extents().right
    width = min(SHEET_WIDTH, room)
    return min(width / float(layout.length), SHEET_HEIGHT / float(max(layout.height, layout.depth)))


# --- the solids


def solids(figures: Figures) -> list[DrawnBox]:
    """Every part in its place, and what fills the bays without one."""
    found = [solid for row in figures.parts for solid in part_solids(row)]
    return found + [thing_solid(each) for each in figures.fillings.things]


def thing_solid(thing: Thing) -> DrawnBox:
    """Something bought in a bay."""
    (a, b, c), (x, y, z) = thing.low, thing.high
    return DrawnBox((float(a), float(b), float(c)), (float(x), float(y), float(z)), thing.style)


def part_solids(row: PartRow) -> Iterator[DrawnBox]:
    """The placed pieces of one part."""
    style = row.style or ("fill-dark" if row.metal and row.is_board else STYLES.get(row.kind, "fill-wood"))
    for piece in row.pieces:
        corner, size = piece.shown if all(piece.shown) else (piece.corner, piece.size)
        x, y, z = (float(v) for v in corner)
        a, b, c = (float(v) for v in size)
        along = row.along if row.is_bar and row.metal else ""
        yield DrawnBox((x, y, z), (x + a, y + b, z + c), style, piece.mark, row.mark, along)


# --- painting


def paint(canvas: Canvas, figures: Figures, view: View, scale: float, links: Mapping[str, str]) -> None:
    """All solids that are seen at least in part, the farthest first; then the marks of the larger ones."""
    them = [s for s in solids(figures) if not (view is PLAN and is_top(figures, s))]
    # Where faces are flush, the panel is notched round the bar.
    them.sort(key=lambda s: (-view.nearness(s), not s.along, s.low, s.high, s.mark))
    shown: list[tuple[DrawnBox, Extent, list[Extent]]] = []
    nearer: list[Extent] = []
    for solid in them:
        extent = view.extent(solid, scale)
        seen = remainder(extent, nearer)
        if seen:
            shown.append((solid, extent, seen))
        nearer.append(extent)
    if view is not PLAN:
        draw_stands(canvas, figures, view.right, scale)
    slot = float(figures.fits[0].groove) if figures.fits else float(figures.layout.section) / 5
    for solid, extent, _ in reversed(shown):
        canvas.rect(extent.left, extent.top, extent.width, extent.height, solid.style)
        if solid.along:
            draw_slot(canvas, solid, extent, view, slot * scale / 2)
    for solid, _, seen in shown:
        if solid.mark:
            write_mark(canvas, solid, seen, links.get(solid.mark, links.get(solid.part, "")))


def is_top(figures: Figures, solid: DrawnBox) -> bool:
    """True for what is above the frame."""
    return solid.low[2] >= float(figures.layout.frame_height)


def remainder(extent: Extent, nearer: Sequence[Extent]) -> list[Extent]:
    """What is left to see of a rectangle behind nearer ones, as rectangles."""
    pieces = [extent]
    for cover in filter(extent.overlaps, nearer):
        pieces = [rest for piece in pieces for rest in without(piece, cover)]
    return pieces


def without(piece: Extent, cover: Extent) -> Iterator[Extent]:
    """A rectangle less another: up to four rectangles."""
    if not piece.overlaps(cover):
        yield piece
        return
    top, bottom = max(piece.top, cover.top), min(piece.bottom, cover.bottom)
    parts = (
        Extent(piece.left, piece.top, piece.right, top),
        Extent(piece.left, bottom, piece.right, piece.bottom),
        Extent(piece.left, top, cover.left, bottom),
        Extent(cover.right, top, piece.right, bottom),
    )
    yield from (part for part in parts if part.width > 0.01 and part.height > 0.01)


def draw_slot(canvas: Canvas, solid: DrawnBox, extent: Extent, view: View, half: float) -> None:
    """The slot as two thin lines along a bar; the bore of a bar that points at the reader."""
    axis = "xyz".index(solid.along)
    x, y = extent.centre
    if axis == view.depth:
        canvas.circle((x, y), half * 0.85, "thin")
    for shift in (-half, half):
        if axis == view.right:
            canvas.line((extent.left, y + shift), (extent.right, y + shift), "thin")
        elif axis == view.up:
            canvas.line((x + shift, extent.top), (x + shift, extent.bottom), "thin")


def write_mark(canvas: Canvas, solid: DrawnBox, seen: Sequence[Extent], link: str) -> None:
    """A part's mark on the largest piece that is seen of it, if it fits there, on a patch of paper."""
    piece = max(seen, key=lambda extent: (extent.width * extent.height, -extent.left, extent.top))
    long = text_width(solid.mark, SMALL_TEXT) * 1.12
    upward = piece.width < long + 1.0
    if max(piece.width, piece.height) < long + 1.0 or min(piece.width, piece.height) < SMALL_TEXT + 0.3:
        return
    x, y = piece.centre
    at = (x + SMALL_TEXT / 2, y) if upward else (x, y + SMALL_TEXT / 2)
    text = Text(at, solid.mark, SMALL_TEXT, "middle", upward, "mark", link)
    patch = text.extent()
    if canvas.text_if_free(text, piece.grown(0.5)):
        back = Rect((patch.left, patch.top), patch.width, patch.height, "paper")
        canvas.add_below_last(back)


# --- sizes


def draw_floor(canvas: Canvas, figures: Figures, scale: float, reach: Fraction) -> float:
    """The floor's line; returns its y on the paper."""
    floor = float(figures.layout.floor_to_frame) * scale
    canvas.line((-FLOOR_REACH, floor), (float(reach) * scale + FLOOR_REACH, floor), "ground")
    return floor


def heights(figures: Figures) -> list[tuple[Fraction, str]]:
    """The levels above the floor."""
    layout = figures.layout
    base = layout.floor_to_frame
    levels = [
        (base, "frame underside"),
        (base + layout.section, "base rail top"),
        (base + layout.frame_height - layout.section, "top rail underside"),
        (base + layout.frame_height, "top rail top"),
        (layout.height, "work surface"),
    ]
    for piece in (p for row in figures.parts if row.group == "tray" for p in row.pieces[:1]):
        low = base + piece.corner[2]
        levels += [(low, "tray underside"), (low + piece.size[2], "tray top")]
    return sorted(set(levels))


def dimension_heights(canvas: Canvas, figures: Figures, ruler: Ruler, scale: float, reach: Fraction) -> None:
    """Absolute heights from the floor, at the right."""
    edge, base = float(reach) * scale, figures.layout.floor_to_frame
    labels = [Tick(-float(level - base) * scale, ruler.text(level), what) for level, what in heights(figures)]
    datum = float(base) * scale
    running(canvas, Row("y", edge + 10.0, 1), datum, labels, edge, zero_note="floor")


def dimension_row(
    canvas: Canvas,
    row: Row,
    edges: Sequence[Fraction],
    bays: Sequence[Stretch],
    ruler: Ruler,
    scale: float,
    foot: float,
) -> None:
    """Clear widths, then the overall size, then every edge from the datum, one row outside the other.

    Rows above the bench leave the overall size to those below.
    """
    place = row.next(chain(canvas, row, bays, foot) + 4.0)
    start = place.at
    if row.outward == 1:
        overall(canvas, place, 0.0, float(edges[-1]) * scale, ruler.text(edges[-1]), foot)
        place = place.next(6.0)
    labels = [Tick(float(edge) * scale, ruler.text(edge)) for edge in edges]
    running(canvas, place, 0.0, labels, start)


def dimension_posts(
    canvas: Canvas, figures: Figures, ruler: Ruler, scale: float, zone: str, row: Row, foot: float
) -> None:
    """Bays and posts of one zone along the bench."""
    layout = figures.layout
    posts = layout.post_edges.get(zone, ())
    edges = sorted(
        {edge + part for edge in posts for part in (Fraction(0), layout.section)} | {layout.length}
    )
    bays = [
        Stretch(float(b.left) * scale, float(b.left + b.width) * scale, f"{b.name}: {ruler.text(b.width)}")
        for b in layout.bays
        if b.zone == zone
    ]
    dimension_row(canvas, row, [edge for edge in edges if edge], bays, ruler, scale, foot)


def zone_edges(figures: Figures) -> list[Fraction]:
    """Front and rear of every zone's clear space, and the bench's back, from its front."""
    zones = figures.layout.zones
    edges = {edge for zone in zones for edge in (zone.front_edge, zone.front_edge + zone.depth)}
    return sorted(edges | {figures.layout.depth})


def dimension_depth(
    canvas: Canvas, figures: Figures, ruler: Ruler, scale: float, row: Row, foot: float
) -> None:
    """Zones and posts from the front."""
    clear = [
        Stretch(
            float(zone.front_edge) * scale,
            float(zone.front_edge + zone.depth) * scale,
            f"{zone.name}: {ruler.text(zone.depth)}",
        )
        for zone in figures.layout.zones
    ]
    dimension_row(canvas, row, zone_edges(figures), clear, ruler, scale, foot)


def dimension_plan_depth(canvas: Canvas, figures: Figures, ruler: Ruler, scale: float) -> None:
    """The same at the right of the plan, upward from the front."""
    edge = float(figures.layout.length) * scale
    labels = [Tick(-float(place) * scale, ruler.text(place)) for place in zone_edges(figures)]
    running(canvas, Row("y", edge + 8.0, 1), 0.0, labels, edge, zero_note="front")
