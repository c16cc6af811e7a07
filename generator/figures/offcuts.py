"""Off-cuts that are worth keeping, as the stock of the next bench."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from generator.calculators.cutting.sheets import Area
from generator.figures.rows.cutting import BarRow, Offcut, SheetRow
from generator.spec.schema import Spec


def offcuts(spec: Spec, bars: Sequence[BarRow], sheets: Sequence[SheetRow]) -> tuple[Offcut, ...]:
    """Off-cuts from the least size on, equal ones counted, the largest of each material first.

    Bars cut from a lot keep its name; the others get the name of this revision.
    """
    name = f"off-cut of revision {spec.revision.number}"
    found: Counter[Offcut] = Counter()
    for bar in bars:
        if bar.offcut >= spec.saws.bar.least_offcut:
            found[Offcut(bar.material, bar.offcut, None, 1, bar.lot or name)] += 1
    least = sorted(spec.saws.sheet.least_offcut)
    for sheet in sheets:
        defects = [Area(*each) for each in sheet.defects]
        for x, y, length, width in sheet.offcuts:
            if any(Area(x, y, length, width).meets(each) for each in defects):
                continue  # it is no clear board
            if all(side >= limit for side, limit in zip(sorted((length, width)), least, strict=True)):
                found[Offcut(sheet.material, length, width, 1, name)] += 1
    rows = [Offcut(each.material, each.length, each.width, count, each.lot) for each, count in found.items()]
    order = {name: place for place, name in enumerate(dict.fromkeys(row.material for row in rows))}
    return tuple(sorted(rows, key=lambda row: (order[row.material], -row.length * (row.width or 1))))
