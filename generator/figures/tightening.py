"""How hard the frame's screws are tightened: never harder than the lips of the bar's slots bear."""

from __future__ import annotations

from generator.bench.frames.slotted import slotted
from generator.bench.model import Bench
from generator.calculators.fasteners import Thread
from generator.calculators.tightening import in_a_slot, usual_nut_force
from generator.provenance import constant, inexact


def nut_force(bench: Bench) -> float:
    """Pull that a nut in a slot of the bar bears (N)."""
    slot = slotted(bench.goods).slot
    if slot.nut_force is not None:
        return inexact(slot.nut_force)
    usual = usual_nut_force(slot.opening, slot.lip)
    return inexact(constant(usual, "pull that a nut in a slot usually bears", "from memory", "N"))


def torques(bench: Bench, thread: Thread) -> tuple[float, float]:
    """Least and greatest torque (N mm) of a thread of the frame."""
    return in_a_slot(inexact(thread.diameter), inexact(thread.pitch), nut_force(bench))
