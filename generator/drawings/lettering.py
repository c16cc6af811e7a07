"""Lettering in lines: text broken between words, cut short, set below a heading; and drawings that fit their page."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import lru_cache
from itertools import chain
from math import inf
from typing import Protocol, TypeVar

from generator.drawings.canvas import Canvas
from generator.drawings.extent import Point
from generator.drawings.letter_sizes import BOLD, SMALL_TEXT, TEXT, line_height, text_width
from generator.readings import has_two, other_reading, own_reading, two_readings, words_of

PAGE_WIDTH = 180.0
"""What a page of A4 or Letter holds between its margins, in mm: a drawing no wider prints at its own size."""
LYING_WIDTH = 249.0
LYING_HEIGHT = 187.0
"""The same for a page that lies on its long side: what Letter and A4 both hold."""
MARGIN = 4.0
"""Clear paper around a drawing in a page, in mm."""

STEP, LEAST = 2.0, 60.0
"""By how much at least a drawing is drawn smaller until it fits, and where that ends, in mm."""


class Sized(Protocol):
    """What has a size on paper (mm)."""

    @property
    def width(self) -> float:
        """Breadth."""

    @property
    def height(self) -> float:
        """Height."""


Fitted = TypeVar("Fitted", bound=Sized)


def fitting(
    draw: Callable[[float], Fitted],
    largest: float,
    width: float = PAGE_WIDTH,
    height: float = inf,
    least: float = LEAST,
) -> Fitted:
    """The drawing whose part is as large as the page allows: `draw` takes the part's size. Lettering keeps its own."""
    size, drawing = largest, draw(largest)
    while size > least and (drawing.width > width or drawing.height > height):
        excess = max(drawing.width - width, (drawing.height - height) / 2)
        size = max(least, size - max(STEP, excess))
        drawing = draw(size)
    return drawing


def shortened(text: str, width: float, height: float) -> str:
    """The text, cut short with an ellipsis where it is wider than `width` mm."""
    if text_width(text, height) <= width:
        return text
    if has_two(text):
        readings = (own_reading(text), other_reading(text))
        return two_readings(*(shortened(reading, width, height) for reading in readings))
    while text and text_width(text + "…", height) > width:
        text = text[:-1]
    return text.rstrip() + "…"


def wrapped(text: str, width: float, height: float) -> list[str]:
    """The text in lines of at most `width` mm, broken between words; a word that is too long is cut.

    A length stays on one line where it fits.
    """
    return list(_lines(text, width, height))


@lru_cache(maxsize=8192)
def _lines(text: str, width: float, height: float) -> tuple[str, ...]:
    """Kept: most lines are laid out on several sheets, or in several sizes until they fit."""
    lines: list[str] = []
    fits = (
        [word] if text_width(word, height) <= width else _parts(word, width, height)
        for word in words_of(text)
    )
    for word in chain.from_iterable(fits):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(longer, height) <= width:
            lines[-1] = longer
        else:
            lines.append(shortened(word, width, height))
    return tuple(lines)


def _parts(words: str, width: float, height: float) -> list[str]:
    """What does not fit a line as one: its lengths, and of those that are too long the words."""
    found = words_of(words, lengths_only=True)
    return [
        part
        for word in found
        for part in ([word] if has_two(word) or text_width(word, height) <= width else word.split())
    ]


def notes(canvas: Canvas, at: Point, heading: str, lines: Sequence[str], right: float | None = None) -> None:
    """A heading and lines of small text below it, from the left edge and the heading's base line at `at`.

    Lines break before `right`, by default where the page ends for what is drawn so far.
    """
    left, y = at
    if right is None:
        right = min(left, canvas.extents().left) + PAGE_WIDTH - 2 * MARGIN
    room = right - left
    for number, line in enumerate(wrapped(heading, room / BOLD, TEXT)):
        y += line_height(TEXT) * 1.05 * min(number, 1)
        canvas.text((left, y), line, TEXT, style="mark")
    y += 1.0
    for line in lines:
        for part in wrapped(line, room, SMALL_TEXT):
            y += line_height(SMALL_TEXT) * 1.25
            canvas.text((left, y), part, SMALL_TEXT, style="note")
