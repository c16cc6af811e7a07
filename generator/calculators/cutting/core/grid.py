"""Sizes in whole steps: exactly where the steps are few enough, else on a coarser grid that keeps to the truth.

All that a cutting plan needs to know of sizes is which sets of pieces a length holds: along a bar, and along each
axis of a sheet cut from edge to edge, where the pieces of every row must fit. On a coarse grid a set is known by the
sum of its rounded sizes. Of each such sum the least and the greatest true length are worked out, over all sets that
have it; so two sums are known for each length that is to hold them: up to `inner` every set fits, beyond `outer` none
does. A plan within `inner` can be cut, a bound for `outer` holds for every plan. Where both are equal nothing is
lost.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np

from generator.calculators.cutting.core.knapsack import Whole, binary_split

#: Whole numbers that stay well inside 64 bits when some are added.
LARGEST = 1 << 56

#: More than any true length that is added up.
FAR = 1 << 61


@dataclass(frozen=True)
class SizeGrid:
    """Sizes in steps, parallel to those given, and for each room the sums that surely fit and that may fit.

    `exact`: both sums are the room itself. Else a step is only about as long as `grain` steps of the `close` sizes
    and rooms: whole numbers of any size, of `step` each, rounded by so little that only a tie may be lost.
    """

    sizes: tuple[int, ...]
    inner: tuple[int, ...]
    outer: tuple[int, ...]
    step: Fraction
    exact: bool
    close_sizes: tuple[int, ...]
    close_rooms: tuple[int, ...]
    grain: int = 1


def on_grid(
    sizes: Sequence[Fraction], axes: Sequence[Sequence[tuple[int, int]]], rooms: Sequence[Fraction], most: int
) -> SizeGrid:
    """Sizes above 0 on a grid with at most about `most` steps to the longest room.

    Each axis lists the sizes that are along it, by their place, each with how often it may; `rooms` are the lengths
    along the first axis, then as many along the next.
    """
    longest = max(Fraction(1), *rooms)
    exact = _exact(sizes, rooms, longest, most)
    if exact is not None:
        return exact
    fine = _common(sizes, rooms, LARGEST / longest) or LARGEST // math.ceil(longest)
    low = [math.floor(size * fine) for size in sizes]
    high = [math.ceil(size * fine) for size in sizes]
    ends = [math.floor(room * fine) for room in rooms]
    grain = max(1, -(-max(1, *ends) // most))
    steps = [max(1, (each + grain // 2) // grain) for each in low]
    inner, outer = [], []
    per_axis = len(rooms) // len(axes)
    for number, axis in enumerate(axes):
        own = ends[number * per_axis : (number + 1) * per_axis]
        lightest = min((size for size in (low[place] for place, _ in axis)), default=1)
        together = min(sum(count for _, count in axis), max(1, *own) // max(1, lightest))
        least, greatest = _true_lengths(steps, axis, low, high, max(1, *own) // grain + together + 1)
        for end in own:
            may = np.flatnonzero(least <= end)
            fails = np.flatnonzero(greatest > end)
            outer.append(int(may[-1]) if len(may) else 0)
            inner.append(min(outer[-1], int(fails[0]) - 1) if len(fails) else outer[-1])
    inner = [max(0, each) for each in inner]
    close = tuple(high), tuple(max(0, end) for end in ends)
    return SizeGrid(tuple(steps), tuple(inner), tuple(outer), 1 / Fraction(fine), False, *close, grain)


def _exact(
    sizes: Sequence[Fraction], rooms: Sequence[Fraction], longest: Fraction, most: int
) -> SizeGrid | None:
    per_unit = _common(sizes, rooms, LARGEST / longest)
    if per_unit is None:
        return None
    whole = [int(size * per_unit) for size in sizes]
    ends = [int(room * per_unit) for room in rooms]
    step = max(1, math.gcd(*whole, *ends))
    if max(ends) > most * step:
        return None
    steps = tuple(size // step for size in whole)
    held = tuple(max(0, end // step) for end in ends)
    return SizeGrid(steps, held, held, Fraction(step, per_unit), True, steps, held)


def _common(sizes: Sequence[Fraction], rooms: Sequence[Fraction], most: Fraction) -> int | None:
    """The least number by which all become whole, unless it is more than `most`."""
    number = 1
    for each in (*sizes, *rooms):
        number = math.lcm(number, each.denominator)
        if number > most:
            return None
    return number


def _true_lengths(
    steps: Sequence[int],
    axis: Sequence[tuple[int, int]],
    low: Sequence[int],
    high: Sequence[int],
    top: int,
) -> tuple[Whole, Whole]:
    """For each sum of steps up to `top` the least and the greatest true length; FAR and -FAR where no set has it."""
    least = np.full(top + 1, FAR, dtype=np.int64)
    greatest = -least
    least[0] = greatest[0] = 0
    for place, count in axis:
        for part in binary_split(min(count, top // steps[place])):
            size = part * steps[place]
            np.minimum(least[size:], least[: top + 1 - size] + part * low[place], out=least[size:])
            np.maximum(greatest[size:], greatest[: top + 1 - size] + part * high[place], out=greatest[size:])
    return least, greatest


def price_steps(prices: Sequence[Fraction], most: int) -> tuple[tuple[int, ...], Fraction]:
    """Prices in whole steps up to about `most`, and what a step is worth at least.

    Whatever bars or sheets are bought, they cost no less than their steps times that; as much where nothing is
    rounded.
    """
    dearest = max(prices)
    if dearest == 0:
        return tuple(0 for _ in prices), Fraction(1)
    per_unit = _common(prices, (), most / dearest)
    if per_unit is None:
        steps = tuple(max(1, round(price * most / dearest)) if price else 0 for price in prices)
    else:
        whole = [int(price * per_unit) for price in prices]
        step = math.gcd(*whole)
        steps = tuple(price // step for price in whole)
    return steps, min(price / step for price, step in zip(prices, steps, strict=True) if step)
