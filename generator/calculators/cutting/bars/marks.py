"""At the saw: the marks and the stop setting of each piece of a bar.

Bars are cut longest piece first, so that a spoiled long piece becomes a short one; marks run from the datum end.
Common practice.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True)
class BarCut:
    """One piece: where its far end is marked from the bar's datum end, and the stop setting (its length)."""

    length: Fraction
    mark: Fraction
    stop: Fraction


def bar_cuts(lengths: Sequence[Fraction], *, kerf: Fraction, trim: Fraction) -> tuple[BarCut, ...]:
    """The cuts of one bar: the datum end is trimmed first, each piece ends at its mark, the kerf is behind it."""
    at = trim
    cuts = []
    for length in sorted(lengths, reverse=True):
        cuts.append(BarCut(length, at + length, length))
        at += length + kerf
    return tuple(cuts)
