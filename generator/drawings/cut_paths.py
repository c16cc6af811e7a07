"""What a machine cuts of one flat part, in millimetres of the part: a layer for each tool, y upward.

The part lies as on the cut list: its first size along x, its second along y, its lower left corner at (0, 0).
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import cos, radians, sin

from generator.drawings.extent import Point
from generator.drawings.face import Face, from_side, outline
from generator.drawings.shapes import Circle, Line, Polyline
from generator.figures.model import Figures
from generator.figures.rows.parts import OperationRow, PartRow
from generator.units.format import plain

Path = Circle | Line | Polyline

OUTLINE = "OUTLINE"
#: What is cut before the banding goes on; all other paths are of the finished board.
BEFORE_BANDING = "BOARD_BEFORE_BANDING"


@dataclass(frozen=True)
class Layer:
    """The paths of one tool. `name` has capitals, digits and underscores only."""

    name: str
    paths: tuple[Path, ...]


@dataclass(frozen=True)
class CutPaths:
    """One part: its name, words for who opens the file, and the layers."""

    name: str
    words: tuple[str, ...]
    layers: tuple[Layer, ...]


def cut_files(figures: Figures) -> dict[str, CutPaths]:
    """File and paths of the top and of every sheet part that is more than a rectangle."""
    found = {}
    for row in figures.parts:
        if row.is_board and (row.group == "top" or row.operations or row.notches or row.tongues):
            found[f"downloads/dxf/{row.mark}.dxf"] = cut_paths(row)
    return found


def cut_paths(row: PartRow) -> CutPaths:
    """The outline with notches and cut-outs at edges, then everything else by its tool."""
    face = Face(row)
    layers: dict[str, list[Path]] = {
        OUTLINE: [upright(Polyline(tuple(outline(face)), "outline", closed=True))]
    }
    if row.bands:
        layers[BEFORE_BANDING] = [upright(Polyline(_without_bands(face), "outline", closed=True))]
    for side, edge in face.edges.items():
        if row.tongues.get(edge) and row.rabbet_length and row.rabbet_depth:
            reach = face.height if side in ("left", "right") else face.width
            inward = float(row.rabbet_length)
            ends = [from_side(side, at, inward, face.width, face.height) for at in (0.0, reach)]
            name = f"RABBET_{number(row.rabbet_depth)}_DEEP_BOTH_FACES"
            layers.setdefault(name, []).append(upright(Line(ends[0], ends[1], "outline")))
    for operation in row.operations:
        if path := path_of(face, operation):
            layers.setdefault(layer_name(operation), []).append(path)
    words = (
        f"{row.mark}: {row.name}, {row.count} {'piece' if row.count == 1 else 'pieces'}, {row.made_of}",
        f"{plain(row.length)} x {plain(row.width)} x {plain(row.thickness)} mm, millimetres",
    )
    return CutPaths(row.mark, words, tuple(Layer(name, tuple(paths)) for name, paths in layers.items()))


def _without_bands(face: Face) -> tuple[Point, ...]:
    """The board before its banding, as a rectangle in the finished one."""
    off = {side: float(face.row.bands.get(edge, 0)) for side, edge in face.edges.items()}
    left, right = off["left"] * face.scales[0], face.width - off["right"] * face.scales[0]
    top, bottom = off["top"] * face.scales[1] - face.height, -off["bottom"] * face.scales[1]
    return ((left, bottom), (right, bottom), (right, top), (left, top))


def upright(path: Polyline | Line) -> Polyline | Line:
    """A path of the paper with its y upward."""
    if isinstance(path, Line):
        return Line((path.start[0], -path.start[1]), (path.end[0], -path.end[1]), path.style)
    return Polyline(tuple((x, -y) for x, y in path.points), path.style, path.closed)


def path_of(face: Face, operation: OperationRow) -> Path | None:
    """The path of an operation; None when the outline has it already."""
    x, y = (float(at) for at in operation.at)
    if not isinstance(operation.size, tuple):
        return Circle((x, y), float(operation.size) / 2, "hole")
    width, height = (float(side) for side in operation.size)
    left, right, low, high = x - width / 2, x + width / 2, y - height / 2, y + height / 2
    at_edge = left <= 0 or low <= 0 or right >= face.width or high >= face.height
    if operation.depth is None and at_edge:
        return None
    corners = ((left, low), (right, low), (right, high), (left, high))
    points = rounded(corners, min(float(operation.corner), width / 2, height / 2))
    return Polyline(points, "outline", closed=True)


ARC_STEPS = 9
"""Chords in a quarter of a circle: at a radius of 10 mm they are within 0.04 mm of it."""


def rounded(corners: tuple[Point, ...], radius: float) -> tuple[Point, ...]:
    """A rectangle from its lower left corner, counter-clockwise, with round corners made of short chords."""
    if not radius:
        return corners
    points = []
    for quarter, (x, y) in enumerate(corners):
        towards = ((1, 1), (-1, 1), (-1, -1), (1, -1))[quarter]
        centre = (x + towards[0] * radius, y + towards[1] * radius)
        for step in range(ARC_STEPS + 1):
            turn = radians(180 + 90 * quarter + 90 * step / ARC_STEPS)
            points.append((centre[0] + radius * cos(turn), centre[1] + radius * sin(turn)))
    return tuple(points)


def layer_name(operation: OperationRow) -> str:
    """A layer a tool: the act, its diameter, how deep it goes."""
    act = "".join(c if c.isalnum() else "_" for c in operation.op.upper()).removeprefix("THROUGH_")
    size = "" if isinstance(operation.size, tuple) else f"_{number(operation.size)}"
    depth = "_THROUGH" if operation.depth is None else f"_{number(operation.depth)}_DEEP"
    return f"{act}{size}{depth}"


def number(length: Fraction) -> str:
    """A length as part of a layer's name: 13.5 is `13_5`."""
    return f"{float(length):.4g}".replace(".", "_")
