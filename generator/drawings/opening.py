"""One bay's opening as seen by who opens it: what it holds, and every height from the base rail's top."""

from __future__ import annotations

from fractions import Fraction

from generator.bench.fillings.facts import FillingPicture, Seen
from generator.drawings.canvas import Canvas, Drawing
from generator.drawings.dimensions import Row, Ruler, Stretch, Tick, chain, overall, running
from generator.drawings.extent import Extent
from generator.drawings.letter_sizes import SMALL_TEXT, TEXT, line_height, text_width
from generator.drawings.lettering import MARGIN, PAGE_WIDTH, fitting, notes
from generator.drawings.shapes import Text
from generator.drawings.slim import SLIM, SLIM_WIDTH
from generator.figures.model import Figures
from generator.figures.rows.layout import Bay
from generator.geometry import Span
from generator.names import slug

OPENING_SIZE = 130.0
"""Largest side of an opening on the paper, in mm."""
SLIM_OPENING = 32.0
"""Its least size on a phone (mm): the names of heights need the other half."""
BREAK = 8.0
"""How far posts are drawn beyond the opening, in mm of paper."""


class OpeningView:
    """The opening on the paper: its lower left corner, on the base rail's top, at (0, 0)."""

    def __init__(self, figures: Figures, bay: Bay, size: float) -> None:
        self.figures, self.bay = figures, bay
        self.scale = size / float(max(bay.clear, bay.height))
        self.width, self.height = float(bay.clear) * self.scale, float(bay.height) * self.scale
        self.section = float(figures.layout.section) * self.scale
        self.pictures = [each for each in figures.fillings.pictures if each.bay == bay.name]

    def y(self, height: Fraction) -> float:
        """The paper's y of a height above the frame's underside."""
        return -float(height - self.bay.bottom) * self.scale

    def centred(self, width: Fraction, z: Span) -> Extent:
        """A rectangle in the middle of the opening, between two heights."""
        half, middle = float(width) * self.scale / 2, self.width / 2
        return Extent(middle - half, self.y(z.high), middle + half, self.y(z.low))


def draw_opening(figures: Figures, bay_name: str, ruler: Ruler) -> Drawing:
    """The opening of the bay of that name; KeyError when there is none."""
    bay = {bay.name: bay for bay in figures.layout.bays}[bay_name]
    return fitting(lambda size: opening_drawing(OpeningView(figures, bay, size), ruler), OPENING_SIZE)


def draw_slim_opening(figures: Figures, bay_name: str, ruler: Ruler) -> Drawing:
    """The same for a phone; KeyError when there is no such bay."""
    bay = {bay.name: bay for bay in figures.layout.bays}[bay_name]
    return fitting(
        lambda size: opening_drawing(OpeningView(figures, bay, size), ruler, SLIM_WIDTH),
        SLIM, SLIM_WIDTH - 1.0, least=SLIM_OPENING,
    )  # fmt: skip


def opening_drawing(view: OpeningView, ruler: Ruler, width: float = PAGE_WIDTH) -> Drawing:
    """The opening as large as the view shows it; its notes are no wider than `width`."""
    canvas, bay = Canvas(), view.bay
    draw_frame(canvas, view)
    labels = [Tick(view.y(bay.bottom + bay.height), ruler.text(bay.height), "opening top")]
    for picture in view.pictures:
        labels += draw_picture(canvas, view, picture, ruler)
    edge = view.width + view.section
    letters = SMALL_TEXT if width < PAGE_WIDTH else TEXT
    running(canvas, Row("y", edge + 7.0, 1), 0.0, labels, edge, zero_note=datum(bay), height=letters)
    faces = [each.face for each in view.pictures if each.face]
    fronts = [Stretch(view.y(z.high), view.y(z.low), ruler.text(z.size)) for _, z in reversed(faces)]
    if fronts:
        chain(canvas, Row("y", -view.section - 6.0, -1), fronts, 0.0, letters)
    below = Row("x", view.section + BREAK + 6.0, 1)
    overall(canvas, below, 0.0, view.width, ruler.text(bay.clear), foot=BREAK)
    if faces:
        wide = faces[0][0]
        front = view.centred(wide, Span(bay.bottom, bay.bottom))
        overall(canvas, below.next(), front.left, front.right, ruler.text(wide))
    right = canvas.extents().left + width - 2 * MARGIN
    notes(
        canvas, (-view.section, canvas.extents().bottom + 8.0), f"Bay {bay.name}", facts(view, ruler), right
    )
    title = f"Opening of bay {bay.name}, {ruler.size(bay.clear, bay.height)}"
    slim = "-slim" if width < PAGE_WIDTH else ""
    return canvas.finish(f"opening-{slug(bay.name)}{slim}", title, describe(view, ruler))


def datum(bay: Bay) -> str:
    """What heights in the bay are measured from."""
    return "floor" if bay.knee else "base rail top"


def draw_frame(canvas: Canvas, view: OpeningView) -> None:
    """Both posts, the base rail and the tray that bound the opening."""
    layout = view.figures.layout
    above = float(layout.frame_height - view.bay.bottom - view.bay.height) * view.scale
    top, bottom = -view.height - min(above, 22.0), view.section + BREAK / 2
    if view.bay.knee:
        bottom = view.y(Fraction(0))
        canvas.line((-view.section, 0.0), (view.width + view.section, 0.0), "outline")
    else:
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


def draw_picture(canvas: Canvas, view: OpeningView, picture: FillingPicture, ruler: Ruler) -> list[Tick]:
    """What fills the bay at its heights, with its axis as a centre line, and its name."""
    drawn = [draw_seen(canvas, view, each) for each in picture.shapes]
    if picture.axis is not None:
        at = view.y(picture.axis)
        canvas.line((-2.0, at), (view.width + 2.0, at), "centre")
    if picture.room is None and picture.name:
        place = (view.width / 2, drawn[0].top - 1.5)
        canvas.text(place, picture.name, SMALL_TEXT, "middle", style="note")
    elif picture.room is not None:
        room = drawn[picture.room]
        if picture.beside is not None:
            room = left_of(room, drawn[picture.beside], text_width(picture.name, SMALL_TEXT))
        name(canvas, room, room.top if picture.axis is None else view.y(picture.axis), picture.name)
    return [height_label(view, height, what, ruler) for height, what in picture.heights]


def left_of(room: Extent, other: Extent, wide: float) -> Extent:
    """The part of a room left of another shape, if a text so wide fits there, else below it."""
    if other.left - room.left > wide:
        return Extent(room.left, room.top, other.left, room.bottom)
    return Extent(room.left, other.bottom, room.right, room.bottom)


def draw_seen(canvas: Canvas, view: OpeningView, seen: Seen) -> Extent:
    """One rectangle of it, in the middle or at both walls."""
    room = view.centred(seen.width, seen.z)
    if seen.walls:
        for x in (0.0, view.width - room.width):
            canvas.rect(x, room.top, room.width, room.height, seen.style)
    elif seen.tapers:
        taper = room.width * 0.03
        foot = ((room.right - taper, room.bottom), (room.left + taper, room.bottom))
        canvas.polygon(((room.left, room.top), (room.right, room.top), *foot), seen.style)
    else:
        left = room.left + float(seen.aside) * view.scale
        canvas.rect(left, room.top, room.width, room.height, seen.style)
    return room


def name(canvas: Canvas, room: Extent, avoid: float, text: str) -> None:
    """A name in the middle of `room`, on the wider side of the line at y = `avoid`, if it fits."""
    above, below = avoid - room.top, room.bottom - avoid
    middle = (room.top + avoid) / 2 if above >= below else (avoid + room.bottom) / 2
    for height in (TEXT, SMALL_TEXT):
        written = Text(
            ((room.left + room.right) / 2, middle + height / 2), text, height, "middle", style="note"
        )
        if max(above, below) >= line_height(height) and text_width(text, height) < room.width:
            canvas.text_if_free(written)
            return


def facts(view: OpeningView, ruler: Ruler) -> list[str]:
    """Notes below the drawing."""
    lines = [f"Opening {ruler.size(view.bay.clear, view.bay.height)}. {ruler.note}"]
    lines.append(f"Heights are from the {'floor' if view.bay.knee else 'top of the base rail'}.")
    lines += dict.fromkeys(each.note for each in view.pictures if each.note)
    return lines


def describe(view: OpeningView, ruler: Ruler) -> str:
    """The drawing in words."""
    base, text = view.bay.bottom, facts(view, ruler)
    for each in view.pictures:
        text.append(each.told.format(*(ruler.text(height - base) for height in each.tells)))
    return " ".join(text)
