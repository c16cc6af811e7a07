"""Spindle speeds, feeds and passes: worked examples, and the law of passes."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.calculators.cutter_speeds import (
    ALUMINIUM,
    BOARDS,
    PASS_ALUMINIUM,
    PASS_WOOD,
    feed_rate,
    pass_depth,
    passes,
    spindle_speed,
)


@pytest.mark.parametrize(
    ("speed", "diameter", "expected"), [(100, 10, 3183.1), (300, 6.35, 15_038), (304.8, 6.35, 15_279)]
)
def test_spindle_speeds(speed: float, diameter: float, expected: float) -> None:
    """n = 1000 v / (π d), Machinery's Handbook; worked there and on pages that copy it."""
    assert spindle_speed(cutting_speed=speed, diameter=diameter) == pytest.approx(expected, rel=1e-3)


def test_feed() -> None:
    """3183.1 turns, 2 teeth, 0.05 mm: 318.3 mm/min. And 2500 turns, 2 teeth, 0.003 in: 15 in/min."""
    assert feed_rate(speed=3183.1, chip=0.05, teeth=2) == pytest.approx(318.3, abs=0.1)
    assert feed_rate(speed=2500, chip=0.003 * 25.4, teeth=2) == pytest.approx(15 * 25.4)


def test_passes_in_aluminium() -> None:
    """A third of the cutter a pass: 6 mm takes 2, so a lip of 4.5 takes three. Common practice, no source."""
    deep = pass_depth(diameter=6, part=PASS_ALUMINIUM)
    assert [passes(depth=depth, pass_depth=deep) for depth in (2, 2.1, 4.5, 6)] == [1, 2, 3, 3]
    fast = spindle_speed(cutting_speed=ALUMINIUM.slowest, diameter=6)
    assert 12_000 < fast < 18_000


@given(diameter=st.floats(1, 30), depth=st.floats(0.1, 30), part=st.floats(0.1, 1))
def test_no_pass_is_deeper_than_it_may_be(diameter: float, depth: float, part: float) -> None:
    deep = pass_depth(diameter=diameter, part=part)
    count = passes(depth=depth, pass_depth=deep)
    assert depth / count <= deep * (1 + 1e-6)
    assert count == 1 or depth / (count - 1) > deep * (1 - 1e-6)


def test_starting_values() -> None:
    """800 to 1500 ft/min and 0.002 in a tooth in wrought aluminium: one chart. Boards: common practice, no source."""
    foot = 0.3048
    assert (ALUMINIUM.slowest, ALUMINIUM.fastest) == pytest.approx((800 * foot, 1500 * foot), abs=0.5)
    assert ALUMINIUM.chip == pytest.approx(0.002 * 25.4, rel=0.02)
    # a router of 8000 to 24 000 a minute with a cutter of 12 mm: 300 to 900 m/min
    assert spindle_speed(cutting_speed=BOARDS.fastest, diameter=12) < 24_000
    assert spindle_speed(cutting_speed=BOARDS.slowest, diameter=12) > 8000
    assert pass_depth(diameter=12, part=PASS_WOOD) == 6
    assert BOARDS.chip == pytest.approx(0.1)
    # a cutter of 10 mm at 12 732 to 28 648 a minute
    boards = [spindle_speed(cutting_speed=speed, diameter=10) for speed in (BOARDS.slowest, BOARDS.fastest)]
    assert boards == pytest.approx([12_732, 28_648], abs=1)
