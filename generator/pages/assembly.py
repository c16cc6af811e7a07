"""Assembly: one step a section, in stages."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import groupby
from types import MappingProxyType

from generator.calculators.schedule import DAY
from generator.drawings.canvas import Drawing
from generator.drawings.dimensions import Ruler
from generator.drawings.step import draw_step_twice
from generator.drawings.step_homes import Pictured, image_of, pictured
from generator.drawings.step_props import draw_acts
from generator.figures.days import clamps_in_hand
from generator.figures.model import Figures
from generator.figures.rows.joinery import DayRow
from generator.pages.page import Context, Page, Slim, part_links
from generator.pages.step_card import cards

Both = tuple[Drawing, Drawing]
"""A picture, and the slim one of it."""
NONE_YET: Mapping[int, Sequence[Both | None]] = MappingProxyType({})


def pictures(figures: Figures, ruler: Ruler, place: int) -> Sequence[Both | None]:
    """The pictures of the step at a place among all steps, as `pictured` lists them, between those of its acts."""
    step, links = figures.assembly.steps[place], part_links(figures)
    return [
        draw_acts(figures, step, first=True),
        *(_drawn(figures, ruler, links, each) for each in pictured(figures, step)),
        draw_acts(figures, step, first=False),
    ]


def picture(figures: Figures, ruler: Ruler, place: int, number: int) -> Both | None:
    """One of these pictures alone, by its number from 0."""
    step = figures.assembly.steps[place]
    shown = list(pictured(figures, step))
    if 0 < number <= len(shown):
        return _drawn(figures, ruler, part_links(figures), shown[number - 1])
    return draw_acts(figures, step, first=not number)


def _drawn(figures: Figures, ruler: Ruler, links: Mapping[str, str], shown: Pictured) -> Both | None:
    return draw_step_twice(figures, shown.step, ruler, links, shown.also, shown.resized)


def context(figures: Figures, ruler: Ruler, known: Mapping[int, Sequence[Both | None]] = NONE_YET) -> Context:
    """Steps by stage with their cards and pictures, in the order of the work; `known` are those that are drawn."""
    steps = figures.assembly.steps
    entries: list[tuple[str, Context]] = []
    for index, (step, card) in enumerate(zip(steps, cards(figures), strict=True)):
        drawn = known[index] if index in known else pictures(figures, ruler, index)
        shown = [
            {"drawing": both[0], "slim": Slim(both[1]), "of": each}
            for each, both in zip(
                (Pictured(step), *pictured(figures, step), Pictured(step)), drawn, strict=True
            )
            if both
        ]
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
        "stints": stints(figures.days),
    }


def stints(days: Sequence[DayRow]) -> list[Context]:
    """The plan of days in few lines: what is done without a break, up to the glue that is then left alone."""
    found: list[list[DayRow]] = []
    for row in days:
        before = found[-1][-1] if found else None
        if before is None or before.wait or row.idle or row.day != before.day:
            found.append([])
        found[-1].append(row)
    return [
        {
            "first": rows[0],
            "last": rows[-1],
            "steps": in_runs(tuple(dict.fromkeys(n for row in rows for n in row.steps))),
            "minutes": sum(row.minutes for row in rows),
        }
        for rows in found
    ]


def in_runs(numbers: Sequence[int]) -> str:
    """Numbers in their order, those that follow each other as one: 4–7, 12."""
    runs: list[list[int]] = []
    for number in numbers:
        if not runs or number != runs[-1][-1] + 1:
            runs.append([])
        runs[-1].append(number)
    return ", ".join(f"{run[0]}–{run[-1]}" if len(run) > 1 else str(run[0]) for run in runs)


PAGE = Page("assembly", "Assembly", "the order, step by step, and where to stop and check", context)
