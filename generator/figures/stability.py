"""Does it tip, face by face, with drawers open; what hangs on a wheel when another hangs free."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import replace

from generator.bench.model import Bench
from generator.calculators.stability import (
    DrawerMass,
    Tipping,
    holding_moment,
    load_to_tip,
    push_moment,
    tip_line,
    tipping,
    worst_with_one_in_the_air,
)
from generator.figures.balance import Masses, MovingDrawer, PointMass
from generator.figures.model import Casters
from generator.figures.strength_model import Holds, Stability
from generator.spec.lookup import caster, slide
from generator.spec.schema import Spec
from generator.working import constant, inexact

FACES = ("front", "rear", "left", "right")
MM_PER_M = 1000.0
PER_METRE = inexact(constant(1000, "millimetres in a metre", "the metre", "mm/m"))


def stability(spec: Spec, bench: Bench, weight: Masses) -> tuple[Stability, ...]:
    """One row a face: front, rear, left, right."""
    return tuple(_face(spec, bench, weight, face) for face in FACES)


def _face(spec: Spec, bench: Bench, weight: Masses, face: str) -> Stability:
    axis = 1 if face in ("front", "rear") else 0
    total = bench.layout.depth if axis else bench.layout.length
    places = [centre[axis] for centre in bench.casters]
    inset = min(places) if face in ("front", "left") else total - max(places)
    line = tip_line(caster_centre=inexact(inset), trail=inexact(caster(spec).trail))

    def behind(row: PointMass) -> float:
        at = row.at[axis] if face in ("front", "left") else float(total) - row.at[axis]
        return at - float(line)

    zones = {bay.name: zone.opens for zone in bench.layout.zones for bay in zone.bays}
    mine = [each for each in weight.drawers if zones[each.drawer.bay] == face]
    others = [each.own for each in weight.drawers if each not in mine]
    rest = [(row.mass, behind(row)) for row in (*weight.fixed, *others)]
    push = push_moment(force=inexact(spec.loads.push), height=inexact(bench.layout.height))
    boxes = [_mass(spec, each, behind(each.own), behind(each.load)) for each in mine]
    found = tipping(rest, boxes, float(push))
    return Stability(
        face=face,
        tip_line=line,
        pull=inexact(spec.loads.push),
        safe_open=found.safe_open,
        drawers=len(mine),
        margins=tuple(margin / MM_PER_M for margin in found.margins),
        margins_alone=tuple(margin / MM_PER_M for margin in found.margins_alone),
        push=push / PER_METRE,
        safe_open_alone=found.safe_open_alone,
        safe_open_unpulled=found.safe_open_unpulled,
        lean=_lean(spec, bench, found, float(line)) if mine else None,
        holds=_holds((*weight.fixed, *(each.own for each in weight.drawers)), behind),
    )


def _holds(rows: Iterable[PointMass], behind: Callable[[PointMass], float]) -> tuple[Holds, ...]:
    """Masses and holding moments of each group, the one that holds most first."""
    masses: dict[str, float] = {}
    moments: dict[str, float] = {}
    for row in rows:
        masses[row.group] = masses.get(row.group, 0.0) + row.mass
        held = holding_moment(mass=row.mass, distance=behind(row))
        moments[row.group] = moments.get(row.group, 0.0) + held
    found = [
        Holds(group, mass, moments[group] / mass, moments[group] / MM_PER_M)
        for group, mass in masses.items()
        if mass
    ]
    return tuple(sorted(found, key=lambda each: -each.moment))


def _mass(spec: Spec, each: MovingDrawer, own: float, load: float) -> DrawerMass:
    return DrawerMass(each.own.mass, each.load.mass, own, load, float(slide(spec).travel))


def _lean(spec: Spec, bench: Bench, found: Tipping, line: float) -> float:
    """Mass on the face of an open drawer that just tips the bench with the safe number open."""
    margin = found.margins_alone[max(found.safe_open_alone, 1)]
    return max(load_to_tip(margin=margin, distance=float(slide(spec).travel) - line), 0.0)


def with_one_in_the_air(bench: Bench, wheels: Casters, weight: Masses, loaded: float) -> Casters:
    """The casters with the most that one of them carries when any other hangs free."""
    x, y, _ = weight.balance().loaded
    places = [(float(a), float(b)) for a, b in bench.casters]
    return replace(wheels, one_in_the_air=worst_with_one_in_the_air(places, float(loaded), (x, y)))
