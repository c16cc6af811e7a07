"""Bars and their fasteners as solid bodies: true slots, holes, clips in the slot, screws in the bore."""

from __future__ import annotations

from fractions import Fraction

from generator.bench.model import Joint, Operation, Part
from generator.calculators.bodies import Block, Body, block_of, carve, slotted_section
from generator.calculators.fasteners import CAP_KEYS, THREADS
from generator.geometry import AXES, FACES
from generator.spec.goods import EndClip, Profile, ThroughScrew

#: Head of a button-head screw across, in thread diameters (ISO 7380-1, ASME B18.3; from memory).
BUTTON_HEAD = 1.75
#: Head of a cap screw across and high, in thread diameters (ISO 4762, from memory).
CAP_HEAD, CAP_HEIGHT = 1.5, 1.0

#: A hexagon key over its corners, in widths across flats.
ACROSS_CORNERS = 1.1547
#: Room that a key needs outside the bar (mm): the long arm of a 5 mm key is 80 (ISO 2936, from memory).
KEY_REACH = 80.0

#: Operations that take material from a bar; a relief opens one slot's lip only.
_HOLES = ("access hole", "through hole", "counterbore", "tap", "relief")


def face_axis(face: str) -> tuple[str, int]:
    """The axis that a face lies across, and its end: 0 the low one, 1 the high one."""
    return next((axis, faces.index(face)) for axis, faces in FACES.items() if face in faces)


def bar_body(part: Part, profile: Profile) -> Body:
    """A bar with its four slots and all holes."""
    slot = profile.slot
    rectangles = slotted_section(
        section=float(profile.section),
        opening=float(slot.opening),
        depth=float(slot.depth),
        lip=float(slot.lip),
        undercut=float(slot.undercut),
    )
    blocks: tuple[Block, ...] = tuple(_along(part, rectangle) for rectangle in rectangles)
    for operation in part.operations:
        if operation.op in _HOLES:
            blocks = carve(blocks, _void(part, operation))
    return Body(part.mark, part.mark, "bar", blocks)


def _along(part: Part, rectangle: tuple[float, float, float, float]) -> Block:
    """A rectangle of the section drawn out over the bar's length."""
    first, second = (axis for axis in AXES if axis != part.along)
    low = {axis: float(part.box.span(axis).low) for axis in AXES}
    spans = {
        part.along: (low[part.along], float(part.box.span(part.along).high)),
        first: (low[first] + rectangle[0], low[first] + rectangle[2]),
        second: (low[second] + rectangle[1], low[second] + rectangle[3]),
    }
    return block_of([spans[axis] for axis in AXES])


def _void(part: Part, operation: Operation) -> Block:
    """What a hole, a tapped end or a relief takes away."""
    axis, end = face_axis(operation.face)
    spans = {each: (float(part.box.span(each).low), float(part.box.span(each).high)) for each in AXES}
    low, high = spans[axis]
    if operation.depth is not None:
        depth = float(operation.depth)
        spans[axis] = (low, low + depth) if end == 0 else (high - depth, high)
    across = [each for each in AXES if each != axis]
    if axis == part.along:  # a tapped end: in the middle of the section
        half = float(_width(operation.size)) / 2
        for each in across:
            spans[each] = _about(float(part.box.span(each).middle), half)
        return block_of([spans[each] for each in AXES])
    along, wide = operation.size if isinstance(operation.size, tuple) else (operation.size, operation.size)
    other = next(each for each in across if each != part.along)
    start = float(part.box.span(part.along).low + operation.at[0])
    spans[part.along] = _about(start, float(along) / 2)
    spans[other] = _about(float(part.box.span(other).low + operation.at[1]), float(wide) / 2)
    return block_of([spans[each] for each in AXES])


def _width(size: Fraction | tuple[Fraction, Fraction]) -> Fraction:
    return size[0] if isinstance(size, tuple) else size


def _about(middle: float, half: float) -> tuple[float, float]:
    return (middle - half, middle + half)


def fastener_name(joint: Joint) -> str:
    """The name of a joint's fastener as a body: `C7 front clip`, `B1 left screw`."""
    return f"{joint.member} {joint.end} {'clip' if joint.kind == 'end clip' else 'screw'}"


def fastener_body(
    joint: Joint, member: Part, crossing: Part, item: EndClip | ThroughScrew, profile: Profile
) -> Body:
    """The fastener of a joint, tightened: the clip under the lips, or the screw through the crossing bar."""
    place = _Place(joint, member, crossing)
    diameter = float(THREADS[item.screw.thread].diameter)
    length = float(item.screw.length)
    if isinstance(item, EndClip):
        lip, (long, wide, thick) = float(profile.slot.lip), (float(size) for size in item.clip)
        head = BUTTON_HEAD * diameter
        under = lip + thick
        clip = (
            place.block((under - length, lip), diameter, diameter),
            place.block((lip, under), long, wide),
            place.block((under, under + float(item.head_height)), head, head),
        )
        return Body(fastener_name(joint), member.mark, "clip", clip)
    # from the member's end: the head sits on the floor of a counterbore that enters from the far face
    floor = float(profile.section) - float(item.counterbore.depth)
    head = CAP_HEAD * diameter
    screw = (
        place.block((floor - length, floor), diameter, diameter),
        place.block((floor, floor + CAP_HEIGHT * diameter), head, head),
    )
    return Body(fastener_name(joint), member.mark, "screw", screw)


def key_block(
    joint: Joint, member: Part, crossing: Part, item: EndClip | ThroughScrew, profile: Profile
) -> Block:
    """The straight way of a key to a joint's screw: from its head, through the bar, and a hand's breadth beyond."""
    place, section = _Place(joint, member, crossing), float(profile.section)
    diameter = float(THREADS[item.screw.thread].diameter)
    if isinstance(item, EndClip):
        head = float(profile.slot.lip + item.clip[2] + item.head_height)
        across = float(item.key) * ACROSS_CORNERS
    else:
        head = section - float(item.counterbore.depth) + CAP_HEIGHT * diameter
        across = float(CAP_KEYS[item.screw.thread]) * ACROSS_CORNERS
    return place.block((head, section + KEY_REACH), across, across)


class _Place:
    """Frame of a joint: depth is measured from the member's end into the crossing bar."""

    def __init__(self, joint: Joint, member: Part, crossing: Part) -> None:
        self.axis, self.end = face_axis(joint.end)
        span = member.box.span(self.axis)
        self.face = float(span.high if self.end else span.low)
        self.along = crossing.along
        self.across = next(axis for axis in AXES if axis not in (self.axis, self.along))
        self.middle = {axis: float(member.box.span(axis).middle) for axis in AXES}

    def block(self, depth: tuple[float, float], along: float, across: float) -> Block:
        """A block between two depths, `along` the crossing bar by `across` it, on the member's axis."""
        near, far = (self.face + d if self.end else self.face - d for d in depth)
        spans = {
            self.axis: (min(near, far), max(near, far)),
            self.along: _about(self.middle[self.along], along / 2),
            self.across: _about(self.middle[self.across], across / 2),
        }
        return block_of([spans[axis] for axis in AXES])
