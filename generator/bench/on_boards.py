"""What comes onto a broad face of a board: where it is, as a reader marks it from two edges of the board."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from generator.bench.piece import Part
from generator.geometry import AXES, FACES, Box

Point = tuple[Fraction, Fraction]
"""Along and across a board (mm)."""


@dataclass(frozen=True)
class SetOut:
    """What is marked on a `face` of the board `part` (its mark) before something is fixed there.

    `low` and `high` are two corners of its outline, along and across the board from its edges `datum` (mm). `holes` are
    the centres of its screws. Of what has an `axis`, its middle line is marked, along the board or across it. `mark` is
    that of a piece, empty for none.
    """

    part: str
    face: str
    mark: str
    name: str
    low: Point
    high: Point
    datum: tuple[str, str]
    holes: tuple[Point, ...] = ()
    axis: Literal["", "along", "across"] = ""


def normal_of(board: Part) -> str:
    """The axis across the broad faces of a board."""
    return next(axis for axis in AXES if axis not in (board.along, board.across))


def touched_face(board: Part, box: Box) -> str:
    """The broad face of a board on which a box is; empty where it is on none."""
    axis = normal_of(board)
    own, other = board.box.span(axis), box.span(axis)
    if any(board.box.span(each).overlap(box.span(each)) <= 0 for each in (board.along, board.across)):
        return ""
    low, high = FACES[axis]
    return low if other.high == own.low else high if other.low == own.high else ""


def datum_of(board: Part, opens: str) -> tuple[str, str]:
    """The edges from which places on a board are measured: that at the open face, else the lower one, of each axis."""
    along, across = (FACES[axis] for axis in (board.along, board.across))
    return (opens if opens in along else along[0]), (opens if opens in across else across[0])


def outlined(board: Part, box: Box, datum: tuple[str, str]) -> tuple[Point, Point]:
    """Two corners of a box on a board, along and across from its `datum` edges (mm), the nearer ones first."""
    spans = []
    for axis, edge in zip((board.along, board.across), datum, strict=True):
        own, other = board.box.span(axis), box.span(axis)
        spans.append(
            (other.low - own.low, other.high - own.low)
            if edge == FACES[axis][0]
            else (own.high - other.high, own.high - other.low)
        )
    along, across = spans
    return (along[0], across[0]), (along[1], across[1])
