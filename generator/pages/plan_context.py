"""What the pages of the bar plan and of the sheet plan both say of each material."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any, Protocol, TypeVar

from generator.figures.model import Figures
from generator.figures.rows.cutting import BarSummary, SheetSummary
from generator.pages.page import Context


class _OfMaterial(Protocol):
    @property
    def material(self) -> str: ...


T = TypeVar("T", bound=_OfMaterial)


def own(rows: Iterable[T], material: str) -> list[T]:
    """The rows of one material."""
    return [row for row in rows if row.material == material]


def plan_context(
    figures: Figures,
    summaries: Sequence[BarSummary | SheetSummary],
    entries: Iterable[Mapping[str, Any]],
    *,
    sheets: bool,
) -> Context:
    """One entry a material: its summary, its off-cuts, and what else its page shows; what is short of its kind."""
    kinds = {section.material: section.kind for section in figures.cut_sections}
    offcuts, shortages = figures.cutting.offcuts, figures.cutting.shortages
    return {
        "plans": [
            {"summary": summary, "offcuts": own(offcuts, summary.material), **entry}
            for summary, entry in zip(summaries, entries, strict=True)
        ],
        "shortages": [each for each in shortages if (kinds[each.material] == "sheet") is sheets],
    }
