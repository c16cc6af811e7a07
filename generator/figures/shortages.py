"""Why a material has no plan: its parts that no stock holds, for the pages and the checks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from generator.bench.model import Part
from generator.calculators.cutting.bars import BarShortage
from generator.calculators.cutting.sheets import SheetShortage
from generator.figures.rows.cutting import Shortage


def of_bars(material: str, parts: Sequence[Part], found: Sequence[BarShortage]) -> list[Shortage]:
    """Each part that is too long, or all that find no bar together."""
    return _together([_row(material, parts, s, (s.needs,), s.bars) for s in found])


def of_sheets(material: str, parts: Sequence[Part], found: Sequence[SheetShortage]) -> list[Shortage]:
    """Each part that is too large, or all that find no sheet together."""
    return _together([_row(material, parts, s, s.needs, s.sheets) for s in found])


def _row(
    material: str,
    parts: Sequence[Part],
    found: BarShortage | SheetShortage,
    needs: tuple[Fraction, ...],
    more: int,
) -> Shortage:
    return Shortage(material, parts[found.piece].mark, found.count, found.short_by, needs, more)


def _together(rows: list[Shortage]) -> list[Shortage]:
    """Parts of one size that are too large are one shortage; so is all that more of one stock would mend."""
    found: dict[tuple[object, ...], Shortage] = {}
    for row in rows:
        key = ("more",) if row.more else (row.needs, row.short_by)
        first = found.get(key, replace(row, count=0))
        short_by = Fraction(0) if row.more else row.short_by
        found[key] = replace(first, count=first.count + row.count, short_by=short_by)
    return list(found.values())
