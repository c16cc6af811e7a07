"""Lifting, doors, heights, speeds, screws, torque, time and money against published examples, and by their laws."""

from __future__ import annotations

from fractions import Fraction
from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.calculators.costs import time_for, with_surcharge
from generator.calculators.cutter_speeds import (
    ALUMINIUM,
    PASS_ALUMINIUM,
    feed_rate,
    pass_depth,
    spindle_speed,
)
from generator.calculators.cutter_speeds import passes as cutter_passes
from generator.calculators.lifting import (
    KNUCKLE_HEIGHT,
    LOAD_CONSTANT,
    lifting_index,
    passes,
    persons,
    recommended_weight,
    stows,
)
from generator.calculators.tightening import (
    clamping_force,
    proof_load,
    stress_area,
    tightening_range,
    torque_for,
)
from generator.calculators.wood_screws import HARD, SOFT, next_drill, pilot_hole, shank_hole
from generator.calculators.work_height import work_height

# --- lifting


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


# --- the height of the work


def test_heights() -> None:
    """Grandjean (by way of an ergonomics paper): light work 100 to 150 below the elbow, heavy work 150 to 400."""
    elbow = Fraction(1010)
    assembly, planing = (work_height(work, elbow, None) for work in ("assembly", "planing"))
    assert assembly is not None
    assert planing is not None
    assert (assembly.low, assembly.high) == (860, 910)
    assert elbow - 400 <= planing.low < planing.high <= elbow - 150
    assert work_height("outfeed", elbow, None) is None
    outfeed = work_height("outfeed", None, Fraction(860))
    assert outfeed is not None
    assert outfeed.high < 860
    assert not outfeed.contains(Fraction(860))


# --- cutters


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
    assert [cutter_passes(depth=depth, pass_depth=deep) for depth in (2, 2.1, 4.5, 6)] == [1, 2, 3, 3]
    fast = spindle_speed(cutting_speed=ALUMINIUM.slowest, diameter=6)
    assert 12_000 < fast < 18_000


@given(diameter=st.floats(1, 30), depth=st.floats(0.1, 30), part=st.floats(0.1, 1))
def test_no_pass_is_deeper_than_it_may_be(diameter: float, depth: float, part: float) -> None:
    deep = pass_depth(diameter=diameter, part=part)
    count = cutter_passes(depth=depth, pass_depth=deep)
    assert depth / count <= deep * (1 + 1e-6)
    assert count == 1 or depth / (count - 1) > deep * (1 - 1e-6)


# --- screws

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
    assert torque_for(force=force, diameter=12) == pytest.approx(82_100, rel=1e-2)
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


def test_wood_screws() -> None:
    """Wood Handbook, chapter 8: 70 % and 90 % of a root that is two thirds of the shank. From memory."""
    assert pilot_hole(shank=4, part_of_root=SOFT) == pytest.approx(1.87, abs=0.01)
    assert pilot_hole(shank=4, part_of_root=HARD) == pytest.approx(2.4)
    assert [next_drill(d) for d in (1.87, 2.4, 4.5)] == [2.0, 2.5, 4.5]
    assert shank_hole(shank=5) == 5.5


def test_time_and_money() -> None:
    assert time_for(count=50, each=3) + time_for(count=35, each=3) == 255
    # 1187 and a tenth
    assert with_surcharge(price=1187) == pytest.approx(1305.7)
