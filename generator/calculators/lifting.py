"""What persons lift, and through which doors things go.

Waters, Putz-Anderson, Garg: Applications Manual for the Revised NIOSH Lifting Equation, DHHS (NIOSH) 94-110, 2021
revision. ISO 11228-1 builds on the same work. It is about lifting with both hands, indoors, on a dry floor; it does not
replace the rules that hold where you work.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction

from generator.calculators.quantities import Kilograms, Millimetres, PerMillimetre, Ratio
from generator.provenance import constant, inexact, least, named, rule

NIOSH = "revised NIOSH lifting equation, DHHS (NIOSH) 94-110"

#: The most that the equation allows under the best of circumstances (kg).
LOAD_CONSTANT = inexact(constant(23, "most to lift under the best of circumstances", NIOSH, "kg"))
#: Nearest reach, and the best height of the hands (mm).
NEAREST_REACH = inexact(constant(250, "nearest reach of the hands", NIOSH))
KNUCKLE_HEIGHT = inexact(constant(750, "best height of the hands", NIOSH))
#: What each mm away from that height costs; and the travel's part of its factor (mm).
HEIGHT_COST = inexact(constant("0.0003", "what each mm away from the best height costs", NIOSH, "1/mm"))
TRAVEL_PART = inexact(constant(45, "travel's part of its factor", NIOSH))
TRAVEL_REST = inexact(constant("0.82", "rest of the travel's factor", NIOSH, ""))
#: Now and then, with a good grip.
SELDOM = inexact(constant(1, "factor for lifting now and then", NIOSH, ""))
GOOD_GRIP = inexact(constant(1, "factor for a good grip", NIOSH, ""))

#: How many people can keep in step: more needs a jack, a hoist or smaller parts. Common practice, no source.
MOST_PEOPLE = 4
#: The index is printed to a tenth, so that up to this it is 1.0.
PRINTED_AS_ONE = inexact(constant("1.05", "index that is still printed as 1.0", "rounding to a tenth", ""))

#: Where the hands are when a frame is lifted from trestles or the floor: usual values, no source (mm).
REACH = inexact(constant(400, "how far before the ankles a frame is held"))
FROM = inexact(constant(400, "height of the hands when a frame is lifted"))
TRAVEL = inexact(constant(500, "how far a frame is lifted"))
#: What is longer and wider than this goes in level only when two hold it (mm). Common practice, no source.
UNWIELDY_LENGTH, UNWIELDY_WIDTH = 1500.0, 400.0
#: Room that a hand needs beside what goes through a door. Common practice, no source (mm).
DOOR_PLAY = Fraction(30)


@rule(NIOSH)
def recommended_weight(
    *,
    reach: Millimetres,
    height: Millimetres,
    travel: Millimetres,
    frequency_factor: Ratio = SELDOM,
    grip_factor: Ratio = GOOD_GRIP,
    load_constant: Kilograms = LOAD_CONSTANT,
    nearest_reach: Millimetres = NEAREST_REACH,
    knuckle_height: Millimetres = KNUCKLE_HEIGHT,
    height_cost: PerMillimetre = HEIGHT_COST,
    travel_part: Millimetres = TRAVEL_PART,
    travel_rest: Ratio = TRAVEL_REST,
) -> Kilograms:
    """What nearly all healthy workers may lift: LC · HM · VM · DM · FM · CM, without a twist of the trunk.

    HM = 250 / H, VM = 1 - 0.0003 |V - 750|, DM = 0.82 + 45 / D, each at most 1 (mm): hands H before the ankles, V above
    the floor, lifted by D. FM frequency, CM grip.
    """
    away = height - knuckle_height if height > knuckle_height else knuckle_height - height
    horizontal = named(least(nearest_reach / reach, 1), "factor of reach", "It is 1 at most.", NIOSH)
    vertical = named(
        1 - height_cost * away, "factor of height", "It is 1 at the best height of the hands.", NIOSH
    )
    distance = named(
        least(travel_rest + travel_part / travel, 1), "factor of travel", "It is 1 at most.", NIOSH
    )
    return load_constant * horizontal * vertical * distance * frequency_factor * grip_factor


def lifting_index(*, mass: Kilograms, recommended: Kilograms) -> Ratio:
    """Mass over recommended weight: LI = m / RWL. Above 1 the risk grows; above 3 it is high for most."""
    return mass / recommended


def share(*, recommended: Kilograms, own_limit: Kilograms, as_one: Ratio = PRINTED_AS_ONE) -> Kilograms:
    """Most that each of several people lifts: what the equation allows, or less where the user says so."""
    return least(recommended * as_one, own_limit)


def persons(
    *,
    mass: Kilograms,
    each: Kilograms,
    length: Millimetres = 0.0,
    width: Millimetres = 0.0,
    unwieldy_length: Millimetres = UNWIELDY_LENGTH,
    unwieldy_width: Millimetres = UNWIELDY_WIDTH,
) -> int:
    """How many lift it when each takes `each` at most: ⌈m / limit⌉; at least two where it is long and wide."""
    unwieldy = length > unwieldy_length and width > unwieldy_width
    return max(2 if unwieldy else 1, math.ceil(mass / each))


def in_step(count: int) -> int | None:
    """The people who lift together; None: more than `MOST_PEOPLE` would have to, and no number of people is safe."""
    return count if count <= MOST_PEOPLE else None


def passes(sizes: Sequence[Fraction], opening: Sequence[Fraction], play: Fraction = DOOR_PLAY) -> bool:
    """Whether a box goes through an opening with its longest size ahead: its two others fit, one way or the other."""
    small, middle = sorted(sizes)[:2]
    low, high = sorted(opening)
    return small <= low - play and middle <= high - play


def stows(sizes: Sequence[Fraction], inside: Sequence[Fraction], play: Fraction = DOOR_PLAY) -> bool:
    """Whether a box lies along the sides of a room of that inside: size by size, the longest along the longest."""
    return all(size <= room - play for size, room in zip(sorted(sizes), sorted(inside), strict=True))
