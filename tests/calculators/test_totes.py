"""Totes on their runners: the worked tote, and the tote pushed about between its runners by hand."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.calculators.totes import runner_fit, runner_gap_range, runner_width, stack_height

sizes = st.integers(200, 500).map(Fraction)


def test_the_worked_tote() -> None:
    """Rim 386, body 360, bay 400, walls 14 behind the bars' faces: runners of 31 leave 366, of 364 to 370."""
    assert runner_gap_range(Fraction(386), Fraction(360)) == (364, 370)
    fit = runner_fit(Fraction(386), Fraction(360), Fraction(366), Fraction(400))
    assert (fit.gap, fit.gap_min, fit.gap_max) == (366, 364, 370)
    assert (fit.bearing, fit.worst, fit.rim_play) == (10, 7, 14)
    assert fit.ok
    assert runner_width(Fraction(400), Fraction(14), Fraction(366)) == 31
    # three totes of 145, two lifts of 12, 19 left below and above in an opening of 497
    assert stack_height(Fraction(145), Fraction(12), 3) == 497 - 2 * 19


@pytest.mark.parametrize(
    ("rim", "body", "gap", "bay", "holds"),
    [
        # the body clears its runners by 4 in all, the rim lies over them by 16 in all
        (386, 360, 364, 400, True),
        (386, 360, "363.9", 400, False),
        # the wide gap lets the rim slip: pushed aside 3 of it are left
        (386, 360, 370, 400, False),
        (386, 366, 370, 400, True),
        (386, 366, "370.1", 400, False),
        # 6 mm of bearing with the tote pushed aside, and not a tenth less
        (386, 360, 367, 400, True),
        (386, 360, "367.1", 400, False),
        # 6 mm between rim and posts
        (386, 360, 366, 392, True),
        (386, 360, 366, "391.9", False),
    ],
)
def test_limits_of_a_tote(rim: int, body: int, gap: int | str, bay: int | str, holds: bool) -> None:
    """Common practice, no source: body + 4 up to rim - 16, bay of rim + 6, worst bearing of 6."""
    assert runner_fit(Fraction(rim), Fraction(body), Fraction(gap), Fraction(bay)).ok is holds


@given(body=sizes, slack=st.integers(1, 40), cover=st.integers(1, 40))
def test_bearing_of_a_tote_that_is_pushed_aside(body: Fraction, slack: int, cover: int) -> None:
    """The rim's two ends over runners that begin at the gap's two sides, body in the middle and against one side."""
    gap, rim = body + slack, body + slack + cover
    fit = runner_fit(rim, body, gap, rim + 6)
    over = {}
    for name, middle in (("middle", gap / 2), ("pushed", body / 2)):
        left, right = middle - rim / 2, middle + rim / 2
        over[name] = min(0 - left, right - gap)
    assert (fit.bearing, fit.worst) == (over["middle"], over["pushed"])


@given(bay=sizes, offset=st.integers(0, 20).map(Fraction), gap=sizes)
def test_two_runners_and_their_gap_reach_from_wall_to_wall(
    bay: Fraction, offset: Fraction, gap: Fraction
) -> None:
    wide = runner_width(bay, offset, gap)
    assert sum([wide, gap, wide]) - bay == offset + offset


@given(
    heights=st.integers(50, 300).map(Fraction), lift=st.integers(5, 30).map(Fraction), count=st.integers(1, 6)
)
def test_a_stack_is_one_tote_upon_the_other(heights: Fraction, lift: Fraction, count: int) -> None:
    pile = [heights]
    for _ in range(count - 1):
        pile += [lift, heights]
    assert stack_height(heights, lift, count) == sum(pile)
