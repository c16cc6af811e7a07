"""Labels to cut out and stick on parts: a plain grid of our own sizes, thin lines to cut along."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from generator.drawings.canvas import Canvas
from generator.drawings.extent import Extent
from generator.drawings.letter_sizes import BOLD, LARGE_TEXT, SMALL_TEXT, line_height, text_width
from generator.drawings.lettering import shortened, wrapped

LABEL_WIDTH, LABEL_HEIGHT = 58.0, 34.0
"""Size of a label in mm: three fit side by side on A4 and on Letter."""
MARK_TEXT = 7.0
INSET = 2.0
HOLE_LINES = 3
"""Lines of machining: with places where they fit, else how many of each."""
MORE = " … see its sheet"


@dataclass(frozen=True)
class Label:
    """What is on one label, as text."""

    mark: str
    size: str
    name: str
    holes: str
    goes_to: str
    counted: str = ""
    """Its machining without places."""


def label_sheets(labels: Sequence[Label], free: Extent) -> list[Canvas]:
    """The labels in rows from the upper left."""
    columns = int(free.width // LABEL_WIDTH)
    rows = int((free.height - INSET) // LABEL_HEIGHT)
    left = free.left + (free.width - columns * LABEL_WIDTH) / 2
    sheets = []
    for first in range(0, len(labels), columns * rows):
        canvas = Canvas()
        for number, label in enumerate(labels[first : first + columns * rows]):
            at = (left + number % columns * LABEL_WIDTH, free.top + INSET + number // columns * LABEL_HEIGHT)
            draw_label(canvas, label, *at)
        sheets.append(canvas)
    return sheets


def draw_label(canvas: Canvas, label: Label, x: float, y: float) -> None:
    """One label with its upper left corner at (x, y)."""
    canvas.rect(x, y, LABEL_WIDTH, LABEL_HEIGHT, "thin")
    left, right = x + INSET, x + LABEL_WIDTH - INSET
    canvas.text((left, y + INSET + MARK_TEXT), label.mark, MARK_TEXT, style="mark")
    room = right - left - BOLD * text_width(label.mark, MARK_TEXT) - INSET
    height = LARGE_TEXT if BOLD * text_width(label.size, LARGE_TEXT) <= room else SMALL_TEXT
    step = line_height(SMALL_TEXT) * 1.06
    sizes = size_lines(label.size, room / BOLD, height)
    for number, size in enumerate(sizes, 1):
        above = (len(sizes) - number) * step
        canvas.text((right, y + INSET + MARK_TEXT - above), size, height, "end", style="mark")
    base = y + INSET + MARK_TEXT + step + 1.4
    for line in (shortened(label.name, right - left, SMALL_TEXT), *machining(label, right - left)):
        canvas.text((left, base), line, SMALL_TEXT)
        base += step
    foot = y + LABEL_HEIGHT - INSET - 0.6
    style = "mark" if BOLD * text_width(label.goes_to, SMALL_TEXT) <= right - left else "text"
    canvas.text((left, foot), shortened(label.goes_to, right - left, SMALL_TEXT), SMALL_TEXT, style=style)


def size_lines(size: str, width: float, height: float) -> list[str]:
    """A size as it is written beside the mark: length and width one above the other where they are too wide."""
    if text_width(size, height) <= width:
        return [size]
    length, cross, across = size.partition(" ×")
    return [length + cross, across.strip()] if cross else [size]


def machining(label: Label, width: float) -> list[str]:
    """What is machined: with its places where there is room, else how many of each."""
    fits = len(wrapped(label.holes, width, SMALL_TEXT)) <= HOLE_LINES
    return hole_lines(label.holes if fits or not label.counted else label.counted, width)


def hole_lines(text: str, width: float) -> list[str]:
    """Machining in short, in as many lines as a label has."""
    lines = wrapped(text, width, SMALL_TEXT)
    if len(lines) <= HOLE_LINES:
        return lines
    last = lines[HOLE_LINES - 1]
    while last and text_width(last + MORE, SMALL_TEXT) > width:
        last = last.rpartition(" ")[0]
    return [*lines[: HOLE_LINES - 1], (last.rstrip(",;") + MORE).strip()]
