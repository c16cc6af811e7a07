"""The webs of a bar in its section: bodies have blocks along the axes only, real webs run to the core at 45 degrees."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import hypot

from generator.calculators.bodies import Rectangle
from generator.drawings.extent import Point

#: How thick a web is drawn, as part of the core's width.
THICK = 0.3
#: Rectangles nearer than this touch (mm).
TOUCH = 0.01


def webs(areas: Sequence[Rectangle]) -> Iterator[tuple[Point, Point, Point, Point]]:
    """From a core that touches nothing to each corner about it: the four points of a web in the section's mm.

    The first two are at the core, so that a web has its sides from the second to the third and the fourth to the
    first. Nothing where all that is cut is one piece, or no core is in its middle.
    """
    pieces = _pieces(areas)
    if len(pieces) < 3:
        return
    low = [min(area[i] for area in areas) for i in range(2)]
    high = [max(area[i + 2] for area in areas) for i in range(2)]
    middle = ((low[0] + high[0]) / 2, (low[1] + high[1]) / 2)
    core = next((piece for piece in pieces if any(_holds(area, middle) for area in piece)), None)
    if core is None:
        return
    x0, y0 = (min(area[i] for area in core) for i in range(2))
    x1, y1 = (max(area[i + 2] for area in core) for i in range(2))
    off = THICK * (x1 - x0) / 2 / 2**0.5
    for piece in (piece for piece in pieces if piece is not core):
        corners = [(x, y) for a, b, c, d in piece for x in (a, c) for y in (b, d)]
        x, y = min(corners, key=lambda at: hypot(at[0] - middle[0], at[1] - middle[1]))
        start = (x1 if x > middle[0] else x0, y1 if y > middle[1] else y0)
        far = hypot(x - start[0], y - start[1])
        if far < TOUCH:
            continue
        # across the web
        across = (-(y - start[1]) / far * off * 2**0.5, (x - start[0]) / far * off * 2**0.5)
        inward = ((start[0] - x) / far * off, (start[1] - y) / far * off)
        begin, end = (start[0] + inward[0], start[1] + inward[1]), (x - inward[0], y - inward[1])
        yield (
            (begin[0] + across[0], begin[1] + across[1]),
            (begin[0] - across[0], begin[1] - across[1]),
            (end[0] - across[0], end[1] - across[1]),
            (end[0] + across[0], end[1] + across[1]),
        )


def _pieces(areas: Sequence[Rectangle]) -> list[list[Rectangle]]:
    """Rectangles that touch, together."""
    found: list[list[Rectangle]] = []
    for area in areas:
        own = [piece for piece in found if any(_touch(area, other) for other in piece)]
        found = [piece for piece in found if piece not in own]
        found.append([area, *(other for piece in own for other in piece)])
    return found


def _touch(one: Rectangle, other: Rectangle) -> bool:
    """Whether they have more than a point in common."""
    over = [min(one[i + 2], other[i + 2]) - max(one[i], other[i]) for i in range(2)]
    return min(over) > -TOUCH and max(over) > TOUCH


def _holds(area: Rectangle, point: Point) -> bool:
    return all(area[i] - TOUCH <= point[i] <= area[i + 2] + TOUCH for i in range(2))
