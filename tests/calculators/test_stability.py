"""Tipping and wheel loads: a worked example, an independent solver, and the laws that hold for every bench."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from generator.calculators.stability import (
    DrawerMass,
    holding_moment,
    load_to_tip,
    push_moment,
    support_loads,
    tip_line,
    tipping,
    worst_with_one_in_the_air,
)

# --- worked examples


def test_moments_of_a_worked_example() -> None:
    """Moments about the front support line: 120 kg 300 mm behind it, three open drawers of 15 kg 250 mm before it.

    Restoring 36 000, overturning 11 250 kg mm, ratio 3.20; 55.0 kg pressed down 450 mm before the line just tips it.
    Statics by hand, no source.
    """
    drawers = [DrawerMass(own=0, load=15, own_behind=250, load_behind=250, travel=500)] * 3
    found = tipping([(120, 300)], drawers, push=0)
    held, turning = holding_moment(mass=120, distance=300), 3 * holding_moment(mass=15, distance=250)
    assert (held, turning) == (36_000, 11_250)
    assert held / turning == pytest.approx(3.20)
    assert found.margins[-1] == held - turning
    assert load_to_tip(margin=found.margins[-1], distance=450) == pytest.approx(55.0)


def test_a_push_of_200_newtons_at_880() -> None:
    """20.4 kg at 0.88 m: 18.0 kg m."""
    assert push_moment(force=200, height=880) == pytest.approx(17_947, abs=1)
    assert tip_line(stand_inset=100, inward=40) == 140


def test_three_of_four_wheels() -> None:
    """A rigid table on three of its four corners, its weight in the middle: half on each end of the diagonal."""
    corners = [(0.0, 0.0), (2.0, 0.0), (0.0, 1.0), (2.0, 1.0)]
    assert support_loads(corners, 100, (1.0, 0.5)) == pytest.approx((25,) * 4)
    assert support_loads(corners[1:], 100, (1.0, 0.5)) == pytest.approx((50, 50, 0))
    assert worst_with_one_in_the_air(corners, 100, (1.0, 0.5)) == pytest.approx(50)


def test_wheels_on_a_line_hold_nothing() -> None:
    with pytest.raises(ValueError, match="cannot stand"):
        support_loads([(0, 0), (1, 0), (2, 0)], 100, (1, 0))


# --- an independent library


@settings(max_examples=40, deadline=None)
@given(
    length=st.floats(800, 3000),
    depth=st.floats(400, 1200),
    middle=st.floats(0.3, 0.7),
    six=st.booleans(),
    mass=st.floats(10, 800),
    x=st.floats(0.4, 0.6),
    y=st.floats(0.4, 0.6),
)
def test_wheel_loads_are_those_of_least_squares(
    length: float, depth: float, middle: float, six: bool, mass: float, x: float, y: float
) -> None:
    """Equal springs under a rigid plate carry the smallest loads, squared and added up, that balance the mass."""
    row = [0.0, middle * length, length] if six else [0.0, length]
    wheels = [(a, b) for b in (0.0, depth) for a in row]
    centre = (x * length, y * depth)
    balance = np.array([[1.0] * len(wheels), [w[0] for w in wheels], [w[1] for w in wheels]])
    expected = np.linalg.lstsq(balance, mass * np.array([1.0, *centre]), rcond=None)[0]
    assert support_loads(wheels, mass, centre) == pytest.approx(expected, rel=1e-6, abs=1e-6)


@settings(max_examples=10, deadline=None)
@given(six=st.booleans(), x=st.floats(0.2, 0.8), y=st.floats(0.2, 0.8))
def test_one_wheel_in_the_air_stays_within_what_a_linear_programme_allows(
    six: bool, x: float, y: float
) -> None:
    """Balance of forces and moments without pulling wheels: the programme finds the most that one wheel can get."""
    row = (0.0, 900.0, 1900.0) if six else (0.0, 1900.0)
    wheels, centre = [(a, b) for b in (0.0, 700.0) for a in row], (x * 1900, y * 700)
    most = 0.0
    for lifted in range(len(wheels)):
        kept = [w for i, w in enumerate(wheels) if i != lifted]
        balance = np.array([[1.0] * len(kept), [w[0] for w in kept], [w[1] for w in kept]])
        for i in range(len(kept)):
            cost = [-1.0 if j == i else 0.0 for j in range(len(kept))]
            result = linprog(cost, A_eq=balance, b_eq=100 * np.array([1.0, *centre]), bounds=(0, None))
            most = max(most, -float(result.fun)) if result.success else most
    found = worst_with_one_in_the_air(wheels, 100, centre)
    assert 100 / (len(wheels) - 1) <= found <= most + 1e-3
    if not six:
        # three wheels leave one balance only
        assert found == pytest.approx(most, rel=1e-4)


# --- laws

drawers = st.lists(
    st.builds(
        DrawerMass,
        own=st.floats(1, 10),
        load=st.floats(0, 60),
        own_behind=st.floats(-100, 400),
        load_behind=st.floats(-100, 400),
        travel=st.floats(200, 700),
    ),
    max_size=8,
)
rests = st.lists(st.tuples(st.floats(1, 200), st.floats(-100, 800)), min_size=1, max_size=5)


def moved(rows: list[tuple[float, float]], by: float) -> list[tuple[float, float]]:
    return [(mass, at + by) for mass, at in rows]


@settings(max_examples=40, deadline=None)
@given(rest=rests, boxes=drawers, push=st.floats(0, 30_000), wider=st.floats(0, 500))
def test_a_wider_base_never_tips_sooner(
    rest: list[tuple[float, float]], boxes: list[DrawerMass], push: float, wider: float
) -> None:
    before = tipping(rest, boxes, push)
    out = [replace(d, own_behind=d.own_behind + wider, load_behind=d.load_behind + wider) for d in boxes]
    behind = tipping(moved(rest, wider), out, push)
    assert behind.safe_open >= before.safe_open
    assert behind.safe_open_alone >= before.safe_open_alone


@settings(max_examples=40, deadline=None)
@given(rest=rests, boxes=drawers, push=st.floats(0, 30_000), more=st.floats(0, 30_000))
def test_a_harder_push_never_lets_more_drawers_open(
    rest: list[tuple[float, float]], boxes: list[DrawerMass], push: float, more: float
) -> None:
    assert tipping(rest, boxes, push + more).safe_open <= tipping(rest, boxes, push).safe_open


@settings(max_examples=40, deadline=None)
@given(rest=rests, boxes=drawers, push=st.floats(0, 30_000))
def test_drawers_are_opened_so_that_no_other_choice_is_worse(
    rest: list[tuple[float, float]], boxes: list[DrawerMass], push: float
) -> None:
    found = tipping(rest, boxes, push)
    assert len(found.margins) == len(boxes) + 1
    assert list(found.margins) == sorted(found.margins, reverse=True)
    whole = sum(m * at for m, at in rest) + sum(d.held_empty + d.held_load for d in boxes)
    in_order = whole - sum((d.own + d.load) * d.travel for d in boxes[: len(boxes) // 2])
    assert found.margins[len(boxes) // 2] <= in_order + 1e-6
    assert -1 <= found.safe_open <= len(boxes)


@settings(max_examples=40, deadline=None)
@given(rest=rests, boxes=drawers, extra=st.floats(0, 100), at=st.floats(0, 800))
def test_mass_behind_the_line_only_helps(
    rest: list[tuple[float, float]], boxes: list[DrawerMass], extra: float, at: float
) -> None:
    assert tipping([*rest, (extra, at)], boxes, 0).safe_open >= tipping(rest, boxes, 0).safe_open


@settings(max_examples=40, deadline=None)
@given(rest=rests, boxes=drawers)
def test_moments_left_are_those_of_the_masses_where_they_then_are(
    rest: list[tuple[float, float]], boxes: list[DrawerMass]
) -> None:
    """Every mass at its place: the drawer that takes most is out first; alone, only open drawers have a load."""
    found = tipping(rest, boxes, 0)
    fixed = sum(mass * at for mass, at in rest)

    def left(is_open: list[bool], alone: bool) -> float:
        return fixed + sum(
            d.own * (d.own_behind - d.travel * out)
            + (d.load * (d.load_behind - d.travel * out) if out or not alone else 0)
            for d, out in zip(boxes, is_open, strict=True)
        )

    for margins, alone in ((found.margins, False), (found.margins_alone, True)):
        for count, margin in enumerate(margins):
            ways = combinations(range(len(boxes)), count)
            worst = min(left([i in way for i in range(len(boxes))], alone) for way in ways)
            assert margin == pytest.approx(worst, abs=1e-6 * (1 + abs(fixed)) + 1e-3)
