"""Solid bodies as unions of axis-parallel blocks, and the section of a slotted bar. Floats, millimetres.

A block is (x low, y low, z low, x high, y high, z high). The blocks of one body never overlap each other, so that
volumes add up. Round holes and screws are the squares about them: a key or screw on the axis of a hole meets it exactly
as the round ones do.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

Block = tuple[float, float, float, float, float, float]
Rectangle = tuple[float, float, float, float]

#: Thinner leftovers than this (mm) are rounding, not material.
NOTHING = 1e-6


@dataclass(frozen=True)
class Body:
    """One rigid thing. `owner` is the part that it is or that it is screwed to; `kind` what it is made as."""

    name: str
    owner: str
    kind: str
    blocks: tuple[Block, ...]

    @cached_property
    def bounds(self) -> Block:
        """The block about all blocks."""
        low = [min(block[axis] for block in self.blocks) for axis in range(3)]
        high = [max(block[axis] for block in self.blocks) for axis in range(3, 6)]
        return (low[0], low[1], low[2], high[0], high[1], high[2])

    @property
    def volume(self) -> float:
        """In mm³."""
        return sum(block_volume(block) for block in self.blocks)

    @cached_property
    def centre(self) -> tuple[float, float, float]:
        """Centre of mass of a body of one material."""
        total = self.volume
        x, y, z = (
            sum(block_volume(block) * (block[axis] + block[axis + 3]) / 2 for block in self.blocks) / total
            for axis in range(3)
        )
        return (x, y, z)


def block_volume(block: Block) -> float:
    """In mm³."""
    return (block[3] - block[0]) * (block[4] - block[1]) * (block[5] - block[2])


def block_of(spans: Sequence[tuple[float, float]]) -> Block:
    """The block with the given (low, high) along X, Y, Z."""
    (x, u), (y, v), (z, w) = spans
    return (x, y, z, u, v, w)


def carve(blocks: Iterable[Block], void: Block) -> tuple[Block, ...]:
    """The blocks without what is in `void`. A block that it cuts falls into at most six."""
    left: list[Block] = []
    for block in blocks:
        if any(
            block[axis] >= void[axis + 3] - NOTHING or block[axis + 3] <= void[axis] + NOTHING
            for axis in range(3)
        ):
            left.append(block)
            continue
        rest = list(block)
        for axis in range(3):
            if rest[axis] < void[axis] - NOTHING:
                left.append(_with(rest, axis + 3, void[axis]))
                rest[axis] = void[axis]
            if rest[axis + 3] > void[axis + 3] + NOTHING:
                left.append(_with(rest, axis, void[axis + 3]))
                rest[axis + 3] = void[axis + 3]
    return tuple(left)


def _with(block: Sequence[float], index: int, value: float) -> Block:
    changed = list(block)
    changed[index] = value
    return (changed[0], changed[1], changed[2], changed[3], changed[4], changed[5])


def slotted_section(
    *, section: float, opening: float, depth: float, lip: float, undercut: float
) -> tuple[Rectangle, ...]:
    """The material of a square bar with one slot a side, as rectangles (a low, b low, a high, b high).

    The opening goes through the lip, the undercut from there to the slot's depth. The card is taken at its word also
    where a real slot narrows towards its floor. The bore is closed; tapped ends are carved.
    """
    edges = [0.0, lip, depth, (section - undercut) / 2, (section - opening) / 2]
    marks = sorted({round(mark, 9) for edge in edges for mark in (edge, section - edge)})

    def in_slot(across: float, below: float) -> bool:
        off = abs(across - section / 2)
        return (below < lip and off < opening / 2) or (lip < below < depth and off < undercut / 2)

    def is_solid(a: float, b: float) -> bool:
        return not (in_slot(a, min(b, section - b)) or in_slot(b, min(a, section - a)))

    middles = [(low + high) / 2 for low, high in pairwise(marks)]
    return _merged([[is_solid(a, b) for a in middles] for b in middles], marks)


def _merged(rows: Sequence[Sequence[bool]], marks: Sequence[float]) -> tuple[Rectangle, ...]:
    """Rectangles over the solid cells: runs along a row, and equal runs of the next rows joined on."""
    done: list[Rectangle] = []
    growing: dict[tuple[float, float], float] = {}
    for index, row in enumerate([*rows, []]):
        runs = _runs(row, marks)
        for run in [run for run in growing if run not in runs]:
            done.append((run[0], growing.pop(run), run[1], marks[index]))
        for run in runs:
            growing.setdefault(run, marks[index])
    return tuple(done)


def _runs(row: Sequence[bool], marks: Sequence[float]) -> set[tuple[float, float]]:
    found: set[tuple[float, float]] = set()
    start: float | None = None
    for index, solid in enumerate([*row, False]):
        if solid and start is None:
            start = marks[index]
        elif not solid and start is not None:
            found.add((start, marks[index]))
            start = None
    return found
