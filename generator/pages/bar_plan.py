"""Bar plan: what is cut from which bar, in the order of the saw, and the stop settings."""

from __future__ import annotations

from generator.drawings.bar_plan import draw_bar_plans
from generator.drawings.dimensions import Ruler
from generator.figures.model import Figures
from generator.pages.page import Context, Page, part_links


def context(figures: Figures, ruler: Ruler) -> Context:
    """One entry a material: its summary, its bars, its stop settings and the picture."""
    plans = figures.cutting
    links = part_links(figures)
    entries = []
    for summary in plans.summaries:
        bars = [bar for bar in plans.bars if bar.material == summary.material]
        entries.append(
            {
                "summary": summary,
                "offcuts": [each for each in plans.offcuts if each.material == summary.material],
                "bars": bars,
                "stops": [stop for stop in plans.stops if stop.material == summary.material],
                "bound": plans.bar_bound[summary.material],
                "drawings": draw_bar_plans(summary.material, bars, ruler, links),
            }
        )
    kinds = {section.material: section.kind for section in figures.cut_sections}
    short = [each for each in plans.shortages if (kinds[each.material] == "sheet") is False]
    return {"plans": entries, "shortages": short}


PAGE = Page("bar-plan", "Bar plan", "what is cut from which bar, proved, with stop settings", context)
