"""Levelling feet: the load on one, how far the stem is in, and the range that a floor needs."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, isqrt

from generator.provenance import constant, inexact, rule

#: A stiff frame stands on three feet, however many it has. Statics.
CARRYING = inexact(constant(3, "feet that carry a stiff frame", unit=""))
#: Allowance for what is set down with a bump. Common practice, no source.
BUMP = inexact(constant("5/4", "allowance for loads that are set down hard", unit=""))
#: Fall of a shop floor, per unit of length: 1 in 80, as garage floors are laid to drain. From memory.
FLOOR_FALL = Fraction(1, 80)
#: Thread that stays in reserve at both ends of the range (mm). Common practice, no source.
RESERVE = Fraction(5)


@dataclass(frozen=True)
class FootLoad:
    """Loads in kg: on each of three, and that with the allowance."""

    each: float
    required: float


@rule("statics of a stiff frame; the allowance is common practice")
def foot_load(loaded: float) -> FootLoad:
    """A stiff frame stands on three feet until the others are turned down; a quarter more for hard loads.

    `loaded` in kg.
    """
    each = loaded / CARRYING
    return FootLoad(each, each * BUMP)


def stem_inside(length: Fraction, lowest: Fraction, height: Fraction) -> Fraction:
    """How much of a stem of `length` is inside what it is screwed into, at a height of the foot (mm)."""
    return length - (height - lowest)


def clear_of_swivel(apart: Fraction, aside: Fraction) -> Fraction:
    """How far along the bench a foot is from what swivels beside it, `apart` from its axis, rounded up (mm).

    `aside` is how far they are from each other across the bench.
    """
    rest = apart**2 - aside**2
    return Fraction(isqrt(ceil(rest) - 1) + 1) if rest > 0 else Fraction(0)


def levelling_range(wide: Fraction, deep: Fraction) -> Fraction:
    """Range that feet `wide` by `deep` apart need on a floor that falls 1 in 80 across their diagonal (mm).

    The diagonal is rounded down to a hundredth of a millimetre.
    """
    diagonal = Fraction(isqrt(int((wide**2 + deep**2) * 10_000)), 100)
    return diagonal * FLOOR_FALL + RESERVE
