"""What a clearance feels like in the hand. Limits are common practice, no source (mm)."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.calculators.tolerances import Deviation, LikelyRange, Range, likely_range, worst_case

BINDS, SLIDES, RATTLES = "binds", "slides by hand", "rattles"
BOTTOMS, CLEAR = "bottoms", "clear of the bottom"
LOOSE = "slips off"


@dataclass(frozen=True)
class Feel:
    """Words for a clearance: below `least`, up to `most`, above it (mm)."""

    least: Fraction
    most: Fraction | None
    below: str
    between: str
    above: str = ""

    def word(self, clearance: Fraction | float) -> str:
        """The one that fits this clearance (mm)."""
        if clearance < self.least:
            return self.below
        return self.above if self.most is not None and clearance > self.most else self.between


#: Thickness of a tongue in its slot: a tongue with no play wedges the lips, one with over half a millimetre buzzes.
IN_SLOT = Feel(Fraction(0), Fraction(1, 2), BINDS, SLIDES, RATTLES)
#: Under a tongue, behind a screw's head: what must not touch.
UNDER = Feel(Fraction(0), None, BOTTOMS, CLEAR)
#: Both sides of a drawer's box together, beyond the slides' own thickness: 2.6 mm lets the balls leave their race.
ON_SLIDES = Feel(Fraction(0), Fraction(26, 10), BINDS, SLIDES, LOOSE)
#: All gaps beside doors in an opening: under a millimetre each a door rubs when it swells.
SWINGS = Feel(Fraction(2), None, "rubs", "swings free")
#: What is laid in by hand: a shelf in its recess, a tote between posts.
LAID_IN = Feel(Fraction(0), None, BINDS, "goes in by hand")


@dataclass(frozen=True)
class FitRange:
    """A clearance as drawn, at its worst, and as it comes out 997 times of 1000 (mm), each with its word."""

    nominal: Fraction
    worst: Range
    likely: LikelyRange
    verdict: str
    likely_verdict: str
    worst_verdict: str


def fit_range(nominal: Fraction, deviations: tuple[Deviation, ...], feel: Feel) -> FitRange:
    """Range and words of one clearance. A range that has two words says both, the tight one first."""
    worst, likely = worst_case(nominal, deviations), likely_range(nominal, deviations)
    return FitRange(nominal, worst, likely, feel.word(nominal), _words(feel, likely), _words(feel, worst))


def _words(feel: Feel, span: Range | LikelyRange) -> str:
    return " to ".join(dict.fromkeys((feel.word(span.low), feel.word(span.high))))
