"""Diagonals and racking by a four-bar frame that is pushed out of square."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.calculators.squaring import diagonal, racking

sides = st.integers(300, 3000)


@pytest.mark.parametrize(("a", "b", "value"), [(3, 4, 5), (2000, 900, 2193.2), (1920, 820, 2087.8)])
def test_diagonals_of_the_worked_bench(a: int, b: int, value: float) -> None:
    assert diagonal(Fraction(a), Fraction(b)) == pytest.approx(value, abs=0.05)


@given(a=sides, b=sides, lean=st.floats(0.1, 2))
def test_a_frame_that_leans(a: int, b: int, lean: float) -> None:
    """Side b keeps its length and leans by so much; the two diagonals are measured corner to corner."""
    foot, foot_right = (0.0, 0.0), (float(a), 0.0)
    height = math.sqrt(b**2 - lean**2)
    top, top_right = (lean, height), (a + lean, height)
    difference = math.dist(foot, top_right) - math.dist(foot_right, top)
    assert racking(difference, Fraction(a), Fraction(b)) == pytest.approx(lean, rel=1e-3)
