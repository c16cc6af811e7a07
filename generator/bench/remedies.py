"""Cures that the laws of several subjects share: wider bays, deeper zones, more walls."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from math import ceil

from generator.bench.frames.panels import wall_names
from generator.bench.law import Case, Cure
from generator.findings import Change
from generator.spec.schema import Spec

#: By how much a computed thickness or stiffness is on the safe side.
SAFE = Fraction(51, 50)


def wider_bay(case: Case) -> tuple[Change, ...]:
    """The bay wider by what it lacks."""
    return bay_changed(case, case.off)


def bay_changed(case: Case, more: Fraction) -> tuple[Change, ...]:
    """The bay so much wider; none where its lines are another zone's too, for then more than one bay must change."""
    zone = case.layout.zones[int(case.path[1])]
    bay = zone.bays[int(case.path[3])]
    others = {line for other in case.layout.zones if other is not zone for line in other.lines}
    if others & set(zone.lines):
        return ()
    return case.length((*case.path[:4], "width"), bay.clear + more, down=more < 0)


def deeper_zone(case: Case) -> tuple[Change, ...]:
    """The zone deeper by what it lacks."""
    zone = case.layout.zones[int(case.path[1])]
    return case.length(("zones", zone.index, "depth"), zone.y.size + case.off)


def more_walls(case: Case) -> tuple[Change, ...]:
    """Dividers and ends, beside the walls that there are."""
    has = wall_names(case.spec)
    wanted = [*has, *(name for name in ("dividers", "ends") if name not in has)]
    return (Change("panels.walls", f"[{', '.join(wanted)}]"),) if len(wanted) > len(has) else ()


def thicker(material: Callable[[Spec], str]) -> Cure:
    """A board sags by the cube of its thickness, but its own weight grows with it: so a little more than the root."""

    def cure(case: Case) -> tuple[Change, ...]:
        name = material(case.spec)
        thickness, off = case.goods.sheets[name].thickness, float(case.value / case.limit)
        needed = float(thickness) * off**0.36 * float(SAFE)
        return case.length(("materials", name, "thickness"), Fraction(ceil(needed * 2), 2))

    return cure
