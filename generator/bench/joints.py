"""Joints between bars and the machining that each one needs on both bars."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from generator.bench.model import Joint, Operation, Part
from generator.calculators.fasteners import THREADS
from generator.geometry import AXES, FACES
from generator.spec.goods import EndClip, ThroughScrew
from generator.spec.lookup import fastener, profile
from generator.spec.schema import Spec
from generator.working import constant

END_CLIP, THROUGH_SCREW = "end clip", "through screw"

#: Depth of thread beyond the screw's end, so that it never meets the tap's run-out (mm).
BEYOND_SCREW = constant(5, "thread below the end of a screw")


def find_joints(spec: Spec, bars: Sequence[Part]) -> tuple[tuple[Joint, ...], tuple[tuple[Part, str], ...]]:
    """Every end of a bar on the side of another. Returns the joints and the ends (part, face) that meet nothing."""
    joints: list[Joint] = []
    loose: list[tuple[Part, str]] = []
    for member in bars:
        for end in (0, 1):
            face = FACES[member.along][end]
            crossing = _crossing(member, end, bars)
            if crossing is not None:
                joints.append(_joint(spec, member, end, crossing))
            elif member.group == "extra member":
                loose.append((member, face))
    return tuple(joints), tuple(loose)


def _crossing(member: Part, end: int, bars: Sequence[Part]) -> Part | None:
    for bar in bars:
        if bar.along != member.along and member.box.meets(bar.box, member.along, end):
            return bar
    return None


def _joint(spec: Spec, member: Part, end: int, crossing: Part) -> Joint:
    chosen = spec.frame.joints
    name = chosen.default
    if {member.group, crossing.group} == {"corner post", "long rail"}:
        name = chosen.long_rails_to_corner_posts
    elif member.group == "inner post" and end == 1:
        name = chosen.inner_post_tops
    axis = crossing.along
    return Joint(
        member=member.mark,
        end=FACES[member.along][end],
        crossing=crossing.mark,
        kind=fastener(spec, name).kind,
        fastener=name,
        at=member.box.span(axis).middle - crossing.box.span(axis).low,
        # the key enters from the far side of the crossing bar: a member's low end lies on its high face
        face=FACES[member.along][end],
    )


def machine_joints(spec: Spec, bars: Sequence[Part], joints: Sequence[Joint]) -> tuple[Part, ...]:
    """The bars with tapped ends, access holes, through holes and counterbores."""
    found: dict[str, list[Operation]] = {bar.mark: list(bar.operations) for bar in bars}
    by_mark = {bar.mark: bar for bar in bars}
    for joint in joints:
        member, crossing = by_mark[joint.member], by_mark[joint.crossing]
        found[member.mark].append(_tap(spec, member, crossing, joint))
        found[crossing.mark] += _holes(spec, member, joint)
    return tuple(replace(bar, operations=tuple(sorted(found[bar.mark], key=_order))) for bar in bars)


def _order(operation: Operation) -> tuple[str, str, Fraction]:
    return (operation.op, operation.face, operation.at[0])


def _tap(spec: Spec, member: Part, crossing: Part, joint: Joint) -> Operation:
    item = fastener(spec, joint.fastener)
    bar = profile(spec)
    if isinstance(item, EndClip):
        engaged = item.screw.length - bar.slot.lip - item.clip[2]
    else:
        engaged = item.screw.length - (bar.section - item.counterbore.depth)
    at_end = Fraction(0) if joint.end == FACES[member.along][0] else member.length
    return Operation(
        "tap",
        joint.end,
        (at_end, bar.section / 2),
        THREADS[item.screw.thread].diameter,
        engaged + BEYOND_SCREW,
        f"{item.screw.thread} for the {item.kind} to the {crossing.group}",
    )


def _holes(spec: Spec, member: Part, joint: Joint) -> Iterator[Operation]:
    item = fastener(spec, joint.fastener)
    place = (joint.at, profile(spec).section / 2)
    purpose = f"{member.group}, {joint.end} end"
    if isinstance(item, EndClip):
        yield Operation("access hole", joint.face, place, item.access_hole, None, f"key to {purpose}")
    elif isinstance(item, ThroughScrew):
        yield Operation("through hole", joint.face, place, item.hole, None, f"screw into {purpose}")
        bore = item.counterbore
        yield Operation("counterbore", joint.face, place, bore.diameter, bore.depth, f"head, {purpose}")


def outward_faces(part: Part, size: tuple[Fraction, Fraction]) -> Iterator[str]:
    """Side faces of a bar that lie on the outside of the frame of `size` (length, depth), never its ends."""
    limits = {"x": size[0], "y": size[1]}
    for axis in AXES[:2]:
        if axis == part.along:
            continue
        span = part.box.span(axis)
        if span.low == 0:
            yield FACES[axis][0]
        if span.high == limits[axis]:
            yield FACES[axis][1]


def machine_reliefs(spec: Spec, bars: Sequence[Part], size: tuple[Fraction, Fraction]) -> tuple[Part, ...]:
    """The bars with a clamp-access relief in each closed outward slot."""
    return tuple(replace(bar, operations=(*bar.operations, *_reliefs(spec, bar, size))) for bar in bars)


def _reliefs(spec: Spec, bar: Part, size: tuple[Fraction, Fraction]) -> Iterator[Operation]:
    access = spec.frame.clamp_access
    is_top = bar.where.startswith("top") or bar.group == "top end member"
    if bar.group in ("corner post", "inner post"):
        centres = [bar.length - access.from_end]
    elif is_top and bar.group in ("long rail", "top end member"):
        centres = [access.from_end, bar.length - access.from_end]
    else:
        return
    across, along = access.opening
    for face in outward_faces(bar, size):
        for centre in centres:
            yield Operation(
                "relief",
                face,
                (centre, bar.thickness / 2),
                (along, across),
                profile(spec).slot.lip,
                "clamp access to the slot",
            )
