"""Torque and clamping force: tables of the standard, examples of pages on bolts, and the law of equal stress."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.calculators.tightening import (
    clamping_force,
    proof_load,
    stress_area,
    tightening_range,
)

#: Stress areas and proof loads of class 8.8, ISO 898-1 (mm², N).
SCREWS = {
    (4, 0.7): (8.78, 5100),
    (6, 1.0): (20.1, 11_600),
    (8, 1.25): (36.6, 21_200),
    (10, 1.5): (58.0, 33_700),
}


@pytest.mark.parametrize("screw", SCREWS)
def test_stress_areas_and_proof_loads(screw: tuple[float, float]) -> None:
    area = stress_area(diameter=screw[0], pitch=screw[1])
    expected_area, expected_load = SCREWS[screw]
    assert area == pytest.approx(expected_area, rel=3e-3)
    assert proof_load(area=area) == pytest.approx(expected_load, rel=1e-2)


def test_torque_examples() -> None:
    """M12 class 8.8 at 70 % of proof: 34.2 kN, 82.1 N m; M10 at 50 N m: 25.0 kN. Pages on bolt torque, K = 0.2."""
    force = 0.7 * proof_load(area=84.3)
    assert force == pytest.approx(34_200, rel=1e-2)
    assert clamping_force(torque=82_100, diameter=12) == pytest.approx(force, rel=1e-2)
    assert clamping_force(torque=50_000, diameter=10) == 25_000


@given(diameter=st.floats(3, 16))
def test_other_threads_are_stressed_as_m8(diameter: float) -> None:
    low, high = tightening_range(diameter, diameter / 6.4)
    stress = clamping_force(torque=high, diameter=diameter) / stress_area(
        diameter=diameter, pitch=diameter / 6.4
    )
    m8 = clamping_force(torque=18_000, diameter=8) / stress_area(diameter=8, pitch=1.25)
    assert stress == pytest.approx(m8)
    assert stress < 580
    assert 0 < low < high


def test_m8_in_aluminium() -> None:
    """12 to 18 N m, common practice; M6 by its stress area of 20.1 against 36.6 mm² and its diameter."""
    assert tightening_range(8, 1.25) == pytest.approx((12_000, 18_000))
    share = 20.1 / 36.6 * 6 / 8
    assert tightening_range(6, 1) == pytest.approx((12_000 * share, 18_000 * share), rel=3e-3)
