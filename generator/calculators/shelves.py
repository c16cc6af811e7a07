"""Shelves that reach behind the posts, and whether such a board can be tilted in."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from generator.provenance import constant, formula, inexact, named, root

#: Play kept at each end of the tilted board while it passes the opening (mm). Common practice, no source.
PASSING_PLAY = inexact(constant(4, "play at the end of a board that is tilted in"))
#: Play between the tilted board's end and the face of a cleat that it passes (mm). Common practice, no source.
LANDING_PLAY = 1.0


@dataclass(frozen=True)
class TiltIn:
    """Tilting a board of `length` into a recess through a narrower opening: angle and height that it needs."""

    possible: bool
    angle_degrees: float
    needed_height: float
    diagonal: float


def tilt_in(
    length: Fraction, thickness: Fraction, opening: Fraction, recess: Fraction, height: Fraction
) -> TiltIn:
    """Find the flattest angle at which a board passes between the posts (all mm).

    len cos a + t sin a <= opening - play; the height is len sin a + t cos a; and the board must swing level within the
    recess: hypot(len, t) < recess.
    """
    board, depth = inexact(length), inexact(thickness)
    wanted = named(
        inexact(opening) - PASSING_PLAY,
        "opening less the play of a tilted board",
        "What is left of the opening beside its play.",
        "geometry",
    )
    diagonal = math.hypot(board, depth)
    if board <= wanted:
        return TiltIn(True, 0.0, depth, diagonal)
    if wanted <= 0:
        return TiltIn(False, 90.0, board, diagonal)
    angle = _flattest(board, depth, wanted)
    needed = tilted_height(length=board, thickness=depth, width=wanted)
    return TiltIn(needed <= float(height) and diagonal < float(recess), math.degrees(angle), needed, diagonal)


@formula(
    "(sqrt(length**2 + thickness**2 - width**2) * (length**2 - thickness**2) + 2 * width * length * thickness)"
    " / (length**2 + thickness**2)",
    "mm",
    "geometry",
)
def tilted_height(*, length: float, thickness: float, width: float) -> float:
    """How high a board gets that is tilted until it is no wider than an opening (all mm), longer than the opening.

    With the diagonal D and the angle a of the tilt: len cos a + t sin a = w and h = len sin a + t cos a, so h D² = √(D²
    - w²) (len² - t²) + 2 w len t.
    """
    square = length**2 + thickness**2
    return (root(square - width**2) * (length**2 - thickness**2) + 2 * width * length * thickness) / square


def _flattest(length: float, thickness: float, width: float) -> float:
    """The flattest angle at which a board is no wider than this."""
    if length <= width:
        return 0.0
    # R cos(a - phi) <= width with R the diagonal and phi the board's own diagonal angle
    return math.acos(width / math.hypot(length, thickness)) + math.atan2(thickness, length)


@dataclass(frozen=True)
class Landing:
    """Room about a board that comes down from its tilt (mm).

    `above` is from its cleats up to the ceiling, `passing` from what lies below it up to there, `gap` from its cleats
    to the next cleats above, if any.
    """

    above: float
    passing: float
    gap: float | None


def lands(
    length: Fraction, thickness: Fraction, opening: Fraction, recess: Fraction, cleat: Fraction, room: Landing
) -> bool:
    """Can the tilted board come down level on cleats that stand `cleat` out from both walls (all mm)?

    One end goes against its wall; the other passes the cleat's face on its side, at the flattest angle a with len cos a
    + t sin a <= recess - cleat. Past its own cleats it needs len sin a + t cos a above them; below the next cleats its
    end must lie under them before it reaches behind their face. True is sure; False may be said of a board that a
    clever hand would still bring in.
    """
    board, depth, out = float(length), float(thickness), float(cleat)
    tilted = float(opening) - PASSING_PLAY
    enough = min(room.above, room.passing, room.above if room.gap is None else room.gap)
    if board <= tilted:
        return depth <= enough
    over_own = _needs(board, depth, tilted) <= room.above
    if _needs(board, depth, tilted) > room.passing:
        return False
    if over_own and room.gap is None:
        return True
    # from here on the board passes between the faces of cleats, on its way down or up
    between = min(tilted, float(recess) - 2 * out - LANDING_PLAY)
    if _needs(board, depth, between) > (room.passing if room.gap is None else room.above):
        return False
    behind = float(recess) - out - LANDING_PLAY
    if room.gap is None:
        return _needs(board, depth, behind) <= room.above
    end_reaches = math.acos(min(1.0, behind / board))
    reaches = max(board * math.sin(_flattest(board, depth, behind)), _rise(board, depth, end_reaches))
    return reaches <= room.gap


def _needs(length: float, thickness: float, width: float) -> float:
    """The height that a board takes up when it is tilted to this width."""
    return _rise(length, thickness, _flattest(length, thickness, width)) if width > 0 else math.inf


def _rise(length: float, thickness: float, angle: float) -> float:
    return length * math.sin(angle) + thickness * math.cos(angle)


#: How far the first screw of a cleat or runner is from its end (mm). Common practice, no source.
CLEAT_END = 30


def cleat_count(length: Fraction) -> int:
    """Screws in a cleat or runner: 30 mm from each end and no more than 150 apart. Common practice."""
    return math.ceil((length - 2 * CLEAT_END) / 150) + 1 if length > 2 * CLEAT_END else 2
