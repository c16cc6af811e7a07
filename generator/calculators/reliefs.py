"""The clamp-access relief and the router template that cuts it (mm). Geometry; common practice."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.provenance import rule


@dataclass(frozen=True)
class ReliefTemplate:
    """Work opening and the template opening for a guide bush; radii of both corners."""

    opening: tuple[Fraction, Fraction]
    template: tuple[Fraction, Fraction]
    offset: Fraction
    template_radius: Fraction
    work_radius: Fraction


@rule("geometry")
def relief_template(
    opening: tuple[Fraction, Fraction], guide_bush: Fraction, cutter: Fraction
) -> ReliefTemplate:
    """A template for an internal cut is larger than the cut by half of bush less cutter on every side.

    The template's corner is the bush's own radius, which leaves the cutter's radius in the work.
    """
    offset = (guide_bush - cutter) / 2
    return ReliefTemplate(
        opening=opening,
        template=(opening[0] + 2 * offset, opening[1] + 2 * offset),
        offset=offset,
        template_radius=guide_bush / 2,
        work_radius=guide_bush / 2 - offset,
    )


@rule("geometry")
def clear_of_holes(
    centre: Fraction, opening_along: Fraction, holes: tuple[tuple[Fraction, Fraction], ...], keep: Fraction
) -> Fraction:
    """Between a relief and the next hole on its face some metal must stay.

    Least space (mm) to any hole (centre, diameter), less `keep`.

    Negative: they come too near to each other by that much.
    """
    spaces = [abs(centre - at) - opening_along / 2 - diameter / 2 for at, diameter in holes]
    return min(spaces, default=Fraction(10_000)) - keep
