"""What of a timber frame is glued in one go: its joints, clamps, the minutes that it takes and those to wait."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.frames.facts import Framed, GlueUp
from generator.bench.joints.facts import Glue
from generator.bench.piece import Joint, Part
from generator.bench.role import Role
from generator.calculators.wood_joints import glue_minutes

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
        _glue_up(bench, step, joints) for key in _ORDER for (step, _), joints in found.items() if step == key
    )


_ORDER = (
    "left-ring", "left-posts", "right-ring", "right-posts", "cross", "rails", "posts", "extra", "grid", "lid",
)  # fmt: skip


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


def _glue_up(bench: Framed, step: str, joints: list[Joint]) -> GlueUp:
    glues = [glue for joint in joints if (glue := bench.joinings[joint.fastener].glue) is not None]
    clamps = len({joint.member for joint in joints})
    return GlueUp(
        step,
        tuple((joint.member, joint.end) for joint in joints),
        clamps,
        glue_minutes(Fraction(len(joints)), Fraction(clamps)),
        min(glue.open_time for glue in glues),
        max(glue.clamp_time for glue in glues),
        tuple(dict.fromkeys(glue.act for glue in glues)),
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
