"""Words for a clearance, at their limits."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.calculators.fit_verdicts import IN_SLOT, LAID_IN, ON_SLIDES, UNDER, Feel, fit_range
from generator.calculators.tolerances import Deviation


@pytest.mark.parametrize(
    ("play", "word"),
    [("-0.1", "binds"), ("0", "slides by hand"), ("0.2", "slides by hand"), ("0.51", "rattles")],
)
def test_a_tongue_in_the_hand(play: str, word: str) -> None:
    assert fit_range(Fraction(play), (), IN_SLOT).verdict == word


def test_words_of_a_range() -> None:
    wide = fit_range(Fraction("0.2"), (Deviation.either_way(Fraction("0.4")),), IN_SLOT)
    assert (wide.verdict, wide.worst_verdict) == ("slides by hand", "binds to rattles")
    assert fit_range(Fraction("0.3"), (Deviation.either_way(Fraction("0.4")),), UNDER).worst_verdict == (
        "bottoms to clear of the bottom"
    )
    assert fit_range(Fraction(3), (), ON_SLIDES).verdict == "slips off"


@pytest.mark.parametrize(
    ("feel", "clearance", "word"),
    [
        # common practice: half a millimetre buzzes, 2.6 mm on both slides together lets the balls out
        (IN_SLOT, "0.5", "slides by hand"),
        (IN_SLOT, "-0.01", "binds"),
        (ON_SLIDES, "0", "slides by hand"),
        (ON_SLIDES, "2.6", "slides by hand"),
        (ON_SLIDES, "2.61", "slips off"),
        (ON_SLIDES, "-0.1", "binds"),
        (UNDER, "0", "clear of the bottom"),
        (UNDER, "9", "clear of the bottom"),
        (UNDER, "-0.1", "bottoms"),
        (LAID_IN, "0", "goes in by hand"),
        (LAID_IN, "-0.1", "binds"),
    ],
)
def test_limits_of_a_feel(feel: Feel, clearance: str, word: str) -> None:
    assert fit_range(Fraction(clearance), (), feel).verdict == word


def test_chance_is_kinder_than_the_worst() -> None:
    """Four sizes of 0.3 each: 1.2 at worst, 0.6 by chance, about a nominal play of 0.7."""
    found = fit_range(Fraction("0.7"), (Deviation.either_way(Fraction("0.3")),) * 4, LAID_IN)
    assert (found.worst.low, found.worst.high) == (Fraction("-0.5"), Fraction("1.9"))
    assert (found.likely.low, found.likely.high) == pytest.approx((0.1, 1.3))
    assert (found.worst_verdict, found.likely_verdict) == ("binds to goes in by hand", "goes in by hand")
    assert found.nominal == Fraction("0.7")
