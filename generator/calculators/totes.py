"""Storage totes that hang by their rims on runners. Common practice, no source; all lengths in mm."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

#: A tote's body clears the runners by this much in all.
BODY_PLAY = Fraction(4)
#: The rim lies over the runners by at least this much in all.
RIM_COVER = Fraction(16)
#: The bay is at least this much wider than the rim.
RIM_PLAY = Fraction(6)
#: The least bearing on one side with the tote pushed to the other.
LEAST_BEARING = Fraction(6)


@dataclass(frozen=True)
class RunnerFit:
    """Bearing of a rim on a pair of runners `gap` apart; `worst` with the body against one runner."""

    gap: Fraction
    gap_min: Fraction
    gap_max: Fraction
    bearing: Fraction
    worst: Fraction
    rim_play: Fraction

    @property
    def ok(self) -> bool:
        """True when the body passes, the rim bears even if pushed aside, and the rim clears the posts."""
        in_range = self.gap_min <= self.gap <= self.gap_max
        return in_range and self.worst >= LEAST_BEARING and self.rim_play >= RIM_PLAY


def runner_gap_range(rim_width: Fraction, body_width: Fraction) -> tuple[Fraction, Fraction]:
    """The runner gaps that let the body through and still carry the rim."""
    return (body_width + BODY_PLAY, rim_width - RIM_COVER)


def runner_fit(rim_width: Fraction, body_width: Fraction, gap: Fraction, bay_width: Fraction) -> RunnerFit:
    """Bearing of a tote of given rim and body on runners `gap` apart in a bay of `bay_width`."""
    low, high = runner_gap_range(rim_width, body_width)
    bearing = (rim_width - gap) / 2
    return RunnerFit(gap, low, high, bearing, bearing - (gap - body_width) / 2, bay_width - rim_width)


def runner_width(bay_width: Fraction, offset: Fraction, gap: Fraction) -> Fraction:
    """Width of each runner, from the wall's face (`offset` behind the bar's) to the gap."""
    return (bay_width + 2 * offset - gap) / 2


def tote_bottoms(
    opening_bottom: Fraction, opening: Fraction, height: Fraction, lift: Fraction, count: int
) -> tuple[Fraction, ...]:
    """Bottoms of `count` totes that share what is left of the opening equally below and above."""
    left = opening - count * height - (count - 1) * lift
    return tuple(opening_bottom + left / 2 + i * (height + lift) for i in range(count))


def stack_height(height: Fraction, lift: Fraction, count: int) -> Fraction:
    """Height that `count` totes need, lifts between them only."""
    return count * height + (count - 1) * lift
