"""How high the work surface should be.

Common practice; Grandjean (Fitting the Task to the Man, 1979) gives 100 to 150 mm below the elbow for light standing
work and 150 to 400 mm for work with downward force.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.provenance import constant, rule

#: (least, most) below the elbow, or below the saw's table (mm).
BELOW_ELBOW = {
    work: (
        constant(least, f"{work}: least below the elbow"),
        constant(most, f"{work}: most below the elbow"),
    )
    for work, least, most in (("assembly", 100, 150), ("planing", 200, 250))
}
BELOW_SAW = (constant(1, "least below the saw's table"), constant(3, "most below the saw's table"))


@dataclass(frozen=True)
class HeightRange:
    """From `low` to `high` above the floor (mm)."""

    low: Fraction
    high: Fraction

    def contains(self, height: Fraction) -> bool:
        """Whether a bench of this height (mm) suits."""
        return self.low <= height <= self.high


@rule("common practice; Grandjean, Fitting the Task to the Man")
def work_height(work: str, elbow: Fraction | None, saw: Fraction | None) -> HeightRange | None:
    """The height that suits the work: below the elbow, and for an outfeed bench below the saw's table.

    None where the one that the work asks for was not measured.
    """
    if work == "outfeed":
        return HeightRange(saw - BELOW_SAW[1], saw - BELOW_SAW[0]) if saw is not None else None
    if elbow is None:
        return None
    least, most = BELOW_ELBOW[work]
    return HeightRange(elbow - most, elbow - least)
