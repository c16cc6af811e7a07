"""Cures that the laws of several subjects share: wider bays, deeper zones, more walls, other screws."""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor

from generator.bench.frames.panels import wall_names
from generator.bench.law import Case
from generator.findings import Change, dotted
from generator.spec.joints import EndClip, ThroughScrew
from generator.units.sizes import INCH

#: Steps of a screw's length, in metric sizes and in inches (mm).
METRIC_STEP, INCH_STEP = Fraction(5), INCH / 8


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


def longer_screw(case: Case) -> tuple[Change, ...]:
    """A fastener's screw longer by what it lacks, by whole steps."""
    return _screw(case, case.off)


def shorter_screw(case: Case) -> tuple[Change, ...]:
    """A fastener's screw shorter by what it is too long, by whole steps."""
    return _screw(case, -case.off)


def _screw(case: Case, more: Fraction) -> tuple[Change, ...]:
    item = case.spec.hardware[str(case.path[1])]
    assert isinstance(item, EndClip | ThroughScrew)
    thread, metric = item.screw.thread, item.screw.thread.startswith("M")
    step = METRIC_STEP if metric else INCH_STEP
    steps = (ceil if more > 0 else floor)((item.screw.length + more) / step)
    return (Change(dotted(case.path), f"{thread}x{steps * step}" if metric else f"{thread} x {steps}/8"),)
