"""Sag of boards that are held all round: handbook tables, the beam that a narrow board is, and laws."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.calculators.beams import board_second_moment, line_load, sag_spread, weight
from generator.calculators.plates import (
    POISSON,
    plate_stiffness,
    point_coefficient,
    sag_of_plate_point,
    sag_of_plate_spread,
    spread_coefficient,
)

more = st.floats(1.0, 3.0)

#: Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, second edition: Table 8 (spread) and Table 23 (point).
PLATES = {1.0: (0.00406, 0.01160), 2.0: (0.01013, 0.01651), 3.0: (0.01223, None)}


@pytest.mark.parametrize("ratio", PLATES)
def test_plates_of_the_table(ratio: float) -> None:
    spread, point = PLATES[ratio]
    assert spread_coefficient(long_to_short=ratio) == pytest.approx(spread, rel=5e-3)
    if point is not None:
        assert point_coefficient(long_to_short=ratio) == pytest.approx(point, rel=5e-3)


def test_plates_of_another_table() -> None:
    """Roark's Formulas, Table 11.4, case 1a: y = α q b⁴ / (E t³), α = 0.0444 for a square and 0.1110 for 2 : 1."""
    for ratio, alpha in ((1, 0.0444), (2, 0.1110)):
        sag = spread_on_board(
            force=0.001 * 1000 * 1000 * ratio, short=1000, long=1000 * ratio, thickness=10, modulus=1e4
        )
        assert sag == pytest.approx(alpha * 0.001 * 1000**4 / (10_000 * 10**3), rel=5e-3)


def spread_on_board(*, force: float, short: float, long: float, thickness: float, modulus: float) -> float:
    return sag_of_plate_spread(
        coefficient=spread_coefficient(long_to_short=long / short),
        force=force,
        short=short,
        long=long,
        stiffness=plate_stiffness(modulus=modulus, thickness=thickness, poisson=0.3),
    )


def point_on_board(*, force: float, short: float, long: float, thickness: float, modulus: float) -> float:
    return sag_of_plate_point(
        coefficient=point_coefficient(long_to_short=long / short),
        force=force,
        short=short,
        stiffness=plate_stiffness(modulus=modulus, thickness=thickness, poisson=0.3),
    )


@settings(max_examples=10, deadline=None)
@given(
    short=st.floats(200, 800),
    ratio=st.floats(1, 3),
    thickness=st.floats(4, 25),
    force=st.floats(1, 1000),
    more=more,
)
def test_a_board_sags_no_less_under_more_and_no_more_when_thicker(
    short: float, ratio: float, thickness: float, force: float, more: float
) -> None:
    board = {"short": short, "long": short * ratio, "modulus": 2500.0}
    sag = point_on_board(force=force, thickness=thickness, **board)
    assert point_on_board(force=force * more, thickness=thickness, **board) >= sag
    assert point_on_board(force=force, thickness=thickness * more, **board) <= sag


def test_a_narrow_board_sags_like_the_beam_that_it_is() -> None:
    """A plate that is long across its span is a beam of unit width, stiffer by 1 / (1 - ν²)."""
    board = spread_on_board(force=weight(mass=100), short=100, long=1000, thickness=6, modulus=9000)
    width, load = 1000, line_load(mass=100, length=100)
    beam = sag_spread(
        line_load=load, span=100, modulus=9000, second_moment=board_second_moment(width=width, thickness=6)
    )
    assert board == pytest.approx(beam * (1 - 0.3**2), rel=5e-3)
    assert plate_stiffness(modulus=9000, thickness=6, poisson=0) * width == pytest.approx(
        9000 * board_second_moment(width=width, thickness=6)
    )


def test_a_stiff_board() -> None:
    """Birch plywood of 12 mm, E 9000: D = 9000 x 1728 / (12 x 0.91) = 1.424e6 N mm, by hand."""
    assert plate_stiffness(modulus=9000, thickness=12, poisson=POISSON) == pytest.approx(1.424e6, rel=1e-3)
