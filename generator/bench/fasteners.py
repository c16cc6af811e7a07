"""Fasteners of joints as solid bodies, and the way of the key to each. Their sizes come from the kind of joint."""

from __future__ import annotations

from generator.bench.box_body import about, face_axis
from generator.bench.joints.facts import Joining
from generator.bench.model import Joint, Part
from generator.calculators.bodies import Block, Body, block_of
from generator.calculators.fasteners import ACROSS_CORNERS
from generator.geometry import AXES

#: Room that a key needs outside the bar (mm): the long arm of a 5 mm key is 80 (ISO 2936, from memory).
KEY_REACH = 80.0


def fastener_name(joint: Joint, fixing: Joining) -> str:
    """The name of a joint's fastener as a body: `C7 front clip`, `B1 left screw`."""
    return f"{joint.member} {joint.end} {fixing.called}"


def fastener_body(joint: Joint, member: Part, crossing: Part, fixing: Joining) -> Body:
    """The fastener of a joint, tightened."""
    place = _Place(joint, member, crossing)
    blocks = tuple(place.block(each.depths, each.along, each.across) for each in fixing.solids)
    return Body(fastener_name(joint, fixing), member.mark, fixing.looks, blocks)


def key_block(joint: Joint, member: Part, crossing: Part, fixing: Joining) -> Block:
    """The straight way of a key to a joint's screw: from its head, through the bar, and a hand's breadth beyond."""
    across = float(fixing.key) * ACROSS_CORNERS
    depths = (fixing.key_from, float(crossing.thickness) + KEY_REACH)
    return _Place(joint, member, crossing).block(depths, across, across)


class _Place:
    """Frame of a joint: depth is measured from the member's end into the crossing bar."""

    def __init__(self, joint: Joint, member: Part, crossing: Part) -> None:
        self.axis, self.end = face_axis(joint.end)
        span = member.box.span(self.axis)
        self.face = float(span.high if self.end else span.low)
        self.along = crossing.along
        self.across = next(axis for axis in AXES if axis not in (self.axis, self.along))
        self.middle = {axis: float(member.box.span(axis).middle) for axis in AXES}

    def block(self, depths: tuple[float, float], along: float, across: float) -> Block:
        """A block between two depths, `along` the crossing bar by `across` it, on the member's axis."""
        near, far = (self.face + d if self.end else self.face - d for d in depths)
        spans = {
            self.axis: (min(near, far), max(near, far)),
            self.along: about(self.middle[self.along], along / 2),
            self.across: about(self.middle[self.across], across / 2),
        }
        return block_of([spans[axis] for axis in AXES])
