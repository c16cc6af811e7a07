"""At the saw stage by stage: all sheets are ripped, then all strips are crossed, then the parts are trimmed.

So a sheet is turned once for each stage. Within a stage all cuts with one setting of the fence are made in one pass,
also of different sheets. Common practice.
"""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from heapq import heapify, heappop, heappush
from itertools import pairwise

from generator.calculators.cutting.sheets.model import CutSheet, CutTree, SawCut


class StageCut:
    """A cut of a sheet (its place), numbered on its sheet in the order in which it is made.

    `parent` makes the part that it divides, its near part or the rest; None for the sheet as it comes to the saw.
    `size` is the place of its setting among all, the widest first.
    """

    __slots__ = ("cut", "near", "number", "parent", "parts", "sheet", "size")

    def __init__(self, sheet: int, cut: SawCut, parent: StageCut | None, near: bool) -> None:
        self.sheet, self.cut, self.parent, self.near = sheet, cut, parent, near
        self.parts: tuple[StageCut, ...] = ()
        self.number = self.size = 0


@dataclass(frozen=True)
class FencePass:
    """One setting of the fence and the cuts made with it, in order."""

    setting: Fraction
    cuts: tuple[StageCut, ...]

    def by_sheet(self) -> dict[int, list[int]]:
        """Place of a sheet -> the numbers of its cuts."""
        sheets: dict[int, list[int]] = {}
        for cut in self.cuts:
            sheets.setdefault(cut.sheet, []).append(cut.number)
        return sheets


@dataclass(frozen=True)
class StageOrder:
    """The cuts of all sheets in passes of one setting; those by track saw come `first`.

    `least` is how many settings each stage has, added up: no order stage by stage has fewer passes. `sheet_by_sheet` is
    how often the fence is set when one sheet after the other is cut, each stage by stage.
    """

    passes: tuple[FencePass, ...]
    least: int
    sheet_by_sheet: int
    first: tuple[StageCut, ...] = ()

    def by_sheet(self, sheets: int) -> tuple[tuple[StageCut, ...], ...]:
        """The cuts of each sheet in the order in which they are made."""
        rows: list[list[StageCut]] = [[] for _ in range(sheets)]
        for made in (self.first, *(each.cuts for each in self.passes)):
            for cut in made:
                rows[cut.sheet].append(cut)
        return tuple(map(tuple, rows))


def stage_order(sheets: Sequence[CutSheet]) -> StageOrder:
    """Order the cuts stage by stage, so that the fence is set few times; the widest settings first where it can be."""
    cuts = [cut for place, sheet in enumerate(sheets) for cut in _cuts(place, sheet.tree)]
    # a plan has few settings and many cuts: each object is looked at once, for fractions are slow to compare
    settings = {id(cut.cut.setting): cut.cut.setting for cut in cuts}
    sizes = sorted(set(settings.values()), reverse=True)
    number = {size: place for place, size in enumerate(sizes)}
    places = {key: number[size] for key, size in settings.items()}
    stages: dict[int, list[StageCut]] = defaultdict(list)
    for cut in cuts:
        cut.size = places[id(cut.cut.setting)]
        # what is too long for the fence was cut from what is longer still: these cuts wait for no other
        stages[0 if cut.cut.by_track else cut.cut.stage].append(cut)
    numbers = [0] * len(sheets)
    first = _numbered(stages.pop(0, []), numbers)
    passes: list[tuple[int, list[StageCut]]] = []
    least, alone = 0, 0
    for _, own in sorted(stages.items()):
        least += len({cut.size for cut in own})
        for size, made in _passes(own, passes[-1][0] if passes else None):
            if passes and passes[-1][0] == size:  # the fence stays where it is from one stage to the next
                size, before = passes.pop()
                made = before + made
            passes.append((size, made))
        alone += 1 + sum(one.sheet != two.sheet or one.size != two.size for one, two in pairwise(own))
    numbered = tuple(FencePass(sizes[size], _numbered(made, numbers)) for size, made in passes)
    return StageOrder(numbered, least, alone, first)


def _cuts(sheet: int, root: CutTree) -> Iterator[StageCut]:
    """All cuts of a sheet, each after the one that makes its part."""
    waiting: list[tuple[CutTree, StageCut | None, bool]] = [(root, None, True)]
    while waiting:
        tree, parent, near = waiting.pop()
        if tree.cut is None:
            continue
        cut = StageCut(sheet, tree.cut, parent, near)
        if parent is not None:
            parent.parts += (cut,)
        if tree.second is not None:
            waiting.append((tree.second, cut, False))
        if tree.first is not None:
            waiting.append((tree.first, cut, True))
        yield cut


def _numbered(cuts: Sequence[StageCut], numbers: list[int]) -> tuple[StageCut, ...]:
    """Number the cuts of each sheet as they are made."""
    for cut in cuts:
        numbers[cut.sheet] += 1
        cut.number = numbers[cut.sheet]
    return tuple(cuts)


def _passes(cuts: Sequence[StageCut], now: int | None) -> Iterator[tuple[int, list[StageCut]]]:
    """The settings of one stage in order, with their cuts; `now` is where the fence is.

    The widest that can be made whole comes first, before it the one where the fence is; where none can, the one that
    leaves fewest cuts for a second pass.
    """
    left = Counter(cut.size for cut in cuts)
    ready: dict[int, list[StageCut]] = {}
    whole: list[int] = []

    def make_ready(cut: StageCut) -> None:
        """The cut can be made, and with its setting those of the same setting in the parts that it makes."""
        made = ready.setdefault(cut.size, [])
        waiting = [cut]
        while waiting:
            each = waiting.pop()
            made.append(each)
            for part in reversed(each.parts):
                if part.size == cut.size and part.cut.stage == cut.cut.stage:
                    waiting.append(part)
        if len(made) == left[cut.size]:
            heappush(whole, cut.size)

    for cut in cuts:
        if cut.parent is None or cut.parent.cut.by_track or cut.parent.cut.stage != cut.cut.stage:
            make_ready(cut)
    while ready:
        if now in whole:
            whole.remove(now)
            heapify(whole)
            size = now
        elif whole:
            size = heappop(whole)
        else:
            size = min(ready, key=lambda each: (left[each] - len(ready[each]), each))
        now = size
        made = ready.pop(size)
        left[size] -= len(made)
        for cut in made:
            for part in cut.parts:
                if part.cut.stage == cut.cut.stage and part.size != size:
                    make_ready(part)
        yield size, sorted(made, key=lambda cut: cut.sheet)
