"""Where the brackets sit that hold a top of sheet: near each corner, then at even distances. Common practice.

One 60 to 120 mm from each corner; the rest at most 400 mm apart for 18 mm, 500 for 25 to 36.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

from generator.geometry import Span
from generator.provenance import constant

#: From a corner to its bracket: usually, at least and at most (mm).
FROM_CORNER = constant(100, "from a corner of the frame to its bracket")
NEAREST, FURTHEST = Fraction(60), constant(120, "most from a corner of the frame to its bracket")
#: The longest free length of a thin, a usual and a thick top, and where these end (mm).
THIN, USUAL = Fraction(20), Fraction(36)
APART_THIN = constant(400, "most between two brackets of a top under 20 mm")
APART_USUAL = constant(500, "most between two brackets of a top up to 36 mm")
APART_THICK = constant(600, "most between two brackets of a top over 36 mm")
#: An end member that is longer than this has a bracket in its middle (mm).
LONG_END = Fraction(600)
#: Brackets that are moved aside may leave too long a gap: this many counts are tried, from the fewest on.
MORE = 4


def most_apart(top: Fraction) -> Fraction:
    """The most (mm) between two brackets of a top of this thickness."""
    if top < THIN:
        return APART_THIN
    return APART_USUAL if top <= USUAL else APART_THICK


def along_rail(
    length: Fraction, apart: Fraction, half: Fraction, taken: Sequence[Span]
) -> tuple[Fraction, ...]:
    """Middles of the brackets along a rail of a frame so long, from its end (mm).

    `half` a bracket keeps clear of what is `taken`. The fewest that leave no more than `apart` free.
    """
    least = -((2 * FROM_CORNER - length) // apart) + 1
    places: tuple[Fraction, ...] = ()
    for count in range(int(max(2, least)), int(max(2, least)) + MORE):
        step = (length - 2 * FROM_CORNER) / (count - 1)
        wished = [FROM_CORNER + step * number for number in range(count)]
        whole = Span(Fraction(0), length)
        first = _at_corner(FROM_CORNER, half, taken, whole)
        turned = [Span(length - span.high, length - span.low) for span in taken]
        last = length - _at_corner(FROM_CORNER, half, turned, whole)
        inner = (nearest_clear(at, half, taken, whole) for at in wished[1:-1])
        places = tuple(dict.fromkeys((first, *inner, last)))
        if all(right - left <= apart for left, right in pairwise(places)):
            break
    return places


def _at_corner(at: Fraction, half: Fraction, taken: Sequence[Span], whole: Span) -> Fraction:
    """The clear place nearest to a corner's bracket, further off where something takes the whole corner.

    All is measured from the corner, so that of two places equally near the one at the corner is taken at both ends.
    """
    place = nearest_clear(at, half, taken, Span(NEAREST, FURTHEST))
    if all(place + half <= span.low or place - half >= span.high for span in taken):
        return place
    return nearest_clear(at, half, taken, whole)


def nearest_clear(at: Fraction, half: Fraction, taken: Sequence[Span], within: Span) -> Fraction:
    """The place nearest to `at` where a thing of twice `half` keeps clear of what is taken (mm).

    Within the span if it can be, else `at` itself: a check reports that.
    """
    edges = [edge for span in taken for edge in (span.low - half, span.high + half)]
    for place in sorted((at, *edges), key=lambda edge: abs(edge - at)):
        clear = all(place + half <= span.low or place - half >= span.high for span in taken)
        if clear and within.low <= place <= within.high:
            return place
    return at
