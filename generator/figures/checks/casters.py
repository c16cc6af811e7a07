"""Checks of the casters that are bought: their own plate on the bench's plate, their holes, wheel and threads."""

from __future__ import annotations

from collections.abc import Iterator

from generator.bench.model import Bench
from generator.bench.role import Role
from generator.calculators.fasteners import THREADS
from generator.figures.checks.judged import Judged, at_least, at_most
from generator.spec.lookup import slot_nut
from generator.spec.stands.casters import Caster
from generator.working import constant

#: Between a wheel and the plate above it (mm). Common practice, no source.
WHEEL_CLEAR = constant(5, "room between a wheel and its plate")


def caster_checks(bench: Bench) -> Iterator[Judged]:
    """Nothing for a bench that stands on something else."""
    spec = bench.spec
    name = spec.base.casters
    card = spec.hardware.get(name)
    if bench.stand.kind != "casters" or not isinstance(card, Caster):
        return
    path, thread = ("hardware", name), THREADS[slot_nut(spec).thread]
    yield at_most("wheel-height", card.wheel, card.height - WHEEL_CLEAR, name, (*path, "wheel"))
    for axis, size, hole in zip(("X", "Y"), card.plate, card.holes, strict=True):
        yield at_most("caster-holes", hole + thread.clearance, size, f"{name}, {axis}", (*path, "holes"))
    plates = [part for part in bench.stand.parts if part.role is Role.STAND]
    for index, size in enumerate(card.plate):
        ends = [
            (point[index], part.box.span("xy"[index]))
            for point, part in zip(bench.stand.points, plates, strict=True)
        ]
        free = min(min(at - span.low, span.high - at) for at, span in ends)
        where = f"{name}, {'XY'[index]}"
        yield at_most("caster-on-plate", size, 2 * free, where, ("base", "plate", "size"))
    thickness = spec.base.plate.thickness
    yield at_least("plate-thread", thickness, thread.diameter, thread.name, ("base", "plate", "thickness"))
