"""Diagonals of the worked bench."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.calculators.squaring import diagonal


@pytest.mark.parametrize(("a", "b", "value"), [(3, 4, 5), (2000, 900, 2193.2), (1920, 820, 2087.8)])
def test_diagonals_of_the_worked_bench(a: int, b: int, value: float) -> None:
    assert diagonal(Fraction(a), Fraction(b)) == pytest.approx(value, abs=0.05)
