"""Levelling feet: statics of three feet, and a floor that falls 1 in 80."""

from __future__ import annotations

from fractions import Fraction
from math import hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.calculators.feet import foot_load, levelling_range, stem_inside

lengths = st.integers(100, 6000).map(Fraction)


def test_three_feet_carry_a_stiff_frame() -> None:
    """450 kg: 150 on each of three, 187.5 with a quarter more."""
    assert foot_load(450.0).each == pytest.approx(150)
    assert foot_load(450.0).required == pytest.approx(187.5)


@given(wide=lengths, deep=lengths)
def test_the_range_for_a_floor(wide: Fraction, deep: Fraction) -> None:
    """A fall of 1 in 80 along the diagonal, by Pythagoras, and 5 in reserve; never more than the floor asks for."""
    needed = float(levelling_range(wide, deep))
    truth = hypot(float(wide), float(deep)) / 80 + 5
    assert truth - 0.001 <= needed <= truth + 1e-9


def test_a_stem_comes_out_as_the_foot_goes_down() -> None:
    """A stem of 50 that is all in at 40 is 20 in at 70."""
    assert stem_inside(Fraction(50), Fraction(40), Fraction(40)) == 50
    assert stem_inside(Fraction(50), Fraction(40), Fraction(70)) == 20
