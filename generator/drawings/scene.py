"""Pieces of a bench as blocks in an isometric scene, seen from one of its four corners and painted."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from generator.drawings.canvas import Canvas
from generator.drawings.extent import Point, around
from generator.drawings.isometric import DrawnBlock, VisibleFace, project
from generator.figures.rows.assembly import Shape

#: The largest picture (mm of paper); smaller scenes are not blown up beyond this scale.
PICTURE_WIDTH, PICTURE_HEIGHT, LARGEST_SCALE = 165.0, 115.0, 0.2
#: The lip lines of a slot are this part of the section from its middle.
LIP_LINES = 0.11

MATERIALS = {
    "bar": "bar",
    "board": "wood",
    "strip": "wood",
    "trim": "dark",
    "plate": "dark",
    "clip": "dark",
    "slide": "dark",
    "tote": "tote",
}
#: Axis of the frame and sign for the scene's a and b. Each corner is the one before it turned by a quarter.
VIEWS = {
    "front right": ((1, -1), (0, 1)),
    "front left": ((0, -1), (1, -1)),
    "rear left": ((1, 1), (0, -1)),
    "rear right": ((0, 1), (1, 1)),
}


def in_scene(block: Sequence[float], view: str) -> tuple[float, ...]:
    """A block of the frame in the scene's axes."""
    low, high = [], []
    for axis, sign in VIEWS[view]:
        ends = sorted((sign * block[axis], sign * block[axis + 3]))
        low.append(ends[0])
        high.append(ends[1])
    return (*low, block[2], *high, block[5])


def piece_solid(shape: Shape, block: Sequence[float], view: str, *, new: bool) -> DrawnBlock:
    """A block of a piece as it is in the scene."""
    placed = in_scene(block, view)
    ridge = -1
    if shape.kind == "bar":
        ridge = max(range(3), key=lambda axis: placed[axis + 3] - placed[axis])
    return DrawnBlock(shape.mark, placed, MATERIALS.get(shape.kind, "dark"), new, ridge)


def paint(canvas: Canvas, faces: Sequence[VisibleFace], width: float = PICTURE_WIDTH) -> float:
    """Draw all faces that show; the scale (paper to bench) that they were drawn at."""
    extent = around(corner for face in faces for corner in face.corners)
    scale = min(width / extent.width, PICTURE_HEIGHT / extent.height, LARGEST_SCALE)
    shared = _shared_blocks(faces)
    for face in faces:
        corners = [scaled(corner, scale) for corner in face.corners]
        style = f"iso-{'new' if face.solid.new else face.solid.material}-{face.side}"
        mates = [block for block in shared.get(face.solid.name, ()) if block != face.solid.block]
        if mates:
            canvas.polygon(corners, style)
            edges = "iso-edge-new" if face.solid.new else "iso-edge"
            for start, end in _outline(face, mates):
                canvas.line(scaled(project(start), scale), scaled(project(end), scale), edges)
        else:
            canvas.polygon(corners, f"{style}-edged")
        _lip_lines(canvas, face, scale)
    return scale


def scaled(point: Point, scale: float) -> Point:
    """A point of the scene on paper."""
    return (point[0] * scale, point[1] * scale)


def _shared_blocks(faces: Sequence[VisibleFace]) -> dict[str, set[tuple[float, ...]]]:
    found: dict[str, set[tuple[float, ...]]] = {}
    for face in faces:
        found.setdefault(face.solid.name, set()).add(face.solid.block)
    return {name: blocks for name, blocks in found.items() if len(blocks) > 1}


def _outline(
    face: VisibleFace, mates: Sequence[Sequence[float]]
) -> Iterator[tuple[tuple[float, ...], tuple[float, ...]]]:
    """Edges of a face without the seams to other blocks of the same piece that go on in its plane."""
    block, normal = face.solid.block, face.axis
    level = [mate for mate in mates if abs(mate[normal + 3] - block[normal + 3]) < 0.01]
    for along in (axis for axis in range(3) if axis != normal):
        across = 3 - normal - along
        for end in (0, 1):
            place = block[across + 3 * end]
            covered = [
                (mate[along], mate[along + 3])
                for mate in level
                if abs(mate[across + 3 * (1 - end)] - place) < 0.01
            ]
            for low, high in _open_runs(block[along], block[along + 3], covered):
                points = []
                for value in (low, high):
                    point = [0.0, 0.0, 0.0]
                    point[normal], point[across], point[along] = block[normal + 3], place, value
                    points.append(tuple(point))
                yield points[0], points[1]


def _open_runs(
    low: float, high: float, covered: Sequence[tuple[float, float]]
) -> Iterator[tuple[float, float]]:
    marks = sorted({low, high, *(min(max(v, low), high) for run in covered for v in run)})
    for start, stop in pairwise(marks):
        middle = (start + stop) / 2
        if not any(a < middle < b for a, b in covered):
            yield start, stop


def _lip_lines(canvas: Canvas, face: VisibleFace, scale: float) -> None:
    """Two lines along each long face of a bar are enough to read it as a slotted one."""
    block, ridge = face.solid.block, face.solid.ridge
    if ridge < 0 or face.axis == ridge:
        return
    across = 3 - ridge - face.axis
    middle, width = (block[across] + block[across + 3]) / 2, block[across + 3] - block[across]
    for side in (-1, 1):
        ends = []
        for value in (block[ridge], block[ridge + 3]):
            point = [0.0, 0.0, 0.0]
            point[face.axis], point[ridge] = block[face.axis + 3], value
            point[across] = middle + side * width * LIP_LINES
            ends.append(scaled(project(point), scale))
        canvas.line(ends[0], ends[1], "iso-slot")
