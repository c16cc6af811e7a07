"""Pieces as the step pictures show them: bars and boards as blocks, seated ones without what a slot hides."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.box_body import block_about, face_axis
from generator.bench.model import Bench, Part
from generator.bench.role import Role
from generator.bench.solids import board_outline
from generator.bench.tops.board import DOG_HOLE
from generator.calculators.bodies import Block, Body
from generator.figures.rows.assembly import Shape
from generator.geometry import AXES, FACES

#: A leg of a bracket without a card is no longer than this (mm). Common practice, no source.
MOST_LEG = 40.0
#: What a drawer's bottom hides in its grooves is not shown (mm).
HIDDEN_BOTTOM = 6.0


def shapes(bench: Bench, bodies: tuple[Body, ...]) -> tuple[Shape, ...]:
    """One shape a body that can be seen; screws and nuts are too small."""
    parts = {part.mark: part for part in bench.parts}
    carved = bench.goods.profile is None
    return tuple(_shape(parts.get(body.name), body, carved) for body in bodies if body.kind != "screw")


def _shape(part: Part | None, body: Body, carved: bool) -> Shape:
    if part is None:
        # a clip in its slot is out of sight; its shank's end is in the bore
        seated = () if body.kind == "clip" else body.blocks
        return Shape(body.name, body.kind, seated, body.blocks[1:] if body.kind == "clip" else body.blocks)
    if part.is_bar:
        whole: tuple[Block, ...] = (block_about(part.shoulders),)
        # in its place a timber's tenons are out of sight; by itself it shows all that is cut into it
        return Shape(part.mark, body.kind, whole, body.blocks if carved else whole)
    if body.kind == "trim":
        return Shape(part.mark, "trim", body.blocks, body.blocks)
    if body.kind == "strip" or not (part.notches or part.tongues or part.operations):
        whole = (block_about(part.box),)
    else:
        whole = board_outline(part)
    if part.role is Role.DRAWER_BOTTOM:
        return Shape(part.mark, body.kind, (_shrunk(part, HIDDEN_BOTTOM),), whole)
    seated = tuple(block for block in (_clipped(block, _between_bars(part)) for block in whole) if block)
    return Shape(part.mark, body.kind, seated, whole, tuple(_holes(part)))


def _holes(part: Part) -> Iterator[tuple[float, float, float, float]]:
    """The holes that a top is known by; those of screws would only be dirt."""
    for act in part.operations:
        if act.purpose == DOG_HOLE and isinstance(act.size, Fraction):
            at = {part.along: act.at[0], part.across: act.at[1]}
            x, y = (part.box.span(axis).low + at[axis] for axis in ("x", "y"))
            yield (float(x), float(y), float(part.box.span("z").high), float(act.size))


def brackets(bench: Bench) -> Iterator[Body]:
    """The brackets below the top, each a leg on its bar and one under the top; without a card as large as their bar."""
    card, thick = bench.goods.bracket, float(bench.goods.bracket_thickness)
    by_mark = {part.mark: part for part in bench.parts}
    for number, each in enumerate(bench.brackets, 1):
        bar = block_about(by_mark[each.bar].box)
        axis, end = face_axis(each.face)
        across, sign = AXES.index(axis), 1 if end else -1
        leg = float(card.size[1]) if card else min(bar[across + 3] - bar[across], MOST_LEG)
        wide = float(card.size[0]) if card else leg
        face, middle = float(each.at[across]), float(each.at[1 - across])
        low, high = [0.0, 0.0, bar[5] - leg], [0.0, 0.0, bar[5]]
        low[1 - across], high[1 - across] = middle - wide / 2, middle + wide / 2
        legs = []
        for out, floor in ((thick, bar[5] - leg), (leg, bar[5] - thick)):
            low[across], high[across] = sorted((face, face + sign * out))
            low[2] = floor
            legs.append((*low, *high))
        yield Body(f"bracket {number}", each.bar, "plate", tuple(legs))  # type: ignore[arg-type]


def _between_bars(part: Part) -> Block:
    """The part of a captured board that shows between its bars."""
    shown = list(block_about(part.box))
    for edge, tongue in part.tongues.items():
        axis = next(axis for axis, faces in FACES.items() if edge in faces)
        end = FACES[axis].index(edge)
        shown[AXES.index(axis) + 3 * end] += float(tongue) * (-1 if end else 1)
    return (shown[0], shown[1], shown[2], shown[3], shown[4], shown[5])


def _clipped(block: Block, window: Block) -> Block | None:
    low = [max(block[axis], window[axis]) for axis in range(3)]
    high = [min(block[axis], window[axis]) for axis in range(3, 6)]
    if any(b - a <= 0 for a, b in zip(low, high, strict=True)):
        return None
    return (low[0], low[1], low[2], high[0], high[1], high[2])


def _shrunk(part: Part, by: float) -> Block:
    x0, y0, z0, x1, y1, z1 = block_about(part.box)
    return (x0 + by, y0 + by, z0, x1 - by, y1 - by, z1)
