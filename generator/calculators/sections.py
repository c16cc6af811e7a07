"""The section of a body of axis-parallel blocks by a plane across an axis: exact, with no seam between its blocks."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from generator.calculators.bodies import Block, Rectangle
from generator.calculators.surfaces import surface

Segment = tuple[tuple[float, float], tuple[float, float]]


@dataclass(frozen=True)
class Section:
    """What a plane cuts (mm), along the two other axes in their order.

    `areas` are rectangles (low, low, high, high) that do not overlap, `edges` the lines about them all.
    """

    areas: tuple[Rectangle, ...]
    edges: tuple[Segment, ...]


@lru_cache(maxsize=1024)
def section(blocks: tuple[Block, ...], axis: int, at: float) -> Section:
    """The section of the union of the blocks by the plane at `at` (mm) across `axis` (0 to 2)."""
    across = [each for each in range(3) if each != axis]
    slab = [_flat(block, axis) for block in blocks if block[axis] < at < block[axis + 3]]
    if not slab:
        return Section((), ())
    areas: list[Rectangle] = []
    edges: list[Segment] = []
    for quad in surface(slab).quads:
        low, high = ((corner[across[0]], corner[across[1]]) for corner in (quad.low, quad.high))
        if quad.axis != axis:
            edges.append((low, high))
        elif quad.sign > 0:
            areas.append((*low, *high))
    return Section(tuple(areas), tuple(edges))


def _flat(block: Block, axis: int) -> Block:
    low, high = list(block[:3]), list(block[3:])
    low[axis], high[axis] = 0.0, 1.0
    return (low[0], low[1], low[2], high[0], high[1], high[2])
