"""The clamp-access relief and the router template that cuts it (mm). Geometry; common practice."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True)
class ReliefTemplate:
    """Work opening and the template opening for a guide bush; radii of both corners."""

    opening: tuple[Fraction, Fraction]
    template: tuple[Fraction, Fraction]
    offset: Fraction
    template_radius: Fraction
    work_radius: Fraction


def relief_template(
    opening: tuple[Fraction, Fraction], guide_bush: Fraction, cutter: Fraction
) -> ReliefTemplate:
    """Template for an internal cut: offset o = (bush - cutter)/2, template = wanted + 2o.

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


def clear_of_holes(
    centre: Fraction, opening_along: Fraction, holes: tuple[tuple[Fraction, Fraction], ...], keep: Fraction
) -> Fraction:
    """Least space (mm) between a relief and any hole (centre, diameter) on its face, less `keep`.

    Negative: they come too near to each other by that much.
    """
    spaces = [abs(centre - at) - opening_along / 2 - diameter / 2 for at, diameter in holes]
    return min(spaces, default=Fraction(10_000)) - keep
