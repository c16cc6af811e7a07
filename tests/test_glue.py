"""What is glued: one body afterwards, done in one go and in its time, on its day, and through the door."""

from __future__ import annotations

from collections import defaultdict
from fractions import Fraction

import pytest

from generator.bench.assembly_proof import assembly_proof
from generator.bench.solve import solve
from generator.calculators.schedule import Task, plan_days
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.findings import Finding
from generator.spec.adapt import adapted
from generator.spec.load import read_spec
from tests.benchmarks.pairwise import COLUMNS, cases, pairs_of, wrong_with
from tests.effort import quick_or
from tests.test_timber import SPEC, TEXT, changed

F = Fraction
#: What the tests below provoke.
CODES_OF_GLUE = {"glue-split", "glued-door"}
CURED_OF_GLUE = ("glued-door", "glue-time")
pytestmark = pytest.mark.usefixtures("quick_plans")


def built(text: str) -> tuple[Figures, dict[str, Finding]]:
    figures, findings = compute(solve(read_spec(text, SPEC.name)))
    return figures, {each.code.value: each for each in findings}


@pytest.fixture(scope="module")
def figures() -> Figures:
    figures, findings = built(TEXT)
    assert not {"glue-split", "glued-door", "glue-time"} & set(findings)
    return figures


def test_what_is_glued_is_one_body(figures: Figures) -> None:
    """Two end frames of two posts and three members, and between them base, inner posts and top grid."""
    assert [len(each.marks) for each in figures.glued] == [12, 5, 5]
    assert {mark for each in figures.glued for mark in each.marks} == {
        piece
        for row in figures.joinery
        if row.kind == "mortise and tenon"
        for piece in (row.member, row.into)
    }
    middle, *ends = figures.glued
    assert middle.sizes == (1570 - 2 * 70, 760, figures.layout.frame_height)
    assert [(each.sizes[0], each.captive) for each in ends] == [(70, ("EF1",)), (70, ("EF2",))]


def test_in_the_proof_what_is_glued_moves_as_one() -> None:
    """After its glue-up no member moves without all that it is glued to."""
    bench = solve(read_spec(TEXT, SPEC.name))
    glued = [joint for joint in bench.joints if bench.joinings[joint.fastener].glue is not None]
    home: dict[str, set[str]] = defaultdict(set)
    for motion in assembly_proof(bench).proof.order:
        moved = {body.name for body in motion.bodies} | home.get(motion.brings, set())
        if motion.brings:
            for joint in glued:
                assert (joint.member in moved) == (joint.crossing in moved) or joint.member not in home[
                    motion.brings
                ]
        home[motion.into] |= moved
    assert all({joint.member, joint.crossing} <= home["bench"] for joint in glued)


def test_a_wish_that_splits_a_glue_up_is_found() -> None:
    """A divider that must be in before a post comes between the joints of the posts."""
    figures, findings = built(TEXT + "assembly: {before: [[FD1, D2]]}\n")
    assert figures.assembly.proved
    found = findings["glue-split"]
    assert "FD1" in str(found) and found.advice and found.why


def test_what_does_not_go_through_the_door_or_sets_too_soon_is_told_and_the_advice_helps() -> None:
    """The middle is 760 by 803 high: with 30 for the hands a door of 790 by 800 is too low for it, whichever way.

    The largest glue-up has four posts' heads and four ends of rails at 1.5, four clamps at 0.5, and 3: 17 minutes.
    """
    text = changed(("open_time: 20", "open_time: 16")) + "limits: {door: [790, 800]}\n"
    figures, findings = built(text)
    assert [each.passes for each in figures.glued] == [False, True, True]
    door, time = (
        {each.path: each.value for each in findings[code].remedy} for code in ("glued-door", "glue-time")
    )
    assert door == {"frame.joints.inner_post_tops": "corner"}
    assert time == {"hardware.tenon.open_time": "17"}
    after, findings = built(adapted(text, [*door.items(), *time.items()]))
    assert all(each.passes for each in after.glued)
    assert not {"glued-door", "glue-time"} & set(findings)


def test_the_plan_of_days_waits_for_glue_and_has_the_clamps(figures: Figures) -> None:
    """Every step once; its assembly left alone while glue sets; never more clamps in use than there are."""
    steps = {step.n: step for step in figures.assembly.steps}
    assert sorted({n for row in figures.days for n in row.steps}) == sorted(steps)
    clamps = max(each.clamps for each in figures.glue_ups)
    ends = {n: _end(row) for row in figures.days for n in row.steps}
    begins = {n: _begin(row) for row in reversed(figures.days) for n in row.steps}
    waits = {n: row.wait for row in figures.days for n in row.steps}
    homes = {n: {motion.into for motion in step.motions} or {"bench"} for n, step in steps.items()}
    for n in steps:
        for later in (each for each in steps if each > n):
            if later in figures.days[0].steps:
                continue  # what is done at the machines is one task
            if homes[n] & homes[later] or {m.name for m in steps[later].motions} & homes[n]:
                assert begins[later] >= ends[n] + waits[n]
    for row in figures.days:
        if row.clamps:
            held = [each for each in figures.days if 0 <= _end(row) - _end(each) < each.wait]
            assert sum(each.clamps for each in held) <= clamps
        assert row.start + row.minutes <= 360
    assert {ups.step for ups in figures.glue_ups} == {row.key for row in figures.days if row.wait}


def _begin(row) -> float:
    return (row.day - 1) * 24 * 60 + row.start


def _end(row) -> float:
    return _begin(row) + row.minutes


def test_while_glue_sets_something_else_is_done() -> None:
    """Two frames of 20 minutes that set for an hour in the same three clamps, and 30 minutes of other work."""
    tasks = [
        Task("one", F(20), wait=F(60), clamps=3),
        Task("two", F(20), wait=F(60), clamps=3),
        Task("else", F(30)),
        Task("both", F(10), after=("one", "two")),
    ]
    turns = {each.key: (each.day, each.start, each.idle) for each in plan_days(tasks, 3)}
    assert turns == {"one": (1, 0, 0), "else": (1, 20, 0), "two": (1, 80, 30), "both": (1, 160, 60)}
    assert {each.key: each.start for each in plan_days(tasks, 6)}["two"] == 20


def test_what_is_long_goes_on_next_day_and_what_is_glued_does_not() -> None:
    tasks = [Task("cut", F(500), whole=False), Task("glue", F(300), after=("cut",), wait=F(60), clamps=1)]
    turns = plan_days(tasks, 1)
    assert [(each.key, each.day, each.start, each.minutes) for each in turns] == [
        ("cut", 1, 0, 360), ("cut", 2, 0, 140), ("glue", 3, 0, 300),
    ]  # fmt: skip


def test_a_task_that_can_never_begin_is_refused() -> None:
    with pytest.raises(ValueError, match="never"):
        plan_days([Task("one", F(1), clamps=2)], 1)
    with pytest.raises(ValueError, match="never"):
        plan_days([Task("one", F(1), after=("other",))], 1)


def test_a_bench_without_glue_has_no_plan_of_days() -> None:
    starter = SPEC.parent.parent.parent / "specs" / "starter.yml"
    figures, _ = built(starter.read_text(encoding="utf-8"))
    assert (figures.days, figures.glued) == ((), ())


def test_each_set_up_card_of_laps_has_its_own_key() -> None:
    """Cards are linked and ticked by their keys: those of laps beside those of the notches of panels."""
    text = (SPEC.parent.parent.parent / "specs" / "samples" / "lumber.yml").read_text(encoding="utf-8")
    keys = [card.key for card in built(text)[0].setups]
    assert len(keys) == len(set(keys)) and {"notch-1", "lap-notch-1"} <= set(keys)


def test_every_two_values_of_the_columns_meet_in_a_case() -> None:
    wanted = {
        (i, one, j, other)
        for i, first in enumerate(COLUMNS)
        for j, second in enumerate(COLUMNS)
        if i < j
        for one in first
        for other in second
    }
    assert set().union(*map(pairs_of, cases())) == wanted


@pytest.mark.parametrize("number", range(len(cases())))
def test_every_pair_is_built_without_a_fault(number: int) -> None:
    """Each filling, stand, top, unit and set of joints with each value of the others: solved, proved, computed."""
    assert wrong_with(cases()[number], pages=False, replay=False) == []


@pytest.mark.parametrize("number", quick_or((17, 40), range(len(cases()))))
def test_nothing_is_wrong_with_a_case(number: int) -> None:
    """Two of those that `python -m tests.benchmarks.pairwise` tries; a thorough run tries all."""
    assert wrong_with(cases()[number], pages=False) == []
