"""What an operator asks of the cuts of a sheet, and how often a plan does not keep to it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from generator.calculators.cutting.sheets.model import CutSheet, CutTree, ShopRules


@dataclass(frozen=True)
class Breaches:
    """Slivers: cuts that leave too little beside the blade. Small parts that are fed. Edges without their own cut."""

    slivers: int = 0
    small_parts: int = 0
    leftover_edges: int = 0

    @property
    def kept(self) -> bool:
        """Whether the rules are kept."""
        return not (self.slivers or self.small_parts or self.leftover_edges)


def breaches(sheets: Iterable[CutSheet], rules: ShopRules) -> Breaches:
    """How often the cuts of a plan break the rules. Lengths in one unit."""
    slivers = small = edges = 0
    for sheet in sheets:
        parts: list[tuple[CutTree, bool, bool]] = [(sheet.tree, False, False)]
        while parts:
            tree, wide_set, high_set = parts.pop()
            if tree.piece is not None:
                edges += not (wide_set and high_set)
            cut = tree.cut
            if cut is None:
                continue
            area = cut.area
            rest = tree.second.area if tree.second else None  # None: the blade took it all
            slivers += rest is None or (rest.width if cut.upright else rest.height) < rules.least_left
            small += max(area.width, area.height) < rules.least_feed
            for part, sized in ((tree.first, True), (tree.second, False)):
                if part is not None:
                    sets = (sized, high_set) if cut.upright else (wide_set, sized)
                    parts.append((part, *sets))
    return Breaches(slivers, small, edges)
