"""How far bars and boards sag. Elastic bending, without shear, without their joints' stiffness.

The formulas are those of any handbook of engineering (Roark's Formulas for Stress and Strain, chapter on beams).
Ends that are clamped by their joints sag less than these beams on knife edges.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from generator.calculators.quantities import (
    GRAVITY,
    Kilograms,
    Megapascals,
    Millimetres,
    NewtonMillimetres,
    Newtons,
    NewtonsPerKilogram,
    NewtonsPerMillimetre,
    Ratio,
    SecondMoment,
)
from generator.provenance import formula, named

SOURCE = "bending of elastic beams, any handbook of engineering"

#: Points at which a span of a continuous beam is looked at.
STATIONS = 64


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


@formula("span / divisor", "mm", "common practice, no source")
def sag_limit(*, span: Millimetres, divisor: Ratio) -> Millimetres:
    """How far a span may sag, as a part of its length: a / n."""
    return span / divisor


def moments_over_supports(
    *, spans: Sequence[Millimetres], line_load: NewtonsPerMillimetre, force: Newtons
) -> tuple[NewtonMillimetres, ...]:
    """Bending moments over the supports of a continuous beam (sagging positive), the two ends free to turn.

    Clapeyron's equation of three moments for spans a, b that meet over a support, each with the load w spread over
    it and the load F in its middle: M₀ a + 2 M₁ (a + b) + M₂ b = -w (a³ + b³) / 4 - 3 F (a² + b²) / 8.
    """
    diagonal = [2 * (a + b) for a, b in pairwise(spans)]
    right = [-line_load * (a**3 + b**3) / 4 - 3 * force * (a**2 + b**2) / 8 for a, b in pairwise(spans)]
    inner = spans[1:-1]
    for i, side in enumerate(inner):
        diagonal[i + 1] = diagonal[i + 1] - side * (side / diagonal[i])
        right[i + 1] = right[i + 1] - right[i] * (side / diagonal[i])
    load = "loads in the middle" if force else "load spread"
    none = named(
        0 * force * spans[0], f"moment over an end support, {load}", "An end is free to turn.", SOURCE
    )
    found = [none]
    for i in reversed(range(len(diagonal))):
        after = found[-1] * inner[i] if i < len(inner) else none * spans[0]
        found.append((right[i] - after) / diagonal[i])
    named_moments = (
        named(
            moment, f"moment over support {number}, {load}", "Clapeyron's equation of three moments.", SOURCE
        )
        for number, moment in enumerate(reversed(found[1:]), 2)
    )
    return (none, *named_moments, none)


@formula(
    "(line_load * part * (1 - 2 * part**2 + part**3) * span**4 / 24"
    " + force * near * (3 - 4 * near**2) * span**3 / 48"
    " + (moment_before * part * (1 - part) * (2 - part) + moment_behind * part * (1 - part**2)) * span**2 / 6)"
    " / (modulus * second_moment)",
    "mm",
    SOURCE,
)
def sag_in_span(
    *,
    part: Ratio,
    near: Ratio,
    span: Millimetres,
    line_load: NewtonsPerMillimetre,
    force: Newtons,
    moment_before: NewtonMillimetres,
    moment_behind: NewtonMillimetres,
    modulus: Megapascals,
    second_moment: SecondMoment,
) -> Millimetres:
    """Sag in a span of a beam that runs on, under a spread load, a load in the middle and its supports' moments.

    At x = `part` of the span a; `near` counts from the nearer support. w x (a³ - 2 a x² + x³) / (24 E I) + F x' (3 a² -
    4 x'²) / (48 E I) + M₀ x (a - x)(2 a - x) / (6 a E I) + M₁ x (a² - x²) / (6 a E I).
    """
    spread = line_load * part * (1 - 2 * part**2 + part**3) * span**4 / 24
    middle = force * near * (3 - 4 * near**2) * span**3 / 48
    ends = moment_before * part * (1 - part) * (2 - part) + moment_behind * part * (1 - part**2)
    return (spread + middle + ends * span**2 / 6) / (modulus * second_moment)


def sag_continuous(
    *,
    spans: Sequence[Millimetres],
    line_load: NewtonsPerMillimetre,
    force: Newtons,
    modulus: Megapascals,
    second_moment: SecondMoment,
) -> tuple[Millimetres, ...]:
    """The deepest sag of each span of a beam over its supports, every span with the same load; 0 if it rises.

    Two equal spans under w alone: w a⁴ / (185 E I).
    """
    moments = moments_over_supports(spans=spans, line_load=line_load, force=force)
    return tuple(
        max(
            sag_in_span(
                part=i / STATIONS,
                near=min(i, STATIONS - i) / STATIONS,
                span=span,
                line_load=line_load,
                force=force,
                moment_before=before,
                moment_behind=behind,
                modulus=modulus,
                second_moment=second_moment,
            )
            for i in range(STATIONS)
        )
        for span, (before, behind) in zip(spans, pairwise(moments), strict=True)
    )
