"""Fasteners of joints as solid bodies, and the way of the key to each. Their sizes come from the kind of joint."""

from __future__ import annotations

from generator.bench.box_body import about, face_axis
from generator.bench.joints.facts import Joining, Solid
from generator.bench.piece import Joint, Part
from generator.calculators.bodies import Block, Body, block_of, carve
from generator.calculators.fasteners import ACROSS_CORNERS, THREADS
from generator.geometry import AXES

#: Room that a key needs outside the bar (mm): the long arm of a 5 mm key is 80 (ISO 2936, from memory).
KEY_REACH = 80.0


def fastener_name(joint: Joint, fixing: Joining) -> str:
    """The name of a joint's fastener as a body: `C7 front clip`, `B1 left screw`."""
    return f"{joint.member} {joint.end} {fixing.called}"


def fastener_body(joint: Joint, member: Part, crossing: Part, fixing: Joining) -> Body:
    """The fastener of a joint, tightened."""
    place = _Place(joint, member, crossing)
    through = float(crossing.box.span(place.axis).size)
    blocks = tuple(
        place.block(_from_near(each, through), each.along, each.across, float(at))
        for at in fixing.places
        for each in fixing.solids
    )
    return Body(fastener_name(joint, fixing), member.mark, fixing.looks, blocks)


def _from_near(solid: Solid, through: float) -> tuple[float, float]:
    """A solid's depths from the near face of what is `through` thick."""
    near, far = solid.depths
    return (near + through, far + through) if solid.far else (near, far)


def nut_name(joint: Joint) -> str:
    """The name of a joint's nut across the member, as a body: `B1 left nut`."""
    return f"{joint.member} {joint.end} nut"


def nut_face(member: Part) -> str:
    """The face by which a nut across a member goes in: one that is hidden, or looks into the bench."""
    if member.along != "z":
        return "top" if member.place.level == "base" else "bottom"
    return "front" if member.place.side == "back" else "rear"


def nut_body(joint: Joint, member: Part, crossing: Part, fixing: Joining, axis: str) -> Body:
    """The round nut across a member, along `axis`, with the hole of its bolt."""
    nut, place = fixing.cross, _Place(joint, member, crossing)
    assert nut is not None and fixing.screw is not None
    half, middle = float(nut.diameter) / 2, -float(nut.from_end)
    along, across = (
        float(nut.length if each == axis else nut.diameter) for each in (place.along, place.across)
    )
    bolt = float(THREADS[fixing.screw.thread].diameter)
    whole = place.block((middle - half, middle + half), along, across)
    hole = place.block((middle - half, middle + half), bolt, bolt)
    return Body(nut_name(joint), member.mark, "screw", carve((whole,), hole))


def key_block(joint: Joint, member: Part, crossing: Part, fixing: Joining, at: float = 0.0) -> Block:
    """The straight way of a key to a joint's screw: from its head, through the bar, and a hand's breadth beyond.

    `at` is the place of the screw beside the joint's axis (mm).
    """
    across = float(fixing.key) * ACROSS_CORNERS
    place = _Place(joint, member, crossing)
    through = float(crossing.box.span(place.axis).size)
    start = fixing.key_from if fixing.key_from >= 0 else through + fixing.key_from
    return place.block((start, through + KEY_REACH), across, across, at)


class _Place:
    """Frame of a joint: depth is measured from the member's end into the crossing bar."""

    def __init__(self, joint: Joint, member: Part, crossing: Part) -> None:
        self.axis, self.end = face_axis(joint.end)
        span = member.shoulders.span(self.axis)
        self.face = float(span.high if self.end else span.low)
        self.along = crossing.along
        self.across = next(axis for axis in AXES if axis not in (self.axis, self.along))
        self.middle = {axis: float(member.box.span(axis).middle) for axis in AXES}
        self.middle[self.along] += float(joint.aside)

    def block(self, depths: tuple[float, float], along: float, across: float, at: float = 0.0) -> Block:
        """A block between two depths, `along` the crossing bar by `across` it, `at` that far from the joint's axis."""
        near, far = (self.face + d if self.end else self.face - d for d in depths)
        spans = {
            self.axis: (min(near, far), max(near, far)),
            self.along: about(self.middle[self.along] + at, along / 2),
            self.across: about(self.middle[self.across], across / 2),
        }
        return block_of([spans[axis] for axis in AXES])
