"""Joints by where the bars meet: every hole on the axis of the screw that it is for, counts of the worked bench."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

import pytest

from generator.bench.model import Bench, Joint, Operation
from generator.geometry import AXES, FACES
from tests.bench.benches import DEMO, WALL, changed, faults, part, solved

RAILS = changed(
    DEMO, ("through: posts", "through: rails"), ("corner_posts: through-screw", "corner_posts: end-clip")
)
EXTRA = changed(
    DEMO,
    ("loads: {", "extra: {members: [{name: strut, along: y, at: [300, 40, 600], length: 820}]}\nloads: {"),
)


def in_frame(bench: Bench, mark: str, operation: Operation) -> dict[str, Fraction]:
    """A hole's centre in the frame, along the bar and across it."""
    bar = part(bench, mark)
    axis = next(axis for axis, faces in FACES.items() if operation.face in faces)
    other = next(each for each in AXES if each not in (axis, bar.along))
    return {
        bar.along: bar.box.span(bar.along).low + operation.at[0],
        other: bar.box.span(other).low + operation.at[1],
    }


def holes_of(bench: Bench, joint: Joint) -> list[Operation]:
    ops = part(bench, joint.crossing).operations
    return [
        op for op in ops
        if op.face == joint.face and op.at[0] == joint.at and op.op in ("access hole", "through hole", "counterbore")
    ]  # fmt: skip


def test_counts_of_the_worked_bench() -> None:
    """35 clips and 15 screws on 50 tapped ends, 35 access holes, 15 through holes with their counterbores."""
    bench = solved()
    assert Counter(joint.fastener for joint in bench.joints) == {"end-clip": 35, "through-screw": 15}
    ops = Counter(op.op for each in bench.parts for op in each.operations if each.kind == "profile")
    assert (ops["tap"], ops["access hole"], ops["through hole"], ops["counterbore"]) == (50, 35, 15, 15)


@pytest.mark.parametrize("text", [DEMO, WALL, RAILS, EXTRA], ids=["demo", "wall", "rails", "extra"])
def test_every_end_meets_its_bar_and_every_key_its_screw(text: str) -> None:
    bench = solved(text)
    for joint in bench.joints:
        member, crossing = part(bench, joint.member), part(bench, joint.crossing)
        high = FACES[member.along].index(joint.end)
        mine, theirs = member.box.span(member.along), crossing.box.span(member.along)
        assert (mine.high == theirs.low) if high else (mine.low == theirs.high)
        found = holes_of(bench, joint)
        assert found
        axis = {each: member.box.span(each).middle for each in AXES if each != member.along}
        for hole in found:
            assert in_frame(bench, joint.crossing, hole) == axis
    # each bar has as many tapped ends as it has joints of its own
    for mark, count in Counter(joint.member for joint in bench.joints).items():
        assert sum(op.op == "tap" for op in part(bench, mark).operations) == count <= 2


def test_taps_go_five_beyond_their_screws() -> None:
    """M8x25 through lip 4.5 and clip 3: 17.5 and 5. M8x45 in a counterbore of 13.5: 18.5 and 5. Common practice."""
    bench = solved()
    depths = {
        (joint.fastener, op.depth, op.size)
        for joint in bench.joints
        for op in part(bench, joint.member).operations
        if op.op == "tap" and op.face == joint.end
    }
    assert depths == {("end-clip", Fraction("22.5"), 8), ("through-screw", Fraction("23.5"), 8)}
    taps = [op for op in part(bench, "B1").operations if op.op == "tap"]
    assert [op.at for op in taps] == [(0, 20), (1920, 20)]


def test_which_joint_stands_where() -> None:
    """Screws pull where the frame is closed: rails to corner posts, and the tops of inner posts."""
    bench = solved()
    screws = {(joint.member[0], joint.end) for joint in bench.joints if joint.fastener == "through-screw"}
    assert screws == {("B", "left"), ("B", "right"), ("D", "top")}
    assert {joint.end for joint in bench.joints if joint.member == "D1"} == {"top", "bottom"}


def test_an_end_in_the_air_is_told_and_only_of_a_bar_of_one_s_own() -> None:
    bench = solved(EXTRA)
    assert sorted(joint.crossing for joint in bench.joints if joint.member == "X1") == []
    assert [finding.code for finding in bench.findings] == ["end-in-the-air"] * 2
    assert "the front end of X1 (strut)" in bench.findings[0].message
    assert not faults(EXTRA)
    assert not solved().findings
