"""Openings and drawers: each kind of bay from the front, then its drawers, totes and shelves in figures."""

from __future__ import annotations

from generator.calculators.room import PERSON
from generator.drawings.dimensions import Ruler
from generator.drawings.distinct import distinct
from generator.drawings.joins import draw_face, draw_plan
from generator.drawings.opening import draw_opening, draw_slim_opening
from generator.drawings.room import draw_room
from generator.drawings.swings import draw_swings
from generator.figures.model import Figures
from generator.figures.rows.layout import Bay
from generator.pages.page import Context, Page, Slim


def context(figures: Figures, ruler: Ruler) -> Context:
    """Bays that look the same, with one drawing and the rows of the first for all; `blocks` are the slide spacers."""
    kinds: dict[tuple[object, ...], list[Bay]] = {}
    for bay in figures.layout.bays:
        kinds.setdefault(_kind(figures, bay), []).append(bay)
    drawings = distinct(
        draw(figures, bays[0].name, ruler)
        for draw in (draw_opening, draw_slim_opening)
        for bays in kinds.values()
    )
    return {
        "kinds": [
            {
                "bays": bays,
                "drawing": drawing,
                "slim": Slim(narrow),
                "openings": [row for row in figures.openings if row.bay == bays[0].name],
                "drawers": [row for row in figures.drawers if row.bay == bays[0].name],
                "unmeasured": tuple(
                    dict.fromkeys(
                        each for row in figures.drawers if row.bay == bays[0].name for each in row.unmeasured
                    )
                ),
                "strips": [row for row in figures.strips if row.bay == bays[0].name],
                "totes": [row for row in figures.totes if row.bay == bays[0].name],
                "shelves": [row for row in figures.shelves if row.bay == bays[0].name],
            }
            for bays, drawing, narrow in zip(
                kinds.values(), drawings[: len(kinds)], drawings[len(kinds) :], strict=True
            )
        ],
        "doors": figures.doors,
        "swings": draw_swings(figures, ruler) if figures.fillings.swings else None,
        "person": PERSON,
        "room": draw_room(figures, ruler) if figures.layout.room else None,
        "joins": [
            {"row": row, "plan": draw_plan(figures, row, ruler), "face": draw_face(row, ruler)}
            for row in figures.joins
        ],
        "blocks": [row for row in figures.spacers if row.label.startswith("slide")],
    }


def _kind(figures: Figures, bay: Bay) -> tuple[object, ...]:
    """What is equal for bays that look the same: zone, width, items at their heights, and what one sees of them."""
    items = tuple((row.item, row.bottom, row.top) for row in figures.openings if row.bay == bay.name)
    seen = tuple(
        (each.name, each.shapes, each.told) for each in figures.fillings.pictures if each.bay == bay.name
    )
    return (bay.zone, bay.clear, items, seen)


PAGE = Page("openings-and-drawers", "Openings and drawers", "what fills each bay, at which height", context)
