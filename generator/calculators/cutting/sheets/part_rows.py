"""Rows of parts, all that can be of use: a part after the other, while what may still come can make them enough."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

import numpy as np
import numpy.typing as npt

from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.sheets.blocks import CHUNK, Numbers, Packing

#: What cannot be: less than any worth.
NEVER = -(1 << 61)


class TooManyError(Exception):
    """There is more than can be looked at within the budget."""


@dataclass
class Parts:
    """Parts of a row: sizes along it, true and at the table's grain, pieces as a packed number, worth, and a group."""

    size: Numbers
    coarse: Numbers
    key: Numbers  # one row a part
    worth: Numbers
    group: Numbers

    def __len__(self) -> int:
        return len(self.size)

    def take(self, places: npt.NDArray[np.intp]) -> Parts:
        """Some of the parts."""
        return Parts(*(getattr(self, name)[places] for name in self.__dataclass_fields__))


@dataclass
class Rows:
    """Rows, each made of a row (its place, -1 for none) and one part more, which no part before comes after."""

    parts: Parts
    last: list[int] = field(default_factory=list)
    before: list[int] = field(default_factory=list)

    def members(self, row: int) -> list[int]:
        """The parts of a row."""
        found = []
        while row >= 0:
            found.append(self.last[row])
            row = self.before[row]
        return found[::-1]


Worth = Callable[[Numbers, Numbers], Numbers]


def build_rows(
    parts: Parts,
    room: int,
    need: int,
    more: Worth,
    ends: Worth,
    packing: Packing,
    most: int,
    budget: WorkBudget,
) -> tuple[Rows, list[int], Parts]:
    """All rows of parts within a room, the places of those that are enough as they are, and these.

    `more` is what can still come to a row (by its coarse size and group), `ends` what is around one that ends.
    """
    rows = Rows(parts)
    now, last = parts, np.arange(len(parts))
    before = np.full(len(parts), -1, dtype=np.int64)
    enough: list[int] = []
    kept: list[Parts] = []
    while len(now):
        good = np.flatnonzero((now.size <= room) & (now.worth + more(now.coarse, now.group) >= need))
        now, last, before = now.take(good), last[good], before[good]
        start = len(rows.last)
        rows.last += last.tolist()
        rows.before += before.tolist()
        done = np.flatnonzero(now.worth + ends(now.coarse, now.group) >= need)
        enough += (start + done).tolist()
        kept.append(now.take(done))
        if len(rows.last) > most:
            raise TooManyError
        now, last, before = _longer(now, last, start, parts, room, need, more, packing, budget)
    whole = (
        Parts(
            *(np.concatenate([getattr(each, name) for each in kept]) for name in Parts.__dataclass_fields__)
        )
        if kept
        else parts.take(np.zeros(0, dtype=np.intp))
    )
    return rows, enough, whole


def _longer(
    now: Parts,
    last: npt.NDArray[np.intp],
    start: int,
    parts: Parts,
    room: int,
    need: int,
    more: Worth,
    packing: Packing,
    budget: WorkBudget,
) -> tuple[Parts, npt.NDArray[np.intp], Numbers]:
    """Rows of one part more."""
    found: list[tuple[Parts, npt.NDArray[np.intp], Numbers]] = []
    step = max(1, CHUNK // max(1, len(parts)))
    for first in range(0, len(now), step):
        own = now.take(np.arange(first, min(len(now), first + step)))
        budget.spend(100 + len(own) * len(parts) * (2 + packing.words) // 40)
        if budget.spent:
            raise TooManyError
        keep = (np.arange(len(parts))[None, :] >= last[first : first + step, None]) & (
            own.size[:, None] <= room - parts.size[None, :]
        )
        for word, (slack, over) in enumerate(zip(packing.slack, packing.over, strict=True)):
            keep &= ((own.key[:, None, word] + (parts.key[None, :, word] + slack)) & over) == 0
        a, b = np.nonzero(keep)
        joined = Parts(
            own.size[a] + parts.size[b],
            own.coarse[a] + parts.coarse[b],
            own.key[a] + parts.key[b],
            own.worth[a] + parts.worth[b],
            own.group[a],
        )
        good = np.flatnonzero(joined.worth + more(joined.coarse, joined.group) >= need)
        found.append((joined.take(good), b[good], (start + first + a)[good]))
    if not found:
        none = np.zeros(0, dtype=np.intp)
        return now.take(none), none, none.astype(np.int64)
    every = Parts(
        *(
            np.concatenate([getattr(each, name) for each, _, _ in found])
            for name in Parts.__dataclass_fields__
        )
    )
    last, before = (np.concatenate([each[place] for each in found]) for place in (1, 2))
    best = shortest(every)
    budget.spend(len(every))
    return every.take(best), last[best], before[best]


def shortest(parts: Parts) -> npt.NDArray[np.intp]:
    """Of parts of one group with the same pieces, the shortest."""
    order = np.lexsort((parts.size, parts.group, *parts.key.T))
    if not len(order):
        return order
    key, group = parts.key[order], parts.group[order]
    fresh = (key[1:] != key[:-1]).any(axis=1) | (group[1:] != group[:-1])
    return order[np.concatenate(([True], fresh))]
