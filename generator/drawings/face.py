"""A flat part's outline on the paper: its edges by name, notches and cut-outs, to scale or at its true size."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from generator.drawings.extent import Extent, Point
from generator.figures.rows.parts import OperationRow, PartRow
from generator.geometry import FACES

SHEET_WIDTH, SHEET_HEIGHT = 155.0, 115.0
"""Largest size of the part on the paper, in mm."""
LEAST = 14.0
"""Narrow strips are drawn at least this wide (mm), not to scale."""
LARGEST_SCALE = 0.6


@dataclass(frozen=True)
class Bite:
    """A rectangle out of one edge: from `low` to `high` along it, `depth` mm deep."""

    low: float
    high: float
    depth: float


class Face:
    """The part on the paper: lower left corner at (0, 0), `right` and `up` the frame's axes on the paper.

    `size` is the greatest width on the paper. Without one the part lies as on the cut list, at its true size.
    """

    def __init__(self, row: PartRow, size: float | None = None) -> None:
        self.row = row
        self.turned = size is not None and row.along == "z" and row.is_board
        self.right, self.up = (row.across, row.along) if self.turned else (row.along, row.across)
        width, height = (row.width, row.length) if self.turned else (row.length, row.width)
        self.size = (width, height)
        self.scales = (1.0, 1.0)
        if size is not None:
            scale = min(size / float(width), SHEET_HEIGHT / float(height), LARGEST_SCALE)
            self.scales = (scale, max(scale, LEAST / float(height)))
        self.width, self.height = float(width) * self.scales[0], float(height) * self.scales[1]
        left, right = FACES[self.right]
        bottom, top = FACES[self.up]
        self.edges = {"left": left, "right": right, "bottom": bottom, "top": top}
        """The part's edge names by the side of the paper on which they are."""

    def at(self, along: Fraction, across: Fraction) -> Point:
        """The paper's point of a place measured as on the cut list."""
        x, y = (across, along) if self.turned else (along, across)
        return (float(x) * self.scales[0], -float(y) * self.scales[1])

    def measured(self, pair: tuple[Fraction, Fraction]) -> tuple[Fraction, Fraction]:
        """A pair (along, across) as (rightward, upward)."""
        return (pair[1], pair[0]) if self.turned else pair

    def sides_of(self, corner: str) -> tuple[str, str]:
        """The paper's sides that meet in a corner such as `bottom front`: (left or right, bottom or top)."""
        named = {"rear" if word == "back" else word for word in re.findall(r"[a-z]+", corner.lower())}
        across = "right" if self.edges["right"] in named else "left"
        return across, "top" if self.edges["top"] in named else "bottom"

    def cut_size(self, operation: OperationRow) -> tuple[float, float]:
        """Size on the paper of a rectangular operation: (rightward, upward)."""
        assert isinstance(operation.size, tuple)
        width, height = self.measured(operation.size)
        return float(width) * self.scales[0], float(height) * self.scales[1]

    def box(self, operation: OperationRow) -> Extent:
        """The rectangle on the paper that an operation takes."""
        x, y = self.at(*operation.at)
        if isinstance(operation.size, tuple):
            width, height = self.cut_size(operation)
        else:
            width, height = (float(operation.size) * self.scales[0],) * 2
        return Extent(x - width / 2, y - height / 2, x + width / 2, y + height / 2)


def outline(face: Face) -> list[Point]:
    """The part's edge with notches and edge cut-outs, clockwise on the paper from the lower left corner."""
    width, height = face.width, face.height
    corners: dict[tuple[str, str], tuple[float, float]] = {}
    for notch in face.row.notches:
        a, b = face.measured((notch.along, notch.across))
        corners[face.sides_of(notch.corner)] = (float(a) * face.scales[0], float(b) * face.scales[1])
    bites = edge_bites(face)
    turns = (("left", "bottom"), ("left", "top"), ("right", "top"), ("right", "bottom"))
    points: list[Point] = []
    for number, sides in enumerate(turns):
        x, y = (0.0 if sides[0] == "left" else width), (0.0 if sides[1] == "bottom" else -height)
        dx, dy = corners.get(sides, (0.0, 0.0))
        inner = (x + (dx if x == 0 else -dx), y + (dy if y else -dy))
        corner = [(inner[0], y), inner, (x, inner[1])] if dx and dy else [(x, y)]
        points += corner if number % 2 == 0 else corner[::-1]
        points += edge_path(("left", "top", "right", "bottom")[number], bites, width, height)
    return points


def edge_bites(face: Face) -> dict[str, list[Bite]]:
    """Through rectangles that reach an edge of the part, by the paper's side."""
    found: dict[str, list[Bite]] = {"left": [], "top": [], "right": [], "bottom": []}
    for operation in through_rectangles(face):
        box = face.box(operation)
        if box.bottom > -0.01:
            found["bottom"].append(Bite(box.left, box.right, -box.top))
        elif box.top < -face.height + 0.01:
            found["top"].append(Bite(box.left, box.right, box.bottom + face.height))
        elif box.left < 0.01:
            found["left"].append(Bite(-box.bottom, -box.top, box.right))
        elif box.right > face.width - 0.01:
            found["right"].append(Bite(-box.bottom, -box.top, face.width - box.left))
    return found


def through_rectangles(face: Face) -> list[OperationRow]:
    """Rectangular cut-outs that go through."""
    return [o for o in face.row.operations if o.depth is None and isinstance(o.size, tuple)]


def edge_path(side: str, bites: dict[str, list[Bite]], width: float, height: float) -> list[Point]:
    """The points that the bites of one side add, in the outline's direction."""
    points: list[Point] = []
    for bite in sorted(bites[side], key=lambda b: b.low):
        for u, v in ((bite.low, 0.0), (bite.low, bite.depth), (bite.high, bite.depth), (bite.high, 0.0)):
            points.append(from_side(side, u, v, width, height))
    return points if side in ("left", "top") else points[::-1]


def from_side(side: str, along: float, inward: float, width: float, height: float) -> Point:
    """The point `along` one side, from its left or lower end, and `inward` of it."""
    places = {
        "left": (inward, -along),
        "right": (width - inward, -along),
        "top": (along, inward - height),
        "bottom": (along, -inward),
    }
    return places[side]
