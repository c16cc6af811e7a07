"""Strength and stability: open drawers, supports, sag, what is lifted, doors, the height."""

from __future__ import annotations

from generator.calculators.sway import GUSSET
from generator.calculators.working_loads import TIPS
from generator.drawings.dimensions import Ruler
from generator.figures.model import Figures
from generator.figures.rows.strength import DIRECTIONS
from generator.figures.working_loads import VISE
from generator.pages.page import Context, Page


def context(figures: Figures, ruler: Ruler) -> Context:
    """Faces with drawers apart from the others; margins counted from no drawer open; the bench apart from its parts."""
    with_drawers = [row for row in figures.stability if row.drawers]
    return {
        "faces": with_drawers,
        "margins": {
            row.face: list(enumerate(zip(row.margins, row.margins_alone, strict=True)))
            for row in with_drawers
        },
        **_loads(figures),
        "carried": [row for row in figures.handling if not row.whole],
        "whole": next(row for row in figures.handling if row.whole),
        "directions": DIRECTIONS,
        "gusset": GUSSET,
        "softest": [row for row in figures.sway if row.high > row.target],
        "needing_posts": [row for row in figures.sags if row.needs_posts and row.without_posts is not None],
    }


def _loads(figures: Figures) -> Context:
    """The cases of each load side by side, face by face; those over a corner by themselves."""
    loads = figures.loads
    assert loads is not None
    places = [row.face for row in figures.stability]
    of = {(case.name, case.where): case for case in loads.cases}
    names = dict.fromkeys(case.name for case in loads.cases if case.where in places)
    rows = []
    for name in names:
        first = next(case for case in loads.cases if case.name == name)
        found = [of.get((name, place)) for place in places]
        rows.append((name, first.down, first.push, [case and case.ratio for case in found]))
    vise = [case.ratio for case in loads.cases if case.name == VISE and case.ratio is not None]
    return {
        "load_places": places,
        "load_rows": rows,
        "corner_cases": [case for case in loads.cases if case.where not in places],
        "vise_tips": min(vise, default=TIPS) < TIPS,
    }


PAGE = Page(
    "strength",
    "Strength and stability",
    "how many drawers may be open, what sags and sways, what is heavy, which door it passes",
    context,
)
