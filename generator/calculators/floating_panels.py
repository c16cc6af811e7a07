"""A panel of solid wood that floats in its grooves: how wide it may be cut, and what holds it in a dry season.

Common practice, no source; the movement is that of the Wood Handbook, chapter 13. Lengths in mm, moisture in per cent.
"""

from __future__ import annotations

from fractions import Fraction

from generator.provenance import constant, greatest, rule

#: What stays free at the bottom of each groove in the dampest weeks (mm). Common practice, no source.
PLAY = constant(1, "least space under a panel that floats")
#: How far a panel must reach into its groove in the driest weeks, and what is the very least (mm). Common practice.
HOLD = constant(5, "how far a panel reaches into its groove in a dry season")
LEAST_HOLD = constant(3, "least that a panel reaches into its groove in a dry season")
#: How far the moisture of wood may be off the middle of its shop when it is cut, and how far two readings may be apart
#: (per cent). Common practice, no source.
MOST_OFF = constant(2, "most that the moisture of wood may be off the middle of its shop", unit="")
MOST_APART = constant(2, "most that two readings of moisture may be apart", unit="")
#: A panel's tongue is a multiple of this (mm). Common practice, no source.
STEP = constant("1/2", "step of the width of a panel")


@rule("common practice, no source")
def floating_width(
    *,
    opening: Fraction,
    groove: Fraction,
    grooves: int,
    movement: Fraction,
    made: Fraction,
    dampest: Fraction,
    play: Fraction = PLAY,
) -> Fraction:
    """A floating panel is as wide as it may be to have its play when it is dampest.

    (opening + grooves · (groove - play)) / (1 + movement · (dampest - made)), with the movement of the wood for each
    per cent of moisture; wood that is cut damper than that does not grow any more.
    """
    grows = 1 + movement * greatest(dampest - made, Fraction(0))
    return (opening + grooves * (groove - play)) / grows


@rule("common practice, no source")
def dry_hold(
    *, width: Fraction, opening: Fraction, grooves: int, movement: Fraction, made: Fraction, driest: Fraction
) -> Fraction:
    """What of a floating panel is still in each groove when it is driest (mm).

    (width · (1 - movement · (made - driest)) - opening) / grooves.
    """
    return (width * (1 - movement * greatest(made - driest, Fraction(0))) - opening) / grooves


@rule("common practice, no source")
def groove_to_hold(
    *,
    opening: Fraction,
    grooves: int,
    movement: Fraction,
    made: tuple[Fraction, Fraction],
    driest: Fraction,
    dampest: Fraction,
    hold: Fraction = HOLD,
    step: Fraction = STEP,
) -> Fraction:
    """The groove in which a panel still has its hold when it is driest, with a step of its width to spare (mm).

    `made` is the moisture by which its width was worked out, and the one from which it may dry.
    """
    width = (opening + grooves * hold) / (
        1 - movement * greatest(made[1] - driest, Fraction(0))
    ) + grooves * step
    return (width * (1 + movement * greatest(dampest - made[0], Fraction(0))) - opening) / grooves + PLAY
