"""A bar problem in whole numbers: the kerf is part of every piece, so a plan is a sum that must fit.

With kerf k, a bar of usable length U = stock - 2 trims holds pieces l1..ln when sum(l) + (n - 1) k <= U, which is
sum(l + k) <= U + k. This is exact; the last piece may end at the stock's end.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

#: Which piece lengths a bar holds, as many of each as the count says: parallel to `BarJob.lengths`.
Pattern = tuple[int, ...]


@dataclass(frozen=True)
class BarJob:
    """Lengths with the kerf, longest first, in whole steps; capacities likewise; prices in whole steps."""

    lengths: tuple[int, ...]
    demands: tuple[int, ...]
    capacities: tuple[int, ...]
    prices: tuple[int, ...]
    limits: tuple[int | None, ...]

    @property
    def total(self) -> int:
        """The length of all pieces with their kerfs."""
        return sum(length * demand for length, demand in zip(self.lengths, self.demands, strict=True))

    @property
    def longest(self) -> int:
        """The capacity of the longest stock."""
        return max(self.capacities)

    @property
    def one_price(self) -> bool:
        """Whether there is a single stock length in any number."""
        return len(self.capacities) == 1 and self.limits[0] is None

    def used(self, pattern: Pattern) -> int:
        """How much of a bar's capacity a pattern takes."""
        return sum(length * count for length, count in zip(self.lengths, pattern, strict=True))


@dataclass(frozen=True)
class Cut:
    """One pattern on one stock, `times` times."""

    stock: int
    pattern: Pattern
    times: int


def cost_of(job: BarJob, cuts: Sequence[Cut]) -> int:
    """The price of a plan, in whole steps."""
    return sum(job.prices[cut.stock] * cut.times for cut in cuts)


def is_plan(job: BarJob, cuts: Sequence[Cut], exact: bool = True) -> bool:
    """Whether a plan fits its bars, keeps the limits and makes every piece (no more of any, if `exact`)."""
    made = [0] * len(job.lengths)
    taken = [0] * len(job.capacities)
    for cut in cuts:
        if cut.times < 0 or min(cut.pattern) < 0 or job.used(cut.pattern) > job.capacities[cut.stock]:
            return False
        taken[cut.stock] += cut.times
        made = [so_far + count * cut.times for so_far, count in zip(made, cut.pattern, strict=True)]
    if any(limit is not None and count > limit for count, limit in zip(taken, job.limits, strict=True)):
        return False
    if exact:
        return tuple(made) == job.demands
    return all(count >= demand for count, demand in zip(made, job.demands, strict=True))


def trimmed_to_demand(job: BarJob, cuts: Sequence[Cut]) -> list[Cut]:
    """Leave out pieces that a plan makes too many of, and bars that hold nothing then. The cost never rises."""
    left = list(job.demands)
    result: dict[tuple[int, Pattern], int] = {}
    for cut in cuts:
        times = cut.times
        while times > 0:
            pattern = tuple(min(count, rest) for count, rest in zip(cut.pattern, left, strict=True))
            if not any(pattern):
                break
            repeat = min(
                [times, *(rest // count for count, rest in zip(pattern, left, strict=True) if count)]
            )
            left = [rest - repeat * count for count, rest in zip(pattern, left, strict=True)]
            result[cut.stock, pattern] = result.get((cut.stock, pattern), 0) + repeat
            times -= repeat
    return [Cut(stock, pattern, times) for (stock, pattern), times in result.items()]
