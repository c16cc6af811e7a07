"""What a frame of bars sways by: the joints that turn with its posts, and the panels that are loose in its slots.

Along the length, posts of the front and back row turn against the long rails; from front to back, corner and spine
posts turn against the end members. Cross-members between the rows hold no post, only a rail that can twist.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from generator.bench.frames.facts import BuiltFrame, Direction, LoosePanel, SwayFacts, SwayJoint
from generator.bench.layout import Layout
from generator.bench.piece import Joint, Part
from generator.bench.role import Role
from generator.provenance import least


@dataclass(frozen=True)
class _Plane:
    """The members that sway together: which lie along `axis`, and which stand."""

    direction: Direction
    axis: str
    lying: tuple[Role, ...]
    standing: tuple[Role, ...]


_PLANES = (
    _Plane("long", "x", (Role.LONG_RAIL,), (Role.CORNER_POST, Role.INNER_POST, Role.KNEE_POST)),
    _Plane(
        "cross",
        "y",
        (Role.BASE_END_MEMBER, Role.TRAY_END_RAIL, Role.TOP_END_MEMBER),
        (Role.CORNER_POST, Role.END_SPINE_POST),
    ),
)
#: The panels in a plane that sways.
_PANELS: Mapping[Role, tuple[Direction, str]] = {
    Role.BACK_PANEL: ("long", "x"),
    Role.END_PANEL: ("cross", "y"),
}


def sway_facts(layout: Layout, frame: BuiltFrame, walls: Sequence[Part]) -> SwayFacts:
    """Joints and loose panels of both directions; the plates below are bolted to the lowest bars."""
    bars = {bar.mark: bar for bar in frame.members}
    return SwayFacts(
        layout.levels.frame_height,
        layout.levels.frame_height - layout.section,
        tuple(each for plane in _PLANES for each in _joints(plane, frame.joints, bars)),
        tuple(_loose(panel) for panel in walls if panel.role in _PANELS),
    )


def _joints(plane: _Plane, joints: Sequence[Joint], bars: Mapping[str, Part]) -> Iterator[SwayJoint]:
    found = [(joint, *turned) for joint in joints if (turned := _turned(plane, joint, joints, bars))]
    for joint, lying, post, fasteners in found:
        axes = {other.box.span(plane.axis).middle for _, bar, other, _ in found if bar is lying}
        yield SwayJoint(
            plane.direction,
            joint.member,
            joint.end,
            fasteners,
            _beside(post.box.span(plane.axis).middle, sorted(axes)),
            lying.box.span("y" if plane.axis == "x" else "x").middle,
            _corner(lying, post),
        )


def _corner(lying: Part, post: Part) -> str:
    """The place of the bracket that goes under a top rail or end member beside a post."""
    if lying.place.level != "top":
        return ""
    if lying.role is Role.TOP_END_MEMBER:
        return "end corners"
    return "long corners" if post.role is Role.CORNER_POST else "inner posts"


def _turned(
    plane: _Plane, joint: Joint, joints: Sequence[Joint], bars: Mapping[str, Part]
) -> tuple[Part, Part, tuple[str, ...]] | None:
    """The lying bar and the post that turn against each other in a joint, and by which fasteners; None: they do not."""
    member, crossing = bars[joint.member], bars[joint.crossing]
    if member.role in plane.standing and crossing.role in plane.lying:
        return crossing, member, (joint.fastener,)
    if member.role not in plane.lying:
        return None
    if crossing.role in plane.standing:
        return member, crossing, (joint.fastener,)
    # a rail that runs through is between the end member and the post, which turns on it too
    for other in joints:
        post = bars[other.member]
        if (
            other.crossing == crossing.mark
            and post.role is Role.CORNER_POST
            and post.place.end == member.place.end
        ):
            return member, post, (joint.fastener, other.fastener)
    return None


def _beside(at: Fraction, axes: Sequence[Fraction]) -> tuple[Fraction, ...]:
    """The bays of a lying bar on both sides of a post."""
    return tuple(right - left for left, right in pairwise(axes) if at in (left, right))


def _loose(panel: Part) -> LoosePanel:
    """A panel with tongues: it has play up to its shoulders, or up to the floor of the slot without any."""
    direction, axis = _PANELS[panel.role]
    fit, tongues = panel.fit, panel.tongues
    assert fit is not None
    gap = fit.bottom_clearance
    if fit.needs_rabbet:
        gap = least(gap, fit.rabbet_length - fit.tongue)
    sides = ("left", "right") if axis == "x" else ("front", "rear")
    return LoosePanel(
        direction,
        panel.mark,
        panel.box.z.size - sum(tongues.get(side, 0) for side in ("bottom", "top")),
        panel.box.span(axis).size - sum(tongues[side] for side in sides),
        gap,
        len(tongues),
        panel.box.span("y" if axis == "x" else "x").middle,
    )
