"""Assembly: one step a section, in stages."""

from __future__ import annotations

from itertools import groupby

from generator.calculators.schedule import DAY
from generator.drawings.dimensions import Ruler
from generator.drawings.step import draw_step_twice
from generator.drawings.step_homes import image_of, pictured
from generator.figures.days import clamps_in_hand
from generator.figures.model import Figures
from generator.pages.page import Context, Page, Slim, part_links
from generator.pages.step_card import cards


def context(figures: Figures, ruler: Ruler) -> Context:
    """Steps by stage with their cards and pictures, in the order of the work."""
    links = part_links(figures)
    steps = figures.assembly.steps
    entries: list[tuple[str, Context]] = []
    for index, (step, card) in enumerate(zip(steps, cards(figures), strict=True)):
        shown = []
        for each in pictured(figures, step):
            if both := draw_step_twice(figures, each.step, ruler, links, each.also):
                shown.append({"drawing": both[0], "slim": Slim(both[1]), "of": each})
        entry = {
            "step": step,
            "card": card,
            "pictures": shown,
            "image": image_of(figures, step, steps[:index]),
        }
        entries.append((step.stage, entry))
    stages = groupby(entries, key=lambda entry: entry[0])
    return {
        "stages": [(name, [entry for _, entry in own]) for name, own in stages],
        "day": float(DAY),
        "clamps": clamps_in_hand(figures.glue_ups),
        "before": [{row.key for row in figures.days[:index]} for index in range(len(figures.days))],
    }


PAGE = Page("assembly", "Assembly", "the order, step by step, and where to stop and check", context)
