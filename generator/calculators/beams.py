"""How far bars and boards sag on two edges. Elastic bending, without shear, without their joints' stiffness.

The formulas are those of any handbook of engineering (Roark's Formulas for Stress and Strain, chapter on beams).
Ends that are clamped by their joints sag less than these beams on knife edges.
"""

from __future__ import annotations

from generator.calculators.plane_frame import SOURCE as FRAME
from generator.calculators.quantities import (
    GRAVITY,
    Kilograms,
    Megapascals,
    Millimetres,
    Newtons,
    NewtonsPerKilogram,
    NewtonsPerMillimetre,
    Ratio,
    SecondMoment,
)
from generator.provenance import constant, formula, inexact

SOURCE = "bending of elastic beams, any handbook of engineering"


@formula("force * span**3 / (48 * modulus * second_moment)", "mm", SOURCE)
def sag_point_middle(
    *, force: Newtons, span: Millimetres, modulus: Megapascals, second_moment: SecondMoment
) -> Millimetres:
    """Sag under a load in the middle: F a³ / (48 E I). Simple supports."""
    return force * span**3 / (48 * modulus * second_moment)


@formula("5 * line_load * span**4 / (384 * modulus * second_moment)", "mm", SOURCE)
def sag_spread(
    *, line_load: NewtonsPerMillimetre, span: Millimetres, modulus: Megapascals, second_moment: SecondMoment
) -> Millimetres:
    """Sag in the middle under a load spread over the span: 5 w a⁴ / (384 E I). Simple supports."""
    return 5 * line_load * span**4 / (384 * modulus * second_moment)


@formula("mass * gravity / length", "N/mm", "statics")
def line_load(
    *, mass: Kilograms, length: Millimetres, gravity: NewtonsPerKilogram = GRAVITY
) -> NewtonsPerMillimetre:
    """A mass spread over a length: w = m g / L."""
    return mass * gravity / length


@formula("mass * gravity", "N", "statics")
def weight(*, mass: Kilograms, gravity: NewtonsPerKilogram = GRAVITY) -> Newtons:
    """The force with which a mass presses: F = m g."""
    return mass * gravity


@formula("width * thickness**3 / 12", "mm^4", SOURCE)
def board_second_moment(*, width: Millimetres, thickness: Millimetres) -> SecondMoment:
    """Second moment of area of a board lying flat: I = b t³ / 12."""
    return width * thickness**3 / 12


@formula("sag * creep", "mm", "factors of creep by Eurocode 5, in a dry room, from memory")
def sag_after_years(*, sag: Millimetres, creep: Ratio) -> Millimetres:
    """Sag of a board under a load that stays: the first sag times the factor of its creep."""
    return sag * creep


@formula("part * beam", "mm", FRAME)
def sag_in_frame(*, part: Ratio, beam: Millimetres) -> Millimetres:
    """Sag of a bar that its frame holds: the part of the sag that it has on two knife edges."""
    return part * beam


@formula("span / divisor", "mm", "common practice, no source")
def sag_limit(*, span: Millimetres, divisor: Ratio) -> Millimetres:
    """How far a span may sag, as a part of its length: a / n."""
    return span / divisor


@formula("force * reach**3 / (3 * modulus * second_moment)", "mm", SOURCE)
def sag_cantilever(
    *, force: Newtons, reach: Millimetres, modulus: Megapascals, second_moment: SecondMoment
) -> Millimetres:
    """Sag of a free end under a load on it: F a³ / (3 E I). The other end is held fast."""
    return force * reach**3 / (3 * modulus * second_moment)


#: On either side of a load at a free edge, how much of the board bends with it (mm).
BESIDE = inexact(constant(50, "board that bends with the load, on either side"))


@formula("overhang + 2 * beside", "mm", "common practice, no source")
def strip_at_edge(*, overhang: Millimetres, beside: Millimetres = BESIDE) -> Millimetres:
    """Width of the strip that bends under a load at its end: as wide as it reaches, and 50 on either side: o + 2 b."""
    return overhang + 2 * beside
