"""On which face of a piece its label goes, and where the label's right and upper edge are then in the bench."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.figures.rows.parts import PartRow, PlacedRow
from generator.geometry import AXES, FACES

Way = tuple[int, int]
"""An axis and a sign."""
#: What an arrow should point to, the best first.
WISHES: tuple[Way, ...] = ((2, 1), (1, -1))
#: A face of less (mm) has no room for a whole label.
WHOLE = 34


@dataclass(frozen=True)
class Stuck:
    """A face by its name, its breadth across the label's lines (mm), and what the label's arrows point to."""

    face: str
    breadth: Fraction
    right: str
    up: str


def middle_of(pieces: Sequence[PlacedRow]) -> tuple[float, ...]:
    """The middle of all pieces (mm along X, Y, Z)."""
    lows = [min(float(piece.corner[axis]) for piece in pieces) for axis in range(3)]
    highs = [max(float(piece.corner[axis] + piece.size[axis]) for piece in pieces) for axis in range(3)]
    return tuple((low + high) / 2 for low, high in zip(lows, highs, strict=True))


def lies_on(row: PartRow, piece: PlacedRow | None, middle: Sequence[float]) -> Stuck:
    """The face that is machined least, has room for the label and looks into the bench: there it is hidden.

    A label lies along its piece. Without a place in the bench it has no arrows.
    """
    if piece is None:
        return Stuck("", row.width, "", "")
    along, across = AXES.index(row.along), AXES.index(row.across)
    third = 3 - along - across
    faces = [(axis, sign) for axis in ((third, across) if row.is_bar else (third,)) for sign in (-1, 1)]

    def breadth(axis: int) -> Fraction:
        return row.width if axis == third else row.thickness

    def worth(face: Way) -> tuple[int, bool, float]:
        axis, sign = face
        cuts = sum(operation.face == _name(face) for operation in row.operations)
        centre = float(piece.corner[axis] + piece.size[axis] / 2)
        return -cuts, breadth(axis) >= WHOLE, sign * (middle[axis] - centre)

    face = max(faces, key=worth)
    other = 3 - along - face[0]
    right, up = max(
        ((cross((other, sign), face), (other, sign)) for sign in (-1, 1)),
        key=lambda ways: [wish in ways for wish in WISHES],
    )
    return Stuck(_name(face), breadth(face[0]), _arrow(right), _arrow(up))


def cross(one: Way, other: Way) -> Way:
    """The way at right angles to two, as thumb to forefinger and middle finger of a right hand."""
    axis = 3 - one[0] - other[0]
    turn = 1 if (other[0] - one[0]) % 3 == 1 else -1
    return axis, turn * one[1] * other[1]


def _name(face: Way) -> str:
    return FACES[AXES[face[0]]][face[1] > 0]


def _arrow(way: Way) -> str:
    """What an arrow points to in a word."""
    return {(2, 1): "up", (2, -1): "down"}.get(way, _name(way))
