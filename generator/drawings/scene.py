"""Pieces of a bench as blocks in an isometric scene, seen from somewhere and painted."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from math import cos, sin, tau

from generator.drawings.canvas import Canvas
from generator.drawings.extent import Extent, Point, around
from generator.drawings.eye import Eye
from generator.drawings.isometric import CELLS, DrawnBlock, VisibleFace, visible_faces
from generator.figures.rows.assembly import Shape

#: The largest picture (mm of paper); smaller scenes are not blown up beyond this scale.
PICTURE_WIDTH, PICTURE_HEIGHT, LARGEST_SCALE = 165.0, 115.0, 0.2
#: The edges of a slot are this part of the section from its middle.
SLOT = 0.1

#: A hole that is smaller on paper (mm) would only be dirt.
LEAST_HOLE = 0.6
#: Corners of a hole on paper: so small a ring is round with them.
CORNERS_OF_HOLE = 10
#: The axis of the frame that points up.
UPRIGHT = 2

MATERIALS = {
    "bar": "bar",
    "timber": "wood",
    "board": "wood",
    "strip": "wood",
    "trim": "dark",
    "plate": "dark",
    "clip": "dark",
    "slide": "dark",
    "tote": "tote",
}


def piece_solid(
    shape: Shape, block: Sequence[float], view: Eye, *, new: bool, offset: Sequence[float] = (0.0, 0.0, 0.0)
) -> DrawnBlock:
    """A block of a piece as it is in the scene; its holes are moved by `offset`, as the block is already."""
    placed = view.block(block)
    ridge = -1
    if shape.kind == "bar":
        ridge = max(range(3), key=lambda axis: placed[axis + 3] - placed[axis])
    material = MATERIALS.get(shape.kind, "dark")
    if not shape.holes:
        return DrawnBlock(shape.mark, placed, material, new, ridge)
    bored = next(axis for axis, (of_bench, _) in enumerate(view.axes) if of_bench == UPRIGHT)
    holes = tuple(hole for hole in _placed_holes(shape, view, offset) if _within(hole, placed, bored))
    return DrawnBlock(shape.mark, placed, material, new, ridge, holes, bored)


def _placed_holes(shape: Shape, view: Eye, offset: Sequence[float]) -> Iterator[tuple[float, ...]]:
    for *middle, diameter in shape.holes:
        at = [value + by for value, by in zip(middle, offset, strict=True)]
        yield (*(sign * at[axis] for axis, sign in view.axes), diameter)


def _within(hole: Sequence[float], block: Sequence[float], bored: int) -> bool:
    """Whether the middle of a hole is in a block: a board with a cut-out is of several."""
    return all(block[axis] <= hole[axis] <= block[axis + 3] for axis in range(3) if axis != bored)


def seen(solids: Sequence[DrawnBlock], view: Eye, cells: int = CELLS) -> list[VisibleFace]:
    """Faces that show, from the farthest to the nearest, the right way up on paper."""
    faces = visible_faces(solids, cells)
    if not view.below:
        return faces
    return [
        replace(face, corners=tuple(view.turned(corner) for corner in face.corners))  # type: ignore[arg-type]
        for face in faces
    ]


def paint(
    canvas: Canvas,
    faces: Sequence[VisibleFace],
    view: Eye,
    width: float = PICTURE_WIDTH,
    height: float = PICTURE_HEIGHT,
    *,
    fine: bool = True,
) -> float:
    """Draw all faces that show; the scale (paper to bench) that they were drawn at.

    `fine` draws edges and slots too: a small picture would be black with them.
    """
    scale, _ = painted_room(faces, width, height)
    shared = _shared_blocks(faces)
    for face in faces:
        corners = [scaled(corner, scale) for corner in face.corners]
        # what is seen from below lies in the shade
        side = "right" if view.below and face.side == "top" else face.side
        if face.solid.new and not fine:
            # a small picture has no bold edges: what is new is all as dark as its darkest face
            side = "right"
        style = f"iso-{'new' if face.solid.new else face.solid.material}-{side}"
        if not fine:
            canvas.polygon(corners, style)
            continue
        mates = [block for block in shared.get(face.solid.name, ()) if block != face.solid.block]
        seams = list(_outline(face, mates)) if mates else []
        if mates and not _is_whole(seams, face):
            canvas.polygon(corners, style)
            edges = "iso-edge-new" if face.solid.new else "iso-edge"
            for start, end in seams:
                canvas.line(scaled(view.paper(start), scale), scaled(view.paper(end), scale), edges)
        else:
            canvas.polygon(corners, f"{style}-edged")
        _slot(canvas, face, view, scale)
        _holes(canvas, face, view, scale)
    return scale


def painted_room(faces: Sequence[VisibleFace], width: float, height: float) -> tuple[float, Extent]:
    """The scale (paper to bench) of faces in a room of `width` by `height` mm, and what of the paper they take."""
    extent = around(corner for face in faces for corner in face.corners)
    scale = min(width / extent.width, height / extent.height, LARGEST_SCALE)
    return scale, Extent(*(value * scale for value in extent))


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


def _is_whole(edges: Sequence[tuple[Sequence[float], Sequence[float]]], face: VisibleFace) -> bool:
    """Whether edges go all round a face: it is then one shape with its outline."""
    block = face.solid.block
    long = sum(abs(b - a) for start, end in edges for a, b in zip(start, end, strict=True))
    round_it = 2 * sum(block[axis + 3] - block[axis] for axis in range(3) if axis != face.axis)
    return long > round_it - 0.01


def _open_runs(
    low: float, high: float, covered: Sequence[tuple[float, float]]
) -> Iterator[tuple[float, float]]:
    marks = sorted({low, high, *(min(max(v, low), high) for run in covered for v in run)})
    for start, stop in pairwise(marks):
        middle = (start + stop) / 2
        if not any(a < middle < b for a, b in covered):
            yield start, stop


def _slot(canvas: Canvas, face: VisibleFace, view: Eye, scale: float) -> None:
    """A dark band along each long face of a bar: it is read as a slotted one."""
    block, ridge = face.solid.block, face.solid.ridge
    if ridge < 0 or face.axis == ridge:
        return
    across = 3 - ridge - face.axis
    middle, half = (block[across] + block[across + 3]) / 2, (block[across + 3] - block[across]) * SLOT
    corners = []
    for end, side in ((0, -1), (3, -1), (3, 1), (0, 1)):
        point = [0.0, 0.0, 0.0]
        point[face.axis], point[ridge] = block[face.axis + 3], block[ridge + end]
        point[across] = middle + side * half
        corners.append(scaled(view.paper(point), scale))
    canvas.polygon(corners, "iso-slot-new" if face.solid.new else "iso-slot")


def _holes(canvas: Canvas, face: VisibleFace, view: Eye, scale: float) -> None:
    """The holes that open in a face."""
    solid = face.solid
    if face.axis != solid.bored:
        return
    u, v = (axis for axis in range(3) if axis != face.axis)
    for hole in solid.holes:
        if hole[3] * scale < LEAST_HOLE:
            continue
        ring = []
        for number in range(CORNERS_OF_HOLE):
            turn = tau * number / CORNERS_OF_HOLE
            point = list(hole[:3])
            point[face.axis] = solid.block[face.axis + 3]
            for axis, share in ((u, cos(turn)), (v, sin(turn))):
                # a hole on the seam of two boards ends there
                low, high = solid.block[axis], solid.block[axis + 3]
                point[axis] = min(max(hole[axis] + hole[3] / 2 * share, low), high)
            ring.append(scaled(view.paper(point), scale))
        canvas.polygon(ring, "iso-slot-new" if solid.new else "iso-slot")
