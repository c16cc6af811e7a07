"""What of a timber frame is glued in one go: its joints, clamps, the minutes that it takes and those to wait."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from fractions import Fraction

from generator.bench.frames.facts import Framed, GlueUp
from generator.bench.joints.facts import Glue
from generator.bench.piece import Joint, Part
from generator.bench.role import Role
from generator.calculators.wood_joints import glue_minutes
from generator.provenance import constant

_END_MEMBERS = (Role.BASE_END_MEMBER, Role.TRAY_END_RAIL, Role.TOP_END_MEMBER)


def glue_ups(bench: Framed) -> tuple[GlueUp, ...]:
    """One for each step that glues something, in the order of the work; a spine post on its member is one by itself."""
    by_mark = {part.mark: part for part in bench.parts}
    found: dict[tuple[str, str], list[Joint]] = {}
    for joint in bench.joints:
        if bench.joinings[joint.fastener].glue is not None:
            step = step_of(joint, by_mark)
            found.setdefault((step, joint.crossing if step == "cross" else ""), []).append(joint)
    return tuple(
        _glue_up(bench, step, joints)
        for key in GLUED_IN
        for (step, _), joints in found.items()
        if step == key
    )


#: The steps that glue, in the order of the work, and what is glued in each.
GLUED_IN = {
    "left-ring": "lower members of the left end frame",
    "left-posts": "left end frame",
    "right-ring": "lower members of the right end frame",
    "right-posts": "right end frame",
    "cross": "posts on the cross-members",
    "rails": "base rails and cross-members",
    "posts": "front and rear posts",
    "extra": "extra members",
    "grid": "top grid",
    "lid": "top grid on the posts",
}


def step_of(joint: Joint, by_mark: dict[str, Part]) -> str:
    """The step in which a joint is glued."""
    member, crossing = by_mark[joint.member], by_mark[joint.crossing]
    if member.role is Role.END_SPINE_POST:
        return f"{member.place.end}-ring"
    if member.role in _END_MEMBERS:
        return f"{member.place.end}-posts"
    if member.role is Role.INNER_POST:
        if crossing.place.level == "top":
            return "lid"
        return "posts" if member.place.side else "cross"
    if member.role is Role.EXTRA_MEMBER:
        return "extra"
    return "grid" if member.place.level == "top" else "rails"


#: A clamp opens this much wider than what it goes over, for its pads and its screw (mm). Common practice, no source.
PADS = constant(150, "how much wider than the timbers a clamp opens")


def _reach(bench: Framed, members: Collection[str]) -> Fraction:
    """How far the longest clamp opens: along its member, over all timbers that this one ends on."""
    by_mark = {part.mark: part for part in bench.parts}
    found = []
    for mark in members:
        along = by_mark[mark].along
        ends = {joint.crossing for joint in bench.joints if joint.member == mark}
        spans = [by_mark[each].box.span(along) for each in (mark, *sorted(ends))]
        found.append(max(span.high for span in spans) - min(span.low for span in spans))
    return max(found) + PADS


def _across(bench: Framed, joints: list[Joint]) -> int:
    """Laps that are pressed by a clamp of their own, across both faces: those in posts; the others are stubs."""
    by_mark = {part.mark: part for part in bench.parts}
    return sum(
        bool(sizes and sizes.lapped) and by_mark[joint.crossing].along == "z"
        for joint in joints
        for sizes in (bench.joinings[joint.fastener].tenon,)
    )


def _closed_with(bench: Framed, step: str) -> int:
    """Joints without glue that are closed before the clamps: those of the top rails, when the grid comes on."""
    rails = {part.mark for part in bench.of(Role.LONG_RAIL, level="top")} if step == "lid" else set()
    return sum(joint.member in rails for joint in bench.joints)


def _glue_up(bench: Framed, step: str, joints: list[Joint]) -> GlueUp:
    glues = [glue for joint in joints if (glue := bench.joinings[joint.fastener].glue) is not None]
    members = {joint.member for joint in joints}
    across = _across(bench, joints)
    clamps = len(members) + across
    return GlueUp(
        step,
        tuple((joint.member, joint.end) for joint in joints),
        clamps,
        glue_minutes(Fraction(len(joints) + _closed_with(bench, step)), Fraction(clamps)),
        min(glue.open_time for glue in glues),
        max(glue.clamp_time for glue in glues),
        tuple(dict.fromkeys(glue.act for glue in glues)),
        _reach(bench, members),
        across,
    )


def most_clamps(ups: tuple[GlueUp, ...]) -> int:
    """Clamps that the largest glue-up needs."""
    return max((each.clamps for each in ups), default=0)


def glued(bench: Framed, step: str) -> Iterator[GlueUp]:
    """The glue-ups of a step."""
    yield from (each for each in glue_ups(bench) if each.step == step)


def glue_of(bench: Framed) -> Glue | None:
    """The glue of the frame; None where nothing is glued."""
    found = (bench.joinings[joint.fastener].glue for joint in bench.joints)
    return next((glue for glue in found if glue is not None), None)
