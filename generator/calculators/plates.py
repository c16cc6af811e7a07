"""How far a board sags that is held at all four edges: a thin plate on simple supports, by Navier's series.

Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, second edition, articles 30 and 34. The board is taken
as equally stiff in both directions; plywood is stiffer along its grain, so its figures are estimates.
"""

from __future__ import annotations

import math

from generator.calculators.quantities import (
    Megapascals,
    Millimetres,
    NewtonMillimetres,
    Newtons,
    Ratio,
)
from generator.provenance import constant, formula, inexact

SOURCE = "Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells"

#: Sideways strain of a board under tension, over its strain lengthways. Usual for wood-based boards, no source.
POISSON = inexact(constant("0.3", "sideways strain of a board", "usual for boards, no source", ""))
#: Odd terms of the series, each way.
TERMS = range(1, 60, 2)


@formula("modulus * thickness**3 / (12 * (1 - poisson**2))", "N·mm", SOURCE)
def plate_stiffness(*, modulus: Megapascals, thickness: Millimetres, poisson: Ratio) -> NewtonMillimetres:
    """Bending stiffness of a plate: D = E t³ / (12 (1 - ν²))."""
    return modulus * thickness**3 / (12 * (1 - poisson**2))


def spread_coefficient(*, long_to_short: Ratio) -> Ratio:
    """α in w = α q a⁴ / D for a load spread over the plate, a the short side (Table 8)."""
    total = sum(
        (-1.0) ** ((m + n) // 2 - 1) / (m * n * (m**2 + (n / long_to_short) ** 2) ** 2)
        for m in TERMS
        for n in TERMS
    )
    return 16 / math.pi**6 * total


def point_coefficient(*, long_to_short: Ratio) -> Ratio:
    """α in w = α F a² / D for a load in the middle of the plate, a the short side (Table 23)."""
    total = sum(1 / (m**2 + (n / long_to_short) ** 2) ** 2 for m in TERMS for n in TERMS)
    return 4 / math.pi**4 / long_to_short * total


@formula("coefficient * force * short**2 / stiffness", "mm", SOURCE)
def sag_of_plate_point(
    *, coefficient: Ratio, force: Newtons, short: Millimetres, stiffness: NewtonMillimetres
) -> Millimetres:
    """Sag of a board that is held at its edges, under a load in its middle: α F a² / D."""
    return coefficient * force * short**2 / stiffness


@formula("coefficient * force * short**3 / (long * stiffness)", "mm", SOURCE)
def sag_of_plate_spread(
    *, coefficient: Ratio, force: Newtons, short: Millimetres, long: Millimetres, stiffness: NewtonMillimetres
) -> Millimetres:
    """Sag of a board that is held at its edges, under a load spread over it: α q a⁴ / D with q = F / (a b)."""
    return coefficient * force * short**3 / (long * stiffness)
