"""The worked examples of strength and stands that the trade's rules come with, each beside what our rule gives.

Those that other tests have are not repeated: sway of slotted bars and of timber, gap, slip and pull-out, a panel on
screws, free travel, a wheel that lifts (test_sway, test_joint_limits, test_bracing, test_working_loads).
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.calculators.beams import (
    board_second_moment,
    sag_after_years,
    sag_cantilever,
    sag_point_middle,
    sag_spread,
    strip_at_edge,
)
from generator.calculators.casters import caster_load
from generator.calculators.feet import levelling_range
from generator.calculators.quantities import GRAVITY
from generator.calculators.sway import half_member_stiffness, joint_with_members, sway

KNM = 1e6
#: A post that gives by nothing but its bending.
RIGID = 1e15


def shelf(modulus: float) -> float:
    """900 x 300 x 18 under 30 kg: its first sag (mm)."""
    second = board_second_moment(width=300, thickness=18)
    return float(sag_spread(line_load=30 * GRAVITY / 900, span=900, modulus=modulus, second_moment=second))


def bending_of_posts() -> float:
    """Four posts of 685 under 300 N with rigid joints: 40 x 40 aluminium (mm)."""
    upright = half_member_stiffness(modulus=70_000, second_moment=95_000, length=685)
    part = joint_with_members(joint=RIGID, upright=upright, lying=RIGID)
    return float(sway(push=300, height=685, stiffness=8 * part))


EXAMPLES = [
    # 1800 x 700 on a floor of 1 in 80: 24 of fall; the step of 4 is added by whoever knows the floor; 5 in reserve
    ("range of feet", float(levelling_range(Fraction(1800), Fraction(700))) + 4, 33, 0.2),
    ("rated load of one of four casters, kg", caster_load(450.0, 4).required, 188, 0.5),
    ("rail 45 x 140 of 1620 under 981 N", sag_point_middle(
        force=981, span=1620, modulus=11_000, second_moment=board_second_moment(width=45, thickness=140)), 0.8, 0.05),
    ("shelf of plywood", shelf(8000), 2.4, 0.05),
    ("shelf of plywood after years", sag_after_years(sag=shelf(8000), creep=1.8), 4.3, 0.05),
    ("shelf of MDF", shelf(3000), 6.4, 0.05),
    ("shelf of MDF after years", sag_after_years(sag=shelf(3000), creep=3.25), 20.8, 0.1),
    ("bending of four posts alone", bending_of_posts(), 0.3, 0.1),
    # a top of 18 that reaches 60 out: a strip of 160 bends, by hand 1000 · 60³ / (3 · 3000 · 160 · 18³ / 12)
    ("strip at an edge", strip_at_edge(overhang=60), 160, 0),
    ("edge of MDF of 18 that reaches 60 out, under 1000 N", sag_cantilever(
        force=1000, reach=60, modulus=3000, second_moment=board_second_moment(width=160, thickness=18)), 0.309, 0.001),
]  # fmt: skip


@pytest.mark.parametrize(
    ("given", "worked", "within"), [each[1:] for each in EXAMPLES], ids=[e[0] for e in EXAMPLES]
)
def test_a_worked_example(given: float, worked: float, within: float) -> None:
    assert float(given) == pytest.approx(worked, abs=within)
