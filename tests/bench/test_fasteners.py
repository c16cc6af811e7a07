"""Clips and screws as bodies: in the slot that they hold to, and the key's way from outside to the head."""

from __future__ import annotations

import pytest

from generator.bench.fasteners import fastener_body, fastener_name, key_block
from generator.bench.model import Bench, Joint
from generator.geometry import AXES, FACES
from tests.bench.benches import DEMO, WALL, part, solved


def joint_of(bench: Bench, member: str, end: str) -> Joint:
    return next(each for each in bench.joints if (each.member, each.end) == (member, end))


def bodies(bench: Bench, joint: Joint):
    pair = part(bench, joint.member), part(bench, joint.crossing)
    fixing = bench.joinings[joint.fastener]
    return fastener_body(joint, *pair, fixing), key_block(joint, *pair, fixing)


def test_a_clip_of_the_worked_bench() -> None:
    """C1 at X 540 ends at Y 40 on B1: clip 36 x 14 x 3 under lips of 4.5, head 4.4, screw of 25 and 8 across."""
    bench = solved()
    joint = joint_of(bench, "C1", "front")
    body, key = bodies(bench, joint)
    assert (body.name, body.owner, body.kind) == ("C1 front clip", "C1", "clip")
    screw, clip, head = body.blocks
    # Y 40 is C1's end; the slot of B1 goes from there to the front
    assert screw == pytest.approx((556, 35.5, 16, 564, 57.5, 24))
    assert clip == pytest.approx((542, 32.5, 13, 578, 35.5, 27))
    assert head == pytest.approx((553, 28.1, 13, 567, 32.5, 27))
    # a key of 5 is 5.77 over its corners; it comes from 80 before the bar to the head
    assert key == pytest.approx((560 - 2.887, -80, 20 - 2.887, 560 + 2.887, 28.1, 20 + 2.887), abs=1e-3)


def test_a_through_screw_of_the_worked_bench() -> None:
    """B1 ends at X 40 on A1: counterbore 13.5 from the outer face, so the head's underside is at 13.5."""
    bench = solved()
    joint = joint_of(bench, "B1", "left")
    body, key = bodies(bench, joint)
    assert fastener_name(joint, bench.joinings[joint.fastener]) == "B1 left screw"
    screw, head = body.blocks
    assert (screw[0], screw[3]) == (13.5, 58.5)
    # an M8 cap head is 13 across and 8 high, ISO 4762
    assert head == pytest.approx((5.5, 13.5, 13.5, 13.5, 26.5, 26.5))
    assert (key[0], key[3]) == (-80, 5.5)


@pytest.mark.parametrize("text", [DEMO, WALL], ids=["demo", "wall"])
def test_every_key_reaches_its_screw_s_axis_from_outside_the_bar(text: str) -> None:
    bench = solved(text)
    for joint in bench.joints:
        member, crossing = part(bench, joint.member), part(bench, joint.crossing)
        body, key = bodies(bench, joint)
        axis = AXES.index(member.along)
        for across in (each for each in range(3) if each != axis):
            middle = float(member.box.span(AXES[across]).middle)
            for block in (*body.blocks, key):
                assert block[across] + block[across + 3] == pytest.approx(2 * middle)
        high = FACES[member.along].index(joint.end)
        through = crossing.box.span(member.along)
        outer = float(through.high) + 80 if high else float(through.low) - 80
        assert key[axis + 3 * high] == pytest.approx(outer)
        # the head of the screw stops the key
        head = body.blocks[-1]
        assert key[axis] == pytest.approx(head[axis + 3]) or key[axis + 3] == pytest.approx(head[axis])
