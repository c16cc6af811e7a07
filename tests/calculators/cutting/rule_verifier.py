"""Follows the cuts of a sheet plan with fractions and says which of them an operator would send back."""

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction

from generator.calculators.cutting.sheets import CutSheet, SheetPlan

Part = tuple[Fraction, Fraction, Fraction, Fraction]


def breaches(
    plan: SheetPlan, kerf: Fraction, trim: Fraction, stock: list[tuple[Fraction, Fraction]], feed: Fraction
) -> Counter[str]:
    """How many slivers, small parts fed and edges without a cut of their own there are."""
    found: Counter[str] = Counter()
    for sheet in plan.sheets:
        width, height = stock[sheet.stock]
        found.update(_of_sheet(sheet, (trim, trim, width - trim, height - trim), kerf, feed))
    return found


def _of_sheet(sheet: CutSheet, usable: Part, kerf: Fraction, feed: Fraction) -> Iterator[str]:
    # each part with whether its far sides were cut with the fence against its near side
    parts: dict[Part, tuple[bool, bool]] = {usable: (False, False)}
    for cut in sheet.cuts:
        area = cut.area
        part = (area.x, area.y, area.x + area.width, area.y + area.height)
        sized = parts.pop(part)
        if max(area.width, area.height) < feed:
            yield "feed"
        far = part[2] if cut.upright else part[3]
        if far - cut.at - cut.kerf < 1:
            yield "sliver"
        if cut.upright:
            parts[part[0], part[1], cut.at, part[3]] = (True, sized[1])
            parts[cut.at + cut.kerf, part[1], part[2], part[3]] = (False, sized[1])
        else:
            parts[part[0], part[1], part[2], cut.at] = (sized[0], True)
            parts[part[0], cut.at + cut.kerf, part[2], part[3]] = (sized[0], False)
    for placed in sheet.pieces:
        area = placed.area
        if parts[area.x, area.y, area.x + area.width, area.y + area.height] != (True, True):
            yield "edge"
