"""Moisture and movement against the Wood Handbook's tables and example, heat against a worked example."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from generator.calculators.wood_movement import (
    ALUMINIUM,
    LIVELIEST,
    SPECIES,
    change_with_moisture,
    growth_with_heat,
    moisture_in_equilibrium,
    species,
)

#: Wood Handbook, Table 4-2: relative humidity (%) -> moisture (%) at 30, 70 and 100 degrees Fahrenheit.
TABLE = {
    -1.111: {10: 2.6, 20: 4.6, 30: 6.3, 40: 7.9, 50: 9.5, 60: 11.3, 65: 12.4, 70: 13.5, 80: 16.5, 90: 21.0},
    21.111: {10: 2.5, 20: 4.5, 30: 6.2, 40: 7.7, 50: 9.2, 60: 11.0, 65: 12.0, 70: 13.1, 80: 16.0, 90: 20.5},
    37.778: {10: 2.3, 20: 4.2, 30: 5.8, 40: 7.2, 50: 8.7, 60: 10.3, 65: 11.2, 70: 12.3, 80: 15.1},
}


@pytest.mark.parametrize("celsius", TABLE)
def test_moisture_of_the_table(celsius: float) -> None:
    for humidity, moisture in TABLE[celsius].items():
        assert moisture_in_equilibrium(celsius=celsius, humidity=humidity) == pytest.approx(moisture, abs=0.1)


@given(celsius=st.floats(-10, 45), humidity=st.floats(1, 94))
def test_the_fit_in_fahrenheit_is_the_same(celsius: float, humidity: float) -> None:
    """Simpson, Equilibrium moisture content of wood in outdoor locations, FPL-RN-0268, 1998: the same fit, its
    constants in degrees Fahrenheit. Solved for the humidity, by a root finder, it leads back."""
    t = celsius * 9 / 5 + 32
    w, k = 330 + 0.452 * t + 0.00415 * t**2, 0.791 + 0.000463 * t - 0.000000844 * t**2
    k1, k2 = 6.34 + 0.000775 * t - 0.0000935 * t**2, 1.09 + 0.0284 * t - 0.0000904 * t**2

    def moisture(h: float) -> float:
        one, two = k1 * k * h, k1 * k2 * (k * h) ** 2
        return 1800 / w * (k * h / (1 - k * h) + (one + 2 * two) / (1 + one + two))

    mine = moisture_in_equilibrium(celsius=celsius, humidity=humidity)
    # both forms round their constants; they agree within two hundredths of a per cent
    assert mine == pytest.approx(moisture(humidity / 100), abs=0.015)
    back = brentq(lambda h: moisture(h) - mine, 1e-6, 0.999)
    assert back * 100 == pytest.approx(humidity, rel=1e-2)


def test_example_of_the_handbook() -> None:
    """Chapter 13: a flat-grained board of white fir, 232 mm wide at 8 %, goes to 11 % and becomes 233.7 mm wide."""
    fir = SPECIES["white fir"]
    change = change_with_moisture(size=232, coefficient=fir.tangential, moisture_change=3)
    assert 232 + change == pytest.approx(233.7, abs=0.05)


#: Shrinkage green to dry, radial and tangential (%): Wood Handbook, Table 4-3. The coefficient of Table 13-5 follows
#: from it as 1 / (3000 / S - 20), a check from the outside on each single species.
SHRINKAGE = {
    "yellow-poplar": (4.6, 8.2),
    "sugar maple": (4.8, 9.9),
    "yellow birch": (7.3, 9.5),
    "paper birch": (6.3, 8.6),
    "white ash": (4.9, 7.8),
    "American beech": (5.5, 11.9),
    "black walnut": (5.5, 7.8),
    "black cherry": (3.7, 7.1),
    "quaking aspen": (3.5, 6.7),
    "Douglas-fir": (4.8, 7.6),
    "white fir": (3.3, 7.0),
}


@pytest.mark.parametrize("name", SHRINKAGE)
def test_coefficients_follow_from_shrinkage(name: str) -> None:
    wood = SPECIES[name]
    for shrinkage, coefficient in zip(SHRINKAGE[name], (wood.radial, wood.tangential), strict=True):
        assert 1 / (3000 / shrinkage - 20) == pytest.approx(coefficient, abs=1e-5)


def test_the_two_equations_meet() -> None:
    """100 mm of yellow-poplar from 12 to 8 %: -1.156 by the coefficient, -1.150 by the shrinkage."""
    near = change_with_moisture(size=100, coefficient=SPECIES["yellow-poplar"].tangential, moisture_change=-4)
    # equation 13-3: D (M1 - M0) / (30 * 100 / S - 30 + M0)
    wide = 100 * (8 - 12) / (3000 / 8.2 - 30 + 12)
    assert near == pytest.approx(-1.156, abs=5e-4)
    assert wide == pytest.approx(-1.150, abs=5e-4)


def test_a_rail_of_two_metres() -> None:
    """2000 mm, 30 K: aluminium 1.380 mm with 23 millionths."""
    assert growth_with_heat(length=2000, expansion=ALUMINIUM, warming=30) == pytest.approx(1.380, abs=1e-3)


def test_an_unknown_wood_is_the_liveliest() -> None:
    assert species("no such wood") == LIVELIEST == SPECIES["American beech"]


@given(celsius=st.floats(-10, 45), low=st.floats(1, 90), more=st.floats(0.5, 4))
def test_damper_air_never_makes_drier_wood(celsius: float, low: float, more: float) -> None:
    dry, damp = (moisture_in_equilibrium(celsius=celsius, humidity=h) for h in (low, low + more))
    assert np.isfinite(damp)
    assert 0 < dry < damp
