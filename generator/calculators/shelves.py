"""Shelves that reach behind the posts, and whether such a board can be tilted in."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

#: Play kept at each end of the tilted board while it passes the opening (mm). Common practice, no source.
PASSING_PLAY = 4.0


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

    len cos a + t sin a <= opening - play; the height is len sin a + t cos a; and the board must swing level
    within the recess: hypot(len, t) < recess.
    """
    board, depth, wanted = float(length), float(thickness), float(opening) - PASSING_PLAY
    diagonal = math.hypot(board, depth)
    if board <= wanted:
        return TiltIn(True, 0.0, depth, diagonal)
    if wanted <= 0:
        return TiltIn(False, 90.0, board, diagonal)
    # R cos(a - phi) <= wanted with R the diagonal and phi the board's own diagonal angle
    angle = math.acos(wanted / diagonal) + math.atan2(depth, board)
    needed = board * math.sin(angle) + depth * math.cos(angle)
    return TiltIn(needed <= float(height) and diagonal < float(recess), math.degrees(angle), needed, diagonal)


def cleat_count(length: Fraction) -> int:
    """Screws in a cleat or runner: 30 mm from each end and no more than 150 apart. Common practice."""
    return math.ceil((length - 60) / 150) + 1 if length > 60 else 2
