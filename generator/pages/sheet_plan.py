"""Sheet plan: each sheet drawn, its cuts in the order of the saw with their fence settings."""

from __future__ import annotations

from generator.drawings.dimensions import Ruler
from generator.drawings.distinct import distinct
from generator.drawings.sheet_plan import draw_sheet_plan
from generator.figures.model import Figures
from generator.figures.rows.cutting import FenceSetting
from generator.names import slugs
from generator.pages.page import Context, Page, part_links
from generator.pages.plan_context import own, plan_context


def context(figures: Figures, ruler: Ruler) -> Context:
    """One entry a material: its sheets with their pictures, its fence settings and its cuts by the track saw."""
    plans = figures.cutting
    links = part_links(figures)
    names = [summary.material for summary in plans.sheet_summaries]
    numbered = [sheet for name in names for sheet in enumerate(own(plans.sheets, name), 1)]
    drawings = iter(
        distinct(
            draw_sheet_plan(sheet, number, ruler, figures.materials[sheet.material], links)
            for number, sheet in numbered
        )
    )
    entries = (
        {
            "slug": slug,
            "cuts": sum(len(fence.cuts) for fence in own(plans.fences, name)),
            "track_cuts": [
                (number, cut)
                for number, sheet in enumerate(own(plans.sheets, name), 1)
                for cut in sheet.cuts
                if cut.by_track
            ],
            "fences": [{"row": fence, "sheets": _by_sheet(fence)} for fence in own(plans.fences, name)],
            "sheets": [{"row": sheet, "drawing": next(drawings)} for sheet in own(plans.sheets, name)],
        }
        for name, slug in zip(names, slugs(names), strict=True)
    )
    return plan_context(figures, plans.sheet_summaries, entries, sheets=True)


def _by_sheet(fence: FenceSetting) -> list[tuple[int, str]]:
    """(sheet, its cuts in short: 3, 5–7) of one setting."""
    cuts: dict[int, list[int]] = {}
    for sheet, cut in fence.cuts:
        cuts.setdefault(sheet, []).append(cut)
    return [(sheet, in_short(numbers)) for sheet, numbers in cuts.items()]


def in_short(numbers: list[int]) -> str:
    """Numbers in rising order, runs of them by their ends: 3, 5–7."""
    ends: list[list[int]] = []
    for number in numbers:
        if ends and number == ends[-1][-1] + 1:
            ends[-1] = [ends[-1][0], number]
        else:
            ends.append([number])
    return ", ".join("–".join(map(str, each)) for each in ends)


PAGE = Page("sheet-plan", "Sheet plan", "what is cut from which sheet, cut by cut", context)
