"""What holds a thing when it is put down: what is just below it, and whether its middle is over that. Millimetres."""

from __future__ import annotations

from collections.abc import Sequence

from generator.calculators.bodies import Body, Rectangle
from generator.calculators.collisions import TOLERANCE

#: A thing sinks by no more than its play (mm) until it lies on what is below it: a tongue in its slot, a clip under
#: its lips. Common practice, no source.
PLAY = 3.0


def contacts(moving: Sequence[Body], standing: Sequence[Body], floor: float) -> tuple[Rectangle, ...]:
    """Where the moving bodies rest, as one, on the standing ones or on blocks at `floor`, seen from above."""
    found: list[Rectangle] = []
    for body in moving:
        for block in body.blocks:
            if abs(block[2] - floor) <= TOLERANCE:
                found.append((block[0], block[1], block[3], block[4]))
        low_x, low_y, low, high_x, high_y, high = body.bounds
        for other in standing:
            x, y, z, u, v, w = other.bounds
            # most are nowhere near
            if x < high_x and low_x < u and y < high_y and low_y < v and z < high and low - PLAY <= w:
                found += _shared(body, other)
    return tuple(found)


def _shared(body: Body, other: Body) -> list[Rectangle]:
    found = []
    for one in body.blocks:
        for two in other.blocks:
            if not -TOLERANCE <= one[2] - two[5] <= PLAY:
                continue
            low = max(one[0], two[0]), max(one[1], two[1])
            high = min(one[3], two[3]), min(one[4], two[4])
            if high[0] - low[0] > TOLERANCE and high[1] - low[1] > TOLERANCE:
                found.append((*low, *high))
    return found


def lies(moving: Sequence[Body], standing: Sequence[Body], floor: float) -> bool:
    """True when the centre of mass of the moving bodies is within what carries them, along X and along Y."""
    under = contacts(moving, standing, floor)
    if not under:
        return False
    volume = sum(body.volume for body in moving)
    x, y = (sum(body.volume * body.centre[axis] for body in moving) / volume for axis in (0, 1))
    return min(each[0] for each in under) <= x <= max(each[2] for each in under) and min(
        each[1] for each in under
    ) <= y <= max(each[3] for each in under)
