"""Joints between bars and the machining that each one needs on both bars."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from generator.bench.joints.facts import Joining
from generator.bench.piece import Joint, Operation, Part
from generator.bench.role import Role
from generator.calculators.fasteners import THREADS
from generator.geometry import FACES
from generator.provenance import constant
from generator.spec.schema import Spec

#: Depth of thread beyond the screw's end, so that it never meets the tap's run-out (mm).
BEYOND_SCREW = constant(5, "thread below the end of a screw")


def find_joints(
    spec: Spec, bars: Sequence[Part], fixings: Mapping[str, Joining]
) -> tuple[tuple[Joint, ...], tuple[tuple[Part, str], ...]]:
    """Every end of a bar on the side of another. Returns the joints and the ends (part, face) that meet nothing."""
    joints: list[Joint] = []
    loose: list[tuple[Part, str]] = []
    for member in bars:
        for end in (0, 1):
            face = FACES[member.along][end]
            crossing = _crossing(member, end, bars)
            if crossing is not None:
                joints.append(_joint(spec, member, end, crossing, fixings))
            elif member.role is Role.EXTRA_MEMBER:
                loose.append((member, face))
    return tuple(joints), tuple(loose)


def _crossing(member: Part, end: int, bars: Sequence[Part]) -> Part | None:
    for bar in bars:
        if bar.along != member.along and member.shoulders.meets(bar.shoulders, member.along, end):
            return bar
    return None


def _joint(spec: Spec, member: Part, end: int, crossing: Part, fixings: Mapping[str, Joining]) -> Joint:
    chosen = spec.frame.joints
    name = chosen.default
    if {member.role, crossing.role} == {Role.CORNER_POST, Role.LONG_RAIL}:
        name = chosen.long_rails_to_corner_posts
    elif member.role in (Role.INNER_POST, Role.KNEE_POST) and end == 1:
        name = chosen.inner_post_tops
    axis = crossing.along
    return Joint(
        member=member.mark,
        end=FACES[member.along][end],
        crossing=crossing.mark,
        kind=fixings[name].kind,
        fastener=name,
        at=member.box.span(axis).middle - crossing.box.span(axis).low,
        # the key enters from the far side of the crossing bar: a member's low end is on its high face
        face=FACES[member.along][end],
    )


def machine_joints(
    bars: Sequence[Part], joints: Sequence[Joint], fixings: Mapping[str, Joining]
) -> tuple[Part, ...]:
    """The bars with tapped ends and whatever holes the joints need in the bars that they cross."""
    found: dict[str, list[Operation]] = {bar.mark: list(bar.operations) for bar in bars}
    by_mark = {bar.mark: bar for bar in bars}
    for joint in joints:
        member, crossing = by_mark[joint.member], by_mark[joint.crossing]
        fixing = fixings[joint.fastener]
        found[member.mark].append(_tap(member, crossing, joint, fixing))
        found[crossing.mark] += _holes(member, crossing, joint, fixing)
    return tuple(replace(bar, operations=tuple(sorted(found[bar.mark], key=_order))) for bar in bars)


def _order(operation: Operation) -> tuple[str, str, Fraction]:
    return (operation.op, operation.face, operation.at[0])


def _tap(member: Part, crossing: Part, joint: Joint, fixing: Joining) -> Operation:
    assert fixing.screw is not None
    at_end = Fraction(0) if joint.end == FACES[member.along][0] else member.length
    return Operation(
        "tap",
        joint.end,
        (at_end, member.thickness / 2),
        THREADS[fixing.screw.thread].diameter,
        fixing.engaged + BEYOND_SCREW,
        f"{fixing.screw.thread} for the {fixing.kind} to the {crossing.group}",
    )


def _holes(member: Part, crossing: Part, joint: Joint, fixing: Joining) -> Iterator[Operation]:
    place = (joint.at, crossing.thickness / 2)
    for hole in fixing.holes:
        purpose = f"{hole.purpose}{member.group}, {joint.end} end"
        yield Operation(hole.op, joint.face, place, hole.size, hole.depth, purpose)
