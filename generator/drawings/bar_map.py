"""Where the places of a long bar are on the paper: one scale, and breaks where nothing is machined.

Breaks are drawn with zigzag lines, ISO 128-2 line type 01.1.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from generator.drawings.canvas import Canvas

BREAK = 5.0
"""Width of a break on the paper, in mm."""
WORTH = 1.3
"""A bar is broken when the rest is then drawn this many times larger."""
CLEAR = Fraction(9)
"""What is shown of the bar beyond a hole, in mm of the bar."""
LEAST_BREAK = Fraction(100)
"""Shorter stretches without machining are drawn, in mm of the bar."""
ZIGZAG = 1.2
"""Half the breadth of a zigzag, in mm of paper."""


@dataclass(frozen=True)
class BarMap:
    """Stretches of the bar (from, to) that are drawn, at `scale`, one behind the other with a break between."""

    stretches: tuple[tuple[Fraction, Fraction], ...]
    scale: float

    @property
    def is_broken(self) -> bool:
        """True when part of the bar is left out."""
        return len(self.stretches) > 1

    @property
    def length(self) -> float:
        """Length of the whole bar on the paper."""
        return self.x(self.stretches[-1][1])

    def x(self, at: Fraction) -> float:
        """The paper's x of a place; a place that is left out is in its break."""
        x = 0.0
        for low, high in self.stretches:
            if at <= high:
                return x + max(0.0, float(at - low) * self.scale)
            x += float(high - low) * self.scale + BREAK
        return x - BREAK

    def breaks(self) -> list[tuple[float, float]]:
        """(from, to) of every break on the paper."""
        return [(self.x(before[1]), self.x(after[0])) for before, after in pairwise(self.stretches)]


def bar_map(
    length: Fraction, shown: Iterable[tuple[Fraction, Fraction]], paper: float, largest: float
) -> BarMap:
    """A bar on `paper` mm; `shown` are the stretches that must be seen, `largest` the largest scale."""
    whole = BarMap(((Fraction(0), length),), paper / float(length))
    stretches = tuple(merged(shown, length))
    kept = float(sum(high - low for low, high in stretches))
    scale = min(largest, (paper - BREAK * (len(stretches) - 1)) / kept)
    return BarMap(stretches, scale) if len(stretches) > 1 and scale > WORTH * whole.scale else whole


def merged(shown: Iterable[tuple[Fraction, Fraction]], length: Fraction) -> list[tuple[Fraction, Fraction]]:
    """The stretches in order, joined where too little is between them to be worth a break."""
    found: list[tuple[Fraction, Fraction]] = []
    for low, high in sorted(
        (max(low - CLEAR, Fraction(0)), min(high + CLEAR, length)) for low, high in shown
    ):
        if found and low - found[-1][1] < LEAST_BREAK:
            found[-1] = (found[-1][0], max(high, found[-1][1]))
        else:
            found.append((low, high))
    return found


def draw_breaks(canvas: Canvas, places: BarMap, height: float) -> None:
    """Each break: the bar is wiped out between two zigzags. The bar is drawn from y = -height to 0."""
    for low, high in places.breaks():
        canvas.rect(low, -height - 0.6, high - low, height + 1.2, "paper")
        middle = -height / 2
        for x in (low, high):
            zigzag = (
                (x, 1.5),
                (x, middle + 2.0),
                (x + ZIGZAG, middle + 0.8),
                (x - ZIGZAG, middle - 0.8),
                (x, middle - 2.0),
                (x, -height - 1.5),
            )
            canvas.polyline(zigzag, "thin")
