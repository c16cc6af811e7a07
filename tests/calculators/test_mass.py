"""Masses: the worked bench's bars, water, and areas by a geometry library."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Point, box

from generator.calculators.mass import angle_section, bar_mass, hole_area, solid_mass


def test_bars_of_the_worked_bench() -> None:
    """25 905 mm of 1.7 kg/m: 44.0 kg."""
    assert bar_mass(Fraction(25_905), Fraction("1.7")) == pytest.approx(44.0, abs=0.05)


def test_a_litre_of_water() -> None:
    assert solid_mass(Fraction(100) ** 3, Fraction(1000)) == pytest.approx(1)
    assert solid_mass(1e9, Fraction(680)) == pytest.approx(680)


@settings(max_examples=20)
@given(size=st.fractions(1, 50, max_denominator=10))
def test_a_hole_has_the_area_of_its_circle(size: Fraction) -> None:
    # 4 x 256 corners: an inscribed polygon misses by less than a part in a hundred thousand
    assert hole_area(size) == pytest.approx(Point(0, 0).buffer(float(size) / 2, quad_segs=256).area, rel=1e-5)


@settings(max_examples=20)
@given(leg=st.integers(10, 60), thickness=st.integers(1, 9))
def test_an_angle_is_its_two_legs(leg: int, thickness: int) -> None:
    outline = box(0, 0, leg, thickness).union(box(0, 0, thickness, leg))
    assert float(angle_section(Fraction(leg), Fraction(thickness))) == pytest.approx(outline.area)
