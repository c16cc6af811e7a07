"""Slip and pull-out against worked examples, and the torque of a slot against the trade's range."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.calculators.joint_limits import (
    front_strip_load,
    nut_pull,
    part_that_tips,
    plate_pull,
    pull_each,
    screw_gravity,
    screw_in_thin_wood,
    slip_force,
    wood_screw_across,
    wood_screw_pull,
)
from generator.calculators.sway import gap_moment
from generator.calculators.tightening import (
    clamping_force,
    in_a_slot,
    slot_torque,
    tightening_range,
    usual_nut_force,
)


def test_a_bracket_on_two_bolts_slips() -> None:
    """4 kN each, a grip of 0.2, safety 1.5: 1.07 kN."""
    assert slip_force(count=2, clamping_force=4000) == pytest.approx(1067, abs=1)


def test_a_wood_screw_in_spruce() -> None:
    """5 mm with 40 of thread, G 0.41: 660 N; 2850 G² D in pounds and inches says the same."""
    pull = wood_screw_pull(gravity_ratio=0.41, diameter=5, thread=40)
    assert pull == pytest.approx(660, rel=0.01)
    pounds = 2850 * 0.41**2 * (5 / 25.4) * (40 / 25.4)
    assert pull == pytest.approx(pounds * 4.4482216, rel=0.005)


def test_a_wood_screw_is_loaded_across() -> None:
    """4 mm in the softest group: 278 N, or 2520 D² in pounds and inches (civil engineering handbook, chapter six)."""
    assert wood_screw_across(diameter=4.0) == pytest.approx(278, abs=1)
    assert wood_screw_across(diameter=4.0) == pytest.approx(2520 * (4 / 25.4) ** 2 * 4.4482216, rel=0.003)


@given(ratio=st.floats(1.0, 6.0))
def test_a_stiff_screw_that_tips_is_in_equilibrium(ratio: float) -> None:
    """Bearing turns round where the screw does; forces in both woods and their moments about the joint are equal."""
    part = part_that_tips(ratio=ratio)
    turns = [(thick + part) / 2 for thick in (1.0, ratio)]
    moments = [turn**2 - thick**2 / 2 for turn, thick in zip(turns, (1.0, ratio), strict=True)]
    assert sum(moments) == pytest.approx(0, abs=1e-9)


def test_two_boards_of_one_thickness_and_a_thin_one() -> None:
    """Equal boards: the root of 2, less 1. By hand, 10 of a wall of spruce: 78 · 0.41 · 4 · 10 / 3 = 426 N."""
    assert part_that_tips(ratio=1.0) == pytest.approx(2**0.5 - 1)
    thin = screw_in_thin_wood(part=1.0, gravity_ratio=0.41, diameter=4.0, depth=10.0)
    assert thin == pytest.approx(426, abs=1)


def test_a_drawer_that_is_pulled_out_hangs_on_its_front_strip() -> None:
    """200 N, 250 before the front strip, 500 between both: 300 N on it, and the rear one holds down 100."""
    assert front_strip_load(load=200.0, beyond=250.0, apart=500.0) == 300


def test_a_nut_and_the_screws_of_a_board() -> None:
    """Tables divide what tears a nut out by 4 to 5; a board of 500 or 750 kg/m³ holds as spruce, one of 350 less."""
    assert nut_pull(nut_force=10_000) == 2_500
    assert [screw_gravity(density) for density in (350.0, 500.0, 750.0)] == [0.35, 0.41, 0.41]
    assert pull_each(weight=1000, count=8) == 125


def test_the_bolts_of_a_plate_below_one_bar() -> None:
    """1500 N come up 80 beyond the edge of a bar of 40, with bolts 20 behind it: four times as much, on two."""
    assert plate_pull(load=1500, off=100, half=20, count=2) == 3000
    assert plate_pull(load=1500, off=20, half=20, count=2) == 0


@pytest.mark.parametrize(
    ("opening", "lip", "force"),
    [
        ("8.2", "1.8", 3500),
        ("8.2", "2.2", 5000),
        ("8.2", "4.5", 10_000),
        ("6.2", "1.5", 1000),
        ("6.2", "3", 3500),
    ],
)
def test_the_pull_of_a_nut_by_its_slot(opening: str, lip: str, force: int) -> None:
    """Economy, light and standard slots of 8, light and standard ones of 6: makers' data in excerpts."""
    assert usual_nut_force(Fraction(opening), Fraction(lip)) == force


def test_a_slot_takes_less_torque_than_solid_metal() -> None:
    """M8 in slots is tightened with 8 to 14 N m by common practice; a light slot of 5 kN takes half of that."""
    low, high = in_a_slot(8.0, 1.25, 10_000.0)
    assert (low, high) == (pytest.approx(8_000), pytest.approx(9_600))
    assert clamping_force(torque=high, diameter=8) == pytest.approx(6_000)
    light, _ = in_a_slot(8.0, 1.25, 5_000.0)
    # P 3 on a bar of 40 opens at 20 N m
    assert light == pytest.approx(4_000)
    assert slot_torque(share=0.6, nut_force=5000, diameter=8) == pytest.approx(4_800)
    assert gap_moment(clamping_force=clamping_force(torque=4_800, diameter=8), section=40) == pytest.approx(
        20_000
    )


@given(nut_force=st.floats(500, 50_000), more=st.floats(1, 3), section=st.floats(20, 60))
def test_a_stronger_slot_never_takes_less_and_more_preload_never_opens_earlier(
    nut_force: float, more: float, section: float
) -> None:
    usual = tightening_range(8.0, 1.25)
    before, after = in_a_slot(8.0, 1.25, nut_force), in_a_slot(8.0, 1.25, nut_force * more)
    assert all(a <= b <= c * (1 + 1e-9) for a, b, c in zip(before, after, usual, strict=True))
    opens = [
        gap_moment(clamping_force=clamping_force(torque=t, diameter=8), section=section)
        for t in (before[0], after[0])
    ]
    assert opens[0] <= opens[1]
