"""Pockets for sloping screws: cut in a side of a member that is hidden and has no groove there, and their set-up."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from generator.bench.box_body import face_axis
from generator.bench.frames.facts import Framed, WorkCard, WorkSetting
from generator.bench.frames.timber_bodies import WAY, cut_away, meet
from generator.bench.joints.facts import Joining, Sloped
from generator.bench.piece import POCKET, Joint, Operation, Part
from generator.calculators.bodies import Block
from generator.calculators.wood_joints import WOOD
from generator.geometry import AXES, FACES


def pockets(
    joint: Joint, fixing: Joining, pair: tuple[Part, Part], grooves: Sequence[Operation]
) -> Iterator[Operation]:
    """The pockets of a joint in its member, with their pilot holes.

    `pair` is member and crossing timber, `grooves` what is cut into the member for panels.
    """
    slope = fixing.sloped
    assert slope is not None
    face = _face(joint, fixing, pair, grooves)
    for place in fixing.places:
        yield _pocket(joint, slope, pair, face, place)
        yield _pilot(joint, slope, pair, face, place, fixing.end)


def with_ways(
    parts: Sequence[Part], joints: Sequence[Joint], fixings: Mapping[str, Joining]
) -> tuple[Part, ...]:
    """The pieces with what sloping screws take of them, as if it were cut: for what must keep clear of it."""
    by_mark, ways = {part.mark: part for part in parts}, dict[str, list[Operation]]()
    for joint in joints:
        fixing = fixings[joint.fastener]
        if (slope := fixing.sloped) is None:
            continue
        pair = by_mark[joint.member], by_mark[joint.crossing]
        face = next(each.face for each in pair[0].operations if _is_of(each, joint))
        ways.setdefault(joint.crossing, []).extend(
            _way(joint, slope, pair, face, place) for place in fixing.places
        )
    return tuple(
        replace(part, operations=(*part.operations, *ways[part.mark])) if part.mark in ways else part
        for part in parts
    )


def _is_of(operation: Operation, joint: Joint) -> bool:
    return operation.op == POCKET and operation.purpose == _purpose(joint)


def _purpose(joint: Joint) -> str:
    return f"screw of the {joint.end} end"


def _third(member: Part, crossing: Part) -> str:
    return next(axis for axis in AXES if axis not in (member.along, crossing.along))


def _face(joint: Joint, fixing: Joining, pair: tuple[Part, Part], grooves: Sequence[Operation]) -> str:
    """The side that looks into the bench or down, or the other one where a groove is in the way there."""
    member, crossing = pair
    slope = fixing.sloped
    assert slope is not None
    axis = _third(member, crossing)
    far = {"x": member.place.end == "left", "y": member.place.side != "back", "z": False}[axis]
    wanted = (FACES[axis][far], FACES[axis][not far])
    for face in wanted:
        cuts = [cut_away(member, _pocket(joint, slope, pair, face, place)) for place in fixing.places]
        if not any(meet(_wider(cut), cut_away(member, groove)) for cut in cuts for groove in grooves):
            return face
    return wanted[0]


def _wider(cut: Block) -> Block:
    """A cut with wood about it."""
    about = float(WOOD)
    return (*(each - about for each in cut[:3]), *(each + about for each in cut[3:]))  # type: ignore[return-value]


def _low_end(joint: Joint, member: Part) -> bool:
    return joint.end == FACES[member.along][0]


def _from_face(part: Part, face: str, depth: Fraction) -> Fraction:
    """The place at a depth below a face, along that face's axis (mm of the bench)."""
    axis, high = face_axis(face)
    span = part.box.span(axis)
    return span.high - depth if high else span.low + depth


def _axis_at(joint: Joint, member: Part, crossing: Part, place: Fraction) -> Fraction:
    """Where a screw is along the timber that it goes into (mm of the bench)."""
    return member.box.span(crossing.along).middle + joint.aside + place


def _pocket(joint: Joint, slope: Sloped, pair: tuple[Part, Part], face: str, place: Fraction) -> Operation:
    member, crossing = pair
    middle = (slope.begins + slope.reach) / 2
    at = middle if _low_end(joint, member) else member.length - middle
    across = _axis_at(joint, member, crossing, place) - member.box.span(crossing.along).low
    size = (slope.reach - slope.begins, slope.drill)
    return Operation(POCKET, face, (at, across), size, slope.deep, _purpose(joint))


def _pilot(
    joint: Joint, slope: Sloped, pair: tuple[Part, Part], face: str, place: Fraction, op: str
) -> Operation:
    """The hole of the thin part of the stepped drill, where it comes out of the end."""
    member, crossing = pair
    at = {
        crossing.along: _axis_at(joint, member, crossing, place),
        _third(member, crossing): _from_face(member, face, slope.setting / 2),
    }
    other = next(axis for axis in at if axis != member.across)
    return Operation(
        op, joint.end,
        (
            Fraction(0) if _low_end(joint, member) else member.length,
            at[member.across] - member.box.span(member.across).low,
        ),
        slope.hole, slope.before, f"screw into the {crossing.group}",
        aside=at[other] - member.box.span(other).middle,
    )  # fmt: skip


def _way(joint: Joint, slope: Sloped, pair: tuple[Part, Part], face: str, place: Fraction) -> Operation:
    """What the screw takes of the other timber: from where it goes in, as far as it drifts sideways."""
    member, crossing = pair
    axis = _third(member, crossing)
    near = _from_face(member, face, slope.setting / 2 - slope.hole / 2)
    far = _from_face(member, face, slope.setting / 2 + slope.hole / 2 + slope.drift)
    at = (
        _axis_at(joint, member, crossing, place) - crossing.box.span(crossing.along).low,
        (near + far) / 2 - crossing.box.span(axis).low,
    )
    side = FACES[member.along][_low_end(joint, member)]
    purpose = f"{member.mark}, {joint.end} end"
    return Operation(WAY, side, at, (slope.hole, abs(far - near)), slope.beyond, purpose)


def pocket_cards(bench: Framed) -> Iterator[WorkCard]:
    """One card for each sort of pocket screw: jig, collar, and where the pockets are across each timber."""
    found: dict[str, list[Joint]] = {}
    for joint in bench.joints:
        if bench.joinings[joint.fastener].sloped is not None:
            found.setdefault(joint.fastener, []).append(joint)
    by_mark = {part.mark: part for part in bench.parts}
    for number, (name, joints) in enumerate(found.items(), 1):
        slope = bench.joinings[name].sloped
        assert slope is not None
        marks = tuple(dict.fromkeys(joint.member for joint in joints))
        yield WorkCard(
            f"pocket-{number}",
            f"Pockets for screws {number}" if len(found) > 1 else "Pockets for screws",
            "drill with stepped bit and stop collar, pocket jig in a clamp",
            (
                WorkSetting("Pocket jig, set for a timber of", (slope.setting,)),
                WorkSetting("Stop collar: wood before the head, along the screw", (slope.before,)),
                WorkSetting("Stepped drill, diameter", (slope.drill,)),
                *_across([by_mark[mark] for mark in marks]),
            ),
            (
                "Cut a pocket in an off-cut of the same planing. Drive a screw into a second off-cut.",
                "Clamp the jig flush with the end, on the face that the part sheet names.",
                "Lift the drill twice on the way and clear the chips.",
            ),
            "The head is below the face, and no point comes out of the second off-cut.",
            marks,
            ("drill", "dust"),
        )


def _across(parts: Sequence[Part]) -> Iterator[WorkSetting]:
    """From the lower or left edge to the middle of each pocket, face by face; faces that are alike share a line."""
    found: dict[tuple[Fraction, ...], list[str]] = {}
    for part in parts:
        faces: dict[str, set[Fraction]] = {}
        for each in part.operations:
            if each.op == POCKET:
                faces.setdefault(each.face, set()).add(each.at[1])
        for face, places in faces.items():
            found.setdefault(tuple(sorted(places)), []).append(f"{part.mark} {face}")
    for across, names in found.items():
        yield WorkSetting(f"From the lower, left or front edge: {', '.join(names)}", across)
