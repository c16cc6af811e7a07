"""A tilted shelf on its way to its cleats, swept in fine steps by a geometry library that knows no formula."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

import numpy as np
import pytest
from shapely import Polygon, affinity, box, union_all
from shapely.geometry.base import BaseGeometry

from generator.calculators.shelves import PASSING_PLAY, Landing, cleat_count, lands, tilt_in

CLEAT_HIGH, PLAY, STEP = 40.0, 0.5, 0.1


def board(length: float, thickness: float, degrees: float, left: float, bottom: float) -> Polygon:
    """The shelf seen from the open side, its right end raised, its outline's left and bottom at a place."""
    turned = affinity.rotate(box(0, 0, length, thickness), degrees, origin=(0, 0))
    x, y, *_ = turned.bounds
    return affinity.translate(turned, left - x, bottom - y)


def size(length: float, thickness: float, degrees: float) -> tuple[float, float]:
    x0, y0, x1, y1 = board(length, thickness, degrees, 0, 0).bounds
    return (x1 - x0, y1 - y0)


def no_wider(length: float, thickness: float, width: float) -> float:
    """The flattest angle of this width or less, found by trying (degrees)."""
    angles = np.arange(0, 80, STEP / 10)
    return float(next(a for a in angles if size(length, thickness, a)[0] <= width))


def way_down(
    length: float, thickness: float, opening: float, recess: float, cleat: float, own: float, ceiling: float
) -> Iterator[Polygon]:
    """Poses from the tilt that passes the posts to level on the cleats at height `own`; the floor is at 0."""
    steep = no_wider(length, thickness, opening - PASSING_PLAY)
    width, height = size(length, thickness, steep)
    middle, lowest = (recess - width) / 2, ceiling - height
    if lowest >= own:
        # above its own cleats at once: low end to its wall, then down about that end
        for left in np.arange(middle, 0, -1):
            yield board(length, thickness, steep, left, own)
        for degrees in np.arange(steep, 0, -STEP):
            yield board(length, thickness, degrees, 0, own)
    else:
        # high end to its wall under the ceiling, then the low end up past its cleat
        for right in np.arange(middle + width, recess, 1):
            yield board(length, thickness, steep, right - width, lowest)
        turning = no_wider(length, thickness, recess - cleat - PLAY)
        for degrees in np.arange(steep, turning, -STEP):
            across, up = size(length, thickness, degrees)
            yield board(length, thickness, degrees, recess - across, ceiling - up)
        for degrees in np.arange(turning, 0, -STEP):
            across, _ = size(length, thickness, degrees)
            yield board(length, thickness, degrees, recess - across, own)
    yield board(length, thickness, 0, (recess - length) / 2, own)


def room(recess: float, ceiling: float, cleats: list[float], cleat: float) -> BaseGeometry:
    """What bounds the way: walls, floor and ceiling as thick blocks, two cleats at each height."""
    blocks = [
        box(-99, -99, 0, 999), box(recess, -99, recess + 99, 999),
        box(-99, -99, recess + 99, 0), box(-99, ceiling, recess + 99, 999),
    ]  # fmt: skip
    for top in cleats:
        blocks += [box(0, top - CLEAT_HIGH, cleat, top), box(recess - cleat, top - CLEAT_HIGH, recess, top)]
    return union_all(blocks)


def deepest(poses: Iterator[Polygon], bounds: BaseGeometry) -> float:
    """The largest common area of the board and what is in its way (mm²)."""
    return max(bounds.intersection(pose).area for pose in poses)


#: Lower shelf of the worked bench; its upper one over the lower; a wall bench's lower shelf; a short wide bay.
#: (length, thickness, opening, recess, cleat, height of the own cleats, ceiling, cleats above or None)
WAYS = [
    (966, 18, 940, 968, 15, 42, 497, 270),
    (966, 18, 940, 968, 15, 210, 437, None),
    (621, 18.25, 597, 623, 15.9, 51, 540, 248.4),
    (566, 18, 540, 568, 15, 30, 300, None),
]


@pytest.mark.parametrize("way", WAYS)
def test_a_shelf_that_lands_sweeps_past_cleats_and_ceiling(way) -> None:
    length, thickness, opening, recess, cleat, own, ceiling, above = way
    sizes = [Fraction(str(value)) for value in (length, thickness, opening, recess)]
    gap = None if above is None else above - CLEAT_HIGH - own
    assert tilt_in(*sizes, Fraction(ceiling)).possible
    assert lands(*sizes, Fraction(str(cleat)), Landing(ceiling - own, ceiling, gap))
    bounds = room(recess, ceiling, [own] if above is None else [own, above], cleat)
    poses = way_down(length, thickness, opening, recess, cleat, own, ceiling)
    # half a square millimetre: where the board's corner grazes between two steps
    assert deepest(poses, bounds) < 0.5


@pytest.mark.parametrize(
    ("way", "nearer"), [(WAYS[0], 25), (WAYS[2], 25), (WAYS[0], 100)], ids=["demo", "wall bench", "much"]
)
def test_cleats_that_are_too_near_bar_the_same_way(way, nearer) -> None:
    length, thickness, opening, recess, cleat, own, ceiling, above = way
    sizes = [Fraction(str(value)) for value in (length, thickness, opening, recess, cleat)]
    gap = above - nearer - CLEAT_HIGH - own
    assert not lands(*sizes, Landing(ceiling - own, ceiling, gap))
    bounds = room(recess, ceiling, [own, above - nearer], cleat)
    assert deepest(way_down(length, thickness, opening, recess, cleat, own, ceiling), bounds) > 1


def test_a_ceiling_that_is_too_low_bars_the_upper_shelf() -> None:
    length, thickness, opening, recess, cleat, own, ceiling, _ = WAYS[1]
    sizes = [Fraction(value) for value in (length, thickness, opening, recess, cleat)]
    assert not lands(*sizes, Landing(ceiling - own - 50, ceiling, None))
    bounds = room(recess, ceiling, [own + 50], cleat)
    assert deepest(way_down(length, thickness, opening, recess, cleat, own + 50, ceiling), bounds) > 1


def test_screws_of_the_worked_cleats() -> None:
    """Cleats of 260, runners of 498, packing of 480: 3, 4 and 4 screws, 120 in all; common practice."""
    counts = [cleat_count(Fraction(length)) for length in (260, 498, 480)]
    assert counts == [3, 4, 4]
    assert 8 * counts[0] + 12 * counts[1] + 12 * counts[2] == 120


@pytest.mark.parametrize("length", [40, 60, 61, 209, 210, 211, 360, 361, 510, 511, 960])
def test_no_two_screws_of_a_cleat_are_further_apart_than_150(length: int) -> None:
    """30 mm from each end: as few as leave no more than 150 between two, tried one by one."""
    count = cleat_count(Fraction(length))
    tried = next(n for n in range(2, 99) if (length - 60) / (n - 1) <= 150)
    assert count == tried


def test_a_board_that_goes_in_level_or_not_at_all() -> None:
    """940 of opening less 4 of play: 936 goes in level, and no board through an opening of 4."""
    size = [Fraction(n) for n in (936, 18, 940, 968, 485)]
    level = tilt_in(*size)
    assert (level.possible, level.angle_degrees, level.needed_height) == (True, 0, 18)
    assert not tilt_in(Fraction(936), Fraction(18), Fraction(4), Fraction(968), Fraction(485)).possible
