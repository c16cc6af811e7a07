"""Finishes: the area that is coated, how much it takes, and in how many tins."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import ceil

from generator.provenance import constant, rule

#: An opening that is smaller than this (mm²) is not taken off: its walls are coated too. Common practice, no source.
SMALL_OPENING = Fraction(10_000)
#: What stays in brush, tray and rag. Common practice, no source.
SPARE = constant("23/20", "finish with what stays in brush and tray, in parts of the net volume", unit="")
PER_SQUARE_METRE = constant(1_000_000, "square millimetres in a square metre", "the metre", "mm^2/m^2")
#: One litre covers no more than this (m²/l): thin oils 12 to 20, hardwax oil 24. From memory.
MOST_COVERAGE = Fraction(25)


@rule("geometry")
def coated_area(
    length: Fraction,
    width: Fraction,
    thickness: Fraction,
    *,
    faces: int = 2,
    ends: int = 2,
    edges: int = 2,
    off: Sequence[Fraction] = (),
) -> Fraction:
    """The faces and edges of a board that a brush reaches, less grooves and large openings (mm²).

    `length` and `width` are those of a face without tongues; so many `faces`, `ends` (across the length) and long
    `edges` are free. `off` is what is taken off (mm²).
    """
    area = faces * length * width
    if ends:
        area += ends * width * thickness
    if edges:
        area += edges * length * thickness
    for each in off:
        area -= each
    return area


@rule("the tin's own coverage")
def litres(area: Fraction, coats: int, coverage: Fraction) -> Fraction:
    """Each coat takes the area divided by what one litre covers: m² and m²/l give litres."""
    return area * coats / coverage


def tins(volume: Fraction, tin: Fraction) -> int:
    """Whole tins, with what stays in brush and tray."""
    return ceil(volume * SPARE / tin)
