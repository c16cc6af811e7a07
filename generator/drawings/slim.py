"""The slim picture of a step, for a phone: what the wide one has painted already is only shown again."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from string import ascii_lowercase

from generator.drawings.callouts import BETWEEN, MARK_LETTERS, Callout
from generator.drawings.canvas import Canvas, Drawing
from generator.drawings.extent import Extent, Point, around
from generator.drawings.isometric import VisibleFace
from generator.drawings.letter_sizes import BOLD, LARGE_TEXT, SMALL_TEXT, line_height, text_width
from generator.drawings.lettering import MARGIN, wrapped
from generator.drawings.shapes import Again, Polyline, extents

#: Its picture, all of it with the labels, and the picture at least (mm): no letter is then too small to read.
SLIM, SLIM_WIDTH, SLIM_LEAST = 78.0, 118.0, 44.0
#: A name that is wider than this is a letter (mm).
WIDEST_MARK = 21.0
#: The letters of windows, as many as a picture has of them; names that are too long for a phone have the next ones.
LETTERS, NEXT = ascii_lowercase[:3], ascii_lowercase[3:]
#: What the groups of windows are called, before their numbers.
WINDOW = "window-"


def again(wide: Drawing, room: Extent, face: VisibleFace, scale: float) -> Again:
    """What a wide picture has painted first, once more in another scale and room: a page holds it once."""
    first = wide.shapes[0]
    assert isinstance(first, Polyline)
    share = scale * around(face.corners).width / around(first.points).width
    at = (-share * wide.origin[0], -share * wide.origin[1])
    return Again(f"{wide.id}-base", at, share, room)


def window_again(canvas: Canvas, wide: Drawing, number: int, corner: Point) -> None:
    """A round window of the wide picture, its upper left corner at `corner`."""
    for name, _, after in wide.groups:
        if name == f"{WINDOW}{number}":
            room = wide.shapes[after - 1].extent()
            again = Again(f"{wide.id}-{name}", (0.0, 0.0), 1.0, room)
            canvas.add(again.moved(corner[0] - room.left, corner[1] - room.top))


def place_again(canvas: Canvas, wide: Drawing, corner: Point) -> None:
    """The same as in the wide picture, its upper right corner at `corner`; nothing where that has none."""
    for name, first, after in wide.groups:
        if name == "place":
            room = extents(wide.shapes[first:after])
            canvas.add(
                Again(f"{wide.id}-place", (0.0, 0.0), 1.0, room).moved(
                    corner[0] - room.right, corner[1] - room.top
                )
            )


def in_a_list(called: Sequence[Callout]) -> tuple[list[Callout], list[tuple[str, str]]]:
    """Labels that are marks alone, and the mark and words of each for a list below; long names become letters."""
    letters = iter(NEXT)
    short, listed = [], []
    for label in called:
        is_mark = len(label.title) <= MARK_LETTERS and (
            label.link != "" or BOLD * text_width(label.title, LARGE_TEXT) <= WIDEST_MARK
        )
        title = label.title if is_mark else next(letters, label.title)
        name = () if is_mark or title == label.title else (label.title,)
        if words := ", ".join(filter(None, (*name, *label.lines, label.strong))):
            listed.append((title, words))
        short.append(replace(label, title=title, lines=(), brief=(), strong=""))
    return short, listed


def draw_list(canvas: Canvas, listed: Sequence[tuple[str, str]], at: Point) -> float:
    """The words of each mark, one below the other from an upper left corner; where what is below may begin (mm)."""
    if not listed:
        return at[1]
    x, y = at[0], at[1] + SMALL_TEXT
    beside = x + max(BOLD * text_width(title, SMALL_TEXT) for title, _ in listed) + BETWEEN
    room = x + SLIM_WIDTH - 2 * MARGIN - beside
    for title, words in listed:
        canvas.text((x, y), title, SMALL_TEXT, style="mark")
        for line in wrapped(words, room, SMALL_TEXT):
            canvas.text((beside, y), line, SMALL_TEXT)
            y += line_height(SMALL_TEXT) * 1.05
    return y
