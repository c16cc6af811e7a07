"""Every quantity's unit is one that a library of units knows, and free fall is the standard's."""

from __future__ import annotations

from typing import get_args

import pint
import pytest

from generator.calculators import quantities

UNITS = {name: get_args(alias)[1] for name, alias in vars(quantities).items() if len(get_args(alias)) == 2}
#: What each is in the units of physics.
DIMENSIONS = {
    "Millimetres": "[length]",
    "ExactMillimetres": "[length]",
    "SquareMillimetres": "[length]^2",
    "SecondMoment": "[length]^4",
    "Newtons": "[force]",
    "NewtonMillimetres": "[energy]",
    "ExactNewtons": "[force]",
    "NewtonMillimetresPerRadian": "[energy]",
    "NewtonsPerMillimetre": "[force]/[length]",
    "Megapascals": "[pressure]",
    "Kilograms": "[mass]",
    "KilogramsPerCubicMetre": "[density]",
    "KilogramMillimetres": "[mass]*[length]",
    "NewtonsPerKilogram": "[acceleration]",
    "PerKelvin": "1/[temperature]",
    "Kelvins": "[temperature]",
    "MetresPerMinute": "[speed]",
    "MillimetresPerMetre": "",
    "MillimetresPerMinute": "[speed]",
    "PerMinute": "1/[time]",
    "Minutes": "[time]",
    "PerMillimetre": "1/[length]",
}


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry:
    return pint.UnitRegistry()


@pytest.mark.parametrize("name", UNITS)
def test_a_quantity_has_the_dimension_of_its_name(registry: pint.UnitRegistry, name: str) -> None:
    dimension = DIMENSIONS.get(name, "")
    quantity = registry.Quantity(1, UNITS[name])
    assert quantity.check(dimension) if dimension else quantity.dimensionless


def test_free_fall() -> None:
    """9.80665 m/s², exact: 3rd General Conference on Weights and Measures, 1901."""
    assert float(quantities.GRAVITY) == 9.80665
