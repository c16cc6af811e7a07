"""Storage totes that hang by their rims on runners. Common practice, no source; all lengths in mm."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.provenance import constant, rule

#: A tote's body clears the runners by this much in all.
BODY_PLAY = constant(4, "play of a tote's body between its runners")
#: The rim lies over the runners by at least this much in all.
RIM_COVER = constant(16, "least cover of a rim by its runners")
#: The bay is at least this much wider than the rim.
RIM_PLAY = constant(6, "play of a rim between the posts")
#: The least bearing on one side with the tote pushed to the other.
LEAST_BEARING = constant(6, "least bearing of a rim")


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


@rule("common practice, no source")
def runner_gap_range(rim_width: Fraction, body_width: Fraction) -> tuple[Fraction, Fraction]:
    """The gap between the runners lets the body through and still carries the rim."""
    return (body_width + BODY_PLAY, rim_width - RIM_COVER)


@rule("common practice, no source")
def runner_fit(rim_width: Fraction, body_width: Fraction, gap: Fraction, bay_width: Fraction) -> RunnerFit:
    """A rim bears on both runners, and still on one when the tote is pushed against the other.

    A tote of given rim and body on runners `gap` apart in a bay of `bay_width` (mm).
    """
    low, high = runner_gap_range(rim_width, body_width)
    bearing = (rim_width - gap) / 2
    return RunnerFit(gap, low, high, bearing, bearing - (gap - body_width) / 2, bay_width - rim_width)


@rule("common practice, no source")
def runner_width(bay_width: Fraction, offset: Fraction, gap: Fraction) -> Fraction:
    """A runner reaches from the wall's face to the gap.

    Its width (mm); the wall lies `offset` behind the bars' faces.
    """
    return (bay_width + 2 * offset - gap) / 2


@rule("common practice, no source")
def stack_height(height: Fraction, lift: Fraction, count: int) -> Fraction:
    """Totes need their heights and a lift between them.

    The height of `count` totes (mm).
    """
    return count * height + (count - 1) * lift
