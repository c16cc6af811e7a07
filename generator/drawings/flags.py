"""Labels of marks along a line: horizontal text on tiers above it, each joined to its mark by a straight leader.

A label is at the right of its mark. Where the paper ends it is at the left, together with all before it
that would be in the way. No text touches a text, no leader runs through one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from generator.drawings.canvas import Canvas
from generator.drawings.letter_sizes import BOLD, CAPITAL, SMALL_TEXT, line_height, text_width
from generator.drawings.lettering import shortened

FIGURE = 16 * 25.4 / 72 * CAPITAL
"""Height in mm of the capitals of letters of 16 points: sizes are read from a stick at arm's length."""
TIER = line_height(FIGURE) + 0.5
"""Height in mm of one tier of labels."""
OFF = 0.8
"""Clear mm between a leader and its text."""
BETWEEN = 1.6
"""Clear mm between a size and its words."""


@dataclass(frozen=True)
class Flag:
    """A mark at `at` mm of the paper, its size and its words; `tier` counts from the line, `side` is -1 at the left."""

    at: float
    size: str
    words: str
    tier: int = 0
    side: int = 1

    @property
    def width(self) -> float:
        """Room of the text in mm, with the gap to its leader."""
        words = BETWEEN + text_width(self.words, SMALL_TEXT) if self.words else 0.0
        return OFF + BOLD * text_width(self.size, FIGURE) + words

    @property
    def span(self) -> tuple[float, float]:
        """Left and right end of the text with its gap."""
        return (self.at, self.at + self.width) if self.side > 0 else (self.at - self.width, self.at)

    def cut_to(self, room: float) -> Flag:
        """The flag with its words shortened to `room` mm."""
        if self.width <= room:
            return self
        left = room - replace(self, words="").width - BETWEEN
        return replace(self, words=shortened(self.words, left, SMALL_TEXT) if left > SMALL_TEXT else "")


def place_flags(flags: Sequence[Flag], low: float, high: float) -> list[Flag]:
    """The flags with their sides and tiers, so that every text is between `low` and `high`."""
    ordered = sorted(flags, key=lambda flag: flag.at)
    first_left = turn_from(ordered, high)
    right = [flag.cut_to(high - flag.at) for flag in ordered[:first_left]]
    left = [replace(flag, side=-1).cut_to(flag.at - low) for flag in ordered[first_left:]]
    placed: list[Flag] = []
    for flag in (*reversed(right), *left):
        placed.append(lowest(flag, placed))
    return sorted(placed, key=lambda flag: (flag.at, flag.tier))


def turn_from(ordered: Sequence[Flag], high: float) -> int:
    """Index of the first flag that turns to the left: the first to leave the paper, and all that reach over it."""
    first = next((n for n, flag in enumerate(ordered) if flag.at + flag.width > high), len(ordered))
    if first == len(ordered):
        return first
    while True:
        reaching = [n for n in range(first) if ordered[n].at + ordered[n].width > ordered[first].at]
        if not reaching:
            return first
        first = reaching[0]


def lowest(flag: Flag, placed: Sequence[Flag]) -> Flag:
    """The flag on the lowest tier where it is clear of those that are placed."""
    low, high = flag.span
    under = [other for other in placed if other.span[0] < high and low < other.span[1]]
    return replace(flag, tier=max((other.tier + 1 for other in under), default=0))


def tiers(flags: Sequence[Flag]) -> int:
    """How many tiers the flags take."""
    return max((flag.tier + 1 for flag in flags), default=0)


def draw_flags(canvas: Canvas, flags: Sequence[Flag], foot: float) -> None:
    """The flags above `foot`, the y from which leaders rise."""
    for flag in flags:
        base = foot - 1.0 - flag.tier * TIER
        canvas.line((flag.at, foot), (flag.at, base - FIGURE), "dimension")
        start = flag.at + OFF if flag.side > 0 else flag.at - flag.width
        canvas.text((start, base), flag.size, FIGURE, style="mark")
        beyond = start + BOLD * text_width(flag.size, FIGURE) + BETWEEN
        canvas.text((beyond, base), flag.words, SMALL_TEXT)
