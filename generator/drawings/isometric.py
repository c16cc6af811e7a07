"""Blocks in isometric projection (ISO 5456-3: axes at 30 degrees, no foreshortening), painted from back to front.

A scene has its own axes a, b, c: the viewer looks from (+, +, +), so a runs to the lower left, b to the lower right
and c up. Two blocks overlap on paper exactly when their ranges of a - b, b - c and c - a all overlap; then the axis
that separates them says which is nearer. When axes disagree the pictures cannot overlap, so any choice is right; the
largest separation also bears a small overlap, a tongue in its groove.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from math import cos, radians, sin

import numpy as np
from numpy.typing import NDArray
from PIL import Image, ImageDraw

from generator.calculators.blocking import strong_groups
from generator.drawings.extent import Point

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
class DrawnBlock:
    """A block (a, b, c low, then high) of the piece `name`; `material` gives its tint, `new` what a step adds.

    `ridge` is the axis along which a bar's slot runs, else -1. `holes` are round ones through it along `bored`: the
    middle (a, b, c) and the diameter of each.
    """

    name: str
    block: Block
    material: str
    new: bool = False
    ridge: int = -1
    holes: tuple[tuple[float, ...], ...] = ()
    bored: int = -1


@dataclass(frozen=True)
class VisibleFace:
    """A face that shows: its corners on paper, the block that it belongs to, and which share of it is not hidden."""

    solid: DrawnBlock
    side: str
    axis: int
    corners: tuple[Point, Point, Point, Point]
    share: float = 1.0

    @property
    def area(self) -> float:
        """Its area on paper, hidden or not (mm² of the scene)."""
        pairs = zip(self.corners, (*self.corners[1:], self.corners[0]), strict=True)
        return abs(sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs)) / 2


def project(point: Sequence[float]) -> Point:
    """A point of the scene on paper: x to the right, y down, in mm of the scene."""
    a, b, c = point
    return ((b - a) * COS, (a + b) * SIN - c)


def visible_faces(solids: Sequence[DrawnBlock], cells: int = CELLS) -> list[VisibleFace]:
    """Faces from the farthest to the nearest, without those that are hidden in a picture `cells` wide."""
    return list(_visible_faces(tuple(solids), cells))


@lru_cache(maxsize=128)
def _visible_faces(solids: tuple[DrawnBlock, ...], cells: int) -> tuple[VisibleFace, ...]:
    """Kept, because most edits of a spec that is written live leave most scenes as they are."""
    pieces = ordered(solids)
    if not pieces:
        return ()
    corners = _corners(pieces)
    seen = _seen(corners, cells)
    faces = [(_face(pieces[index // 3], index % 3, corners[index]), area) for index, area in seen]
    return tuple(replace(face, share=min(1.0, area / max(face.area, 1.0))) for face, area in faces)


def faces_of(solid: DrawnBlock) -> Iterator[VisibleFace]:
    """The three faces that look towards the viewer."""
    return (_face(solid, axis, corners) for axis, corners in enumerate(_corners([solid])))


def _face(solid: DrawnBlock, axis: int, corners: NDArray[np.float64]) -> VisibleFace:
    first, second, third, fourth = corners.tolist()
    return VisibleFace(solid, FACES[axis], axis, (tuple(first), tuple(second), tuple(third), tuple(fourth)))


#: Low (0) or high (1) end of the block at each corner of each face, axis by axis.
_ENDS = np.array(
    [
        [np.insert((first, second), axis, 1) for first, second in ((0, 0), (1, 0), (1, 1), (0, 1))]
        for axis in range(3)
    ]
)


def _corners(solids: Sequence[DrawnBlock]) -> NDArray[np.float64]:
    """The corners on paper of the faces of blocks: three faces a block in turn x 4 corners x 2."""
    blocks = np.array([solid.block for solid in solids]).reshape(-1, 2, 3)
    a, b, c = np.moveaxis(blocks[:, _ENDS, np.arange(3)], -1, 0)
    return np.stack(((b - a) * COS, (a + b) * SIN - c), axis=-1).reshape(-1, 4, 2)


def ordered(solids: Sequence[DrawnBlock]) -> list[DrawnBlock]:
    """Blocks from back to front. A ring of blocks that hide each other in turn is cut open."""
    back: list[DrawnBlock] = []
    front: list[DrawnBlock] = []
    pieces = list(solids)
    for _ in range(MOST_CUTS):
        # what is behind all rings has its place, as has what is in front of them: neither needs a second look
        nearer = _nearer(pieces)
        behind, left = _sorted(nearer, [_depth(piece) for piece in pieces])
        back += [pieces[index] for index in behind]
        farther = _turned_round(nearer, left)
        before, tied = _sorted(farther, [-_depth(piece) for piece in pieces])
        front = [pieces[index] for index in reversed(before)] + front
        if not tied:
            return back + front
        core = _turned_round(farther, tied)
        rings = [_ring(group, core) for group in strong_groups(core) if len(group) > 1]
        cut = [piece for ring in rings for piece in _cut(pieces, ring)]
        gone = {id(piece) for piece, _ in cut}
        pieces = [pieces[index] for index in tied if id(pieces[index]) not in gone]
        pieces += [half for _, halves in cut for half in halves]
        if not cut:
            break
    return back + sorted(pieces, key=_depth) + front


def _depth(solid: DrawnBlock) -> float:
    return sum(solid.block)


def _turned_round(graph: Mapping[int, Sequence[int]], kept: Sequence[int]) -> dict[int, list[int]]:
    """The kept part of a graph with its arrows the other way."""
    turned: dict[int, list[int]] = {index: [] for index in kept}
    for index in kept:
        for other in graph[index]:
            if other in turned:
                turned[other].append(index)
    return turned


def _nearer(solids: Sequence[DrawnBlock]) -> dict[int, list[int]]:
    """For each block those that hide part of it: they overlap on paper, and are ahead along the axis between them."""
    blocks = np.array([solid.block for solid in solids]).reshape(-1, 2, 3)
    low, high = np.ascontiguousarray(blocks.transpose(1, 2, 0))
    starts, stops = low - np.roll(high, -1, axis=0), high - np.roll(low, -1, axis=0)
    meets = (stops[:, :, None] - starts[:, None]).min(axis=0) > TOUCH
    ahead = (low[:, :, None] - high[:, None]).max(axis=0)
    # where neither is ahead the later one counts as the nearer, so that no two blocks hide each other
    behind = (ahead < ahead.T) | ((ahead == ahead.T) & np.tri(len(solids), k=-1, dtype=bool).T)
    hidden = meets & meets.T & behind
    return {index: np.flatnonzero(row).tolist() for index, row in enumerate(hidden)}


def _sorted(after: Mapping[int, Sequence[int]], depths: Sequence[float]) -> tuple[list[int], list[int]]:
    """A topological order, the least depth first, and the indices that a ring keeps from it."""
    waits = dict.fromkeys(after, 0)
    for others in after.values():
        for other in others:
            waits[other] += 1
    ready = [(depths[index], index) for index, count in waits.items() if not count]
    heapq.heapify(ready)
    order = []
    while ready:
        _, index = heapq.heappop(ready)
        order.append(index)
        for other in after[index]:
            waits[other] -= 1
            if not waits[other]:
                heapq.heappush(ready, (depths[other], other))
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


def _cut(
    solids: Sequence[DrawnBlock], ring: Sequence[int]
) -> list[tuple[DrawnBlock, tuple[DrawnBlock, DrawnBlock]]]:
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


def _seen(corners: NDArray[np.float64], cells: int) -> list[tuple[int, float]]:
    """Places of the faces that show in a coarse picture, painted in their order, and the area that shows of each."""
    corners = corners - corners.min(axis=(0, 1))
    scale = cells / max(corners.max(), 1.0)
    corners *= scale
    width, height = corners.max(axis=(0, 1)).astype(int) + 1
    picture = Image.new("I", (int(width), int(height)))
    brush = ImageDraw.Draw(picture)
    for number, outline in enumerate(corners.reshape(-1, 8).tolist(), 1):
        brush.polygon(outline, fill=number)
    shown = picture.getcolors(len(corners) + 1) or ()
    return sorted((int(number) - 1, count / scale**2) for count, number in shown if number)  # type: ignore[arg-type]  # of one band
