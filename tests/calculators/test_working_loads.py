"""Loads of the work: worked examples of the trade, the same by a pressure point in the supports' polygon, and laws."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.calculators.working_loads import (
    floor_hold,
    further_to_stand,
    lifting_step,
    rolling_push,
    sill_push,
    standing_moment,
    tip_ratio,
    turning_moment,
)

G = 9.80665


def ratio(mass: float, behind: float, down: float, out: float, push: float, height: float) -> float:
    turns = turning_moment(down=down, out=out, push=push, height=height)
    return tip_ratio(holds=standing_moment(mass=mass, behind=behind), turns=turns)


def test_a_person_on_an_overhanging_top() -> None:
    """120 kg, supports 620 apart, 100 of overhang: 1000 N at 50 from the edge turn 50 N m against 365: 7.3."""
    assert turning_moment(down=1000, out=100 - 50, push=0, height=0) == pytest.approx(50_000)
    assert standing_moment(mass=120, behind=310) == pytest.approx(365_000, rel=1e-3)
    assert ratio(120, 310, 1000, 50, 0, 0) == pytest.approx(7.3, abs=0.01)


def test_when_a_wheel_lifts() -> None:
    """450 kg, a quarter is 1104 N: a soft frame (50 N/mm) lifts a wheel at a dip of 22, one with panels at 3.7."""
    assert lifting_step(mass=450, twist=50) == pytest.approx(22, abs=0.1)
    assert lifting_step(mass=450, twist=300) == pytest.approx(3.7, abs=0.03)


def test_what_slides_and_what_rolls() -> None:
    """100 kg on rubber with half its grip: 490 N with all wheels braked, half of that with two of four; 3 % roll it."""
    assert floor_hold(grip=0.5, mass=100, holding=4, supports=4) == pytest.approx(50 * G)
    assert floor_hold(grip=0.5, mass=100, holding=2, supports=4) == pytest.approx(25 * G)
    assert rolling_push(part=0.03, mass=100) == pytest.approx(3 * G)


@given(radius=st.floats(30, 100), part=st.floats(0.05, 0.9), mass=st.floats(50, 500))
def test_the_push_over_a_sill_balances_the_wheel_about_its_edge(
    radius: float, part: float, mass: float
) -> None:
    """Moments about the sill's edge: the push at the axle times its height over the edge, the weight times its arm."""
    sill = radius * part
    angle = math.acos((radius - sill) / radius)
    push = sill_push(mass=mass, radius=radius, sill=sill)
    assert push * radius * math.cos(angle) == pytest.approx(mass * G / 2 * radius * math.sin(angle))


@settings(max_examples=60)
@given(
    mass=st.floats(40, 400), wide=st.floats(300, 2000), deep=st.floats(200, 900), down=st.floats(1, 1500),
    x=st.floats(-0.3, 1.3), y=st.floats(-0.3, 1.3), push=st.floats(0, 600), turn=st.floats(0, 2 * math.pi),
)  # fmt: skip
def test_the_sides_decide_over_corners_too(
    mass: float, wide: float, deep: float, down: float, x: float, y: float, push: float, turn: float
) -> None:
    """Another way: the bench stands while the point where all forces meet the floor is inside the supports' rectangle.

    The load is anywhere, also over a corner, and the push in any direction. No side tips exactly when that holds.
    """
    height, at = 900.0, (x * wide, y * deep)
    weight = mass * G
    force = (push * math.cos(turn), push * math.sin(turn))
    meets = [
        (weight * size / 2 + down * place + side * height) / (weight + down)
        for size, place, side in zip((wide, deep), at, force, strict=True)
    ]
    inside = all(0 < each < size for each, size in zip(meets, (wide, deep), strict=True))
    stands = True
    for size, place, side in zip((wide, deep), at, force, strict=True):
        for out, toward in ((-place, -side), (place - size, side)):
            turns = turning_moment(down=down, out=out, push=toward, height=height)
            stands &= (
                turns <= 0 or tip_ratio(holds=standing_moment(mass=mass, behind=size / 2), turns=turns) > 1
            )
    assert stands == inside


@settings(max_examples=40)
@given(
    mass=st.floats(40, 400), behind=st.floats(50, 500), out=st.floats(-300, 300), down=st.floats(0, 1500),
    push=st.floats(0, 600), limit=st.floats(1, 2),
)  # fmt: skip
def test_so_much_further_out_it_stands_just_so(
    mass: float, behind: float, out: float, down: float, push: float, limit: float
) -> None:
    turns = turning_moment(down=down, out=out, push=push, height=900)
    holds = standing_moment(mass=mass, behind=behind)
    far = further_to_stand(limit=limit, turns=turns, holds=holds, mass=mass, down=down)
    there = turning_moment(down=down, out=out - far, push=push, height=900)
    assert standing_moment(mass=mass, behind=behind + far) == pytest.approx(limit * there, abs=1e-3)


@settings(max_examples=40)
@given(mass=st.floats(40, 400), behind=st.floats(50, 500), out=st.floats(1, 300), wider=st.floats(1, 200))
def test_supports_further_out_never_tip_sooner(mass: float, behind: float, out: float, wider: float) -> None:
    turns = turning_moment(down=1000, out=out - wider, push=100, height=900)
    before = ratio(mass, behind, 1000, out, 100, 900)
    assert (
        turns <= 0 or tip_ratio(holds=standing_moment(mass=mass, behind=behind + wider), turns=turns) > before
    )
