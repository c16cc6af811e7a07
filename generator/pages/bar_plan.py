"""Bar plan: what is cut from which bar, in the order of the saw, and the stop settings."""

from __future__ import annotations

from generator.drawings.bar_plan import draw_bar_plans
from generator.drawings.dimensions import Ruler
from generator.drawings.distinct import distinct
from generator.figures.model import Figures
from generator.pages.page import Context, Page, part_links
from generator.pages.plan_context import own, plan_context


def context(figures: Figures, ruler: Ruler) -> Context:
    """One entry a material: its bars, its stop settings and the picture."""
    plans = figures.cutting
    links = part_links(figures)
    names = [summary.material for summary in plans.summaries]
    drawn = [
        draw_bar_plans(name, own(plans.bars, name), ruler, figures.materials[name], links) for name in names
    ]
    drawings = iter(distinct(each for pages in drawn for each in pages))
    entries = (
        {
            "bars": own(plans.bars, name),
            "stops": own(plans.stops, name),
            "bound": plans.bar_bound[name],
            "drawings": [next(drawings) for _ in pages],
        }
        for name, pages in zip(names, drawn, strict=True)
    )
    return plan_context(figures, plans.summaries, entries, sheets=False)


PAGE = Page("bar-plan", "Bar plan", "what is cut from which bar, proved, with stop settings", context)
