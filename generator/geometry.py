"""Boxes in the frame's coordinates. They know no bench: only corners, faces and how two boxes meet."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

AXES = ("x", "y", "z")

#: The two faces across each axis, low side first, by the names that are written on a part.
FACES = {"x": ("left", "right"), "y": ("front", "rear"), "z": ("bottom", "top")}


@dataclass(frozen=True)
class Span:
    """A closed interval in millimetres."""

    low: Fraction
    high: Fraction

    @property
    def size(self) -> Fraction:
        """From low to high (mm); negative when the two are exchanged."""
        return self.high - self.low

    @property
    def middle(self) -> Fraction:
        """The point halfway between both ends (mm)."""
        return (self.low + self.high) / 2

    def overlap(self, other: Span) -> Fraction:
        """Length of the common part; negative: the gap between the two."""
        return min(self.high, other.high) - max(self.low, other.low)

    def contains_middle(self, other: Span) -> bool:
        """True when the other's middle is in this span or on its ends."""
        return self.low <= other.middle <= self.high

    def contains(self, other: Span) -> bool:
        """True when all of the other is in this span; common ends count."""
        return self.low <= other.low and other.high <= self.high


@dataclass(frozen=True)
class Box:
    """An axis-parallel box. X runs left to right, Y front to back, Z up from the frame's underside (mm)."""

    x: Span
    y: Span
    z: Span

    @classmethod
    def at(
        cls, corner: tuple[Fraction, Fraction, Fraction], size: tuple[Fraction, Fraction, Fraction]
    ) -> Box:
        """The box with its low corner at `corner` and the given size along X, Y, Z."""
        return cls(*(Span(low, low + extent) for low, extent in zip(corner, size, strict=True)))

    def span(self, axis: str) -> Span:
        """The extent along "x", "y" or "z". Raises KeyError for any other name."""
        return {"x": self.x, "y": self.y, "z": self.z}[axis]

    @property
    def size(self) -> tuple[Fraction, Fraction, Fraction]:
        """Along X, Y, Z (mm)."""
        return (self.x.size, self.y.size, self.z.size)

    def overlaps(self, other: Box) -> bool:
        """True when the two boxes have a common volume; touching faces do not overlap."""
        return all(self.span(axis).overlap(other.span(axis)) > 0 for axis in AXES)

    def meets(self, other: Box, axis: str, end: int) -> bool:
        """True when all of this box's face at `end` (0 low, 1 high) of `axis` is on a face of `other`."""
        mine, theirs = self.span(axis), other.span(axis)
        on_face = mine.low == theirs.high if end == 0 else mine.high == theirs.low
        return on_face and all(
            other.span(across).contains(self.span(across)) for across in AXES if across != axis
        )
