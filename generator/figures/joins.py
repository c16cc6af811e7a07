"""The benches that are bolted to this one, as rows; the story stick of each joint; what opens at a side."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from generator.bench.fillings import FILLINGS
from generator.bench.fillings.facts import Solved
from generator.bench.fillings.pulls import screw_name
from generator.bench.join_places import members_at
from generator.bench.layout import bay_of
from generator.bench.model import Bench
from generator.bench.neighbour import Neighbour
from generator.calculators.swing import Outline, Turning, rectangle
from generator.figures.rows.joins import FacingMember, JoinHole, JoinRow, Rectangle
from generator.figures.rows.setting_out import Mark, Stick


def joins(bench: Bench) -> tuple[JoinRow, ...]:
    """One row for each other bench."""
    return tuple(_row(bench, each) for each in bench.neighbours)


def _row(bench: Bench, each: Neighbour) -> JoinRow:
    axis = along(each)
    outline = outline_of(each)
    low = outline[0] if axis == "x" else outline[1]
    across = (outline[1], outline[3]) if axis == "x" else (outline[0], outline[2])
    own = bench.layout.depth if axis == "x" else bench.layout.length
    return JoinRow(
        side=each.join.side,
        other=each.name,
        other_side=each.other_side,
        same_spec=each.same_spec,
        checksum=each.other.loaded.checksum,
        thread=each.card.thread,
        hole=each.hole,
        washer=each.card.washer,
        apart=each.apart,
        gap=each.gap,
        step=each.step,
        begins=low,
        row_length=max(across[1], own) - min(across[0], Fraction(0)),
        datum=each.first,
        bolts=tuple(
            JoinHole(
                bolt.member,
                bolt.facing,
                bolt.at["xyz".index(axis)],
                bolt.at[2],
                bolt.along,
                bolt.grip,
                bolt.size.length,
                "" if bolt.size.length is None else screw_name(each.card.thread, bolt.size.length),
            )
            for bolt in sorted(each.bolts, key=lambda bolt: (bolt.at[2], bolt.at["xyz".index(axis)]))
        ),
        members=tuple(
            FacingMember(part.mark, (span.low, part.shoulders.z.low, span.high, part.shoulders.z.high))
            for part in members_at(bench, each.join.side)
            for span in (part.shoulders.span(axis),)
        ),
        outline=outline,
    )


def along(each: Neighbour) -> str:
    """The axis that its side runs along."""
    return "y" if each.join.side in ("left", "right") else "x"


def outline_of(each: Neighbour) -> Rectangle:
    """The other frame from above: X and Y, low, then high (mm)."""
    nothing, layout = Fraction(0), each.other.layout
    one = each.turned.point((nothing, nothing, nothing))
    two = each.turned.point((layout.length, layout.depth, nothing))
    return (min(one[0], two[0]), min(one[1], two[1]), max(one[0], two[0]), max(one[1], two[1]))


def join_sticks(bench: Bench) -> Iterator[Stick]:
    """One stick for each member of a joint, or for those that are marked alike."""
    for each in bench.neighbours:
        found: dict[tuple[str, Fraction, tuple[Fraction, ...]], list[str]] = {}
        for part in members_at(bench, each.join.side):
            places = tuple(sorted(bolt.along for bolt in each.bolts if bolt.member == part.mark))
            if places:
                found.setdefault((part.along, part.length, places), []).append(part.mark)
        for (axis, length, places), marks in found.items():
            yield Stick(
                f"Join {each.join.side} {', '.join(marks)}",
                axis,
                {"x": "left end", "y": "front end", "z": "foot"}[axis],
                length,
                (
                    Mark(Fraction(0), "end", "edge"),
                    *(Mark(at, "joining bolt", "centre") for at in places),
                    Mark(length, "end", "edge"),
                ),
                ", ".join(marks),
            )


@dataclass(frozen=True)
class ComesOut:
    """What opens out of a bench, from above: its name, the floor that it takes on its way, and how it turns."""

    name: str
    areas: tuple[Outline, ...]
    turning: Turning | None = None


#: A door is looked at each so many degrees of its way.
STEP = 5


def opened(bench: Solved) -> Iterator[ComesOut]:
    """All that is pulled out or turns, in the bench's own coordinates."""
    for kind in FILLINGS:
        for fact in kind.sliding(bench):
            zone, bay = bay_of(bench.layout, fact.item.bay)
            deep, out = float(bench.layout.depth), float(fact.travel)
            y = (-out, 0.0) if zone.opens == "front" else (deep, deep + out)
            area = rectangle((float(bay.x.low), float(bay.x.high)), y)
            yield ComesOut(fact.name, (area,))
        for swing in kind.swings(bench):
            angles = [*range(0, int(swing.turning.angle), STEP), swing.turning.angle]
            way = tuple(swing.turning.at(float(angle)) for angle in angles if angle)
            yield ComesOut(swing.name, way, swing.turning)
