"""What holds for the steps of every bench: all fixings in their bags, nothing squared too early, nothing in the air."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings

from generator.bench.model import Bench, Part
from generator.bench.role import Role
from generator.bench.solve import solve
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.figures.rows.assembly import Step
from generator.findings import SpecError
from generator.spec.load import read_spec
from tests.property.test_goes_together import FASTENERS
from tests.strategies import Plan, plans, spec_text

pytestmark = pytest.mark.usefixtures("quick_plans")

SPECS = Path(__file__).parents[1] / "specs"
STARTER, WALL_BENCH = ((SPECS / f"{name}.yml").read_text() for name in ("starter", "wall-bench"))
#: Two shelves so near that the lower one goes in between its walls, before the rear rail and posts.
CLOSE_SHELVES = """spec: 1
title: Close shelves
bench: {length: 1320, depth: 700, height: 930}
zones:
  - name: front
    bays:
      - {name: F1}
      - {name: F2, stack: [{shelf: 240}, {shelf: 300}]}
      - {name: F3}
"""
#: The wall bench, one corner post of its left end frame after the top end member.
LATE_POST = f"{WALL_BENCH}\nassembly: {{before: [[C9, A1]]}}\n"
CASES = {"close shelves": CLOSE_SHELVES, "a late corner post": LATE_POST}


def built(text: str) -> tuple[Bench, Figures]:
    loaded = read_spec(text, "bench.yml")
    bench = solve(loaded)
    return bench, compute(bench)[0]


def wrong_bags(done: Figures) -> dict[str, tuple[int, int]]:
    """Hardware of which the steps use another number than is listed: (listed, used)."""
    used: Counter[str] = Counter()
    for step in done.assembly.steps:
        for fixing in step.fixings:
            used[fixing.item] += fixing.count
    listed = {row.item: row.count for row in done.hardware}
    assert set(used) <= set(listed)
    # button-head screws come with their clips, nuts are told slot by slot
    return {
        item: (count, used[item])
        for item, count in listed.items()
        if used[item] != count and not item.endswith("button-head screw") and not item.startswith("slot")
    }


def squared_bars(bench: Bench, step: Step, name: str) -> list[Part]:
    """The bars that a rectangle is measured over."""
    bars = [part for part in bench.parts if part.kind == "profile" and part.group != "extra member"]
    if name == "base inner":
        return [
            bar for bar in bars if bar.along != "z" and bar.box.z.low == 0 and bar.group[:8] != "base end"
        ]
    if name == "top grid":
        high = max(bar.box.z.high for bar in bars)
        in_grid = ("long rail", "top cross-member")
        return [bar for bar in bars if bar.box.z.high == high and bar.group in in_grid]
    if name == "end frame":
        low = step.key.startswith("left")
        edge = min(bar.box.x.low for bar in bars) if low else max(bar.box.x.high for bar in bars)
        at_end = [bar for bar in bars if edge == (bar.box.x.low if low else bar.box.x.high)]
        # with rails running through, the top end member comes with the top grid
        apart = () if bench_has_posts_through(bench) else ("top end member",)
        return [bar for bar in at_end if bar.along != "x" and bar.group not in apart]
    return bars


def bench_has_posts_through(bench: Bench) -> bool:
    return bench.of(Role.CORNER_POST)[0].length == bench.layout.levels.frame_height


def placed_at(done: Figures) -> dict[str, int]:
    """The number of the step in which each mark first moves."""
    found: dict[str, int] = {}
    for step in done.assembly.steps:
        for motion in step.motions:
            for mark in motion.marks:
                found.setdefault(mark, step.n)
    return found


def squared_too_early(bench: Bench, done: Figures) -> list[tuple[str, str, str]]:
    at = placed_at(done)
    return [
        (step.key, square.name, bar.mark)
        for step in done.assembly.steps
        for square in step.squares
        for bar in squared_bars(bench, step, square.name)
        if at[bar.mark] > step.n
    ]


def in_the_air(bench: Bench, done: Figures) -> list[str]:
    """Bars that touch no bar that stands and lie on no blocks, and that no note of their step says to hold."""
    bars = {part.mark: part for part in bench.parts if part.kind == "profile"}
    standing: list[Part] = []
    found = []
    for step in done.assembly.steps:
        held = " ".join(note for note in step.notes if note.startswith("Hold "))
        for motion in step.motions:
            if motion.into != "bench":
                continue
            moving = [bars[mark] for mark in motion.marks if mark in bars]
            touches = any(one.box.z.low == 0 or any(_touch(one, bar) for bar in standing) for one in moving)
            if moving and not touches and motion.name not in held:
                found.append(motion.name)
            standing += moving
    return found


def _touch(one: Part, other: Part) -> bool:
    return all(one.box.span(axis).overlap(other.box.span(axis)) >= 0 for axis in "xyz")


@given(plans())
@settings(max_examples=8, deadline=None, suppress_health_check=list(HealthCheck))
def test_the_steps_of_a_random_bench_leave_nothing_out_and_square_nothing_too_early(plan: Plan) -> None:
    try:
        bench, done = built(spec_text(plan) + FASTENERS.get(plan.bar, ""))
    except SpecError:
        return  # sizes that do not go together are another test's business
    assert not wrong_bags(done)
    assert not squared_too_early(bench, done)
    assert not in_the_air(bench, done)


@pytest.mark.parametrize("case", CASES)
def test_steps_that_are_taken_up_again_leave_nothing_out_and_square_nothing_too_early(case: str) -> None:
    bench, done = built(CASES[case])
    assert any(step.title.endswith(", continued") for step in done.assembly.steps)
    assert not wrong_bags(done)
    assert not squared_too_early(bench, done)
    assert not in_the_air(bench, done)


def test_a_post_whose_rail_comes_later_is_held_until_then() -> None:
    _, done = built(CLOSE_SHELVES)
    at = placed_at(done)
    assert at["D3"] < at["B2"] and at["D4"] < at["B2"]
    notes = {step.n: step.notes for step in done.assembly.steps}
    for post in ("D3", "D4"):
        assert (
            f"Hold {post} by hand or with a clamp until B2 is on: nothing carries it from below yet."
            in notes[at[post]]
        )


# --- extra members


def with_members(*members: str) -> str:
    return f"{STARTER}\nextra: {{members: [{', '.join(members)}]}}\n"


STIFFENER = "{name: stiffener, along: y, at: [200, 40, 705], length: 620}"
BESIDE = "{name: beside, along: x, at: [240, 330, 705], length: 390}"


def test_an_extra_member_comes_when_the_rails_that_carry_it_are_there() -> None:
    bench, done = built(with_members(STIFFENER))
    assert {joint.crossing for joint in bench.joints if joint.member == "X1"} == {"B3", "B4"}
    assert done.assembly.proved
    (step,) = [step for step in done.assembly.steps if any(m.name == "X1" for m in step.motions)]
    at = placed_at(done)
    assert at["B3"] < step.n and at["B4"] < step.n
    assert step.assembly == "top grid"
    assert not in_the_air(bench, done)


def test_an_extra_member_on_another_comes_after_that_one() -> None:
    bench, done = built(with_members(BESIDE, STIFFENER))
    assert {joint.crossing for joint in bench.joints if joint.member == "X1"} == {"X2", "C2"}
    names = [motion.name for step in done.assembly.steps for motion in step.motions]
    assert names.index("X2") < names.index("X1")
    assert not in_the_air(bench, done)


def test_an_extra_member_that_nothing_carries_is_held() -> None:
    bench, done = built(with_members("{name: shelf bar, along: x, at: [700, 300, 450], length: 200}"))
    notes = [note for step in done.assembly.steps for note in step.notes if "X1" in note]
    assert notes == ["Hold X1 by hand or with a clamp until it is fixed: nothing carries it from below yet."]
    assert not in_the_air(bench, done)
