"""A budget of counted work. A slow machine spends the same units as a fast one, so it makes the same plan."""

from __future__ import annotations

from collections.abc import Callable

#: Units that a machine of 2025 works off in about one second on one core. Measured, no source.
UNITS_PER_SECOND = 2_500_000


class WorkBudget:
    """Units of work that are left. A part of a budget spends from the whole as well."""

    def __init__(self, units: int, whole: WorkBudget | None = None) -> None:
        self._left = units
        self._whole = whole

    @property
    def left(self) -> int:
        """What may still be spent, in units; never more than the whole has left."""
        return self._left if self._whole is None else min(self._left, self._whole.left)

    @property
    def spent(self) -> bool:
        """Whether nothing is left."""
        return self.left <= 0

    def spend(self, units: int) -> None:
        """Take `units` from this budget and from the whole that it is a part of."""
        self._left -= units
        if self._whole is not None:
            self._whole.spend(units)

    def part(self, units: int) -> WorkBudget:
        """A budget of at most `units` that is spent from this one."""
        return WorkBudget(min(units, self.left), self)


class WatchedBudget(WorkBudget):
    """A whole budget that reports how many per cent of it are spent, at each per cent; it spends like any other.

    It ends as well when `late` says so, for a machine that takes more time for its work than is counted.
    """

    def __init__(
        self,
        units: int,
        tell: Callable[[int], None] | None = None,
        late: Callable[[], bool] | None = None,
    ) -> None:
        super().__init__(units)
        self._units, self._tell, self._late, self._told = units, tell, late, 0
        self.stopped = False
        """Whether it was late before all was spent. Another run may stop at another place."""

    @property
    def left(self) -> int:
        """What may still be spent, in units; nothing when it was late."""
        return 0 if self.stopped else super().left

    def spend(self, units: int) -> None:
        """Take `units`, look whether it is late, and report when another per cent is gone."""
        super().spend(units)
        if self._late is not None and self.left > 0 and self._late():
            self.stopped = True
        gone = min(100, 100 - 100 * max(0, self.left) // self._units)
        if self._tell is not None and gone > self._told:
            self._told = gone
            self._tell(gone)


def budget_for(seconds: float) -> WorkBudget:
    """The counted budget for a wish in seconds (on a machine of 2025)."""
    return WorkBudget(round(seconds * UNITS_PER_SECOND))
