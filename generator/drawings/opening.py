"""One bay's opening as seen by who opens it: what it holds, and every height from the base rail's top."""

from __future__ import annotations

from fractions import Fraction

from generator.drawings.canvas import Canvas, Drawing
from generator.drawings.dimensions import Row, Ruler, Stretch, Tick, chain, overall, running
from generator.drawings.extent import Extent
from generator.drawings.letter_sizes import SMALL_TEXT, TEXT, line_height, text_width
from generator.drawings.lettering import fitting, notes
from generator.drawings.shapes import Text
from generator.figures.model import Figures
from generator.figures.rows.layout import Bay
from generator.figures.rows.storage import Drawer, Shelf, Tote
from generator.names import slug

OPENING_SIZE = 130.0
"""Largest side of an opening on the paper, in mm."""
BREAK = 8.0
"""How far posts are drawn beyond the opening, in mm of paper."""


class OpeningView:
    """The opening on the paper: its lower left corner, on the base rail's top, at (0, 0)."""

    def __init__(self, figures: Figures, bay: Bay, size: float) -> None:
        self.figures, self.bay = figures, bay
        self.scale = size / float(max(bay.clear, bay.height))
        self.width, self.height = float(bay.clear) * self.scale, float(bay.height) * self.scale
        self.section = float(figures.layout.section) * self.scale
        self.drawers = [drawer for drawer in figures.drawers if drawer.bay == bay.name]
        self.totes = [tote for tote in figures.totes if tote.bay == bay.name]
        self.shelves = [shelf for shelf in figures.shelves if shelf.bay == bay.name]

    def y(self, height: Fraction) -> float:
        """The paper's y of a height above the frame's underside."""
        return -float(height - self.bay.bottom) * self.scale

    def centred(self, width: Fraction, low: Fraction, high: Fraction) -> Extent:
        """A rectangle in the middle of the opening, between two heights."""
        half, middle = float(width) * self.scale / 2, self.width / 2
        return Extent(middle - half, self.y(high), middle + half, self.y(low))


def draw_opening(figures: Figures, bay_name: str, ruler: Ruler) -> Drawing:
    """The opening of the bay of that name; KeyError when there is none."""
    bay = {bay.name: bay for bay in figures.layout.bays}[bay_name]
    return fitting(lambda size: opening_drawing(OpeningView(figures, bay, size), ruler), OPENING_SIZE)


def opening_drawing(view: OpeningView, ruler: Ruler) -> Drawing:
    """The opening as large as the view shows it."""
    canvas, bay = Canvas(), view.bay
    draw_frame(canvas, view)
    labels = [Tick(view.y(bay.bottom + bay.height), ruler.text(bay.height), "opening top")]
    for drawer in view.drawers:
        labels += draw_drawer(canvas, view, drawer, ruler)
    for tote in view.totes:
        labels += draw_tote(canvas, view, tote, ruler)
    for shelf in view.shelves:
        labels += draw_shelf(canvas, view, shelf, ruler)
    edge = view.width + view.section
    running(canvas, Row("y", edge + 7.0, 1), 0.0, labels, edge, zero_note="base rail top")
    fronts = [
        Stretch(view.y(d.front_bottom + d.front_height), view.y(d.front_bottom), ruler.text(d.front_height))
        for d in reversed(view.drawers)
    ]
    if fronts:
        chain(canvas, Row("y", -view.section - 6.0, -1), fronts, 0.0)
    below = Row("x", view.section + BREAK + 6.0, 1)
    overall(canvas, below, 0.0, view.width, ruler.text(bay.clear), foot=BREAK)
    if view.drawers:
        front = view.centred(view.drawers[0].front_width, bay.bottom, bay.bottom)
        overall(canvas, below.next(), front.left, front.right, ruler.text(view.drawers[0].front_width))
    notes(canvas, (-view.section, canvas.extents().bottom + 8.0), f"Bay {bay.name}", facts(view, ruler))
    title = f"Opening of bay {bay.name}, {ruler.size(bay.clear, bay.height)}"
    return canvas.finish(f"opening-{slug(bay.name)}", title, describe(view, ruler))


def draw_frame(canvas: Canvas, view: OpeningView) -> None:
    """Both posts, the base rail and the tray that bound the opening."""
    layout = view.figures.layout
    above = float(layout.frame_height - view.bay.bottom - view.bay.height) * view.scale
    top, bottom = -view.height - min(above, 22.0), view.section + BREAK / 2
    canvas.rect(-view.section / 2, 0.0, view.width + view.section, view.section, "fill-bar")
    for tray in (part for part in view.figures.parts if part.group == "tray"):
        for piece in tray.pieces:
            low, high = view.y(piece.corner[2]), view.y(piece.corner[2] + piece.size[2])
            canvas.rect(-view.section / 2, high, view.width + view.section, low - high, "fill-wood")
    for x in (-view.section, view.width):
        canvas.rect(x, top, view.section, bottom - top, "fill-bar")
        for share in (0.4, 0.6):
            canvas.line((x + view.section * share, top), (x + view.section * share, bottom), "thin")


def height_label(view: OpeningView, height: Fraction, what: str, ruler: Ruler) -> Tick:
    """A height above the frame's underside, written from the base rail's top."""
    return Tick(view.y(height), ruler.text(height - view.bay.bottom), what)


def draw_drawer(canvas: Canvas, view: OpeningView, drawer: Drawer, ruler: Ruler) -> list[Tick]:
    """The front in outline, the box behind it dashed, the slide's axis as a centre line."""
    front = view.centred(drawer.front_width, drawer.front_bottom, drawer.front_bottom + drawer.front_height)
    box = view.centred(drawer.box_width, drawer.box_bottom, drawer.box_bottom + drawer.box_height)
    canvas.rect(front.left, front.top, front.width, front.height, "fill-front")
    canvas.rect(box.left, box.top, box.width, box.height, "hidden")
    axis = view.y(drawer.slide_axis)
    canvas.line((-2.0, axis), (view.width + 2.0, axis), "centre")
    name(canvas, view, box, axis, f"Drawer {drawer.number}")
    top = drawer.front_bottom + drawer.front_height
    n = drawer.number
    return [
        height_label(view, drawer.front_bottom, f"front {n} bottom", ruler),
        height_label(view, drawer.slide_axis, f"slide {n} axis", ruler),
        height_label(view, top, f"front {n} top", ruler),
    ]


def name(canvas: Canvas, view: OpeningView, room: Extent, avoid: float, text: str) -> None:
    """A name in the middle of `room`, on the wider side of the line at y = `avoid`, if it fits."""
    above, below = avoid - room.top, room.bottom - avoid
    middle = (room.top + avoid) / 2 if above >= below else (avoid + room.bottom) / 2
    for height in (TEXT, SMALL_TEXT):
        written = Text((view.width / 2, middle + height / 2), text, height, "middle", style="note")
        if max(above, below) >= line_height(height) and text_width(text, height) < room.width:
            canvas.text_if_free(written)
            return


def draw_tote(canvas: Canvas, view: OpeningView, tote: Tote, ruler: Ruler) -> list[Tick]:
    """Both runners, and the tote hanging by its rim between them."""
    offset = view.figures.fits[0].offset if view.figures.fits else Fraction(0)
    runner = next((part for part in view.figures.parts if part.group == "tote runner"), None)
    thickness = runner.thickness if runner else (tote.top - tote.runner_top) * 2
    shown = tote.runner_width - offset
    for x in (0.0, view.width - float(shown) * view.scale):
        canvas.rect(
            x, view.y(tote.runner_top), float(shown) * view.scale, float(thickness) * view.scale, "fill-wood"
        )
    gap = view.bay.clear - 2 * shown
    body = view.centred(gap - 6, tote.bottom, tote.runner_top)
    rim = view.centred(gap + shown, tote.runner_top, tote.top)
    taper = body.width * 0.03
    canvas.polygon(
        (
            (body.left, body.top),
            (body.right, body.top),
            (body.right - taper, body.bottom),
            (body.left + taper, body.bottom),
        ),
        "fill-tote",
    )
    canvas.rect(rim.left, rim.top, rim.width, rim.height, "fill-tote")
    name(canvas, view, body, body.top, f"Tote {tote.number}")
    return [
        height_label(view, tote.bottom, f"tote {tote.number} bottom", ruler),
        height_label(view, tote.runner_top, f"runner {tote.number} top", ruler),
        height_label(view, tote.top, f"tote {tote.number} top", ruler),
    ]


def draw_shelf(canvas: Canvas, view: OpeningView, shelf: Shelf, ruler: Ruler) -> list[Tick]:
    """The shelf's front edge on its cleats, which are dashed."""
    edge = view.centred(view.bay.clear, shelf.cleat_top, shelf.top)
    canvas.rect(edge.left, edge.top, edge.width, edge.height, "fill-wood")
    cleat = next((part for part in view.figures.parts if part.group == "shelf cleat"), None)
    high = float(cleat.width if cleat else 40) * view.scale
    wide = float(cleat.thickness if cleat else 15) * view.scale
    for x in (0.0, view.width - wide):
        canvas.rect(x, edge.bottom, wide, high, "hidden")
    canvas.text((view.width / 2, edge.top - 1.5), f"Shelf {shelf.number}", SMALL_TEXT, "middle", style="note")
    return [
        height_label(view, shelf.cleat_top, f"cleat {shelf.number} top", ruler),
        height_label(view, shelf.top, f"shelf {shelf.number} top", ruler),
    ]


def facts(view: OpeningView, ruler: Ruler) -> list[str]:
    """Notes below the drawing."""
    lines = [f"Opening {ruler.size(view.bay.clear, view.bay.height)}. {ruler.note}"]
    lines.append("Heights are from the top of the base rail.")
    if view.drawers:
        lines.append("Dashed: drawer boxes. Dash-dot: the slides' axes.")
    return lines


def describe(view: OpeningView, ruler: Ruler) -> str:
    """The drawing in words."""
    base, text = view.bay.bottom, facts(view, ruler)
    for drawer in view.drawers:
        low, high = drawer.front_bottom - base, drawer.front_bottom - base + drawer.front_height
        text.append(
            f"Drawer {drawer.number}: front from {ruler.text(low)} to {ruler.text(high)}, "
            f"slide axis at {ruler.text(drawer.slide_axis - base)}."
        )
    for tote in view.totes:
        text.append(
            f"Tote {tote.number}: from {ruler.text(tote.bottom - base)} to {ruler.text(tote.top - base)}, "
            f"runner top at {ruler.text(tote.runner_top - base)}."
        )
    text += [f"Shelf {shelf.number}: top at {ruler.text(shelf.top - base)}." for shelf in view.shelves]
    return " ".join(text)
