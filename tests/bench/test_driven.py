"""Names of wood screws as they are sold."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.bench.driven import wood_screw_name
from generator.calculators.wood_screws import WoodScrew
from generator.units.sizes import INCH


@pytest.mark.parametrize(
    ("size", "length", "name"),
    [
        ("4", Fraction(25), "4x25"),
        ("3.5", Fraction(16), "3.5x16"),
        ("#6", INCH, "#6 x 1"),
        ("#8", INCH * 5 / 4, "#8 x 1 1/4"),
    ],
)
def test_a_screw_is_named_by_its_size_and_length(size: str, length: Fraction, name: str) -> None:
    assert wood_screw_name(WoodScrew(size, Fraction(4), length)) == name
