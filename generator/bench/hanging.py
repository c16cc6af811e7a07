"""What hangs on strips at walls: the load across their screws, with all that is pulled out of a bay right out."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from generator.bench.driven import Driven
from generator.bench.fillings import FILLINGS
from generator.bench.layout import BayPlace, ZonePlace
from generator.bench.model import Bench, Part
from generator.bench.role import Role
from generator.calculators.beams import weight
from generator.calculators.joint_limits import front_strip_load, pull_each
from generator.calculators.shelves import cleat_count
from generator.provenance import inexact


def most_on_a_screw(bench: Bench, each: Driven) -> tuple[float, str] | None:
    """The largest load (N) across one of these screws, and its bay; None for screws that hold no strip under a load."""
    if each.role is None:
        return None
    found = [
        (load, bay.name)
        for zone in bench.layout.zones
        for bay in zone.bays
        for load in [_on_a_screw(bench, each, each.role, zone, bay)]
        if load is not None
    ]
    return max(found, key=lambda pair: float(pair[0]), default=None)


def _on_a_screw(bench: Bench, each: Driven, role: Role, zone: ZonePlace, bay: BayPlace) -> float | None:
    """The load (N) across the worst screw of a bay's strips; None where it has none of these."""
    strips = [
        part for part in bench.of(role) if part.place.bay == bay.name and part.box.x.size == each.through
    ]
    if not strips:
        return None
    kinds = [kind for kind in FILLINGS if role in kind.strips]
    stays = [
        fact.mass
        for kind in kinds
        for fact in kind.loads(bench)
        if bay.x.low <= fact.at[0] <= bay.x.high and zone.y.low <= fact.at[1] <= zone.y.high
    ]
    slides = [fact for kind in FILLINGS for fact in kind.sliding(bench) if fact.item.place.bay == bay.name]
    count = sum(cleat_count(part.length) for part in strips)
    if strips[0].along == "z" and slides:
        mass = sum((fact.load for fact in slides[1:]), slides[0].load)
        return _pulled_out(strips, zone, weight(mass=inexact(mass)) / 2, max(fact.travel for fact in slides))
    if not stays:
        return None
    whole = weight(mass=inexact(sum(stays[1:], stays[0])))
    return pull_each(weight=whole, count=count)


def _pulled_out(strips: Sequence[Part], zone: ZonePlace, half: float, travel: Fraction) -> float:
    """The load across each screw of the upright strip at the open face, with all that slides pulled right out."""
    middles = sorted({part.box.y.middle for part in strips})
    near, far = (middles[-1], middles[0]) if zone.opens == "rear" else (middles[0], middles[-1])
    apart = far - near if far > near else near - far
    count = min(cleat_count(part.length) for part in strips if part.box.y.middle == near)
    if not apart:
        return pull_each(weight=half, count=count)
    beyond = travel - apart / 2
    out = beyond if beyond > 0 else beyond - beyond
    return pull_each(
        weight=front_strip_load(load=half, beyond=inexact(out), apart=inexact(apart)), count=count
    )
