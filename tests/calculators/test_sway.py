"""Sway against the worked examples of the trade, against a frame solver on seeded random frames, and by its laws."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from random import Random
from typing import NamedTuple

import pytest
from Pynite import FEModel3D

from generator.calculators.sway import (
    free_travel,
    gap_moment,
    half_member_stiffness,
    joint_moment,
    joint_with_members,
    joints_in_series,
    sway,
    sway_limit,
    usual_limit,
)

#: N mm in a kN m.
KNM = 1e6
#: The bar of the worked benches: 40 x 40 aluminium.
MODULUS, SECOND_MOMENT, SECTION = 70_000.0, 95_000.0, 40.0
#: So stiff that it does not turn or bend (N mm/rad).
RIGID = 1e15


def half(length: float) -> float:
    return half_member_stiffness(modulus=MODULUS, second_moment=SECOND_MOMENT, length=length)


# --- worked examples, each by hand


@pytest.mark.parametrize(("stiffness", "expected"), [(1, 17.6), (2, 8.8), (5, 3.5)])
def test_eight_joints_of_slotted_bars(stiffness: float, expected: float) -> None:
    """Four posts of 685 under 300 N, members rigid: k only."""
    part = joint_with_members(joint=stiffness * KNM, upright=RIGID, lying=RIGID)
    assert sway(push=300, height=685, stiffness=8 * part) == pytest.approx(expected, abs=0.05)


@pytest.mark.parametrize(("stiffness", "expected"), [(1.5, 15.6), (6, 3.9), (20, 1.17)])
def test_two_long_frames_of_timber_with_two_rails(stiffness: float, expected: float) -> None:
    """Levels of 150 and 790, eight joints in all, members rigid."""
    part = joint_with_members(joint=stiffness * KNM, upright=RIGID, lying=RIGID)
    assert sway(push=300, height=790, stiffness=8 * part) == pytest.approx(expected, abs=0.05)


def test_a_joint_bears_its_part_of_the_push() -> None:
    """300 N at 685 shared by eight equal joints: 26 N m; a joint twice as stiff bears twice as much."""
    assert joint_moment(part=1, push=300, height=685, stiffness=8) == pytest.approx(25_690, rel=1e-3)
    assert joint_moment(part=2, push=300, height=685, stiffness=9) == pytest.approx(2 / 9 * 300 * 685)


def test_a_gap_opens_at_a_sixth_of_the_section() -> None:
    """A screw that presses with 6.25 kN on a bar of 40: 42 N m; with 3 kN: 20 N m."""
    assert gap_moment(clamping_force=6250, section=40) == pytest.approx(42_000, rel=0.01)
    assert gap_moment(clamping_force=3000, section=40) == pytest.approx(20_000)


def test_free_travel_of_a_loose_panel() -> None:
    """A panel with 0.5 all around in an opening of 500 x 500: 2.0; twice as far from a frame twice as high."""
    assert free_travel(gap=0.5, panel_height=500, panel_width=500, height=500) == pytest.approx(2.0)
    assert free_travel(gap=0.5, panel_height=500, panel_width=500, height=1000) == pytest.approx(4.0)


@pytest.mark.parametrize(
    ("work", "push", "expected"),
    [("planing", 300, 3), ("assembly", 300, 6), ("outfeed", 150, 3), ("planing", 200, 2)],
)
def test_limits_in_proportion_to_the_push(work: str, push: int, expected: int) -> None:
    assert sway_limit(limit=usual_limit(work), push=Fraction(push)) == expected


def test_springs_in_series() -> None:
    assert joints_in_series(first=2.0, second=2.0) == 1.0
    assert joint_with_members(joint=3.0, upright=3.0, lying=3.0) == pytest.approx(1.0)


# --- an independent library: a frame solver


class Turning(NamedTuple):
    """A joint: its stiffness, and the bays of the lying member beside it."""

    stiffness: float
    spans: tuple[float, ...]


class Plane(NamedTuple):
    """Posts at `axes`; each level (height of its axis) is joined to the posts that reach it.

    The outer posts run through, the others end on the lowest level and on that of `inner`.
    """

    axes: tuple[float, ...]
    levels: tuple[float, ...]
    inner: int
    joints: dict[tuple[int, int], float]

    def posts_at(self, level: int) -> list[int]:
        last = len(self.axes) - 1
        return [post for post in range(last + 1) if post in (0, last) or level in (0, self.inner)]

    def turning(self) -> Iterator[Turning]:
        for level in range(len(self.levels)):
            posts = self.posts_at(level)
            gaps = [self.axes[b] - self.axes[a] for a, b in pairwise(posts)]
            for place, post in enumerate(posts):
                beside = (gaps[place - 1 : place] if place else []) + gaps[place : place + 1]
                yield Turning(self.joints[level, post], tuple(beside))


def plane(random: Random, kind: str, least: float, most: float) -> Plane:
    """A long row with its inner posts, or an end frame of three levels whose spine post ends at the middle one."""
    axes, is_end = [0.0], kind == "end frame"
    for _ in range(random.randint(1, 2 if is_end else 4)):
        axes.append(axes[-1] + random.uniform(350, 700))
    height = random.uniform(600, 900)
    levels = (0.0, height * random.uniform(0.65, 0.8), height) if is_end else (0.0, height)
    found = Plane(tuple(axes), levels, 1, {})
    for level in range(len(levels)):
        for post in found.posts_at(level):
            found.joints[level, post] = random.uniform(least, most) * KNM
    return found


def by_rule(frame: Plane, push: float) -> float:
    height = frame.levels[-1] + SECTION
    parts = [
        joint_with_members(joint=each.stiffness, upright=half(height), lying=sum(map(half, each.spans)))
        for each in frame.turning()
    ]
    return sway(push=push, height=height, stiffness=sum(parts))


def by_solver(frame: Plane, push: float) -> float:
    """The stiffness method; a joint is a stub of 1 mm that bends as far as the joint turns."""
    model = FEModel3D()
    model.add_material("bar", MODULUS, MODULUS / 2.6, 0.3, 1e-9)
    model.add_section("bar", 2e3, SECOND_MOMENT, SECOND_MOMENT, SECOND_MOMENT)
    last = len(frame.axes) - 1
    for level, y in enumerate(frame.levels):
        posts = frame.posts_at(level)
        for post in posts:
            outer, up = post in (0, last), 1 if level == 0 else -1
            along = (1 if post == 0 else -1) if outer else 0
            x = frame.axes[post]
            model.add_node(f"R{level}.{post}", x + along, y, 0)  # on the lying member
            model.add_node(f"P{level}.{post}", x, y if outer else y + up, 0)  # on the post
            inertia = frame.joints[level, post] / MODULUS
            model.add_section(f"J{level}.{post}", 2e3, inertia, inertia, inertia)
            model.add_member(
                f"J{level}.{post}", f"R{level}.{post}", f"P{level}.{post}", "bar", f"J{level}.{post}"
            )
        for a, b in pairwise(posts):
            model.add_member(f"L{level}.{a}", f"R{level}.{a}", f"R{level}.{b}", "bar", "bar")
    for post in range(last + 1):
        reached = [level for level in range(len(frame.levels)) if post in frame.posts_at(level)]
        for a, b in pairwise(reached):
            model.add_member(f"U{post}.{a}", f"P{a}.{post}", f"P{b}.{post}", "bar", "bar")
    for name in model.nodes:
        model.def_support(name, False, False, True, True, True, False)
    for post in (0, last):  # it stands on its corners
        model.def_support(f"P0.{post}", True, True, True, True, True, False)
    top = f"P{len(frame.levels) - 1}.0"
    model.add_node_load(top, "FX", push)
    model.analyze_linear(check_statics=False, sparse=False)
    return float(next(iter(model.nodes[top].DX.values())))


@pytest.mark.parametrize(
    ("kind", "least", "most", "low", "high"),
    [
        ("long row", 1, 3, 1.05, 1.21),
        ("end frame", 1, 3, 1.05, 1.21),
        ("long row", 5, 15, 0.95, 1.16),
        # the rail of the tray holds the posts in their middle, so they bend less than the rule says
        ("end frame", 5, 15, 1, 1.21),
    ],
)
def test_a_frame_solver_finds_the_same_within_the_band_of_the_rule(
    kind: str, least: float, most: float, low: float, high: float
) -> None:
    random = Random(f"{kind}, {least}")
    for _ in range(12):
        frame = plane(random, kind, least, most)
        assert low <= by_rule(frame, 300) / by_solver(frame, 300) <= high, frame


def test_the_worked_bench_by_the_solver() -> None:
    """The demo's two end frames in one plane, 300 N: about 9, 5 and 3 at 1, 2 and 3 kN m/rad."""
    for stiffness, expected in ((1, 9), (2, 5), (3, 3)):
        frame = Plane((0, 540, 860), (0, 525, 685), 1, {})
        for level in range(3):
            frame.joints.update(
                dict.fromkeys(((level, post) for post in frame.posts_at(level)), stiffness * KNM)
            )
        assert round(by_solver(frame, 150)) == expected
        assert 1.05 <= by_rule(frame, 150) / by_solver(frame, 150) <= 1.21


# --- laws


def test_stiffer_joints_members_and_shorter_bays_never_sway_more() -> None:
    random = Random(7)
    for _ in range(50):
        joint, upright, lying = (random.uniform(0.1, 50) * KNM for _ in range(3))
        now = joint_with_members(joint=joint, upright=upright, lying=lying)
        assert now < min(joint, upright, lying)
        assert joint_with_members(joint=joint * 1.1, upright=upright, lying=lying) > now
        assert joint_with_members(joint=joint, upright=upright, lying=lying * 1.1) > now
    assert half(400) > half(500)
