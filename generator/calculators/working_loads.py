"""What a finished bench is loaded with: whoever sits on its edge, pushes it, rolls it over a sill. Does it stand still?

Moments are about the line on the floor over which the bench would tip, as in `stability`. A bench whose supports form a
rectangle tips over one of its four sides: over a corner both sides there are counted, and the worse one decides.
"""

from __future__ import annotations

from generator.calculators.quantities import (
    GRAVITY,
    Count,
    Kilograms,
    Millimetres,
    NewtonMillimetres,
    Newtons,
    NewtonsPerKilogram,
    NewtonsPerMillimetre,
    Ratio,
)
from generator.provenance import constant, formula, inexact, root, rule

STATICS = "statics of a rigid body"
COMMON = "common practice, no source"
MEMORY = "from memory"
#: Test of tables against tipping: this far from the edge, this load down and this push at the top. A furniture design
#: textbook (Poznan, 2015) and ISO 7172:1988 in excerpts.
TABLE_TEST = "test of tables against tipping, after ISO 7172"
FROM_EDGE = inexact(constant(50, "distance of the load from the top's edge", TABLE_TEST))
TEST_LOAD = inexact(constant(600, "load down in the tipping test", TABLE_TEST, "N"))
TEST_PUSH = inexact(constant(300, "push at the top in the tipping test", TABLE_TEST, "N"))
#: A person of 100 kg who sits down; what a vise passes on to the frame when work is bent in it (N).
PERSON = inexact(constant(1000, "weight of a person who sits down", COMMON, "N"))
VISE_PUSH = inexact(constant(600, "push that a vise passes on to the frame", COMMON, "N"))
NO_LOAD = inexact(constant(0, "no load down", "this case is a push alone", "N"))
NO_PUSH = inexact(constant(0, "no push", "this case is a load down alone", "N"))
#: A bench stands safely when it is held down this many times as hard as it is turned.
SAFE = inexact(constant("1.5", "how often what holds must outweigh what turns", COMMON, ""))
#: Below this the bench tips.
TIPS = inexact(constant(1, "what holds is as much as what turns", STATICS, ""))

#: Part of its weight that starts a bench rolling: 2 to 4 %.
ROLLING = inexact(constant("0.03", "part of the weight that starts it rolling", MEMORY, ""))
#: How stiff a bench is against a twist: force at one corner for each mm that it is lifted (N/mm), with open frames and
#: with panels; least and most.
TWIST_OPEN = tuple(inexact(constant(n, f"stiffness of an open frame against twist, {end}", MEMORY, "N/mm"))
                   for n, end in ((30, "least"), (80, "most")))  # fmt: skip
TWIST_PANELS = tuple(inexact(constant(n, f"stiffness of a frame with panels against twist, {end}", MEMORY, "N/mm"))
                     for n, end in ((200, "least"), (600, "most")))  # fmt: skip
#: Height of a door sill (mm).
SILL = inexact(constant(15, "height of a door sill", COMMON))


@formula("down * out + push * height", "N*mm", STATICS)
def turning_moment(
    *, down: Newtons, out: Millimetres, push: Newtons, height: Millimetres
) -> NewtonMillimetres:
    """What turns a bench over a line on the floor: a load that far beyond the line, and a push at the top."""
    return down * out + push * height


@formula("mass * gravity * behind", "N*mm", STATICS)
def standing_moment(
    *, mass: Kilograms, behind: Millimetres, gravity: NewtonsPerKilogram = GRAVITY
) -> NewtonMillimetres:
    """What keeps it down: its weight times the distance of its centre behind the line: m g y."""
    return mass * gravity * behind


@formula("holds / turns", "1", STATICS)
def tip_ratio(*, holds: NewtonMillimetres, turns: NewtonMillimetres) -> Ratio:
    """How many times as hard a bench is held down as it is turned. Below 1 it tips."""
    return holds / turns


@formula("(limit * turns - holds) / (mass * gravity + limit * down)", "mm", STATICS)
def further_to_stand(
    *,
    limit: Ratio,
    turns: NewtonMillimetres,
    holds: NewtonMillimetres,
    mass: Kilograms,
    down: Newtons,
    gravity: NewtonsPerKilogram = GRAVITY,
) -> Millimetres:
    """How far the supports must move out so that the bench is held down so many times as hard as it is turned.

    The line moves: its own weight then has a longer arm, and a load beyond the line a shorter one.
    """
    return (limit * turns - holds) / (mass * gravity + limit * down)


@formula("grip * mass * gravity * holding / supports", "N", STATICS)
def floor_hold(
    *, grip: Ratio, mass: Kilograms, holding: Count, supports: Count, gravity: NewtonsPerKilogram = GRAVITY
) -> Newtons:
    """Push at which a bench begins to slip: the grip of the supports that do not roll, under their share of it."""
    return grip * mass * gravity * holding / supports


@formula("part * mass * gravity", "N", MEMORY)
def rolling_push(*, part: Ratio, mass: Kilograms, gravity: NewtonsPerKilogram = GRAVITY) -> Newtons:
    """Push that starts it rolling with the brakes open."""
    return part * mass * gravity


@formula("mass * gravity / (4 * twist)", "mm", STATICS)
def lifting_step(
    *, mass: Kilograms, twist: NewtonsPerMillimetre, gravity: NewtonsPerKilogram = GRAVITY
) -> Millimetres:
    """Dip in the floor that leaves a corner in the air: a quarter of the weight over the stiffness against twist."""
    return mass * gravity / (4 * twist)


@rule(STATICS)
def sill_push(
    *, mass: Kilograms, radius: Millimetres, sill: Millimetres, gravity: NewtonsPerKilogram = GRAVITY
) -> Newtons:
    """Level push that rolls the end ahead over a sill: half of the weight times √(2 r s - s²) / (r - s).

    The sill is lower than the axle: no push rolls it over a higher one.
    """
    return mass * gravity / 2 * root(2 * radius * sill - sill**2) / (radius - sill)
