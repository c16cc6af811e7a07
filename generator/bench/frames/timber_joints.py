"""Joints between timbers: how long and wide each tenon is, its mortise, the holes of each bolt."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from generator.bench.box_body import face_axis
from generator.bench.fasteners import nut_face
from generator.bench.frames.timber_pockets import pockets
from generator.bench.joints.facts import CrossNut, Joining, TenonSizes
from generator.bench.piece import MORTISES, TENONS, Joint, Operation, Part
from generator.calculators import wood_joints as rules
from generator.geometry import AXES, FACES, Box, Span
from generator.provenance import constant, least

#: The sorts of tenons, by their places among the words for them.
PLAIN, LAP, TONGUE, PRONG = range(len(TENONS))
#: A prong ends this far before the groove of a panel (mm). Common practice, no source.
BEFORE_PANEL = constant(2, "wood between a prong and the groove of a panel")
#: A bolt at a height within this of a tenon is in its way (mm).
NEAR_BOLT = constant(6, "wood between a bolt and a tenon above or below it")


@dataclass(frozen=True)
class CutTenon:
    """A tenon: its length; its size and the middle of it along each axis of the bench that is across it (mm).

    `sort` is its place among the words for tenons: a plain one, a lap, a bridle's tenon, one of its two prongs.
    """

    joint: Joint
    length: Fraction
    sizes: Mapping[str, Fraction]
    middles: Mapping[str, Fraction]
    sort: int = PLAIN

    @property
    def wide(self) -> bool:
        """Whether it is as wide as its timber, so that what takes it is open."""
        return self.sort != PLAIN

    @property
    def outside(self) -> bool:
        """Whether it is at a face of the other timber, where the heads of screws have their recesses."""
        return self.sort in (LAP, PRONG)


def tenons(
    members: Sequence[Part],
    joints: Sequence[Joint],
    fixings: Mapping[str, Joining],
    walls: Sequence[Part],
    step: Fraction,
) -> tuple[CutTenon, ...]:
    """Every tenon of a frame, as long as bolts and other tenons in the same post leave it.

    A fork has two prongs, which end before the groove of a panel. `step` is the full step of the rule (mm) to which
    thirds are rounded.
    """
    by_mark = {part.mark: part for part in members}
    return tuple(
        cut
        for joint in joints
        if (sizes := fixings[joint.fastener].tenon) is not None
        for cut in _tenons(joint, _in_thirds(joint, sizes, by_mark, step), (by_mark, walls), joints, fixings)
    )


def _in_thirds(joint: Joint, sizes: TenonSizes, by_mark: Mapping[str, Part], step: Fraction) -> TenonSizes:
    """A bridle's sizes with its thickness; a stub tenon of that thickness where one timber lies in another's side."""
    if not sizes.bridled:
        return sizes
    member, crossing = by_mark[joint.member], by_mark[joint.crossing]
    thin = next(axis for axis in AXES if axis not in (member.along, crossing.along))
    lies = "z" not in (member.along, crossing.along)
    common = member.thickness if lies else member.box.span(thin).size
    return replace(sizes, thickness=sizes.thickness or rules.third_of(common, step), bridled=not lies)


def _tenons(
    joint: Joint,
    sizes: TenonSizes,
    parts: tuple[Mapping[str, Part], Sequence[Part]],
    joints: Sequence[Joint],
    fixings: Mapping[str, Joining],
) -> tuple[CutTenon, ...]:
    by_mark, walls = parts
    if not sizes.bridled:
        return (_tenon(joint, sizes, by_mark, joints, fixings),)
    member, crossing = by_mark[joint.member], by_mark[joint.crossing]
    cuts = _bridle(joint, sizes, member, crossing)
    if crossing.along != "z":
        return cuts
    limits = [
        each for cut in cuts for each in _limits(cut, sizes, member, crossing, by_mark, joints, fixings)
    ]
    limits += [each for cut in cuts for each in _before_walls(cut, member, walls)]
    return tuple(replace(cut, length=least(*limits)) for cut in cuts)


def _before_walls(cut: CutTenon, member: Part, walls: Sequence[Part]) -> Iterator[Fraction]:
    """How long a prong may be before a panel whose groove is in the same third of the post."""
    if cut.sort != PRONG:
        return
    face, high = member.box.span(member.along), cut_side(cut.joint)
    own = {
        axis: Span(middle - cut.sizes[axis] / 2, middle + cut.sizes[axis] / 2)
        for axis, middle in cut.middles.items()
    }
    for wall in walls:
        there = wall.box.span(member.along)
        way = there.low - face.high if high else face.low - there.high
        if 0 <= way < cut.length and all(wall.box.span(axis).overlap(span) > 0 for axis, span in own.items()):
            yield way - BEFORE_PANEL


def _bridle(joint: Joint, sizes: TenonSizes, member: Part, crossing: Part) -> tuple[CutTenon, ...]:
    """The middle third in a mortise that is open at a post's end; elsewhere the outer thirds as prongs over it."""
    thin = next(axis for axis in AXES if axis not in (member.along, crossing.along))
    span, wide = member.box.span(thin), member.box.span(crossing.along)
    ends = crossing.box.span(crossing.along)
    low, high = span.middle - sizes.thickness / 2, span.middle + sizes.thickness / 2
    if crossing.along == "z" and (wide.low == ends.low or wide.high == ends.high):
        thirds, sort = [Span(low, high)], TONGUE
    else:
        thirds, sort = [Span(span.low, low), Span(high, span.high)], PRONG
    length = crossing.box.span(member.along).size if crossing.along == "z" else sizes.stub
    return tuple(
        CutTenon(
            joint,
            length,
            {crossing.along: wide.size, thin: each.size},
            {crossing.along: wide.middle, thin: each.middle},
            sort,
        )
        for each in thirds
    )


def _tenon(
    joint: Joint,
    sizes: TenonSizes,
    by_mark: Mapping[str, Part],
    joints: Sequence[Joint],
    fixings: Mapping[str, Joining],
) -> CutTenon:
    member, crossing = by_mark[joint.member], by_mark[joint.crossing]
    if sizes.lapped:
        cut = _lap(joint, sizes, member, crossing)
        if crossing.along != "z" or member.along == "z":
            return cut
        return replace(cut, length=least(*_limits(cut, sizes, member, crossing, by_mark, joints, fixings)))
    wide = crossing.along if member.along == "z" else "z"
    thin = next(axis for axis in AXES if axis not in (member.along, wide))
    span = member.box.span(wide)
    haunch = Fraction(0)
    low = high = sizes.shoulder
    length = sizes.stub
    if crossing.along == "z" and member.along != "z":
        haunch = rules.haunch_of(span.size)
        ends = crossing.box.span("z")
        at_foot, at_head = span.low - ends.low < haunch, ends.high - span.high < haunch
        low, high = low + haunch * at_foot, high + haunch * at_head
        haunch = haunch * (at_foot + at_head)
    elif member.along != "z":
        # clear of the post's stub, which comes into the same timber from above or below
        low = high = sizes.stub + rules.BESIDE_STUB
    width = rules.tenon_width(span.size, (low + high - haunch) / 2, sizes.thickness, haunch)
    middle = (span.low + low + span.high - high) / 2
    cut = CutTenon(
        joint,
        length,
        {wide: width, thin: sizes.thickness},
        {wide: middle, thin: member.box.span(thin).middle},
    )
    if crossing.along != "z" or member.along == "z":
        return cut
    return replace(cut, length=least(*_limits(cut, sizes, member, crossing, by_mark, joints, fixings)))


def _lap(joint: Joint, sizes: TenonSizes, member: Part, crossing: Part) -> CutTenon:
    """Half of what both timbers have in common across the joint: the outer half, of two that lie the upper one.

    It goes half way into a post, so that laps from two sides do not meet there.
    """
    thin = next(axis for axis in AXES if axis not in (member.along, crossing.along))
    own, other, wide = member.box.span(thin), crossing.box.span(thin), member.box.span(crossing.along)
    common = Span(max(own.low, other.low), min(own.high, other.high))
    upper = thin == "z" or member.place.side == "back" or member.place.end == "right"
    half = Span(common.middle, common.high) if upper else Span(common.low, common.middle)
    length = crossing.box.span(member.along).size / 2 if crossing.along == "z" else sizes.stub
    return CutTenon(
        joint,
        length,
        {crossing.along: wide.size, thin: half.size},
        {crossing.along: wide.middle, thin: half.middle},
        LAP,
    )


def _limits(
    cut: CutTenon,
    sizes: TenonSizes,
    member: Part,
    post: Part,
    by_mark: Mapping[str, Part],
    joints: Sequence[Joint],
    fixings: Mapping[str, Joining],
) -> Iterator[Fraction]:
    """How long a tenon in a post may be, by all that is in that post at its height."""
    size = post.box.span(member.along).size
    yield least(sizes.length, size) if sizes.bridled else rules.in_post(sizes.length, size)
    height = Span(cut.middles["z"] - cut.sizes["z"] / 2, cut.middles["z"] + cut.sizes["z"] / 2)
    for other in joints:
        if other.crossing != post.mark or other is cut.joint:
            continue
        beside, fixing = by_mark[other.member], fixings[other.fastener]
        if (through := fixing.cross or fixing.driven) is not None and beside.along != member.along:
            # a lap is at the face of the post, where the head has its recess
            hole = max(each.size for each in fixing.holes) if cut.outside else through.hole
            reach = through.hole / 2 + NEAR_BOLT
            axes = [beside.box.z.middle + other.aside + place for place in fixing.places]
            if any(height.low - reach < axis < height.high + reach for axis in axes):
                outer, at = post.box.span(member.along), beside.box.span(member.along).middle
                away = at - outer.low if cut_side(cut.joint) == 0 else outer.high - at
                yield rules.beside_bolt(size, away, hole)
        elif fixing.sloped is not None and beside.along != member.along:
            reach = fixing.sloped.hole / 2 + NEAR_BOLT
            axes = [beside.box.z.middle + other.aside + place for place in fixing.places]
            if any(height.low - reach < axis < height.high + reach for axis in axes):
                yield rules.beside_slope(fixing.sloped.setting, fixing.sloped.hole)
        elif cut.sort == LAP and beside.along != member.along:
            continue  # each is half a post long and at a face of its own
        elif fixing.tenon is not None and beside.box.z.overlap(height) > 0:
            if beside.along == member.along:
                yield rules.laps_facing(size) if cut.wide else rules.facing(size)
            else:
                yield rules.at_right_angles(size, beside.box.span(member.along).size, fixing.tenon.thickness)


def placed_again(joints: Sequence[Joint], members: Sequence[Part]) -> tuple[Joint, ...]:
    """The joints with their places from the datum ends that the timbers have with their tenons."""
    by_mark = {part.mark: part for part in members}
    return tuple(
        replace(
            joint,
            at=by_mark[joint.member].box.span(crossing.along).middle
            + joint.aside
            - crossing.box.span(crossing.along).low,
        )
        for joint in joints
        for crossing in (by_mark[joint.crossing],)
    )


def cut_side(joint: Joint) -> int:
    """The end of the member that a joint is at: 0 low, 1 high."""
    return next(faces.index(joint.end) for faces in FACES.values() if joint.end in faces)


def machined(
    members: Sequence[Part],
    joints: Sequence[Joint],
    fixings: Mapping[str, Joining],
    cuts: tuple[Sequence[CutTenon], Sequence[tuple[str, Operation]]],
) -> tuple[Part, ...]:
    """The timbers with tenons, mortises, holes and grooves; each box holds its tenons. `cuts`: tenons, grooves."""
    cut, grooves = cuts
    long: dict[str, dict[str, Fraction]] = {}
    for each in cut:
        long.setdefault(each.joint.member, {})[each.joint.end] = each.length
    grown = {part.mark: _with_tenons(part, long.get(part.mark, {})) for part in members}
    found: dict[str, list[Operation]] = {part.mark: list(part.operations) for part in members}
    for each in cut:
        member, crossing = grown[each.joint.member], grown[each.joint.crossing]
        found[member.mark].append(_tenon_operation(each, member, crossing))
        found[crossing.mark].append(_mortise(each, member, crossing))
    for joint in joints:
        fixing = fixings[joint.fastener]
        member, crossing = grown[joint.member], grown[joint.crossing]
        if fixing.cross is not None:
            found[member.mark] += _nut_holes(joint, fixing.cross, member, crossing)
        if fixing.driven is not None:
            found[member.mark] += _pilot_holes(joint, fixing, member, crossing)
        if fixing.sloped is not None:
            own = [groove for mark, groove in grooves if mark == member.mark]
            found[member.mark] += pockets(joint, fixing, (member, crossing), own)
        found[crossing.mark] += _through_holes(joint, fixing, member, crossing)
    for mark, groove in grooves:
        part = grown[mark]
        before = part.shoulders.span(part.along).low - part.box.span(part.along).low
        moved = replace(groove, at=(groove.at[0] + before, groove.at[1]))
        found[mark].append(moved)
    return tuple(
        replace(part, operations=tuple(sorted(found[part.mark], key=_order))) for part in grown.values()
    )


def _order(operation: Operation) -> tuple[str, str, Fraction, Fraction]:
    return (operation.op, operation.face, *operation.at)


def _with_tenons(part: Part, long: Mapping[str, Fraction]) -> Part:
    if not long:
        return part
    (low, high), span = FACES[part.along], part.box.span(part.along)
    own = Span(span.low - long.get(low, 0), span.high + long.get(high, 0))
    box = Box(*(own if axis == part.along else part.box.span(axis) for axis in AXES))
    return replace(part, box=box, tenons=dict(long))


def _tenon_operation(cut: CutTenon, member: Part, crossing: Part) -> Operation:
    first, second = (axis for axis in AXES if axis != member.along)
    at = Fraction(0) if cut_side(cut.joint) == 0 else member.length
    other = second if member.across == first else first
    across = cut.middles[member.across] - member.box.span(member.across).low
    return Operation(
        TENONS[cut.sort], cut.joint.end, (at, across), (cut.sizes[first], cut.sizes[second]), cut.length,
        f"into the {crossing.group}", aside=cut.middles[other] - member.box.span(other).middle,
    )  # fmt: skip


def _mortise(cut: CutTenon, member: Part, crossing: Part) -> Operation:
    other = next(axis for axis in AXES if axis not in (member.along, crossing.along))
    at = (
        cut.middles[crossing.along] - crossing.box.span(crossing.along).low,
        cut.middles[other] - crossing.box.span(other).low,
    )
    size = (cut.sizes[crossing.along], cut.sizes[other])
    face = FACES[member.along][1 - cut_side(cut.joint)]
    depth = cut.length if cut.wide else rules.mortise_depth(cut.length)
    return Operation(MORTISES[cut.sort], face, at, size, depth, f"{member.mark}, {cut.joint.end} end")


def _pilot_holes(joint: Joint, fixing: Joining, member: Part, crossing: Part) -> Iterator[Operation]:
    """In the end of the member, as deep as its screws go."""
    assert fixing.driven is not None
    low, through = cut_side(joint) == 0, crossing.box.span(member.along).size
    deep = rules.screw_in_end(fixing.driven.length, through, fixing.driven.recess)
    middle = member.box.span(member.across).size / 2
    for place in fixing.places:
        aside = {crossing.along: joint.aside + place}
        other = next(axis for axis in AXES if axis not in (member.along, member.across))
        at = (Fraction(0) if low else member.length, middle + aside.get(member.across, 0))
        yield Operation(
            fixing.end, joint.end, at, fixing.driven.pilot, deep, f"screw from the {crossing.group}",
            aside=aside.get(other, Fraction(0)),
        )  # fmt: skip


def _nut_holes(joint: Joint, nut: CrossNut, member: Part, crossing: Part) -> Iterator[Operation]:
    """Along the member for the bolt, and across it for the nut, from a face that is inside."""
    low = cut_side(joint) == 0
    deep = nut.from_end + nut.diameter / 2 + nut.beyond
    aside = {crossing.along: joint.aside}
    middle = member.box.span(member.across).size / 2 + aside.get(member.across, 0)
    purpose = f"bolt from the {crossing.group}"
    yield Operation(
        "end bolt hole", joint.end, (Fraction(0) if low else member.length, middle), nut.hole, deep, purpose
    )
    face = nut_face(member)
    axis, high = face_axis(face)
    size, other = member.box.span(axis).size, next(a for a in AXES if a not in (axis, member.along))
    at = (
        nut.from_end if low else member.length - nut.from_end,
        member.box.span(other).size / 2 + aside.get(other, 0),
    )
    nearer = aside.get(axis, Fraction(0)) * (1 if high else -1)
    yield Operation(
        "barrel hole", face, at, nut.diameter, (size + nut.length) / 2 - nearer,
        f"nut of the {joint.end} end",
    )  # fmt: skip


def _through_holes(joint: Joint, fixing: Joining, member: Part, crossing: Part) -> Iterator[Operation]:
    """In the other timber, for each bolt or screw."""
    other = next(axis for axis in AXES if axis not in (member.along, crossing.along))
    middle = member.box.span(crossing.along).middle + joint.aside - crossing.box.span(crossing.along).low
    across = member.box.span(other).middle - crossing.box.span(other).low
    for place in fixing.places:
        for hole in fixing.holes:
            purpose = f"{hole.purpose}{member.group}, {joint.end} end"
            yield Operation(hole.op, joint.face, (middle + place, across), hole.size, hole.depth, purpose)
