"""The grid of dog holes in the top: margins, and the columns and rows that would meet a bar (mm)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.provenance import rule


@dataclass(frozen=True)
class HoleLine:
    """Hole centres along one direction from the top's own edge; `omitted` are those over a bar."""

    margin: Fraction
    positions: tuple[Fraction, ...]
    omitted: tuple[Fraction, ...]

    @property
    def kept(self) -> tuple[Fraction, ...]:
        """Hole centres that are bored (mm): all but those over a bar."""
        return tuple(at for at in self.positions if at not in self.omitted)


@rule("geometry")
def hole_line(
    length: Fraction, edge: Fraction, pitch: Fraction, bar_centres: Sequence[Fraction], clear: Fraction
) -> HoleLine:
    """Holes stand in equal margins, as many as the pitch lets in.

    Holes `pitch` apart over `length`, margins not under `edge` (mm).

    A hole nearer than `clear` to a bar's centre line is omitted, since the bit would meet the bar.
    """
    count = (length - 2 * edge) // pitch + 1
    if count < 1:
        return HoleLine(length / 2, (), ())
    margin = (length - (count - 1) * pitch) / 2
    positions = tuple(margin + i * pitch for i in range(int(count)))
    omitted = tuple(at for at in positions if any(abs(at - centre) < clear for centre in bar_centres))
    return HoleLine(margin, positions, omitted)


@rule("geometry")
def clear_distance(section: Fraction, diameter: Fraction, keep_clear: Fraction) -> Fraction:
    """Least distance from a bar's centre line to a hole's centre."""
    return section / 2 + diameter / 2 + keep_clear
