"""Blocks in isometric projection (ISO 5456-3: axes at 30 degrees, no foreshortening), painted from back to front.

A scene has its own axes a, b, c: the viewer looks from (+, +, +), so a runs to the lower left, b to the lower right
and c up. Two blocks overlap on paper exactly when their ranges of a - b, b - c and c - a all overlap; then the axis
that separates them says which is nearer. When axes disagree the pictures cannot overlap, so any choice is right; the
largest separation also bears a small overlap, a tongue in its groove.
"""

from __future__ import annotations

import heapq
from array import array
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from math import ceil, cos, floor, radians, sin

from generator.calculators.blocking import strong_groups
from generator.drawings.canvas import Point

Block = tuple[float, ...]

COS, SIN = cos(radians(30)), sin(radians(30))
#: Faces that can be seen, by the axis that they look along.
FACES = ("left", "right", "top")
#: Ranges that have less than this in common do not overlap on paper (mm of the scene).
TOUCH = 0.05
#: Width in cells of the picture in which hidden faces are found.
CELLS = 700
#: A scene that would need more rounds of cuts than this to be ordered is drawn as it comes.
MOST_CUTS = 60
#: Members of a ring's group from which a short ring is looked for.
STARTS = 6


@dataclass(frozen=True)
class Solid:
    """A block (a, b, c low, then high) of the piece `name`; `material` gives its tint, `new` what a step adds.

    `ridge` is the axis along which a bar's slot runs, else -1.
    """

    name: str
    block: Block
    material: str
    new: bool = False
    ridge: int = -1


@dataclass(frozen=True)
class Face:
    """A face that shows: its corners on paper, and the block that it belongs to."""

    solid: Solid
    side: str
    axis: int
    corners: tuple[Point, Point, Point, Point]


def project(point: Sequence[float]) -> Point:
    """A point of the scene on paper: x to the right, y down, in mm of the scene."""
    a, b, c = point
    return ((b - a) * COS, (a + b) * SIN - c)


def visible_faces(solids: Sequence[Solid], cells: int = CELLS) -> list[Face]:
    """Faces from the farthest to the nearest, without those that are hidden in a picture `cells` wide."""
    return list(_visible_faces(tuple(solids), cells))


@lru_cache(maxsize=128)
def _visible_faces(solids: tuple[Solid, ...], cells: int) -> tuple[Face, ...]:
    """Kept, because most edits of a spec that is written live leave most scenes as they are."""
    faces = [face for solid in ordered(solids) for face in faces_of(solid)]
    seen = _seen(faces, cells)
    return tuple(face for index, face in enumerate(faces, 1) if index in seen)


def faces_of(solid: Solid) -> Iterator[Face]:
    """The three faces that look towards the viewer."""
    for axis, side in enumerate(FACES):
        yield Face(solid, side, axis, _corners(solid.block, axis))


def _corners(block: Block, axis: int) -> tuple[Point, Point, Point, Point]:
    one, two = (each for each in range(3) if each != axis)
    found = []
    for first, second in ((0, 0), (1, 0), (1, 1), (0, 1)):
        point = [0.0, 0.0, 0.0]
        point[axis] = block[axis + 3]
        point[one], point[two] = block[one + 3 * first], block[two + 3 * second]
        found.append(project(point))
    return (found[0], found[1], found[2], found[3])


def ordered(solids: Sequence[Solid]) -> list[Solid]:
    """Blocks from back to front. A ring of blocks that hide each other in turn is cut open."""
    pieces = list(solids)
    for _ in range(MOST_CUTS):
        nearer = _nearer(pieces)
        order, left = _sorted(pieces, nearer)
        if not left:
            break
        rings = [_ring(group, nearer) for group in strong_groups(nearer) if len(group) > 1]
        cut = [piece for ring in rings for piece in _cut(pieces, ring)]
        if not cut:
            order += sorted(left, key=lambda index: _depth(pieces[index]))
            break
        gone = {id(piece) for piece, _ in cut}
        pieces = [piece for piece in pieces if id(piece) not in gone]
        pieces += [half for _, halves in cut for half in halves]
    return [pieces[index] for index in order]


def _depth(solid: Solid) -> float:
    return sum(solid.block)


def _nearer(solids: Sequence[Solid]) -> dict[int, list[int]]:
    """For each block those that hide part of it."""
    nearer: dict[int, list[int]] = {index: [] for index in range(len(solids))}
    for far, near in _hiding(solids):
        nearer[far].append(near)
    return nearer


def _sorted(solids: Sequence[Solid], nearer: Mapping[int, Sequence[int]]) -> tuple[list[int], list[int]]:
    """A topological order of what hides what, and the indices that a ring keeps from it."""
    waits = dict.fromkeys(nearer, 0)
    for others in nearer.values():
        for other in others:
            waits[other] += 1
    ready = [(_depth(solids[index]), index) for index, count in waits.items() if not count]
    heapq.heapify(ready)
    order = []
    while ready:
        _, index = heapq.heappop(ready)
        order.append(index)
        for other in nearer[index]:
            waits[other] -= 1
            if not waits[other]:
                heapq.heappush(ready, (_depth(solids[other]), other))
    return order, [index for index, count in waits.items() if count]


def _ring(group: Sequence[int], nearer: Mapping[int, Sequence[int]]) -> list[int]:
    """A short ring within a strongly connected group: breadth first from its members with the fewest ways on."""
    inside = set(group)
    ways = {index: [other for other in nearer[index] if other in inside] for index in group}
    best: list[int] = list(group)
    for start in sorted(group, key=lambda index: len(ways[index]))[:STARTS]:
        came = {start: start}
        queue = [start]
        for index in queue:
            if start in ways[index]:
                path = [index]
                while path[-1] != start:
                    path.append(came[path[-1]])
                best = min(best, path, key=len)
                break
            for other in ways[index]:
                if other not in came:
                    came[other] = index
                    queue.append(other)
    return best


def _hiding(solids: Sequence[Solid]) -> Iterator[tuple[int, int]]:
    """(farther, nearer) for every two blocks that overlap on paper. A sweep along a - b keeps the pairs few."""
    ranges = [_ranges(solid.block) for solid in solids]
    active: list[int] = []
    for index in sorted(range(len(solids)), key=lambda each: ranges[each][0]):
        start = ranges[index][0] + TOUCH
        active = [other for other in active if ranges[other][1] > start]
        for other in active:
            if _overlap(ranges[index], ranges[other]):
                yield (
                    (other, index) if _is_nearer(solids[index].block, solids[other].block) else (index, other)
                )
        active.append(index)


def _ranges(block: Block) -> tuple[float, ...]:
    a, b, c, u, v, w = block
    return (a - v, u - b, b - w, v - c, c - u, w - a)


def _overlap(one: Sequence[float], other: Sequence[float]) -> bool:
    return (  # written out: this is asked of every two blocks whose first ranges overlap
        one[3] - other[2] > TOUCH
        and other[3] - one[2] > TOUCH
        and one[5] - other[4] > TOUCH
        and other[5] - one[4] > TOUCH
        and one[1] - other[0] > TOUCH
        and other[1] - one[0] > TOUCH
    )


def _is_nearer(one: Block, other: Block) -> bool:
    ahead = max(one[0] - other[3], one[1] - other[4], one[2] - other[5])
    behind = max(other[0] - one[3], other[1] - one[4], other[2] - one[5])
    return ahead > behind


def _cut(solids: Sequence[Solid], ring: Sequence[int]) -> list[tuple[Solid, tuple[Solid, Solid]]]:
    """A block of a ring and its two halves, cut where another block of the ring begins or ends.

    The longest block is cut, and at the place nearest to its middle: a bar rather than a board across it.
    """
    for index in sorted(ring, key=lambda each: -_slenderness(solids[each].block)):
        solid = solids[index]
        block = solid.block
        axis = max(range(3), key=lambda each: _sizes(block)[each])
        planes = [solids[other].block[axis + 3 * end] for other in ring if other != index for end in (0, 1)]
        inside = [plane for plane in planes if block[axis] + 1 < plane < block[axis + 3] - 1]
        if inside:
            middle = (block[axis] + block[axis + 3]) / 2
            plane = min(inside, key=lambda each: abs(each - middle))
            low, high = list(block), list(block)
            low[axis + 3] = high[axis] = plane
            return [(solid, (replace(solid, block=tuple(low)), replace(solid, block=tuple(high))))]
    return []


def _slenderness(block: Block) -> float:
    sizes = sorted(_sizes(block))
    return sizes[2] / sizes[1]


def _sizes(block: Block) -> tuple[float, float, float]:
    return (block[3] - block[0], block[4] - block[1], block[5] - block[2])


def _seen(faces: Sequence[Face], cells: int) -> set[int]:
    """Numbers (from 1) of the faces that show in a coarse picture, painted in their order."""
    if not faces:
        return set()
    xs = [x for face in faces for x, _ in face.corners]
    ys = [y for face in faces for _, y in face.corners]
    left, top = min(xs), min(ys)
    cell = max(max(xs) - left, max(ys) - top, 1.0) / cells
    width, height = ceil((max(xs) - left) / cell) + 1, ceil((max(ys) - top) / cell) + 1
    rows = [array("H", bytes(2 * width)) for _ in range(height)]
    for number, face in enumerate(faces, 1):
        corners = [((x - left) / cell, (y - top) / cell) for x, y in face.corners]
        brush = array("H", [number]) * width
        for row, start, stop in _spans(corners):
            rows[row][start:stop] = brush[start:stop]
    seen: set[int] = set()
    for painted in rows:
        seen.update(painted)
    return seen


def _spans(corners: Sequence[Point]) -> Iterator[tuple[int, int, int]]:
    """(row, first cell, cell after the last) of a face, cells whose middles lie in it.

    A face is a parallelogram, the part that two strips have in common; none of its edges is level on paper.
    """
    (x0, y0), (x1, y1), _, (x3, y3) = corners
    one, two = (x1 - x0, y1 - y0), (x3 - x0, y3 - y0)
    if not one[1] or not two[1]:
        return  # a face without breadth
    slope, low, high = _strip(x0, y0, one, two)
    lean, left, right = _strip(x0, y0, two, one)
    ys = [y for _, y in corners]
    for row in range(max(ceil(min(ys) - 0.5), 0), floor(max(ys) - 0.5) + 1):
        middle = row + 0.5
        here, there = slope * middle, lean * middle
        start = ceil(max(low + here, left + there) - 0.5)
        stop = floor(min(high + here, right + there) - 0.5) + 1
        if stop > start:
            yield row, start, stop


def _strip(x: float, y: float, along: Point, across: Point) -> tuple[float, float, float]:
    """Slope of the strip between two edges (x by y), and where its borders cross the line y = 0."""
    slope = along[0] / along[1]
    first = x - slope * y
    other = first + across[0] - slope * across[1]
    return slope, min(first, other), max(first, other)
