"""Bar plan: what is cut from which bar, in the order of the saw, and the stop settings."""

from __future__ import annotations

from generator.drawings.bar_plan import draw_bar_plans
from generator.drawings.dimensions import Ruler
from generator.drawings.distinct import distinct
from generator.figures.model import Figures
from generator.pages.page import Context, Page, part_links


def context(figures: Figures, ruler: Ruler) -> Context:
    """One entry a material: its summary, its bars, its stop settings and the picture."""
    plans = figures.cutting
    links = part_links(figures)
    bars_of = {
        each.material: [b for b in plans.bars if b.material == each.material] for each in plans.summaries
    }
    drawn = {
        name: draw_bar_plans(name, bars, ruler, figures.materials[name], links)
        for name, bars in bars_of.items()
    }
    drawings = iter(distinct(each for pages in drawn.values() for each in pages))
    entries = []
    for summary in plans.summaries:
        bars = bars_of[summary.material]
        entries.append(
            {
                "summary": summary,
                "offcuts": [each for each in plans.offcuts if each.material == summary.material],
                "bars": bars,
                "stops": [stop for stop in plans.stops if stop.material == summary.material],
                "bound": plans.bar_bound[summary.material],
                "drawings": [next(drawings) for _ in drawn[summary.material]],
            }
        )
    kinds = {section.material: section.kind for section in figures.cut_sections}
    short = [each for each in plans.shortages if (kinds[each.material] == "sheet") is False]
    return {"plans": entries, "shortages": short}


PAGE = Page("bar-plan", "Bar plan", "what is cut from which bar, proved, with stop settings", context)
