"""The best filling of a bar: bounded knapsack in whole numbers, for every capacity at once.

Dynamic programming over the capacity; a piece that may be taken d times is split in 1, 2, 4, ... copies (Martello &
Toth, Knapsack Problems, 1990, section 3.2).
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt

from generator.calculators.cutting.core.budget import WorkBudget

Whole = npt.NDArray[np.int64]


def binary_split(count: int) -> list[int]:
    """Parts of `count` whose subsets sum to every number from 0 to `count`."""
    parts = []
    part = 1
    while count > 0:
        part = min(part, count)
        parts.append(part)
        count -= part
        part *= 2
    return parts


class Knapsack:
    """The best value of pieces in a bar, up to `capacity`; every piece as often as its count allows."""

    def __init__(self, lengths: Sequence[int], counts: Sequence[int], capacity: int) -> None:
        self.capacity = capacity
        self.size = len(lengths)
        self._items: list[tuple[int, int, int]] = []
        for index in sorted(range(len(lengths)), key=lambda i: -lengths[i]):
            most = min(counts[index], capacity // lengths[index])
            self._items += [(index, part, part * lengths[index]) for part in binary_split(most)]
        self._taken = np.zeros((len(self._items), capacity + 1), dtype=np.bool_)

    @property
    def work(self) -> int:
        """Units of work that one table costs."""
        return 30 + len(self._items) * (8 + self.capacity // 800)

    @property
    def reading(self) -> int:
        """Units of work that it costs to read one pattern out of a table."""
        return 5 + len(self._items) // 8

    def table(self, values: Sequence[int], budget: WorkBudget | None = None) -> Whole:
        """The best value for each capacity from 0 to the longest. Values that are not above 0 are left out."""
        best = np.zeros(self.capacity + 1, dtype=np.int64)
        spare = np.empty(self.capacity + 1, dtype=np.int64)
        for row, (index, part, length) in enumerate(self._items):
            taken = self._taken[row]
            value = values[index] * part
            if value <= 0:
                taken[:] = False
                continue
            with_it = spare[: self.capacity + 1 - length]
            np.add(best[: self.capacity + 1 - length], value, out=with_it)
            taken[:length] = False
            np.greater(with_it, best[length:], out=taken[length:])
            np.maximum(best[length:], with_it, out=best[length:])
        if budget is not None:
            budget.spend(self.work)
        return best

    def pattern(self, capacity: int) -> tuple[int, ...]:
        """The pieces behind the last table's best value at `capacity`."""
        counts = [0] * self.size
        for row in range(len(self._items) - 1, -1, -1):
            if self._taken[row, capacity]:
                index, part, length = self._items[row]
                counts[index] += part
                capacity -= length
        return tuple(counts)
