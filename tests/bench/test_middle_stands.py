"""Six stands: the middle pair stands by the middle of the length, under a line or under a cross-member of its own."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings

from generator.bench.role import Role
from generator.bench.solve import solve
from generator.figures.compute import compute
from generator.spec.load import read_spec
from tests.strategies import Plan, plans, spec_text

BENCH = """spec: 1
title: Six stands
bench: {length: 2400, depth: 900, height: 900}
base: {count: 6}
materials: {bar: {use: profile 40}}
zones:
  - {name: a, depth: 500, bays: [{name: A, width: %s}, {name: B, width: share}]}
  - {name: b, depth: share, bays: [{name: C, width: share}]}
"""
ONE_BAY = BENCH.replace("{name: A, width: %s}, ", "")


@settings(max_examples=25, deadline=None)
@given(plans())
def test_the_middle_pair_is_near_the_middle(plan: Plan) -> None:
    """Within a bar and 20 mm of the middle of the length, over a bar that runs from long rail to long rail."""
    bench = solve(read_spec(spec_text(plan), "bench.yml"))
    plan_layout, points = bench.layout, bench.stand.points
    assert len(points) == plan.casters
    bars = [part for part in bench.parts if part.group == "base cross-member"]
    added = [part for part in bars if part.box.x.low not in plan_layout.lines]
    if plan.casters == 4:
        assert not added
        return
    for x, _ in (points[1], points[4]):
        assert abs(x - plan_layout.length / 2) <= plan_layout.section + 20
        assert [part for part in bars if part.box.x.middle == x]
    near = [
        line
        for line in plan_layout.lines
        if abs(line + plan_layout.section / 2 - plan_layout.length / 2) <= plan_layout.section + 20
    ]
    assert len(added) == (0 if near else 1)
    for part in added:
        assert part.box.x.middle == plan_layout.length / 2
        assert part.length == plan_layout.depth - 2 * plan_layout.section


@pytest.mark.parametrize(
    ("width", "middle", "added"),
    [
        # the line's left edge is 40 + width, its middle 60 + width; the middle of the bench is 1200
        ("1140", 1200, 0),
        ("1080", 1140, 0),
        ("1079", 1200, 1),
        ("1201", 1200, 1),
        ("1600", 1200, 1),
    ],
)
def test_a_line_within_a_bar_and_20_mm_carries_them(width: str, middle: int, added: int) -> None:
    bench = solve(read_spec(BENCH % width, "bench.yml"))
    assert [float(x) for x, _ in bench.stand.points] == [100, middle, 2300] * 2
    assert len(bench.of(Role.BASE_CROSS_MEMBER)) == 1 + added
    assert len(bench.of(Role.TOP_CROSS_MEMBER)) == 1


def test_the_added_member_is_counted_joined_marked_and_put_in() -> None:
    loaded = read_spec(ONE_BAY, "bench.yml")
    bench = solve(loaded)
    figures, _ = compute(bench)
    four = read_spec(ONE_BAY.replace("count: 6", "count: 4"), "bench.yml")
    fewer, _ = compute(solve(four))
    (row,) = (row for row in figures.parts if row.group == "base cross-member")
    assert (row.count, row.length) == (1, 820)
    assert figures.joints.end_clips == fewer.joints.end_clips + 2
    mark = row.mark
    joints = [joint for joint in bench.joints if joint.member == mark]
    assert {joint.fastener for joint in joints} == {loaded.spec.frame.joints.default}
    assert [joint.crossing for joint in joints] == ["B1", "B2"]
    for stick in figures.sticks:
        if stick.along == "x":
            assert [m.at + 40 for m in stick.marks if m.label == "cross-member"] == [1180, 1200, 1220]
    # two bolts of each middle plate go into it, and its nuts go in before the base closes
    assert sum(bolt.member == mark for bolt in bench.stand.bolts) == 4
    steps = {step.key: step for step in figures.assembly.steps}
    assert any(f"4 in {mark}" in note for note in steps["nuts"].notes)
    assert mark in steps["cross"].parts
    assert f"Set {mark} by the X stick: it has no post above it." in steps["base-square"].notes
    assert figures.assembly.proved
    (sag, *_) = (row for row in figures.sags if row.kind == "base rail")
    assert sag.span == Fraction(1100)
    assert not [check for check in figures.checks if not check.ok and check.severity == "error"]
