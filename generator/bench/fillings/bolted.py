"""Brackets that bolts hold in the slots of bars: their bodies with the heads, their nuts, the ways of the keys."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.bench.box_body import about, face_axis
from generator.bench.fillings.facts import SlotBolt, Solved
from generator.bench.fillings.pulls import screw_name
from generator.bench.frames.slotted import slotted
from generator.bench.piece import Part
from generator.calculators.bodies import Block, Body, block_of
from generator.calculators.brackets import nearest_clear
from generator.calculators.collisions import Direction
from generator.calculators.fasteners import (
    ACROSS_CORNERS,
    CAP_HEADS,
    CAP_KEYS,
    THREADS,
    WASHERS,
    BoltWindow,
    bolt_window,
    stock_lengths,
)
from generator.findings import Steps
from generator.geometry import AXES, Span
from generator.spec.chosen import ChosenGoods

#: Placeholder for the key of the cap screws that go into slot nuts.
NUT_KEY = "key of the nuts' screws"
#: Room that a key needs beyond the head of its bolt (mm): the long arm of a 6 mm key is 90 (ISO 2936, from memory).
KEY_REACH = 80.0


@dataclass(frozen=True)
class BoltWay:
    """The straight way of a key to a bolt of the body `name`, that is there with the bars (their marks)."""

    name: str
    bars: tuple[str, ...]
    way: Block
    path: Steps


@dataclass(frozen=True)
class Bolted:
    """A bracket, its bolts with their heads in its body, the way out of its place, and the ways of the keys."""

    body: Body
    out: Direction
    bolts: tuple[SlotBolt, ...]
    ways: tuple[Block, ...]


class Builder:
    """Collects the blocks, bolts and keys of one bracket of a bench."""

    def __init__(self, bench: Solved, use: str, thickness: Fraction) -> None:
        self.thread = bench.goods.slot_nut.thread
        self.use, self.thickness = use, thickness
        self.blocks: list[Block] = []
        self.bolts: list[SlotBolt] = []
        self.ways: list[Block] = []

    def plate(self, **spans: tuple[Fraction, Fraction]) -> None:
        """A flat piece of the bracket, by its extent along X, Y and Z in either order (mm)."""
        self.blocks.append(block_of([(float(min(spans[axis])), float(max(spans[axis]))) for axis in AXES]))

    def bolt(self, bar: Part, face: str, at: Fraction) -> None:
        """A cap screw with its washer through the bracket on a face of a bar, `at` along the bar's axis (mm)."""
        axis, end = face_axis(face)
        across = next(each for each in AXES if each not in (axis, bar.along))
        sign = 1 if end else -1
        surface = bar.box.span(axis).high if end else bar.box.span(axis).low
        foot = float(surface + sign * self.thickness)
        head = foot + sign * float(WASHERS[self.thread].thickness + THREADS[self.thread].diameter)
        middle = float(bar.box.span(across).middle)

        def block(low: float, high: float, size: float) -> Block:
            spans = {
                axis: (min(low, high), max(low, high)),
                bar.along: about(float(at), size / 2),
                across: about(middle, size / 2),
            }
            return block_of([spans[each] for each in AXES])

        self.bolts.append(SlotBolt(bar.mark, face, at, self.use))
        self.blocks.append(block(foot, head, float(CAP_HEADS[self.thread])))
        key = float(CAP_KEYS[self.thread]) * ACROSS_CORNERS
        self.ways.append(block(head, head + sign * KEY_REACH, key))

    def built(self, name: str, owner: str, out: Direction) -> Bolted:
        """The bracket."""
        body = Body(name, owner, "plate", tuple(self.blocks))
        return Bolted(body, out, tuple(self.bolts), tuple(self.ways))


def clear_place(bar: Part, face: str, at: Fraction, half: Fraction) -> Fraction:
    """The place nearest to `at` where a bracket is clear of all that is cut into a face of a bar (mm)."""
    low = bar.box.span(bar.along).low
    cuts = []
    for operation in bar.operations:
        if operation.face == face and operation.op != "tap":
            size = operation.size[0] if isinstance(operation.size, tuple) else operation.size
            middle = low + operation.at[0]
            cuts.append(Span(middle - size / 2, middle + size / 2))
    return nearest_clear(at, half, cuts, bar.box.span(bar.along))


def bolt_name(goods: ChosenGoods, thickness: Fraction) -> str:
    """The bolt as it is sold."""
    thread, length = goods.slot_nut.thread, window(goods, thickness).length
    return f"{thread}, no stock length fits" if length is None else screw_name(thread, length)


def window(goods: ChosenGoods, thickness: Fraction) -> BoltWindow:
    """Cap screw through washer and bracket into the slot nut."""
    bar, nut = slotted(goods), goods.slot_nut
    return bolt_window(
        grip=thickness + WASHERS[nut.thread].thickness, lip=bar.slot.lip, nut=nut.height,
        slot_depth=bar.slot.depth, lengths=stock_lengths(nut.thread),
    )  # fmt: skip


def bolt_ways(found: Sequence[Bolted], path: Steps) -> Iterator[BoltWay]:
    """The ways of the keys to all bolts of some brackets."""
    for each in found:
        bars = tuple(dict.fromkeys(bolt.bar for bolt in each.bolts))
        yield from (BoltWay(each.body.name, bars, way, path) for way in each.ways)
