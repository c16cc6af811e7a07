"""At the saw: the marks and stops of each bar, and the cuts of all sheets in batches of one fence setting.

Bars are cut longest piece first, so that a spoiled long piece becomes a short one; marks run from the datum
end.
Sheets: a part can be cut once it exists, so cuts wait for the cut that makes their part; among those that
wait,
all with the setting of the fence are made in one pass, also of different sheets (TRADE C52, section 5).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.calculators.sheets import CutSheet, CutTree, SawCut


@dataclass(frozen=True)
class BarCut:
    """One piece: where its far end is marked from the bar's datum end, and the stop setting (its length)."""

    length: Fraction
    mark: Fraction
    stop: Fraction


def bar_cuts(lengths: Sequence[Fraction], *, kerf: Fraction, trim: Fraction) -> tuple[BarCut, ...]:
    """The cuts of one bar: the datum end is trimmed first, each piece ends at its mark, the kerf lies
    behind it.
    """
    at = trim
    cuts = []
    for length in sorted(lengths, reverse=True):
        cuts.append(BarCut(length, at + length, length))
        at += length + kerf
    return tuple(cuts)


@dataclass(frozen=True)
class StopBatch:
    """One setting of the stop: which bars (their places) give how many pieces of this length."""

    stop: Fraction
    bars: tuple[tuple[int, int], ...]

    @property
    def count(self) -> int:
        """The pieces of the batch."""
        return sum(count for _, count in self.bars)


def stop_batches(bars: Sequence[Sequence[Fraction]]) -> tuple[StopBatch, ...]:
    """All bars together by stop setting, longest to shortest: each setting once."""
    return tuple(
        StopBatch(
            stop,
            tuple((place, list(bar).count(stop)) for place, bar in enumerate(bars) if stop in bar),
        )
        for stop in sorted({length for bar in bars for length in bar}, reverse=True)
    )


@dataclass(frozen=True)
class FenceCut:
    """A cut of one sheet (its place), numbered on its sheet in the order in which it is made."""

    sheet: int
    number: int
    cut: SawCut


@dataclass(frozen=True)
class FenceBatch:
    """One setting of the fence and the cuts made with it, in order."""

    setting: Fraction
    cuts: tuple[FenceCut, ...]


@dataclass(frozen=True)
class FenceOrder:
    """The cuts of all sheets in batches. `setups` are the settings made, `setups_sheet_by_sheet` without
    batching.
    """

    batches: tuple[FenceBatch, ...]
    setups_sheet_by_sheet: int

    @property
    def setups(self) -> int:
        """How often the fence is set."""
        return len(self.batches)


def fence_order(sheets: Sequence[CutSheet]) -> FenceOrder:
    """Order the cuts so that the fence is set few times: the setting with most cuts waiting comes next.

    A setting is only taken while another still waits for it when nothing better waits: what later cuts free
    with
    the same setting would need it again.
    """
    waiting: list[tuple[int, CutTree]] = [
        (place, sheet.tree) for place, sheet in enumerate(sheets) if sheet.tree.cut is not None
    ]
    made = [0] * len(sheets)
    batches: list[FenceBatch] = []
    while waiting:
        setting = _next_setting(waiting)
        cuts: list[FenceCut] = []
        moved = True
        while moved:
            moved = False
            for entry in list(waiting):
                place, tree = entry
                if tree.cut is None or tree.cut.setting != setting:
                    continue
                waiting.remove(entry)
                made[place] += 1
                cuts.append(FenceCut(place, made[place], tree.cut))
                parts = [
                    part for part in (tree.first, tree.second) if part is not None and part.cut is not None
                ]
                waiting += [(place, part) for part in parts]
                moved = True
        batches.append(FenceBatch(setting, tuple(cuts)))
    alone = sum(_runs([cut.setting for cut in sheet.cuts]) for sheet in sheets)
    return FenceOrder(tuple(batches), alone)


def _next_setting(waiting: Sequence[tuple[int, CutTree]]) -> Fraction:
    """The setting that no later cut needs, if any waits; else the one that most cuts wait for; wider first."""
    ready: dict[Fraction, int] = {}
    later: dict[Fraction, int] = {}
    for _, tree in waiting:
        assert tree.cut is not None
        ready[tree.cut.setting] = ready.get(tree.cut.setting, 0) + 1
        for part in (tree.first, tree.second):
            for cut in part.cuts() if part is not None else ():
                later[cut.setting] = later.get(cut.setting, 0) + 1
    return min(ready, key=lambda setting: (later.get(setting, 0), -ready[setting], -setting))


def _runs(settings: Sequence[Fraction]) -> int:
    """How often a row of settings changes, the first included."""
    return sum(place == 0 or settings[place - 1] != setting for place, setting in enumerate(settings))
