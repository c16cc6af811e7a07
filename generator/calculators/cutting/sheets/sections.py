"""Sheets too long for the fence: broken down by track saw into sections, each of them filled with strips.

Sections are equal shares of the sheet, or as long as the fence takes and a rest. What is cut in a section ends the
allowance before its far edge, which the track saw leaves rough. A sheet with parts that no section holds, or too wide
for the fence as well, is not broken down: the track saw cuts its strips, if it takes as much as the other saw.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import NamedTuple

from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.sheets.job import Layout, SheetJob, split
from generator.calculators.cutting.sheets.strips import StripFill, StripSheet

#: The most sections of a sheet.
MOST_SECTIONS = 40


class SheetSection(NamedTuple):
    """A part of a sheet: its place among all sections of the stock, its size, and what of it is filled."""

    place: int
    size: tuple[int, int]
    filled: tuple[int, int]


class BrokenSheet(NamedTuple):
    """The sections of a sheet from its near end."""

    stock: int
    sections: tuple[StripSheet, ...]

    def counts(self, pieces: int) -> tuple[int, ...]:
        """How many of each piece the sheet holds."""
        return tuple(
            sum(counts) for counts in zip(*(each.counts(pieces) for each in self.sections), strict=True)
        )

    def without(self, surplus: list[int]) -> BrokenSheet:
        """The sheet without `surplus` pieces; counts the surplus down."""
        return self._replace(sections=tuple(each.without(surplus) for each in self.sections))


class SectionFill:
    """Fills sheets of one job, as `StripFill` does, section by section. `chance` gives numbers from 0 to 1."""

    def __init__(self, job: SheetJob, chance: Callable[[], float], budget: WorkBudget) -> None:
        self.job, self.chance = job, chance
        self._ways = [_ways(job, *sheet) for sheet in job.sheets]
        self._long = set(long_pieces(job))
        first = 0
        for stock, ways in enumerate(self._ways):
            for number, way in enumerate(ways):
                self._ways[stock][number] = [each._replace(place=first + k) for k, each in enumerate(way)]
                first += len(way)
        sections = [each for ways in self._ways for way in ways for each in way]
        inner = replace(job, longest=None, wider=0, allowance=0)
        self._fill, self._cut = (
            StripFill(replace(inner, sheets=sizes), chance, budget)
            for sizes in (tuple(each.filled for each in sections), tuple(each.size for each in sections))
        )

    @property
    def budget(self) -> WorkBudget:
        """What the filling spends from."""
        return self._fill.budget

    @budget.setter
    def budget(self, budget: WorkBudget) -> None:
        self._fill.budget = budget

    def sheet(self, stock: int, upright: bool, left: Sequence[int], values: Sequence[float]) -> BrokenSheet:
        """One sheet, section after section, for much value."""
        left, sections = list(left), []
        whole, *broken = self._ways[stock]
        long = any(left[piece] for piece in self._long)
        way = whole if long or not broken else broken[int(self.chance() * len(broken))]
        width, height = self.job.sheets[stock]
        for section in way:
            # ripped as the sheet was broken down, a section takes no stage more
            along = width >= height if len(way) > 1 and self.job.stages is not None else upright
            sections.append(self._fill.sheet(section.place, along, left, values))
            left = [have - held for have, held in zip(left, sections[-1].counts(len(left)), strict=True)]
        return BrokenSheet(stock, tuple(sections))

    def layout(self, sheet: BrokenSheet) -> Layout:
        """The cuts of a sheet."""
        width, height = self.job.sheets[sheet.stock]
        upright = width >= height
        *nearer, result = [self._cut.layout(section) for section in sheet.sections]
        for part in reversed(nearer):
            at = part.width if upright else part.height
            whole = at + self.job.wider + (result.width if upright else result.height)
            size = (whole, height) if upright else (width, whole)
            result = split(*size, upright, at, part, result)
        return result


def all_in_sections(job: SheetJob) -> bool:
    """Whether every sheet is broken down or short enough for the fence, and sections hold every piece."""
    return not long_pieces(job) and all(_divided(job, *sheet) for sheet in job.sheets)


def long_pieces(job: SheetJob) -> list[int]:
    """The pieces that no section of a sheet holds."""
    rooms = [each.filled for sheet in job.sheets for way in _ways(job, *sheet)[1:] for each in way]
    return [
        piece
        for piece in range(len(job.pieces))
        if not any(wide <= room[0] and high <= room[1] for wide, high, _ in job.ways(piece) for room in rooms)
    ]


def _ways(job: SheetJob, width: int, height: int) -> list[list[SheetSection]]:
    """The sheet as it is, then each way to divide it."""
    ways = []
    for lengths in [[max(width, height)], *_divided(job, width, height)]:
        *nearer, last = lengths
        filled = [*(length - job.allowance for length in nearer), last]
        shapes = [
            [(length, height) if width >= height else (width, length) for length in some]
            for some in (lengths, filled)
        ]
        ways.append([SheetSection(0, *pair) for pair in zip(*shapes, strict=True)])
    return ways


def _divided(job: SheetJob, width: int, height: int) -> list[list[int]]:
    """The lengths of the sections, for each way to break a sheet down across its longer side; none is too long.

    No way where the shorter side is too long for the fence as well.
    """
    length, longest = max(width, height), job.longest
    if longest is None or length <= longest:
        return [[length]]
    if min(width, height) > longest or longest <= max(0, job.allowance, -job.wider):
        return []
    number = -(-(length + job.wider) // (longest + job.wider))
    share = (length - (number - 1) * job.wider) // number
    shares = [share] * (number - 1) + [length - (number - 1) * (share + job.wider)]
    if number > MOST_SECTIONS or share <= job.allowance or shares[-1] > longest:
        return []
    rest = length - (number - 1) * (longest + job.wider)
    return [shares, [longest] * (number - 1) + [rest]] if rest > 0 else [shares]
