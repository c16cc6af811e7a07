"""Strength and stability: open drawers, supports, sag, what is lifted, doors, the height."""

from __future__ import annotations

from generator.calculators.working_loads import TIPS
from generator.drawings.dimensions import Ruler
from generator.drawings.strength import DOWN, LEFT, RIGHT, UP, Arrow, draw_loads
from generator.figures.model import Figures
from generator.figures.rows.strength import DIRECTIONS
from generator.figures.working_loads import CORNER, SIT, VISE
from generator.pages.page import Context, Page


def context(figures: Figures, ruler: Ruler) -> Context:
    """Faces with drawers apart from the others; margins counted from no drawer open; the bench apart from its parts."""
    with_drawers = [row for row in figures.stability if row.drawers]
    return {
        "rails_creep": any(row.years is not None for row in figures.sags if row.kind.endswith("rail")),
        "faces": with_drawers,
        "margins": {
            row.face: list(enumerate(zip(row.margins, row.margins_alone, strict=True)))
            for row in with_drawers
        },
        **_glance(figures),
        **_loads(figures),
        "carried": [row for row in figures.handling if not row.whole],
        "whole": next(row for row in figures.handling if row.whole),
        "directions": DIRECTIONS,
        **_sway(figures),
        "needing_posts": [row for row in figures.sags if row.needs_posts and row.without_posts is not None],
    }


#: The loads in the picture, the worst harm first: their numbers, and where their arrows end.
PULL, SITS, ON_CORNER, ON_SUPPORT, SAGS, ALONG, ACROSS = range(1, 8)
ARROWS = (
    Arrow(PULL, "end", (1.0, 0.98), LEFT),
    Arrow(SITS, "end", (0.06, 1.0), DOWN),
    Arrow(ON_CORNER, "front", (0.02, 1.0), DOWN),
    Arrow(ON_SUPPORT, "front", (0.95, 0.0), UP),
    Arrow(SAGS, "front", (0.5, 1.0), DOWN),
    Arrow(ALONG, "front", (0.0, 0.98), RIGHT),
    Arrow(ACROSS, "end", (0.0, 0.98), RIGHT),
)


def _glance(figures: Figures) -> Context:
    """The picture, and the worst of each load for its table."""
    loads = figures.loads
    assert loads is not None
    sits = [case for case in loads.cases if case.name == SIT and case.ratio is not None]
    corners = [case for case in loads.cases if case.name == CORNER and case.ratio is not None]
    top = [row for row in figures.sags if row.kind.startswith("top")]
    return {
        "loads_picture": draw_loads(figures, ARROWS),
        "pulled": min(figures.stability, key=lambda row: row.margins_alone[0]),
        "sits": min(sits, key=lambda case: case.ratio or TIPS, default=None),
        "on_corner": min(corners, key=lambda case: case.ratio or TIPS, default=None),
        "sags_most": max(top, key=lambda row: row.share, default=None),
    }


def _sway(figures: Figures) -> Context:
    """The last row of each direction, with panels where some are fixed; those that miss their limit."""
    last = list({row.direction: row for row in figures.sway}.values())
    return {
        "last_sway": last,
        "softest": [row for row in last if row.worst > row.target],
        "advised": [row for row in last if row.add],
        "two_zones": len(figures.layout.zones) > 1,
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
        "vise_push": next(case.push for case in loads.cases if case.name == VISE),
        "vise_tips": min(vise, default=TIPS) < TIPS,
    }


PAGE = Page(
    "strength",
    "Strength and stability",
    "how many drawers may be open, what sags and sways, what is heavy, which door it passes",
    context,
)
