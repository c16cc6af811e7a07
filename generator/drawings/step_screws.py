"""Screws of a step that no joint of the frame has: where one of each goes in, through what, and with which tool."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import product
from math import inf

from generator.bench.fillings.screw_rules import FIXED_IN_BAY, HALVES
from generator.calculators.bodies import Body
from generator.calculators.fasteners import THREADS
from generator.calculators.wood_screws import SHANKS
from generator.drawings.mark_runs import by_number
from generator.drawings.step_arrows import bounds
from generator.figures.model import Figures
from generator.figures.rows.assembly import Fixing, ScrewUse, Step
from generator.units.format import format_inch

Place = tuple[float, ...]
Block = Sequence[float]
#: A size as it is sold, somewhere in a text: thread or number, then length.
SIZE = re.compile(
    r"(?<![\w.])(#\d+|M\d+|\d+/\d+-\d+|\d+-\d+|\d+(?:\.\d+)?) ?x ?(\d+ \d+/\d+|\d+/\d+|\d+(?:\.\d+)?)"
)
#: A screw of which no size is written (mm): shank and length. Heads are so many times as wide as the shank.
USUAL, HEAD = (4.0, 25.0), 2.0
#: Faces nearer than this touch (mm); a screw needs so much of both (mm).
TOUCH, LEAST = 0.6, 4.0
#: Shanks nearer than this are one size (mm); an inch (mm).
WOOD = ("board", "strip")
ASIDE = 0.25
SAME, INCH = 0.01, Fraction(254, 10)
#: What a plate has for what it carries.
TAPPED = "tapped hole"
#: Thinner than this is metal (mm), and of what is behind it no more counts.
METAL, FAR_OFF = 3.0, 20.0


@dataclass(frozen=True)
class PlacedScrew:
    """One screw: its head and its point (mm), shank and head's width, how many of its item, and the tool."""

    fixing: Fixing
    head: Place
    way: Place
    length: float
    shank: float
    bolt: bool
    joins: tuple[str, ...] = ()
    """The pieces that it is in, by name."""
    sold: str = ""
    """Its size as a shop has it."""
    pocket: float = 0.0
    """How wide (mm) the pocket is that it sits in; nothing without one."""

    @property
    def point(self) -> Place:
        """Where it ends."""
        return tuple(at + self.length * along for at, along in zip(self.head, self.way, strict=True))


def size_of(figures: Figures, item: str) -> tuple[float, float, str]:
    """Shank and length (mm) of what is bought under a name, and the size in the words of a shop."""
    text = next((row.size for row in figures.hardware if row.item == item), "")
    found = SIZE.search(text)
    if not found:
        return (*USUAL, "")
    thread, length = found.groups()
    inch = 25.4 if "-" in thread or "#" in thread else 1.0
    shank = THREADS[thread].diameter if thread in THREADS else SHANKS.get(thread, Fraction(4))
    long = inch * float(sum(Fraction(each) for each in length.split()))
    return float(shank), long, f"{thread} × {length}"


def driven(figures: Figures, fixing: Fixing, head: Place, way: Place, *joins: str) -> PlacedScrew:
    """A screw of an item in its place, in the pieces that it joins."""
    shank, length, sold = size_of(figures, fixing.item)
    bolt = "key" in fixing.tool or "wrench" in fixing.tool
    return PlacedScrew(fixing, head, way, length, shank, bolt, joins, sold)


def in_brackets(
    figures: Figures, step: Step, bodies: Mapping[str, Body]
) -> Iterator[tuple[Body, tuple[PlacedScrew, ...], int]]:
    """Each bracket's screws: into its member, and up into the top; the first fixing is that into the member."""
    own = [body for body in figures.assembly.brackets if body.name in bodies]
    tooled = [each for each in step.fixings if each.tool and own and each.count % len(own) == 0]
    sides, ups = tooled[:1], tooled[1:2]
    for angle in own:
        bar = bodies.get(angle.owner)
        if bar is None:
            continue
        leg, under = angle.blocks
        axis = min(range(2), key=lambda i: leg[i + 3] - leg[i])
        sign = 1 if leg[axis] > bar.bounds[axis] else -1
        found = []
        if sides:
            head = list(_middle(leg))
            head[axis] = leg[axis + 3] if sign > 0 else leg[axis]
            head[2] = (bar.bounds[2] + bar.bounds[5]) / 2
            way = [0.0, 0.0, 0.0]
            way[axis] = -float(sign)
            found.append(driven(figures, sides[0], tuple(head), tuple(way), angle.name))
        if ups:
            head = list(_middle(under))
            head[2] = under[2]
            found.append(driven(figures, ups[0], tuple(head), (0.0, 0.0, 1.0), angle.name))
        if found:
            yield angle, tuple(found), 1 - axis


def from_plates(
    figures: Figures, step: Step, bodies: Mapping[str, Body]
) -> Iterator[tuple[PlacedScrew, int, str]]:
    """Bolts of what the bench stands on, up into the bars."""
    plates = {mark for motion in step.motions for mark in motion.marks}
    bolts = figures.stand.facts.bolts
    fixing = next((each for each in step.fixings if each.count == len(bolts) and each.tool), None)
    for bolt in bolts if fixing else ():
        plate, bar = bodies.get(bolt.plate), bodies.get(bolt.member)
        if bolt.plate not in plates or plate is None or bar is None:
            continue
        axis = max(range(3), key=lambda i: bar.bounds[i + 3] - bar.bounds[i])
        head = (float(bolt.at[0]), float(bolt.at[1]), plate.bounds[2])
        assert fixing is not None
        up = (0.0, 0.0, 1.0)
        yield driven(figures, fixing, head, up, bolt.plate, bolt.member), axis, f"up into {bolt.member}"


def into_plates(
    figures: Figures, step: Step, bodies: Mapping[str, Body]
) -> Iterator[tuple[PlacedScrew, int, str]]:
    """Screws of what a plate carries, up into the plate's tapped holes of their thread."""
    moved = {mark for motion in step.motions for mark in motion.marks}
    rows = {mark: row for row in figures.parts for mark in row.marks}
    holes = [
        (picture, hole)
        for picture in figures.stand.facts.pictures
        if picture.on in moved and picture.on in rows
        for hole in rows[picture.on].operations
        if hole.op == TAPPED
    ]
    for fixing in (each for each in step.fixings if each.tool):
        thread = size_of(figures, fixing.item)[2].partition(" ")[0]
        own = [(picture, hole) for picture, hole in holes if hole.thread == thread]
        for picture, hole in own if len(own) == fixing.count else ():
            plate = bodies.get(picture.on)
            if plate is None:
                continue
            x, y = (plate.bounds[i] + float(hole.at[i]) for i in range(2))
            flange = (
                block[2]
                for block in picture.blocks
                if block[0] < x < block[3]
                and block[1] < y < block[4]
                and abs(block[5] - plate.bounds[2]) < TOUCH
            )
            head = next(flange, plate.bounds[2])
            one = driven(figures, fixing, (x, y, head), (0.0, 0.0, 1.0), picture.on)
            yield one, 1, f"up into the tapped holes of {picture.on}"


@dataclass(frozen=True)
class _Touching:
    """A piece that is screwed on: the `outer` of two that touch, in which face, how thick both are behind it (mm)."""

    outer: Body
    inner: Body
    axis: int
    sign: int
    room: tuple[float, ...]
    through: float
    into: float
    others: tuple[str, ...] = ()
    """Further pieces of the same kind behind the same face."""

    def off(self, use: ScrewUse) -> float:
        """How badly a screw suits: nothing where both thicknesses are those it was chosen for."""
        if use.through < METAL and self.outer.kind == "board" and self.through > METAL:
            # a leaf or plate is screwed on, and the board only lies against something
            return inf
        thin = METAL if use.through < METAL else abs(use.through - self.through)
        return thin + min(abs(use.into - self.into), FAR_OFF)


def through_contact(
    figures: Figures, fixings: Sequence[Fixing], moved: Sequence[Body], there: Sequence[Body]
) -> Iterator[tuple[PlacedScrew, int, str]]:
    """Of what is screwed on where it touches: one screw a piece, of the size that was chosen for these thicknesses."""
    touching = list(_best_of_each(list(_touching(moved, there)), fixings))
    families: dict[int, list[_Touching]] = {}
    for each in touching:
        families.setdefault(each.axis if len(fixings) > 1 else 0, []).append(each)
    ranked = sorted(
        (own[0].off(use), family, number)
        for family, own in families.items()
        for number, fixing in enumerate(fixings)
        for use in fixing.uses
    )
    chosen: dict[int, int] = {}
    for off, family, number in ranked:
        if off < FAR_OFF + METAL + TOUCH and family not in chosen and number not in chosen.values():
            chosen[family] = number
    for family, own in families.items():
        for each in own if family in chosen else ():
            fixing = fixings[chosen[family]]
            use = min(fixing.uses, key=each.off)
            if each.off(use) == inf:
                continue
            head, way = list(_middle(each.room)), [0.0, 0.0, 0.0]
            head[each.axis] -= each.sign * use.through
            way[each.axis] = float(each.sign)
            across = max(
                (i for i in range(3) if i != each.axis), key=lambda i: each.room[i + 3] - each.room[i]
            )
            joins = each.outer.name, each.inner.name
            # nearer to one end, for what moves has its arrow in the middle
            head[across] = each.room[across] + ASIDE * (each.room[across + 3] - each.room[across])
            one = PlacedScrew(
                _counted(fixing, use),
                tuple(head),
                tuple(way),
                use.length,
                use.shank,
                False,
                joins,
                as_sold(use.shank, use.length),
            )
            behind = ", ".join(sorted((each.inner.name, *each.others), key=by_number))
            on_a_box = each.outer.kind == FIXED_IN_BAY and each.inner in moved
            what = f"{HALVES[0]} of " if on_a_box else ""
            yield one, across, f"through {what}{each.outer.name} into {behind}"


def _best_of_each(touching: Sequence[_Touching], fixings: Sequence[Fixing]) -> Iterator[_Touching]:
    """Of an outer piece only where its screws suit best: a groove's bottom is not screwed."""
    off = [
        min((each.off(use) for fixing in fixings for use in fixing.uses), default=inf) for each in touching
    ]
    for each, own in zip(touching, off, strict=True):
        others = (far for other, far in zip(touching, off, strict=True) if other.outer is each.outer)
        if own <= min(others) + TOUCH:
            yield each


def _counted(fixing: Fixing, use: ScrewUse) -> Fixing:
    """Of screws that a step takes for several uses only those of one."""
    if fixing.count != sum(each.count for each in fixing.uses):
        return fixing
    alike = (each for each in fixing.uses if replace(each, count=use.count) == use)
    return replace(fixing, count=sum(each.count for each in alike))


def as_sold(shank: float, length: float) -> str:
    """`4 × 25`, `#8 × 1`; nothing for a size that no shop has."""
    eighths = Fraction(length / float(INCH)).limit_denominator(8)
    in_inches = abs(float(eighths * INCH) - length) < SAME
    sizes = (name for name, own in SHANKS.items() if abs(float(own) - shank) < SAME)
    size = next((name for name in sizes if name.startswith("#") == in_inches), "")
    long = format_inch(eighths * INCH) if in_inches else f"{length:g}"
    return f"{size} × {long}" if size else ""


def _touching(moved: Sequence[Body], there: Sequence[Body]) -> Iterator[_Touching]:
    """Each piece with what it touches most of all that is there before it."""
    before = list(there)
    for body in moved:
        found = [(each, *_contact(body, each)) for each in before]
        before.append(body)
        best = max((each for each in found if each[2]), key=lambda each: each[3], default=None)
        if best is None:
            continue
        other, axis, room, _ = best
        thick = {each.name: _thick(each, room, axis) for each in (body, other)}
        # what is screwed on lies outside; a board that is thicker gets its screws from behind
        outer = body if body.kind != "board" else min((body, other), key=lambda each: thick[each.name])
        if other.kind == FIXED_IN_BAY:
            # half of it is screwed to what hangs on it
            outer = other
        inner = other if outer is body else body
        sign = 1 if _at(outer, room, axis) < _at(inner, room, axis) else -1
        into = thick[inner.name] + _beyond(inner, room, axis, sign, before)
        alike = (
            each.name
            for each, along, other_room, _ in found
            if outer is body
            and other_room
            and each is not inner
            and (each.kind, along) == (inner.kind, axis)
            and abs(other_room[axis] - room[axis]) < TOUCH
            and abs(_thick(each, other_room, axis) - thick[inner.name]) < TOUCH
        )
        yield _Touching(outer, inner, axis, sign, room, thick[outer.name], into, tuple(alike))


def _beyond(inner: Body, room: Block, axis: int, sign: int, bodies: Sequence[Body]) -> float:
    """How much wood touches a piece at its far face (mm): a screw through the piece may hold on that too."""
    own = _behind(inner, room, axis)
    far = own[axis + 3] if sign > 0 else own[axis]
    for body in bodies:
        if body is not inner and body.kind in WOOD and _overlaps(body, room, axis):
            low, high = (_behind(body, room, axis)[i] for i in (axis, axis + 3))
            if abs((low if sign > 0 else high) - far) <= TOUCH:
                return high - low
    return 0.0


def _overlaps(body: Body, room: Block, axis: int) -> bool:
    return any(
        all(block[i] < room[i + 3] and room[i] < block[i + 3] for i in range(3) if i != axis)
        for block in body.blocks
    )


def _contact(one: Body, other: Body) -> tuple[int, tuple[float, ...], float]:
    """The axis along which two bodies meet, the room of the largest face that they share, and its area."""
    best: tuple[int, tuple[float, ...], float] = (0, (), 0.0)
    if not _may_meet(one.bounds, other.bounds):
        return best
    own, others = (
        [block for block in body.blocks if _may_meet(block, rest.bounds)]
        for body, rest in ((one, other), (other, one))
    )
    for a, b in product(own, others):
        if not _may_meet(a, b):
            continue
        low = [max(a[i], b[i]) for i in range(3)]
        high = [min(a[i + 3], b[i + 3]) for i in range(3)]
        for axis in range(3):
            if abs(high[axis] - low[axis]) > TOUCH:
                continue
            sizes = [high[i] - low[i] for i in range(3) if i != axis]
            if min(sizes) >= LEAST and sizes[0] * sizes[1] > best[2]:
                best = (axis, (*low, *high), sizes[0] * sizes[1])
    return best


def _may_meet(a: Block, b: Block) -> bool:
    """Whether two blocks, or what is within them, are near enough to share a face."""
    return (
        min(a[3], b[3]) - max(a[0], b[0]) >= -TOUCH
        and min(a[4], b[4]) - max(a[1], b[1]) >= -TOUCH
        and min(a[5], b[5]) - max(a[2], b[2]) >= -TOUCH
    )


def _thick(body: Body, room: Block, axis: int) -> float:
    """How thick a body is behind a face of it (mm)."""
    own = _behind(body, room, axis)
    return own[axis + 3] - own[axis]


def _at(body: Body, room: Block, axis: int) -> float:
    own = _behind(body, room, axis)
    return (own[axis] + own[axis + 3]) / 2


def _behind(body: Body, room: Block, axis: int) -> tuple[float, ...]:
    """What of a body is at a face of it, all blocks that follow each other."""
    beside = [
        block
        for block in body.blocks
        if all(block[i] < room[i + 3] and room[i] < block[i + 3] for i in range(3) if i != axis)
    ]
    return bounds(beside or body.blocks)


def _middle(block: Block) -> Place:
    return tuple((block[i] + block[i + 3]) / 2 for i in range(3))
