"""Where bolts between two benches can be: through members that face each other, clear of all that is in the way.

All blocks are floats in the first bench's coordinates (mm): X, Y, Z low, then high.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from fractions import Fraction
from math import ceil, floor, hypot

from generator.bench.box_body import face_axis
from generator.bench.model import Bench
from generator.bench.neighbour import Point, Turned
from generator.bench.piece import Operation, Part
from generator.bench.role import DRAWER, Role
from generator.bench.solids import fastener_bodies, part_bodies, solid_bodies
from generator.calculators.bodies import Block
from generator.calculators.joining import JoiningBoltSize, joining_bolt
from generator.geometry import AXES, Box
from generator.spec.joining import JoiningBolt, SideOfBench
from generator.units.sizes import INCH

#: Wood or metal between a joining hole and whatever else is cut into the member (mm), as beside a clamp relief.
CLEAR = 6.0
#: A bolt in its hole clears the fasteners of the frame by so much (mm). Common practice, no source.
LOOSE = 1.0
#: Free way behind the head and behind the nut for a socket with its bar (mm). Common practice, no source.
REACH = 80.0
#: Least distance of two bolts (mm). Common practice, no source.
APART = 60.0
#: The slots of two bars face each other when their middles differ by no more (mm). Common practice, no source.
OFF_LINE = 0.5
#: What comes out of a bay when its bolts are reached.
TAKEN_OUT = frozenset({*DRAWER, Role.SHELF, Role.FILLING})
NOTHING = 1e-6
Interval = tuple[float, float]


def members_at(bench: Bench, side: str) -> tuple[Part, ...]:
    """The members whose outside is the outside of the frame at a side."""
    axis, end = face_axis(side)
    whole = (bench.layout.length, bench.layout.depth)["xy".index(axis)]
    plane = whole if end else Fraction(0)
    return tuple(
        part
        for part in bench.parts
        if part.is_bar
        and part.role is not Role.EXTRA_MEMBER
        and part.along != axis
        and (part.shoulders.span(axis).high if end else part.shoulders.span(axis).low) == plane
    )


@dataclass(frozen=True)
class FacingBench:
    """A bench in the first one's coordinates: blocks of its bodies by their names, and those that always stay.

    `normal` is the axis across the joint, `inwards` the way from the joint into this bench: 1 up that axis, or -1.
    """

    bench: Bench
    side: SideOfBench
    turned: Turned
    normal: str
    inwards: int
    blocks: tuple[tuple[str, Block], ...] = field(repr=False)
    staying: frozenset[str] = field(repr=False)

    @classmethod
    def of(cls, bench: Bench, side: SideOfBench, turned: Turned, normal: str, inwards: int) -> FacingBench:
        """A bench with its side that meets the other one."""
        bodies = solid_bodies(bench)
        blocks = tuple((body.name, turned.block(block)) for body in bodies for block in body.blocks)
        loose = {part.mark for part in bench.parts if part.role in TAKEN_OUT}
        fixed = (*part_bodies(bench.loaded, bench.parts), *fastener_bodies(bench), *bench.stand.bodies)
        return cls(
            bench, side, turned, normal, inwards, blocks, frozenset(body.name for body in fixed) - loose
        )

    @property
    def members(self) -> tuple[Part, ...]:
        """The members whose outside is the outside of the frame at its side."""
        return members_at(self.bench, self.side)

    def box(self, part: Part) -> Box:
        """The outside of one of its parts between its shoulders."""
        return self.turned.box(part.shoulders)

    def along(self, part: Part) -> str:
        """The axis that one of its members runs along."""
        return (
            part.along if part.along == "z" or self.turned.quarters % 2 == 0 else "yx"["xy".index(part.along)]
        )

    @property
    def slotted(self) -> bool:
        """Whether its members are slotted bars."""
        return self.bench.goods.profile is not None


@dataclass(frozen=True)
class FacingMembers:
    """Two members that face each other: bolts may be along `axis` in `free`, at `at` across it (mm)."""

    first: Part
    second: Part
    axis: str
    normal: str
    plane: Fraction
    """Where the first frame ends, across the joint."""
    at: Fraction
    datum: tuple[Fraction, Fraction]
    """Both ends of the first member along the axis."""
    free: tuple[Interval, ...]
    grip: Fraction
    size: JoiningBoltSize


@dataclass(frozen=True)
class Found:
    """A place for a bolt: its line, and where along it (mm)."""

    line: FacingMembers
    along: Fraction

    @property
    def point(self) -> Point:
        """Where its axis leaves the outside of the first frame."""
        spot = {self.line.normal: self.line.plane, self.line.axis: self.along}
        x, y, z = (spot.get(axis, self.line.at) for axis in AXES)
        return (x, y, z)


def places(
    first: FacingBench, second: FacingBench, card: JoiningBolt, hole: Fraction, apart: Fraction, count: int
) -> list[Found]:
    """As many places as there are, up to `count`: the nearest to the corners of what faces each other."""
    lines = [line for line in _lines(first, second, card, hole, apart) if line.free]
    step = INCH / 16 if first.bench.spec.units == "in" else Fraction(1)
    found: list[Found] = []
    for wish in _wishes(lines, count):
        best = min(
            (each for line in lines for each in _nearest(line, wish, found, step)),
            key=lambda each: each[0],
            default=None,
        )
        if best is not None:
            found.append(best[1])
    return found


def at_of(found: Found) -> tuple[float, float]:
    """Along the side, and up."""
    own, other = float(found.along), float(found.line.at)
    return (other, own) if found.line.axis == "z" else (own, other)


def _wishes(lines: Sequence[FacingMembers], count: int) -> Iterator[tuple[float, float]]:
    """The corners of all that faces each other, and even heights between them."""
    if not lines:
        return
    wide: list[float] = []
    high: list[float] = []
    for line in lines:
        ends = [end for interval in line.free for end in interval]
        (high if line.axis == "z" else wide).extend(ends)
        (wide if line.axis == "z" else high).append(float(line.at))
    rows = count // 2
    for row in (0, rows - 1, *range(1, rows - 1)):
        height = min(high) + (max(high) - min(high)) * row / (rows - 1)
        yield from ((min(wide), height), (max(wide), height))


def _nearest(
    line: FacingMembers, wish: tuple[float, float], taken: Sequence[Found], step: Fraction
) -> Iterator[tuple[float, Found]]:
    """The nearest free place on each stretch of a line, with how far it is off; none too near another bolt."""
    own, across = (wish[1], wish[0]) if line.axis == "z" else (wish[0], wish[1])
    for low, high in _less(line.free, _near(line, taken)):
        at = _on_grid(line, min(max(own, low), high), (low, high), step)
        if at is not None:
            yield hypot(float(at) - own, float(line.at) - across), Found(line, at)


def _near(line: FacingMembers, taken: Sequence[Found]) -> Iterator[Interval]:
    for each in taken:
        wide, high = at_of(each)
        own, across = (high, wide) if line.axis == "z" else (wide, high)
        beside = abs(across - float(line.at))
        if beside < APART:
            reach = (APART**2 - beside**2) ** 0.5
            yield own - reach, own + reach


def _on_grid(line: FacingMembers, at: float, free: Interval, step: Fraction) -> Fraction | None:
    """A place a whole number of steps from the nearer end of the member; upright ones count from below."""
    low, high = line.datum
    turns = line.axis != "z" and at > float(low + high) / 2
    origin, sign = (high, -1) if turns else (low, 1)
    off = (at - float(origin)) * sign / float(step)
    for whole in (round(off), floor(off), ceil(off)):
        place = origin + sign * whole * step
        if free[0] - NOTHING <= place <= free[1] + NOTHING:
            return place
    return None


def _lines(
    first: FacingBench, second: FacingBench, card: JoiningBolt, hole: Fraction, apart: Fraction
) -> Iterator[FacingMembers]:
    normal = first.normal
    for one in first.members:
        for two in second.members:
            axis = first.along(one)
            if axis != second.along(two):
                continue
            third = next(each for each in AXES if each not in (normal, axis))
            a, b = first.box(one), second.box(two)
            at = _axis_of(first, second, a, b, third, card.washer[0])
            if at is None or a.span(axis).overlap(b.span(axis)) <= card.washer[0]:
                continue
            grip = a.span(normal).size + apart + b.span(normal).size
            size = joining_bolt(thread=card.thread, grip=grip, washer=card.washer[1])
            plane = a.span(normal).low if first.inwards > 0 else a.span(normal).high
            datum = (a.span(axis).low, a.span(axis).high)
            line = FacingMembers(one, two, axis, normal, plane, at, datum, (), grip, size)
            yield replace(line, free=_free(first, second, line, card, hole, apart))


def _axis_of(
    first: FacingBench, second: FacingBench, a: Box, b: Box, third: str, washer: Fraction
) -> Fraction | None:
    """Where the axes of bolts are across both members: in the middle of a slot, or of the wood that they share."""
    mine, yours = a.span(third), b.span(third)
    slots = [span.middle for view, span in ((first, mine), (second, yours)) if view.slotted]
    low, high = max(mine.low, yours.low), min(mine.high, yours.high)
    at = slots[0] if slots else (low + high) / 2
    if any(abs(float(slot - at)) > OFF_LINE for slot in slots):
        return None
    half = washer / 2
    return at if low <= at - half and at + half <= high else None


def _free(
    first: FacingBench,
    second: FacingBench,
    line: FacingMembers,
    card: JoiningBolt,
    hole: Fraction,
    apart: Fraction,
) -> tuple[Interval, ...]:
    """Where along a line a bolt is in nothing's way, and can be put in and turned at both ends."""
    a, b = first.box(line.first).span(line.axis), second.box(line.second).span(line.axis)
    edge = float(card.washer[0]) / 2
    whole = (float(max(a.low, b.low)) + edge, float(min(a.high, b.high)) - edge)
    if whole[0] > whole[1]:
        return ()
    taken = [
        *_at_member(first, line.first, line, card, hole),
        *_at_member(second, line.second, line, card, hole),
        *(_between(first, second, line, card, apart) if apart else ()),
    ]
    return _less((whole,), taken)


def _at_member(
    view: FacingBench, part: Part, line: FacingMembers, card: JoiningBolt, hole: Fraction
) -> Iterator[Interval]:
    """What is in the way in one of both members, at its inner face, and on the way of the bolt and its socket."""
    span, out = view.box(part).span(view.normal), view.inwards
    whole = (float(span.low), float(span.high))
    inner = whole[1] if out > 0 else whole[0]
    wide, drill, deep = float(card.washer[0]) / 2, float(hole) / 2, float(line.size.end)
    reach = deep + max(REACH, float(line.size.length or line.size.shortest))
    others = [block for name, block in view.blocks if name != part.mark]
    staying = [block for name, block in view.blocks if name != part.mark and name in view.staying]
    cuts = [view.turned.block(taken_by(part, operation)) for operation in part.operations]
    for blocks, stretch, room in (
        (cuts, whole, drill + CLEAR),
        (others, whole, drill + LOOSE),
        (others, (inner, inner + out * deep), wide),
        (staying, (inner + out * deep, inner + out * reach), wide),
    ):
        yield from _hits(blocks, line, view.normal, stretch, room)


def _between(
    first: FacingBench, second: FacingBench, line: FacingMembers, card: JoiningBolt, apart: Fraction
) -> Iterator[Interval]:
    """What of either bench is where the tube around the bolt is, between the frames."""
    span = first.box(line.first).span(first.normal)
    outer = float(span.low if first.inwards > 0 else span.high)
    stretch = (outer, outer - first.inwards * float(apart))
    for view in (first, second):
        blocks = [block for _, block in view.blocks]
        yield from _hits(blocks, line, first.normal, stretch, float(card.sleeve) / 2)


def _hits(
    blocks: Iterable[Block], line: FacingMembers, normal: str, stretch: Interval, room: float
) -> Iterator[Interval]:
    """Where along a line a rod with so much `room` about its axis, over a stretch of the normal, meets blocks."""
    third = next(axis for axis in AXES if axis not in (normal, line.axis))
    n, t, u = AXES.index(normal), AXES.index(third), AXES.index(line.axis)
    low, high, at = min(stretch), max(stretch), float(line.at)
    for block in blocks:
        over = min(block[n + 3], high) - max(block[n], low)
        beside = min(block[t + 3], at + room) - max(block[t], at - room)
        if over > NOTHING and beside > NOTHING:
            yield block[u] - room, block[u + 3] + room


def _less(free: Iterable[Interval], taken: Iterable[Interval]) -> tuple[Interval, ...]:
    """Stretches without what is taken; a single point stays."""
    left = list(free)
    for low, high in taken:
        cut = []
        for a, b in left:
            if high <= a + NOTHING or low >= b - NOTHING:
                cut.append((a, b))
                continue
            cut += [(a, low)] if low >= a else []
            cut += [(high, b)] if high <= b else []
        left = cut
    return tuple(left)


def taken_by(part: Part, operation: Operation) -> Block:
    """What an operation takes out of a member, as the block about it; in an end, the whole section."""
    axis, end = face_axis(operation.face)
    spans = {each: (float(part.box.span(each).low), float(part.box.span(each).high)) for each in AXES}
    low, high = spans[axis]
    if operation.depth is not None:
        deep = float(operation.depth)
        spans[axis] = (high - deep, high) if end else (low, low + deep)
    if axis != part.along:
        third = next(each for each in AXES if each not in (axis, part.along))
        along, wide = (
            operation.size if isinstance(operation.size, tuple) else (operation.size, operation.size)
        )
        for each, at, size in ((part.along, operation.at[0], along), (third, operation.at[1], wide)):
            middle = part.box.span(each).low + at
            spans[each] = (float(middle - size / 2), float(middle + size / 2))
    return (
        spans["x"][0], spans["y"][0], spans["z"][0], spans["x"][1], spans["y"][1], spans["z"][1]
    )  # fmt: skip
