"""Labels to cut out and stick on parts: no higher than the part's face, with arrows that say how it lies there."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from generator.drawings.canvas import Canvas
from generator.drawings.extent import Extent, Point
from generator.drawings.letter_sizes import BOLD, LARGE_TEXT, SMALL_TEXT, TEXT, line_height, text_width
from generator.drawings.lettering import shortened, wrapped

LABEL_WIDTH = 58.0
"""Width of a label in mm: three fit side by side on A4 and on Letter."""
HEIGHTS = (34.0, 24.0, 14.0)
"""Heights of labels, the highest first; the least one holds a mark of its size."""
MARK_TEXT, LOW_MARK_TEXT, LOW_INSET = 7.0, 5.0, 1.5
"""Heights of the mark, and the lesser inset of the lowest labels."""
SIZE_TEXTS = (LARGE_TEXT, 4.2, TEXT, 3.0, SMALL_TEXT)
"""Heights of a size beside the mark: the first that fits."""
INSET, STRIP = 2.0, 3.6
"""Clear mm at the edges; the width of the strip at the right that the upright arrow takes."""
LINE = line_height(SMALL_TEXT) * 1.06
HEAD = 2.2
"""Length of an arrow's head."""


@dataclass(frozen=True)
class Label:
    """What is on one label, as text: `machining` in ways that get shorter, the first that fits is taken.

    It goes on the `face` of the piece, which is `breadth` mm wide; its arrows point `right` and `up` in the bench.
    """

    mark: str
    size: str
    name: str
    machining: tuple[str, ...]
    goes_to: str
    face: str
    right: str
    up: str
    breadth: float

    @property
    def height(self) -> float:
        """The highest that its face takes (mm); the lowest on whatever is narrower."""
        return next((height for height in HEIGHTS if height <= self.breadth), HEIGHTS[-1])


def label_sheets(labels: Sequence[Label], free: Extent) -> list[Canvas]:
    """The labels in rows from the upper left, those of one height together, the highest first."""
    columns = int(free.width // LABEL_WIDTH)
    left = free.left + (free.width - columns * LABEL_WIDTH) / 2
    sheets, y = [Canvas()], free.top + INSET
    for row in _rows(labels, columns):
        if y + row[0].height > free.bottom:
            sheets.append(Canvas())
            y = free.top + INSET
        for column, label in enumerate(row):
            draw_label(sheets[-1], label, left + column * LABEL_WIDTH, y)
        y += row[0].height
    return sheets


def _rows(labels: Sequence[Label], columns: int) -> Iterator[Sequence[Label]]:
    ordered = sorted(labels, key=lambda label: -label.height)
    for _, group in groupby(ordered, key=lambda label: label.height):
        own = list(group)
        yield from (own[first : first + columns] for first in range(0, len(own), columns))


def draw_label(canvas: Canvas, label: Label, x: float, y: float) -> None:
    """One label with its upper left corner at (x, y)."""
    canvas.rect(x, y, LABEL_WIDTH, label.height, "thin")
    is_low = label.height == HEIGHTS[-1]
    letters, inset = (LOW_MARK_TEXT, LOW_INSET) if is_low else (MARK_TEXT, INSET)
    left, right = x + INSET, x + LABEL_WIDTH - INSET - STRIP
    base, foot = y + inset + letters, y + label.height - inset - 0.6
    canvas.text((left, base), label.mark, letters, style="mark")
    taken = BOLD * text_width(label.mark, letters) + INSET
    _write_size(canvas, label.size, (right, base), right - left - taken)
    tip = right if is_low else right + STRIP
    # a low label has its name behind the place
    goes_to = f"{label.goes_to}, {label.name}" if is_low else label.goes_to
    pointer = Canvas()
    begins = _arrow_right(pointer, label.right, (tip, foot)) - 1.0
    is_above = label.height == HEIGHTS[0] and left + text_width(goes_to, SMALL_TEXT) > begins
    canvas.place(pointer, 0.0, -LINE if is_above else 0.0)
    space = (right if is_above else begins) - left
    style = "mark" if BOLD * text_width(goes_to, SMALL_TEXT) <= space else "text"
    canvas.text((left, foot), shortened(goes_to, space, SMALL_TEXT), SMALL_TEXT, style=style)
    _arrow_up(canvas, label.up, (right + STRIP, y + inset))
    if not is_low:
        _write_lines(canvas, label, (left, right), (base + 1.4, foot - LINE if is_above else foot))


def _write_lines(
    canvas: Canvas, label: Label, sides: tuple[float, float], heights: tuple[float, float]
) -> None:
    """Name and face, and the machining below them, between the sides and between two lines of other text."""
    (left, right), (top, foot) = sides, heights
    face = f"on {label.face}" if label.face else ""
    if text_width(f"{label.name} {face}", SMALL_TEXT) > right - left:
        face = label.face
    canvas.text((right, top + LINE), face, SMALL_TEXT, "end", style="note")
    space = right - left - text_width(face, SMALL_TEXT) - 1.0
    canvas.text((left, top + LINE), shortened(label.name, space, SMALL_TEXT), SMALL_TEXT)
    # a tenth of a line is within the descenders
    lines = int((foot - top) / LINE + 0.1) - 2
    for number, line in enumerate(machining(label, right - left, lines), 2):
        canvas.text((left, top + number * LINE), line, SMALL_TEXT)


def _arrow_right(canvas: Canvas, word: str, tip: Point) -> float:
    """`up ▶` with its tip at the right end of a line; where it begins (mm)."""
    if not word:
        return tip[0]
    x, y = tip[0], tip[1] - SMALL_TEXT / 2
    canvas.polygon(((x, y), (x - HEAD, y - HEAD / 2), (x - HEAD, y + HEAD / 2)), "arrow")
    canvas.text((x - HEAD - 0.8, tip[1]), word, SMALL_TEXT, "end", style="note")
    return x - HEAD - 0.8 - text_width(word, SMALL_TEXT)


def _arrow_up(canvas: Canvas, word: str, tip: Point) -> None:
    """An arrow with its tip at the upper right, its word upright below it."""
    if word:
        x, y = tip[0] - HEAD / 2, tip[1]
        canvas.polygon(((x, y), (x - HEAD / 2, y + HEAD), (x + HEAD / 2, y + HEAD)), "arrow")
        length = text_width(word, SMALL_TEXT)
        canvas.text((tip[0], y + HEAD + 0.8 + length), word, SMALL_TEXT, upward=True, style="note")


def _write_size(canvas: Canvas, size: str, at: Point, space: float) -> None:
    """A size that ends at a point: as large as it fits, in two lines where it does not fit at all."""
    for height in SIZE_TEXTS:
        if BOLD * text_width(size, height) <= space:
            canvas.text(at, size, height, "end", style="mark")
            return
    lines = size_lines(size, space / BOLD, SMALL_TEXT)
    for number, line in enumerate(lines, 1):
        canvas.text((at[0], at[1] - (len(lines) - number) * LINE), line, SMALL_TEXT, "end", style="mark")


def size_lines(size: str, width: float, height: float) -> list[str]:
    """A size as it is written beside the mark: length and width one above the other where they are too wide."""
    if text_width(size, height) <= width:
        return [size]
    length, cross, across = size.partition(" ×")
    return [length + cross, across.strip()] if cross else [size]


def machining(label: Label, width: float, lines: int) -> list[str]:
    """What is machined, in the longest way that fits in so many lines; none where even the shortest does not."""
    ways = (wrapped(text, width, SMALL_TEXT) for text in label.machining)
    return next((found for found in ways if len(found) <= lines), [])
