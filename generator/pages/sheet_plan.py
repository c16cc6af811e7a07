"""Sheet plan: each sheet drawn, its cuts in the order of the saw with their fence settings."""

from __future__ import annotations

from generator.drawings.dimensions import Ruler
from generator.drawings.sheet_plan import draw_sheet_plan
from generator.figures.model import Figures
from generator.pages.page import Context, Page, part_links


def context(figures: Figures, ruler: Ruler) -> Context:
    """One entry a material: its summary, and its sheets with their pictures."""
    plans = figures.cutting
    links = part_links(figures)
    entries = []
    for summary in plans.sheet_summaries:
        sheets = [sheet for sheet in plans.sheets if sheet.material == summary.material]
        entries.append(
            {
                "summary": summary,
                "sheets": [
                    {"row": sheet, "drawing": draw_sheet_plan(sheet, number, ruler, links)}
                    for number, sheet in enumerate(sheets, 1)
                ],
            }
        )
    return {"plans": entries}


PAGE = Page("sheet-plan", "Sheet plan", context)
