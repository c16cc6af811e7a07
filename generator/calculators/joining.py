"""Bolts between two benches: their length, and what they bear when one bench is dragged by the other."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from generator.calculators.fasteners import THREADS
from generator.provenance import constant, inexact, rule

INCH = Fraction(254, 10)
#: Bolts on the shelf (mm). ISO 888 for metric ones; quarters, halves and whole inches otherwise; from memory.
METRIC = tuple(map(Fraction, (60, 65, 70, 75, 80, 85, 90, 95, *range(100, 160, 10), *range(160, 320, 20))))
UNIFIED = tuple(INCH * Fraction(n, 4) for n in (*range(8, 16), *range(16, 32, 2), *range(32, 52, 4)))
#: Height of a hexagon head and of its nut, in diameters: a little more than ISO 4014 and ISO 4032 have, from memory.
HEAD, NUT = Fraction(7, 10), Fraction(9, 10)
#: Turns of thread that come out of the nut at least. Common practice, no source.
TURNS_OUT = 2
#: A hole is so much wider than its bolt, so that two benches can be aligned (mm). Common practice, no source.
WIDER = constant(2, "how much wider than its bolt a joining hole is")
#: Widths across flats of hexagon bolts and nuts. ISO 4014, ASME B18.2.1; from memory.
SPANNERS = {
    "M6": "10 mm", "M8": "13 mm", "M10": "16 mm", "M12": "18 mm", "1/4-20": "7/16 in", "5/16-18": "1/2 in",
    "3/8-16": "9/16 in",
}  # fmt: skip
#: Tops whose edges meet may differ by so much where boards slide over them, and elsewhere (mm). Common practice.
STEP_SLIDING = constant("0.3", "step between two tops where boards slide")
STEP = constant(1, "step between two tops")


@dataclass(frozen=True)
class JoiningBoltSize:
    """A bolt through two members (mm): its least length, the one on the shelf, how far head and end come out."""

    shortest: Fraction
    length: Fraction | None
    head: Fraction
    end: Fraction


def joining_bolt(*, thread: str, grip: Fraction, washer: Fraction) -> JoiningBoltSize:
    """The bolt through `grip` (both members and what is between them), with a washer of that thickness at each end."""
    size = THREADS[thread]
    nut = NUT * size.diameter
    shortest = grip + 2 * washer + nut + TURNS_OUT * size.pitch
    stock = METRIC if thread.startswith("M") else UNIFIED
    length = next((each for each in stock if each >= shortest), None)
    end = (length or shortest) - grip - washer
    return JoiningBoltSize(shortest, length, HEAD * size.diameter + washer, end)


@dataclass(frozen=True)
class JoiningPull:
    """The pull on the bolt that is pulled most, and what its washer may press on the member (N)."""

    pull: float
    may_bear: float


#: One bolt takes at most so much of an even share: the others may be slack. Common practice, no source.
UNEVEN = inexact(constant(2, "share of the worst bolt, in even shares", unit=""))
GRAVITY = inexact(constant("9.81", "acceleration of free fall", unit="m/s^2"))
#: Softwood under a washer, across the grain (N/mm²): f_c,90,k of C24, EN 338; from memory.
ACROSS_GRAIN = inexact(constant("2.5", "pressure that softwood bears across its grain", "EN 338, C24", "MPa"))


@rule("statics; EN 338 for wood")
def joining_pull(
    mass: float, grip: float, bolts: int, washer: float, hole: float, slot: float | None
) -> JoiningPull:
    """One bench is dragged by the other: all of its loaded weight rubs on the floor, and one bolt takes two shares.

    `mass` in kg, `grip` the part of the load that the floor holds, `washer` and `hole` in mm. A slot bears `slot` (N);
    in timber the washer presses on the wood.
    """
    pull = mass * GRAVITY * grip / bolts * UNEVEN
    area = math.pi / 4 * (washer**2 - hole**2)
    return JoiningPull(pull, area * ACROSS_GRAIN if slot is None else slot)
