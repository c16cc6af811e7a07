"""Rectangles in a plane, and how far they are apart (mm)."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.geometry import Span

Pair = tuple[Fraction, Fraction]


@dataclass(frozen=True)
class Region:
    """A rectangle along two axes (mm)."""

    x: Span
    y: Span

    @classmethod
    def about(cls, at: Pair, size: Pair) -> Region:
        """The rectangle of this size with its middle there."""
        return cls(*(Span(mid - each / 2, mid + each / 2) for mid, each in zip(at, size, strict=True)))

    def moved(self, dx: Fraction, dy: Fraction) -> Region:
        """The rectangle elsewhere."""
        return Region(Span(self.x.low + dx, self.x.high + dx), Span(self.y.low + dy, self.y.high + dy))

    def apart(self, other: Region) -> Fraction:
        """The wider of the gaps along X and Y (mm); negative: by how much they overlap."""
        return max(-self.x.overlap(other.x), -self.y.overlap(other.y))

    def squared_from(self, at: Pair) -> Fraction:
        """Distance of a point from the rectangle, squared (mm²); 0 within it."""
        gaps = (
            max(span.low - place, place - span.high, Fraction(0))
            for span, place in zip((self.x, self.y), at, strict=True)
        )
        return sum((gap * gap for gap in gaps), Fraction(0))

    def beside(self, axis: int) -> Span:
        """Its extent along the first (0) or the second axis (1)."""
        return (self.x, self.y)[axis]


def nearest_place(
    at: Pair,
    size: Pair,
    obstacles: Sequence[tuple[Region, Fraction]],
    clear: Callable[[Pair], bool],
    step: Fraction,
) -> Pair | None:
    """The middle nearest to `at` at which `clear` is true for a thing of this size; None where no place is found.

    It is sought just beside the obstacles, each with the distance that it asks for, on whole steps.
    """
    lines: list[list[Fraction]] = []
    for axis in (0, 1):
        found = {at[axis]}
        for region, apart in obstacles:
            span, reach = region.beside(axis), size[axis] / 2 + apart
            found |= {-(-(span.high + reach) // step) * step, (span.low - reach) // step * step}
        lines.append(sorted(found))
    places = [(x, y) for x in lines[0] for y in lines[1]]
    places.sort(key=lambda place: abs(place[0] - at[0]) + abs(place[1] - at[1]))
    return next((place for place in places if clear(place)), None)
