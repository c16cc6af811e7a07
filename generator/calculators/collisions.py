"""Which bodies overlap, and what is in a body's way. Floats, millimetres."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from generator.calculators.bodies import Block, Body

Direction = Literal["+x", "-x", "+y", "-y", "+z", "-z"]

#: Up first: what is lowered in stays where gravity holds it.
DIRECTIONS: tuple[Direction, ...] = ("+z", "-x", "+x", "-y", "+y", "-z")
OPPOSITE: dict[Direction, Direction] = {
    "+x": "-x", "-x": "+x", "+y": "-y", "-y": "+y", "+z": "-z", "-z": "+z",
}  # fmt: skip

#: Two bodies that reach less than this into each other touch (mm).
TOLERANCE = 0.02


@dataclass(frozen=True)
class Clash:
    """Two bodies in one place. `depth` is the way (mm) that one would have to give; `at` the common block."""

    first: Body
    second: Body
    depth: float
    at: Block


def meet(one: Block, other: Block, tolerance: float = TOLERANCE) -> bool:
    """True when two blocks have more than `tolerance` in common along every axis."""
    return (
        one[3] - other[0] > tolerance
        and other[3] - one[0] > tolerance
        and one[4] - other[1] > tolerance
        and other[4] - one[1] > tolerance
        and one[5] - other[2] > tolerance
        and other[5] - one[2] > tolerance
    )


def clashes(bodies: Iterable[Body], tolerance: float = TOLERANCE) -> tuple[Clash, ...]:
    """Every pair of bodies that overlap, in the order of the bodies. A sweep along X keeps the pairs few."""
    numbered = list(enumerate(bodies))
    found: list[tuple[int, int, Clash]] = []
    active: list[tuple[int, Body]] = []
    for index, body in sorted(numbered, key=lambda each: each[1].bounds[0]):
        start = body.bounds[0] + tolerance
        active = [(place, other) for place, other in active if other.bounds[3] > start]
        for place, other in active:
            if meet(body.bounds, other.bounds, tolerance):
                first, second = (other, body) if place < index else (body, other)
                clash = _clash(first, second, tolerance)
                if clash:
                    found.append((min(place, index), max(place, index), clash))
        active.append((index, body))
    return tuple(clash for _, _, clash in sorted(found, key=lambda each: each[:2]))


def _clash(first: Body, second: Body, tolerance: float) -> Clash | None:
    commons = [
        _common(one, other)
        for one in first.blocks
        if meet(one, second.bounds, tolerance)
        for other in second.blocks
        if meet(one, other, tolerance)
    ]
    if not commons:
        return None
    worst = max(commons, key=_depth)
    return Clash(first, second, _depth(worst), worst)


def _common(one: Block, other: Block) -> Block:
    return (
        max(one[0], other[0]), max(one[1], other[1]), max(one[2], other[2]),
        min(one[3], other[3]), min(one[4], other[4]), min(one[5], other[5]),
    )  # fmt: skip


def _depth(block: Block) -> float:
    return min(block[3] - block[0], block[4] - block[1], block[5] - block[2])


def swept(block: Block, direction: Direction) -> Block:
    """The space that a block passes on its way out in a direction, for as far as there is anything."""
    axis = "xyz".index(direction[1])
    spread = list(block)
    if direction[0] == "+":
        spread[axis + 3] = float("inf")
    else:
        spread[axis] = float("-inf")
    return (spread[0], spread[1], spread[2], spread[3], spread[4], spread[5])


def obstacles(
    moving: Sequence[Body], standing: Iterable[Body], direction: Direction, tolerance: float = TOLERANCE
) -> Iterator[Body]:
    """The standing bodies that the moving ones, as one, would run into on their way out in a direction.

    Bodies that already overlap are no matter of moving: such a pair is a clash and is found as one.
    """
    axis, up = "xyz".index(direction[1]), direction[0] == "+"
    whole = swept(bounds_of(moving), direction)
    paths = [(swept(body.bounds, direction), body) for body in moving]
    for other in standing:
        if meet(whole, other.bounds, tolerance) and any(
            meet(path, other.bounds, tolerance) and _runs_into(body, other, axis, up, tolerance)
            for path, body in paths
        ):
            yield other


def _runs_into(body: Body, other: Body, axis: int, up: bool, tolerance: float) -> bool:
    """True when some block of `other` is ahead of some block of `body`, beside it in no other axis."""
    a, b = (axis + 1) % 3, (axis + 2) % 3
    near, far = body.bounds, other.bounds
    mine = [k for k in body.blocks if _beside(k, far, a, b, tolerance)]
    theirs = [k for k in other.blocks if _beside(k, near, a, b, tolerance)]
    for one in mine:
        for two in theirs:
            if not _beside(one, two, a, b, tolerance):
                continue
            if up and two[axis] >= one[axis + 3] - tolerance:
                return True
            if not up and two[axis + 3] <= one[axis] + tolerance:
                return True
    return False


def _beside(one: Block, other: Block, a: int, b: int, tolerance: float) -> bool:
    return (
        one[a + 3] - other[a] > tolerance
        and other[a + 3] - one[a] > tolerance
        and one[b + 3] - other[b] > tolerance
        and other[b + 3] - one[b] > tolerance
    )


def bounds_of(bodies: Sequence[Body]) -> Block:
    """The block about several bodies."""
    low = [min(body.bounds[axis] for body in bodies) for axis in range(3)]
    high = [max(body.bounds[axis] for body in bodies) for axis in range(3, 6)]
    return (low[0], low[1], low[2], high[0], high[1], high[2])


def way_out(
    moving: Sequence[Body], standing: Sequence[Body], preferred: Sequence[Direction] = ()
) -> Direction | None:
    """The first direction in which the moving bodies leave all standing ones behind, preferred ones first."""
    for direction in dict.fromkeys((*preferred, *DIRECTIONS)):
        if next(obstacles(moving, standing, direction), None) is None:
            return direction
    return None
