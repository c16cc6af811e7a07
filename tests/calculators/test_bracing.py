"""Fixed panels and a push at an edge: worked examples by hand, and laws."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.calculators.bracing import (
    against_turning,
    at_the_top,
    edge_sway,
    fastener_stiffness,
    leaning,
    panel_stiffness,
    screw_slip,
    shear_stiffness,
)

SIZES = st.floats(100, 2000)


def panel(width: float, height: float, slip: float, spacing: float, modulus: float = 655) -> float:
    brackets = fastener_stiffness(edges=1, width=width, height=height, part=1, slip=slip, spacing=spacing)
    shear = shear_stiffness(modulus=modulus, thickness=12, width=width, height=height)
    return panel_stiffness(panel=shear, brackets=brackets)


@pytest.mark.parametrize(("slip", "expected"), [(400, 1550), (1940, 6090)])
def test_a_back_panel_on_screws(slip: float, expected: float) -> None:
    """Plywood of 12, 1620 x 500, screws of 4 at 150: 1550 to 6090 N/mm."""
    assert panel(1620, 500, slip, 150) == pytest.approx(expected, rel=0.002)


def test_the_slip_of_a_screw() -> None:
    """Density 500, shank 4: 500^1.5 x 4 / 23; at 680 that of the rule as well."""
    assert screw_slip(shank=4, density=500) == pytest.approx(500**1.5 * 4 / 23, rel=1e-4)
    assert screw_slip(shank=4, density=680) == pytest.approx(680**1.5 * 4 / 23, rel=1e-4)


def test_a_push_at_an_edge_of_two_equal_rows() -> None:
    """Rows 800 apart, 10 N/mm each, ends that do nothing: the pushed row bears it all, 100 N moves it 10 mm."""
    turning = 2 * against_turning(stiffness=10, arm=400)
    assert edge_sway(push=100, stiffness=20, arm=400, turning=turning) == pytest.approx(10)
    # one row alone is stiff: its stiffest place is that row, and nothing but the ends holds the other
    assert edge_sway(push=100, stiffness=1e9, arm=800, turning=640_000) == pytest.approx(100)


def test_a_panel_counts_by_the_square_of_its_height() -> None:
    assert at_the_top(stiffness=leaning(stiffness=100, height=500), height=1000) == pytest.approx(25)


@settings(max_examples=30)
@given(width=SIZES, height=SIZES, slip=st.floats(100, 5000), spacing=st.floats(50, 500))
def test_a_fixed_panel_is_stiffer_than_none_and_closer_brackets_never_softer(
    width: float, height: float, slip: float, spacing: float
) -> None:
    now = panel(width, height, slip, spacing)
    assert 0 < now <= shear_stiffness(modulus=655, thickness=12, width=width, height=height)
    assert panel(width, height, slip, spacing / 2) >= now
    assert panel(width, height, slip * 2, spacing) >= now


@settings(max_examples=30)
@given(stiffness=st.floats(1, 1000), arm=st.floats(0, 1000), turning=st.floats(1e5, 1e9))
def test_an_edge_never_moves_less_than_the_middle(stiffness: float, arm: float, turning: float) -> None:
    assert edge_sway(push=200, stiffness=stiffness, arm=arm, turning=turning) >= 200 / stiffness
