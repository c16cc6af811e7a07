"""Cautions on paper: a warning sign, the signal word with what it is about, and what to do."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from generator.drawings.canvas import Canvas
from generator.drawings.extent import Point
from generator.drawings.letter_sizes import BOLD, SMALL_TEXT, line_height
from generator.drawings.lettering import wrapped
from generator.figures.cautions import CAUTIONS

SIDE = 5.0
"""Side of the triangle in mm."""
INDENT = SIDE + 2.0
LINE = line_height(SMALL_TEXT) * 1.06
CLEAR = 1.6
"""Clear mm below a caution."""
ELSEWHERE = "The set-up cards and “Before you start” say what to do."


@dataclass(frozen=True)
class CautionSign:
    """Cautions as lines of lettering beside one sign: `head` is bold."""

    head: tuple[str, ...]
    text: tuple[str, ...]

    @property
    def height(self) -> float:
        """Room that it takes in mm."""
        return max(SIDE, LINE * (len(self.head) + len(self.text))) + CLEAR


def in_words(key: str) -> str:
    """A caution as one run of text."""
    caution = CAUTIONS[key]
    return f"{caution.level.upper()}: {caution.title}. {caution.text}"


def in_full(keys: Sequence[str], width: float) -> list[CautionSign]:
    """Each caution with all that it says, in lines of at most `width` mm."""
    return [
        _lines(f"{CAUTIONS[key].level.upper()}: {CAUTIONS[key].title}", CAUTIONS[key].text, width)
        for key in keys
    ]


def by_name(keys: Sequence[str], width: float) -> list[CautionSign]:
    """All cautions in one by their titles, and where the reader finds what to do."""
    levels = groupby((CAUTIONS[key] for key in keys), key=lambda caution: caution.level.upper())
    heads = [f"{level}: {'; '.join(caution.title for caution in run)}." for level, run in levels]
    return [_lines(" ".join(heads), ELSEWHERE, width)] if heads else []


def _lines(head: str, text: str, width: float) -> CautionSign:
    room = width - INDENT
    return CautionSign(tuple(wrapped(head, room / BOLD, SMALL_TEXT)), tuple(wrapped(text, room, SMALL_TEXT)))


def draw_cautions(canvas: Canvas, at: Point, cautions: Sequence[CautionSign]) -> float:
    """Cautions one below the other from their upper left corner. Returns where the next may begin."""
    x, y = at
    for caution in cautions:
        sign(canvas, (x, y + 0.3))
        base = y
        for style, lines in (("mark", caution.head), ("text", caution.text)):
            for line in lines:
                base += LINE
                canvas.text((x + INDENT, base - 0.34 * SMALL_TEXT), line, SMALL_TEXT, style=style)
        y += caution.height
    return y


def sign(canvas: Canvas, corner: Point) -> None:
    """The general warning sign from its upper left corner, its shape after ISO 7010 W001, black on white."""
    x, y = corner
    middle, tall = x + SIDE / 2, SIDE * 0.866
    canvas.polygon(((x, y + tall), (x + SIDE, y + tall), (middle, y)), "outline")
    canvas.line((middle, y + tall * 0.36), (middle, y + tall * 0.68), "outline")
    canvas.line((middle, y + tall * 0.78), (middle, y + tall * 0.88), "outline")
