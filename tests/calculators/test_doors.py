"""Sizes of doors and their hinges, against the worked door of the trade's tables."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest

from generator.calculators.doors import hinge_count, hinge_places, inset_size


def test_the_worked_door() -> None:
    """In an opening of 560 by 600 with gaps of 2: 556 by 596."""
    assert (inset_size(Fraction(560), Fraction(2), 1), inset_size(Fraction(600), Fraction(2), 1)) == (
        556,
        596,
    )


def test_a_pair_has_three_gaps() -> None:
    width = inset_size(Fraction(1000), Fraction(3), 2)
    assert 2 * width + 3 * 3 == 1000


@pytest.mark.parametrize(
    ("height", "width", "mass", "count"),
    [
        (630, 590, 4.5, 2),
        (900, 400, 4.0, 2),
        (901, 400, 4.0, 3),
        (1400, 400, 4.0, 3),
        (1401, 400, 4.0, 4),
        (600, 400, 6.79, 2),
        (600, 400, 6.8, 3),
        (600, 400, 13.6, 4),
        (600, 400, 20.4, 5),
        (600, 601, 4.0, 3),
        (600, 600, 4.0, 2),
    ],
)
def test_hinges_by_height_mass_and_width(height: int, width: int, mass: float, count: int) -> None:
    """Two hinge guides: 15, 30 and 45 lb; 900 mm and one more for each 500."""
    assert hinge_count(Fraction(height), Fraction(width), mass) == count


@pytest.mark.parametrize(
    ("height", "end"), [(200, 50), (240, 80), (480, 80), (600, 100), (900, 150), (1500, 150)]
)
@pytest.mark.parametrize("count", [2, 3, 4])
def test_hinges_are_even_and_a_sixth_from_the_ends(height: int, end: int, count: int) -> None:
    places = hinge_places(Fraction(height), count)
    assert len(places) == count
    assert (places[0], height - places[-1]) == (end, end)
    assert len({after - before for before, after in pairwise(places)}) == 1
