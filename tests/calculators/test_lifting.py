"""What persons lift and which doors they pass: published examples, every turn of a box, and laws."""

from __future__ import annotations

from fractions import Fraction
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.calculators.lifting import (
    FROM,
    KNUCKLE_HEIGHT,
    LOAD_CONSTANT,
    REACH,
    TRAVEL,
    in_step,
    lifting_index,
    passes,
    persons,
    recommended_weight,
    share,
    stows,
)


def test_lifting_example() -> None:
    """A course page's example of the revised NIOSH equation: H 25, V 55, D 95 cm, FM 0.88, CM 0.95: 15.7 kg, and
    12 kg have the index 0.76 (cut off, not rounded)."""
    limit = recommended_weight(reach=250, height=550, travel=950, frequency_factor=0.88, grip_factor=0.95)
    assert limit == pytest.approx(15.7, abs=0.05)
    assert lifting_index(mass=12, recommended=limit) == pytest.approx(0.76, abs=0.01)


def test_lifting_example_in_inches() -> None:
    """H 20, V 6, D 16 in, CM 0.95: 18.4 to 18.5 lb. NIOSH 94-110 prints the multipliers to two places."""
    inch, pound = 25.4, 0.45359237
    limit = recommended_weight(reach=20 * inch, height=6 * inch, travel=16 * inch, grip_factor=0.95)
    assert limit / pound == pytest.approx(18.45, rel=0.02)


@given(reach=st.floats(250, 630), height=st.floats(0, 1750), travel=st.floats(250, 1750))
def test_nobody_lifts_more_than_the_constant(reach: float, height: float, travel: float) -> None:
    limit = recommended_weight(reach=reach, height=height, travel=travel)
    assert 0 < limit <= LOAD_CONSTANT
    assert recommended_weight(reach=reach * 1.1, height=height, travel=travel) <= limit
    nearer = KNUCKLE_HEIGHT + (height - KNUCKLE_HEIGHT) / 2
    assert recommended_weight(reach=reach, height=nearer, travel=travel) >= limit


def test_persons() -> None:
    assert [persons(mass=mass, each=25) for mass in (0, 24.9, 25, 25.1, 50, 51)] == [1, 1, 1, 2, 2, 3]
    assert [in_step(persons(mass=mass, each=25)) for mass in (100, 100.1)] == [4, None]


@given(mass=st.floats(5, 500))
def test_nobody_of_those_who_lift_has_an_index_that_is_printed_above_one(mass: float) -> None:
    """To a tenth, as it is printed: one person at 1.003 lifts alone, four at 1.83 do not lift at all."""
    recommended = recommended_weight(reach=REACH, height=FROM, travel=TRAVEL)
    count = in_step(persons(mass=mass, each=share(recommended=recommended, own_limit=25)))
    if count is None:
        assert mass / 4 / recommended > 1.04
    else:
        assert round(mass / count / recommended - 1e-9, 1) <= 1
        assert count == 1 or mass / (count - 1) / recommended > 1.04
    less = in_step(persons(mass=mass, each=share(recommended=recommended, own_limit=5)))
    assert less is None or less >= (count or 5)


sizes = st.tuples(*[st.integers(20, 3000).map(Fraction)] * 3)
openings = st.tuples(*[st.integers(300, 2500).map(Fraction)] * 2)


@given(size=sizes, door=openings)
def test_a_door_is_tried_both_ways(size: tuple[Fraction, ...], door: tuple[Fraction, ...]) -> None:
    """By every turn of the box: it passes when one side is ahead and the other two are within the clear opening."""
    tried = any(a <= door[0] - 30 and b <= door[1] - 30 for a, b, _ in permutations(size))
    assert passes(size, door) == tried


@given(size=sizes, room=sizes)
def test_a_van_is_tried_all_ways(size: tuple[Fraction, ...], room: tuple[Fraction, ...]) -> None:
    tried = any(all(a <= b - 30 for a, b in zip(turn, room, strict=True)) for turn in permutations(size))
    assert stows(size, room) == tried


#: NIOSH 94-110, tables of the multipliers to two places: horizontal (mm), vertical (mm), distance (mm).
HORIZONTAL = {250: 1.00, 300: 0.83, 400: 0.63, 500: 0.50, 630: 0.40}
VERTICAL = {0: 0.78, 250: 0.85, 400: 0.90, 500: 0.93, 750: 1.00, 1000: 0.93, 1500: 0.78, 1750: 0.70}
DISTANCE = {250: 1.00, 400: 0.93, 550: 0.90, 700: 0.88, 1000: 0.87, 1750: 0.85}


def test_multipliers_of_the_printed_tables() -> None:
    """With the other two at their best of 1 the limit is 23 kg times the multiplier. From memory, as printed."""
    for reach, factor in HORIZONTAL.items():
        assert recommended_weight(reach=reach, height=750, travel=250) / 23 == pytest.approx(
            factor, abs=0.006
        )
    for height, factor in VERTICAL.items():
        assert recommended_weight(reach=250, height=height, travel=250) / 23 == pytest.approx(
            factor, abs=0.006
        )
    for travel, factor in DISTANCE.items():
        assert recommended_weight(reach=250, height=750, travel=travel) / 23 == pytest.approx(
            factor, abs=0.006
        )


def test_a_frame_from_trestles() -> None:
    """Held 400 before the ankles, from 400 up by 500: 23 x 0.625 x 0.895 x 0.91 = 11.7 kg, by hand."""
    assert recommended_weight(reach=REACH, height=FROM, travel=TRAVEL) == pytest.approx(11.71, abs=0.01)


@pytest.mark.parametrize(
    ("length", "width", "count"), [(1500, 900, 1), (1501, 401, 2), (1501, 400, 1), (3000, 3000, 2)]
)
def test_what_is_long_and_wide_takes_two(length: int, width: int, count: int) -> None:
    """Common practice, no source: over 1500 long and over 400 wide; what is heavier takes as many as it weighs."""
    assert persons(mass=5, each=12, length=length, width=width) == count
    assert persons(mass=45, each=12, length=length, width=width) == 4


def test_nearer_than_nearest_is_no_better() -> None:
    """The multipliers are 1 at most: 23 kg, however near the hands and short the lift."""
    for reach, travel in ((100, 250), (250, 100), (250, 250)):
        assert recommended_weight(reach=reach, height=750, travel=travel) == pytest.approx(23)
