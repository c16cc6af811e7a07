"""At the saw: the cuts of all sheets in batches of one fence setting.

A part can be cut once it exists, so cuts wait for the cut that makes their part; among those that wait, all with the
setting of the fence are made in one pass, also of different sheets. Common practice. Parts that are cut on another
day, once the bench can be measured, come last of all.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from generator.calculators.cutting.sheets.model import CutSheet, CutTree

#: This many ways to go on are kept from one setting to the next; fewer with more cuts than these.
WAYS, CUTS = 24, 100


@dataclass(frozen=True)
class FenceCut:
    """A cut of one sheet (its place), numbered on its sheet in the order in which it is made.

    It divides `tree.area`, which is the `near` or far part of the cut numbered `parent` of the same sheet; 0 is the
    sheet as it comes to the saw.
    """

    sheet: int
    number: int
    parent: int
    near: bool
    tree: CutTree


@dataclass(frozen=True)
class FenceBatch:
    """One setting of the fence and the cuts made with it, in order; `late` when it belongs to the later day."""

    setting: Fraction
    cuts: tuple[FenceCut, ...]
    late: bool = False


@dataclass(frozen=True)
class FenceOrder:
    """The cuts of all sheets in batches.

    `settings` are the different ones; `setups_sheet_by_sheet` is how often the fence is set when the sheets are cut
    one after the other. The cuts by track saw come `first`.
    """

    batches: tuple[FenceBatch, ...]
    settings: int
    setups_sheet_by_sheet: int
    first: tuple[FenceCut, ...] = ()

    @property
    def setups(self) -> int:
        """How often the fence is set."""
        return len(self.batches)

    @property
    def fewest(self) -> bool:
        """Whether no order sets the fence less often: every setting is made once."""
        return self.setups == self.settings


@dataclass(frozen=True)
class _Saw:
    """All cuts of some sheets by their places; `parents` is the place of the cut that makes the part, or -1.

    Settings are numbered, the widest first; a set of cuts is a whole number, a bit for each cut.
    """

    trees: tuple[CutTree, ...]
    sheets: tuple[int, ...]
    parents: tuple[int, ...]
    near: tuple[bool, ...]
    settings: tuple[int, ...]

    @cached_property
    def places(self) -> tuple[tuple[int, ...], ...]:
        """The cuts of each setting."""
        numbers = range(max(self.settings, default=-1) + 1)
        return tuple(tuple(p for p, own in enumerate(self.settings) if own == number) for number in numbers)

    @cached_property
    def sets(self) -> tuple[int, ...]:
        """The cuts of each setting as a set."""
        return tuple(sum(1 << place for place in places) for places in self.places)

    def made_with(self, made: int, setting: int, goal: int) -> tuple[int, list[int]]:
        """All cuts of `goal` that one setting makes from here on, also in the parts that it makes."""
        batch = []
        for place in self.places[setting]:
            parent = self.parents[place]
            if (goal & ~made) >> place & 1 and (parent < 0 or made >> parent & 1):
                made |= 1 << place
                batch.append(place)
        return made, batch

    def waiting(self, made: int, goal: int) -> list[int]:
        """The settings of `goal` that can be made now, the widest first: large parts become small ones."""
        return [
            setting
            for setting, places in enumerate(self.places)
            if self.sets[setting] & goal & ~made
            and any(
                (goal & ~made) >> place & 1 and (self.parents[place] < 0 or made >> self.parents[place] & 1)
                for place in places
            )
        ]

    def left(self, made: int, goal: int) -> tuple[int, int]:
        """How many settings must still be made at least to reach `goal`, and for how many cuts."""
        rest = sum(1 for own in self.sets if own & goal & ~made)
        return rest, (goal & ~made).bit_count()

    def alone(self, sheet: int, part: int) -> int:
        """How often the fence is set for these cuts when one sheet is cut by itself."""
        own = [place for place, each in enumerate(self.sheets) if each == sheet and part >> place & 1]
        return _runs([self.settings[place] for place in own])

    def best(self, made: int, goal: int) -> tuple[int, ...]:
        """The settings that make all cuts of `goal`, by the best ways to go on, followed side by side."""
        kept = max(1, min(WAYS, WAYS * CUTS // max(1, len(self.trees))))
        ways: list[tuple[int, tuple[int, ...]]] = [(made, ())]
        while goal not in {made for made, _ in ways}:
            following: dict[int, tuple[int, ...]] = {}
            for made, settings in ways:
                for setting in self.waiting(made, goal):
                    following.setdefault(self.made_with(made, setting, goal)[0], (*settings, setting))
            ways = sorted(following.items(), key=lambda way: self.left(way[0], goal))[:kept]
        return next(settings for made, settings in ways if made == goal)


def fence_order(
    sheets: Sequence[CutSheet], late: Callable[[CutTree], bool] = lambda tree: False
) -> FenceOrder:
    """Order the cuts so that the fence is set few times; the widest settings come first where it is all the same.

    The best ways to go on are followed side by side, by how many settings must still be made. Cuts of trees that are
    `late` are made after all others; whatever such a cut makes must be late too.
    """
    saw = _saw(sheets)
    every = (1 << len(saw.trees)) - 1
    # a part that is too long for the fence was cut from one that is longer still: these cuts wait for no other
    by_track = [place for place, tree in enumerate(saw.trees) if tree.cut and tree.cut.by_track]
    broken = sum(1 << place for place in by_track)
    early = broken | sum(1 << place for place, tree in enumerate(saw.trees) if not late(tree))
    numbers = _Numbers(saw)
    first = numbers.cuts(by_track)
    batches, made = [], broken
    for goal in (early, every):
        for setting in saw.best(made, goal):
            made, places = saw.made_with(made, setting, goal)
            cuts = numbers.cuts(places)
            batches.append(FenceBatch(_setting(saw.trees[places[0]]), cuts, late=goal != early))
    alone = sum(
        saw.alone(sheet, part) for sheet in range(len(sheets)) for part in (early & ~broken, every & ~early)
    )
    return FenceOrder(tuple(batches), saw.left(broken, every)[0], alone, first)


def _saw(sheets: Sequence[CutSheet]) -> _Saw:
    """Every cut after the one that makes its part."""
    rows: list[tuple[CutTree, int, int, bool]] = []

    def list_cuts(tree: CutTree | None, sheet: int, parent: int, near: bool) -> None:
        if tree is None or tree.cut is None:
            return
        place = len(rows)
        rows.append((tree, sheet, parent, near))
        list_cuts(tree.first, sheet, place, True)
        list_cuts(tree.second, sheet, place, False)

    for place, sheet in enumerate(sheets):
        list_cuts(sheet.tree, place, -1, True)
    widths = [_setting(tree) for tree, *_ in rows]
    number = {width: place for place, width in enumerate(sorted(set(widths), reverse=True))}
    trees, places, parents, nears = tuple(zip(*rows, strict=True)) or ((), (), (), ())
    return _Saw(trees, places, parents, nears, tuple(number[width] for width in widths))


def _setting(tree: CutTree) -> Fraction:
    assert tree.cut is not None
    return tree.cut.setting


class _Numbers:
    """Numbers the cuts of each sheet in the order in which they are made."""

    def __init__(self, saw: _Saw) -> None:
        self._saw = saw
        self._numbers = {-1: 0}
        self._counted: dict[int, int] = {}

    def cuts(self, places: Sequence[int]) -> tuple[FenceCut, ...]:
        """The next cuts."""
        saw, found = self._saw, []
        for place in places:
            sheet = saw.sheets[place]
            number = self._numbers[place] = self._counted[sheet] = self._counted.get(sheet, 0) + 1
            parent = self._numbers[saw.parents[place]]
            found.append(FenceCut(sheet, number, parent, saw.near[place], saw.trees[place]))
        return tuple(found)


def _runs(settings: Sequence[int]) -> int:
    """How often a row of settings changes, the first included."""
    return sum(place == 0 or settings[place - 1] != setting for place, setting in enumerate(settings))
