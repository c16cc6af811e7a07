"""The surface of a body of axis-parallel blocks: what one sees of it, with no seam between its blocks.

The planes of all blocks cut space into cells, each of which is full or empty (coordinate compression). A face is where
a full cell meets an empty one; an edge is where the four cells about a line are not two beside each other. So the
surface is exact, and its volume is that of the blocks, however they share the body among them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from generator.calculators.bodies import NOTHING, Block

Cells = NDArray[np.bool_]
Corner = tuple[float, float, float]


@dataclass(frozen=True)
class Quad:
    """A rectangle of the surface from `low` to `high` (mm), across `axis` (0 to 2); it looks along `sign` of it."""

    low: Corner
    high: Corner
    axis: int
    sign: int


@dataclass(frozen=True)
class Edge:
    """A line along `axis`, from `start` to `end` (mm), where the surface turns."""

    start: Corner
    end: Corner
    axis: int


@dataclass(frozen=True)
class Surface:
    """All of the surface, and its edges."""

    quads: tuple[Quad, ...]
    edges: tuple[Edge, ...]

    @property
    def volume(self) -> float:
        """What it encloses (mm³): the divergence theorem with the field along X."""
        return sum(
            quad.sign * quad.low[0] * (quad.high[1] - quad.low[1]) * (quad.high[2] - quad.low[2])
            for quad in self.quads
            if quad.axis == 0
        )


def surface(blocks: Sequence[Block]) -> Surface:
    """The surface of the union of the blocks, in mm."""
    planes = [_planes(value for block in blocks for value in (block[i], block[i + 3])) for i in range(3)]
    cells = _cells(blocks, planes)
    quads = tuple(quad for axis in range(3) for quad in _quads(cells, planes, axis))
    return Surface(quads, tuple(edge for axis in range(3) for edge in _edges(cells, planes, axis)))


def _planes(values: Iterable[float]) -> NDArray[np.float64]:
    """The places at which blocks begin and end; two that differ by rounding are one."""
    ordered = sorted(set(values))
    apart = [ordered[0], *(high for low, high in pairwise(ordered) if high - low > NOTHING)]
    return np.array(apart)


def _cells(blocks: Iterable[Block], planes: Sequence[NDArray[np.float64]]) -> Cells:
    """Which cells are full; one empty layer is about them all."""
    full = np.zeros([len(each) + 1 for each in planes], dtype=np.bool_)
    corners = np.array(list(blocks))
    # the plane of a value is the last that is not above it, up to rounding
    at = [np.searchsorted(planes[i % 3], corners[:, i] + NOTHING, "right") for i in range(6)]
    for x0, y0, z0, x1, y1, z1 in np.stack(at, axis=1).tolist():
        full[x0:x1, y0:y1, z0:z1] = True
    return full


def _quads(cells: Cells, planes: Sequence[NDArray[np.float64]], axis: int) -> Iterator[Quad]:
    along, across = (i for i in range(3) if i != axis)
    layers = np.moveaxis(cells, axis, 0)[:, 1:-1, 1:-1]
    below, above = layers[:-1], layers[1:]
    for sign, faces in ((1, below & ~above), (-1, above & ~below)):
        for layer, i, j, to_i, to_j in _rectangles(faces):
            low, high = [0.0] * 3, [0.0] * 3
            low[axis] = high[axis] = float(planes[axis][layer])
            low[along], high[along] = float(planes[along][i]), float(planes[along][to_i])
            low[across], high[across] = float(planes[across][j]), float(planes[across][to_j])
            yield Quad((low[0], low[1], low[2]), (high[0], high[1], high[2]), axis, sign)


def _rectangles(faces: Cells) -> Iterator[tuple[int, int, int, int, int]]:
    """The full cells of each layer in rectangles (layer, i, j, to i, to j): equal runs of rows that follow joined."""
    growing: dict[tuple[int, int, int], tuple[int, int]] = {}
    for layer, i, first, after in _runs(faces):
        start, end = growing.get((layer, first, after), (i, i))
        if end != i:  # the row between has no such run
            yield layer, start, first, end, after
            start = i
        growing[layer, first, after] = (start, i + 1)
    for (layer, first, after), (start, end) in growing.items():
        yield layer, start, first, end, after


def _edges(cells: Cells, planes: Sequence[NDArray[np.float64]], axis: int) -> Iterator[Edge]:
    along, across = (i for i in range(3) if i != axis)
    columns = np.moveaxis(cells, axis, 2)[:, :, 1:-1]
    a, b, c, d = columns[:-1, :-1], columns[1:, :-1], columns[:-1, 1:], columns[1:, 1:]
    count = a.astype(np.int8) + b + c + d
    turns = (count == 1) | (count == 3) | ((count == 2) & (a == d))
    for i, j, first, after in _runs(turns):
        start, end = [0.0] * 3, [0.0] * 3
        start[along] = end[along] = float(planes[along][i])
        start[across] = end[across] = float(planes[across][j])
        start[axis], end[axis] = float(planes[axis][first]), float(planes[axis][after])
        yield Edge((start[0], start[1], start[2]), (end[0], end[1], end[2]), axis)


def _runs(cells: Cells) -> list[tuple[int, int, int, int]]:
    """Each run of full cells along the last axis: its two other indices, its first cell and the one after its last."""
    steps = np.diff(np.pad(cells, ((0, 0), (0, 0), (1, 1))).astype(np.int8), axis=2)
    ends = np.argwhere(steps == -1)[:, 2:]
    return [(i, j, k, to) for i, j, k, to in np.hstack((np.argwhere(steps == 1), ends)).tolist()]
