"""Edge banding: the length of each band, and how many rolls hold them all."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from generator.provenance import rule


def rolls(bands: Iterable[Fraction], roll: Fraction) -> int:
    """Rolls (mm of length each) that hold all bands whole: the longest first, each in the first roll with room.

    A band that is longer than a roll is no length to count: a check says so, and it takes the rolls that it is long.
    """
    left: list[Fraction] = []
    whole = 0
    for band in sorted(bands, reverse=True):
        if band > roll:
            whole += -(-band // roll)
            continue
        place = next((n for n, free in enumerate(left) if band <= free), None)
        if place is None:
            left.append(roll)
            place = len(left) - 1
        left[place] -= band
    return whole + len(left)


@rule("common practice, no source")
def band_length(edge: Fraction, extra: Fraction) -> Fraction:
    """A band is cut longer than its edge, so that both ends can be trimmed flush.

    `edge` (mm) is as long as the board when the band goes on, `extra` (mm) is for both ends together.
    """
    return edge + extra
