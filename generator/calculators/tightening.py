"""Torque and clamping force of the frame's screws. T = K F d is the usual estimate; it scatters by a quarter or more.

ISO 898-1: stress area and proof stress. The range for M8 in slots and tapped ends of aluminium is common practice, no
source; other threads are given the same stress.
"""

from __future__ import annotations

import math
from fractions import Fraction

from generator.calculators.fasteners import THREADS
from generator.calculators.quantities import (
    Megapascals,
    Millimetres,
    NewtonMillimetres,
    Newtons,
    Ratio,
    SquareMillimetres,
)
from generator.provenance import constant, formula, inexact, least, rule

#: Nut factor, plain and dry. Usual, scatters with grease and grit.
NUT_FACTOR = inexact(constant("0.2", "nut factor, plain and dry", "usual, scatters with grease and grit", ""))
#: How many pitches the thread takes off the diameter that carries: ISO 898-1.
THREAD_PART = inexact(constant("0.9382", "pitches that a thread takes off its diameter", "ISO 898-1", ""))
#: Proof stress of class 8.8 up to M16 (MPa): ISO 898-1.
PROOF_8_8 = inexact(constant(580, "proof stress of class 8.8 up to M16", "ISO 898-1", "MPa"))
#: M8 in aluminium (N mm).
M8_RANGE = (
    inexact(constant(12_000, "least torque of M8 in aluminium", unit="N·mm")),
    inexact(constant(18_000, "greatest torque of M8 in aluminium", unit="N·mm")),
)
M8_DIAMETER, M8_PITCH = inexact(THREADS["M8"].diameter), inexact(THREADS["M8"].pitch)


@formula("pi / 4 * (diameter - thread_part * pitch)**2", "mm^2", "ISO 898-1")
def stress_area(
    *, diameter: Millimetres, pitch: Millimetres, thread_part: Ratio = THREAD_PART
) -> SquareMillimetres:
    """Area that carries: π/4 (d - c P)², the thread taking c pitches off the diameter. ISO 898-1."""
    return math.pi / 4 * (diameter - thread_part * pitch) ** 2


@formula("torque / (nut_factor * diameter)", "N", "usual estimate, scatters by a quarter or more")
def clamping_force(
    *, torque: NewtonMillimetres, diameter: Millimetres, nut_factor: Ratio = NUT_FACTOR
) -> Newtons:
    """Force in the screw: F = T / (K d)."""
    return torque / (nut_factor * diameter)


@formula("area * proof_stress", "N", "ISO 898-1")
def proof_load(*, area: SquareMillimetres, proof_stress: Megapascals = PROOF_8_8) -> Newtons:
    """Force that a screw takes without stretching for good: A σ. ISO 898-1."""
    return area * proof_stress


#: Pull that one nut in a slot bears before its lips give way (N), by the thickness of the lip (mm): data of makers of
#: bars, of which only excerpts were read; which lip goes with which is from memory. A narrow slot has its own.
NARROW = Fraction(7)
LIPS = ((Fraction(2), 3_500), (Fraction(7, 2), 5_000))
THICK, NARROW_THIN, NARROW_THICK = 10_000, 1_000, 3_500
#: Part of that pull which a screw may clamp with: least and greatest. Common practice, no source.
SLOT_SHARE = (
    inexact(constant("0.5", "least part of a nut's pull to clamp with", unit="")),
    inexact(constant("0.6", "greatest part of a nut's pull to clamp with", unit="")),
)


def usual_nut_force(opening: Fraction, lip: Fraction) -> Fraction:
    """Pull that a nut in a slot usually bears (N), by the width of the slot's mouth and the lip's thickness (mm)."""
    if opening < NARROW:
        return Fraction(NARROW_THIN if lip < LIPS[0][0] else NARROW_THICK)
    return Fraction(next((force for thinner, force in LIPS if lip < thinner), THICK))


@formula(
    "share * nut_force * nut_factor * diameter", "N*mm", "pull of the nut, and the usual estimate of torque"
)
def slot_torque(
    *, share: Ratio, nut_force: Newtons, diameter: Millimetres, nut_factor: Ratio = NUT_FACTOR
) -> NewtonMillimetres:
    """Torque at which a screw pulls its nut against the slot's lips with a part of what they bear: T = s P K d."""
    return share * nut_force * nut_factor * diameter


@rule("common practice, no source")
def in_a_slot(diameter: float, pitch: float, nut_force: float) -> tuple[float, float]:
    """Torque (N mm) of a screw in a slot: half to six tenths of what the lips bear, never more than in solid metal."""
    usual = tightening_range(diameter, pitch)
    low, high = (
        least(torque, slot_torque(share=share, nut_force=nut_force, diameter=diameter))
        for torque, share in zip(usual, SLOT_SHARE, strict=True)
    )
    return (low, high)


@rule("common practice, no source")
def tightening_range(diameter: float, pitch: float) -> tuple[float, float]:
    """Torque (N mm) that stresses another thread as much as M8 is stressed by its usual range: T ∝ A d."""
    usual = stress_area(diameter=M8_DIAMETER, pitch=M8_PITCH) * M8_DIAMETER
    share = stress_area(diameter=diameter, pitch=pitch) * diameter / usual
    return (M8_RANGE[0] * share, M8_RANGE[1] * share)
