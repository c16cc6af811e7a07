"""Benches that are bolted together: where each other bench is, the bolts between both, and their holes in this one."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from fractions import Fraction
from pathlib import PurePath

from generator.bench.box_body import face_axis
from generator.bench.join_places import FacingBench, Found, places
from generator.bench.model import Bench, Operation, Part
from generator.bench.neighbour import JoinBolt, Neighbour, Point, Turned
from generator.bench.role import Role
from generator.bench.solids import solid_bodies
from generator.calculators.fasteners import THREADS
from generator.calculators.joining import WIDER
from generator.codes import Code
from generator.findings import Finding, SpecError
from generator.geometry import AXES
from generator.names import spec_file
from generator.spec.joining import OPPOSITE, Join, JoiningBolt, SideOfBench
from generator.spec.load import LoadedSpec

#: The hole of a bolt between two benches, among the operations on a member.
HOLE = "joining hole"
#: Where a side looks, in quarter turns to the left from the right.
LOOKS: Mapping[SideOfBench, int] = {"right": 0, "rear": 1, "left": 2, "front": 3}
#: The datum is the bench with the lower number: the left one of a row, the one whose end stands at a long side.
RANK: Mapping[SideOfBench, int] = {"right": 0, "rear": 1, "front": 2, "left": 3}
NONE = Fraction(0)
NOWHERE = Turned(0, (NONE, NONE, NONE))


def beside(bench: Bench, alone: Callable[[LoadedSpec], Bench]) -> Bench:
    """The bench with its neighbours and the holes of the bolts. `alone` solves a spec without what it joins.

    Raises SpecError where two benches are at one side, or where another bench has faults.
    """
    joins = bench.spec.join
    if not joins:
        return bench
    faults = list(_twice(bench.loaded))
    others: dict[int, Bench] = {}
    for index, join in enumerate(joins):
        try:
            others[index] = _other(bench, join, alone)
        except SpecError as error:
            faults += error.findings
    if faults:
        raise SpecError(faults)
    found = tuple(_neighbour(bench, index, others[index]) for index in range(len(joins)))
    return replace(bench, parts=_drilled(bench.parts, found), neighbours=found)


def _twice(loaded: LoadedSpec) -> list[Finding]:
    seen: set[str] = set()
    faults = []
    for index, join in enumerate(loaded.spec.join):
        if join.side in seen:
            message = "two benches stand at this side"
            faults.append(loaded.fault(Code.JOIN_TWICE, message, "join", index, "side", found=join.side))
        seen.add(join.side)
    return faults


def _other(bench: Bench, join: Join, alone: Callable[[LoadedSpec], Bench]) -> Bench:
    """The other bench by itself: one like this one where no file is named, or none was read."""
    other = bench.loaded.neighbours.get(join.to)
    if other is None or other.checksum == bench.loaded.checksum:
        return bench
    bare = {"join": ()}
    return alone(
        replace(other, spec=other.spec.model_copy(update=bare), nominal=other.nominal.model_copy(update=bare))
    )


def _neighbour(bench: Bench, index: int, other: Bench) -> Neighbour:
    join, same = bench.spec.join[index], other is bench
    theirs = _answer(bench.loaded, join, same)
    side = theirs.side if theirs is not None else OPPOSITE[join.side]
    first = _is_first(bench, join, other, side, same)
    card = bench.goods.joining_bolts[join.bolt]
    if not first and theirs is not None:
        card = other.goods.joining_bolts[theirs.bolt]
    hole = THREADS[card.thread].diameter + WIDER
    at = (join.at, theirs.at if theirs is not None else Fraction(0))
    one, two = (bench, other) if first else (other, bench)
    sides = (join.side, side) if first else (side, join.side)
    tops = _overhang(one, sides[0]) + _overhang(two, sides[1])
    apart = max(tops + join.gap, _sticks_out(one, sides[0]) + _sticks_out(two, sides[1]))
    turned = _turned(one, sides[0], two, sides[1], apart, at if first else at[::-1])
    found = _places(one, two, sides, turned, card, hole, apart, join.bolts)
    if same and sides[0] == sides[1] and not _mirrored(found, face_axis(join.side)[0], turned):
        found = []
    own = NOWHERE if first else turned.back()
    return Neighbour(
        index=index,
        join=join,
        name=other.spec.title,
        other=other,
        other_side=side,
        turned=turned if first else turned.back(),
        apart=apart,
        gap=apart - tops,
        step=other.layout.height - bench.layout.height,
        first=first,
        same_spec=same,
        bolts=tuple(_bolt(each, bench, join.side, own, first=first) for each in found),
        hole=hole,
        card=card,
        slotted=all(each.goods.profile is not None for each in (bench, other)),
        wrong=_wrong(bench, join, other, side, theirs),
    )


def _answer(loaded: LoadedSpec, join: Join, same: bool) -> Join | None:
    """What the other spec says of this bench. A spec that joins benches like itself answers by its other end."""
    if same:
        opposite = (each for each in loaded.spec.join if each.side == OPPOSITE[join.side])
        return next(opposite, join)
    # a spec out of git is called by its revision, one out of a pack by a plain name
    name = spec_file(PurePath(loaded.document.file).name.partition(" at ")[0])
    mine = [
        each for each in loaded.neighbours[join.to].nominal.join if each.to and spec_file(each.to) == name
    ]
    return min(mine, key=lambda each: each.side != OPPOSITE[join.side], default=None)


def _wrong(bench: Bench, join: Join, other: Bench, side: SideOfBench, theirs: Join | None) -> str:
    """What to write where both specs do not agree."""
    loaded = bench.loaded
    name = PurePath(loaded.document.file).name
    where = "this spec" if other is bench else join.to
    if theirs is None:
        return f"Write `join: [{{to: {name}, side: {side}, bolts: {join.bolts}}}]` in {where}."
    if theirs.bolts != join.bolts:
        return f"Write `bolts: {join.bolts}` for this joint in {where} as well."
    if theirs.gap != join.gap:
        return f"Write `gap: {loaded.say(join.gap)}` for this joint in {where} as well."
    mine, yours = bench.goods.joining_bolts[join.bolt], other.goods.joining_bolts[theirs.bolt]
    if (mine.thread, mine.washer) != (yours.thread, yours.washer):
        return (
            f"Name a joining bolt of {mine.thread} with the same washers for this joint in {where} as well."
        )
    if theirs is not join and theirs.at and join.at:
        return f"Write `at` for this joint in one of both specs only, here or in {where}."
    return ""


def _is_first(bench: Bench, join: Join, other: Bench, side: SideOfBench, same: bool) -> bool:
    if RANK[join.side] != RANK[side]:
        return RANK[join.side] < RANK[side]
    names = (PurePath(bench.loaded.document.file).name, PurePath(other.loaded.document.file).name)
    return same or names[0] <= names[1]


def _overhang(bench: Bench, side: SideOfBench) -> Fraction:
    """How far the top reaches beyond the frame at a side (mm)."""
    axis, end = face_axis(side)
    edges = [part.box.span(axis) for part in bench.of(Role.TOP, Role.TOP_EDGING)]
    out = max(edge.high for edge in edges) - _whole(bench, axis) if end else -min(edge.low for edge in edges)
    return max(out, Fraction(0))


def _sticks_out(bench: Bench, side: SideOfBench) -> Fraction:
    """How far anything but the top is outside the frame at a side, such as a bracket (mm)."""
    axis, end = face_axis(side)
    top = {part.mark for part in bench.of(Role.TOP, Role.TOP_EDGING)}
    index, whole = AXES.index(axis), float(_whole(bench, axis))
    bounds = (body.bounds for body in solid_bodies(bench) if body.name not in top)
    out = max(each[index + 3] - whole if end else -each[index] for each in bounds)
    return max(Fraction(str(round(out, 3))), NONE)


def _whole(bench: Bench, axis: str) -> Fraction:
    return bench.layout.length if axis == "x" else bench.layout.depth


def _turned(
    one: Bench,
    mine: SideOfBench,
    two: Bench,
    yours: SideOfBench,
    apart: Fraction,
    at: tuple[Fraction, Fraction],
) -> Turned:
    """From the second bench's coordinates into the first one's. Both stand on one floor.

    `at` is where the second begins along the first one's side, and the first along the second one's; one of them
    counts, the first unless it is 0. Without both, the low ends of both sides are in line.
    """
    quarters = (LOOKS[mine] + 2 - LOOKS[yours]) % 4
    (normal, end), (own, _) = face_axis(mine), face_axis(yours)
    third = "y" if normal == "x" else "x"
    rise = two.layout.levels.floor_to_frame - one.layout.levels.floor_to_frame
    bare = Turned(quarters, (Fraction(0), Fraction(0), rise))
    corners = [
        bare.point((x, y, Fraction(0))) for x in (NONE, two.layout.length) for y in (NONE, two.layout.depth)
    ]
    n, t = AXES.index(normal), AXES.index(third)
    along = _whole(two, "y" if own == "x" else "x")
    begins = at[0]
    if not at[0] and at[1]:
        # does the second one's side run the same way as the first one's?
        same_way = bare.point(_unit("y" if own == "x" else "x"))[t] > 0
        begins = -at[1] if same_way else at[1] - along + _whole(one, third)
    low = {
        n: _whole(one, normal) + apart
        if end
        else -apart - (max(c[n] for c in corners) - min(c[n] for c in corners)),
        t: begins,
    }
    move = [low[axis] - min(corner[axis] for corner in corners) for axis in (0, 1)]
    return Turned(quarters, (move[0], move[1], rise))


def _unit(axis: str) -> tuple[Fraction, Fraction, Fraction]:
    x, y, z = (Fraction(each == axis) for each in AXES)
    return (x, y, z)


def _places(
    one: Bench,
    two: Bench,
    sides: tuple[SideOfBench, SideOfBench],
    turned: Turned,
    card: JoiningBolt,
    hole: Fraction,
    apart: Fraction,
    count: int,
) -> list[Found]:
    normal, end = face_axis(sides[0])
    inwards = -1 if end else 1
    first = FacingBench.of(one, sides[0], NOWHERE, normal, inwards)
    second = FacingBench.of(two, sides[1], turned, normal, -inwards)
    return places(first, second, card, hole, apart, count)


def _mirrored(found: list[Found], normal: str, turned: Turned) -> bool:
    """Whether a bench that meets one like itself, turned round, has the same holes."""
    back = turned.back()
    mine = {_in_plane(each.point, normal) for each in found}
    return mine == {_in_plane(back.point(each.point), normal) for each in found}


def _in_plane(at: Point, normal: str) -> tuple[Fraction, ...]:
    return tuple(value for axis, value in zip(AXES, at, strict=True) if axis != normal)


def _bolt(found: Found, bench: Bench, side: SideOfBench, own: Turned, *, first: bool) -> JoinBolt:
    """A bolt as one of both benches sees it."""
    line = found.line
    member, facing = (line.first, line.second) if first else (line.second, line.first)
    normal, end = face_axis(side)
    spot = dict(zip(AXES, own.point(found.point), strict=True))
    spot[normal] = _whole(bench, normal) if end else Fraction(0)
    third = next(axis for axis in AXES if axis not in (normal, member.along))
    return JoinBolt(
        member=member.mark,
        facing=facing.mark,
        at=(spot["x"], spot["y"], spot["z"]),
        along=spot[member.along] - member.box.span(member.along).low,
        across=spot[third] - member.box.span(third).low,
        grip=line.grip,
        size=line.size,
    )


def _drilled(parts: tuple[Part, ...], found: tuple[Neighbour, ...]) -> tuple[Part, ...]:
    """The members with the holes of all joints."""
    holes: dict[str, list[Operation]] = {}
    for each in found:
        for bolt in each.bolts:
            holes.setdefault(bolt.member, []).append(
                Operation(
                    HOLE, each.join.side, (bolt.along, bolt.across), each.hole, None, f"bolt to {bolt.facing}"
                )
            )
    return tuple(
        replace(part, operations=(*part.operations, *holes[part.mark])) if part.mark in holes else part
        for part in parts
    )
