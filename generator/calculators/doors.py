"""Doors in the opening of a bay: their sizes, how many hinges carry them, and where these are. Lengths in mm."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from generator.provenance import constant, greatest, least, rule

#: What is behind an inset door keeps this much from its rear face; what passes the open door, this much from it.
BEHIND = constant(5, "space behind a door")
BESIDE = constant(3, "space beside an open door")
#: The arm of a cup hinge reaches so far into the bay from the face that bears its plate.
ARM = constant(15, "how far the arm of a cup hinge reaches into the bay")
#: A tote passes the open door with this much play in all.
TOTE_PLAY = constant(6, "play of a tote behind a door")
#: The first and the last hinge are from the door's ends by a sixth of its height within these; on a low door a quarter.
NEAREST, FURTHEST = (
    constant(80, "least distance of a hinge from the end of a door"),
    constant(150, "greatest distance of a hinge from the end of a door"),
)
LOW = Fraction(240)
#: An open door needs free floor as wide as itself and so much more.
FREE = constant(5, "free floor beyond the edge of an open door")
#: A door that is lower has no room for two hinges.
LEAST_HEIGHT = constant(120, "least height of a door")
#: A door this wide hangs on one hinge more.
WIDE = constant(600, "width of a door from which it needs one hinge more")
#: Heights from which one hinge more is needed: the first, then every so much more. Two hinge guides.
TALL, STEP = 900, 500
#: Masses (kg) from which one hinge more is needed: 15, 30 and 45 lb. Two hinge guides.
HEAVY = (6.8, 13.6, 20.4)


@rule("common practice, no source")
def inset_size(clear: Fraction, gap: Fraction, doors: int) -> Fraction:
    """Doors share an opening less the gap at both ends and between them."""
    return (clear - (doors + 1) * gap) / doors


@rule("common practice, no source")
def overlay_size(clear: Fraction, overlays: Fraction, gap: Fraction, doors: int) -> Fraction:
    """Overlay doors cover an opening and both overlays, less the gap between them."""
    return (clear + overlays - (doors - 1) * gap) / doors


@rule("common practice, no source")
def open_overlay(thickness: Fraction, gap: Fraction, overlay: Fraction, arm: Fraction) -> Fraction:
    """What passes keeps clear of the open door, or of the arm of its hinge where that reaches further into the bay."""
    return greatest(thickness + gap - overlay, arm) + BESIDE


@rule("common practice, no source")
def open_door(thickness: Fraction, gap: Fraction) -> Fraction:
    """An open inset door takes its gap and its thickness from the bay, and what passes keeps clear of it."""
    return thickness + gap + BESIDE


def hinge_count(height: Fraction, width: Fraction, mass: float) -> int:
    """By height or mass, whichever asks for more, and one more for a wide door. `mass` in kg."""
    by_height = 2 + max(0, ceil((height - TALL) / STEP))
    by_mass = 2 + sum(mass >= limit for limit in HEAVY)
    return max(by_height, by_mass) + (width > WIDE)


@rule("common practice, no source")
def hinge_places(height: Fraction, count: int) -> tuple[Fraction, ...]:
    """The first and the last hinge are a sixth of the height from the ends, 80 to 150 mm; the others share the rest.

    Centres above the door's lower end. A door under 240 mm has them at a quarter of its height.
    """
    end = height / 4 if height < LOW else least(FURTHEST, greatest(NEAREST, height / 6))
    step = (height - 2 * end) / (count - 1)
    return tuple(end + number * step for number in range(count))
