"""The whole bench as solid bodies: every placed part, the fastener of every joint, and what the fillings bring."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from generator.bench.box_body import block_about, face_axis
from generator.bench.fasteners import fastener_body, nut_body, nut_face
from generator.bench.fillings import FILLINGS
from generator.bench.frames import frame_kind
from generator.bench.frames.trays import HALF_LAP
from generator.bench.mitres import mitre_voids
from generator.bench.model import Bench, Operation, Part
from generator.bench.place import Place
from generator.calculators.bodies import Block, Body, block_of, carve
from generator.geometry import AXES, Box, Span
from generator.spec.load import LoadedSpec

#: A cut goes on this far beyond a board, so that no skin is left (mm).
BEYOND = 1.0


def solid_bodies(bench: Bench) -> tuple[Body, ...]:
    """Bodies in the order of the parts, then the fasteners, what fills the bays, what the bench stands on."""
    return (
        *part_bodies(bench.loaded, bench.parts),
        *fastener_bodies(bench),
        *(body for kind in FILLINGS for body in kind.bodies(bench)),
        *bench.stand.bodies,
    )


def part_bodies(loaded: LoadedSpec, parts: Iterable[Part]) -> tuple[Body, ...]:
    """One body a part, named by its mark."""
    parts = tuple(parts)
    frame, items = frame_kind(loaded.spec), _items(parts)
    bodies = []
    for part in parts:
        if part.is_bar:
            bodies.append(frame.body(loaded.goods, part))
        elif part.kind == "angle":
            bodies.append(Body(part.mark, part.mark, "trim", _angle(part)))
        else:
            kind = {"strip": "strip"}.get(part.kind, "plate" if part.metal else "board")
            bodies.append(Body(part.mark, part.mark, kind, _board(part, items.get(part.place))))
    return tuple(bodies)


def fastener_bodies(bench: Bench) -> tuple[Body, ...]:
    """What holds each joint, named by the member, its end and what it is; glue has no body."""
    return tuple(_fasteners(bench))


def _fasteners(bench: Bench) -> Iterator[Body]:
    by_mark = {part.mark: part for part in bench.parts}
    for joint in bench.joints:
        member, crossing, fixing = (
            by_mark[joint.member],
            by_mark[joint.crossing],
            bench.joinings[joint.fastener],
        )
        if fixing.solids:
            yield fastener_body(joint, member, crossing, fixing)
        if fixing.cross is not None:
            yield nut_body(joint, member, crossing, fixing, face_axis(nut_face(member))[0])


def _thin(part: Part) -> str:
    return next(axis for axis in AXES if axis not in (part.along, part.across))


def board_outline(part: Part) -> tuple[Block, ...]:
    """A board at its full thickness, less notches and cut-outs. Bolt and dog holes stay closed."""
    return _cut((block_about(part.box),), part)


def _cut(blocks: tuple[Block, ...], part: Part) -> tuple[Block, ...]:
    for notch in part.notches:
        blocks = carve(blocks, _corner_cut(part, notch.corner.split(), notch.along, notch.across))
    for operation in part.operations:
        if operation.op in ("cut-out", "port"):
            blocks = carve(blocks, _opening(part, operation))
    return blocks


def _board(part: Part, item: Box | None) -> tuple[Block, ...]:
    """Body and tongues of a board, with its cuts, the grooves in what its item looks into, and what is let in above."""
    blocks = _cut(_layers(part), part)
    for void in mitre_voids(part) if part.mitres else ():
        blocks = carve(blocks, void)
    for operation in part.operations:
        if operation.op == "groove" and item is not None:
            blocks = carve(blocks, _groove(part, operation, item))
        elif operation.face == "top" and operation.depth is not None:
            blocks = carve(blocks, _pocket(part, operation, float(operation.depth)))
        elif operation.op == HALF_LAP:
            block, deep = _opening(part, operation), float(operation.depth or 0)
            blocks = carve(blocks, (*block[:5], block[2] + BEYOND + deep))
    return blocks


def _layers(part: Part) -> tuple[Block, ...]:
    """The tongue's layer over the whole outline, and on either side of it the body within its rabbets."""
    whole, fit = block_about(part.box), part.fit
    if fit is None or not part.tongues or not fit.needs_rabbet:
        return (whole,)
    thin, rabbet = AXES.index(_thin(part)), float(fit.rabbet_depth)
    inner = list(whole)
    for edge in part.tongues:
        axis, end = face_axis(edge)
        index = AXES.index(axis) + 3 * end
        inner[index] += float(fit.rabbet_length) * (-1 if end else 1)
    low, high = whole[thin] + rabbet, whole[thin + 3] - rabbet
    layers = ((whole, low, high), (inner, whole[thin], low), (inner, high, whole[thin + 3]))
    return tuple(_between(shape, thin, a, b) for shape, a, b in layers)


def _between(block: Iterable[float], axis: int, low: float, high: float) -> Block:
    spans = list(block)
    spans[axis], spans[axis + 3] = low, high
    return (spans[0], spans[1], spans[2], spans[3], spans[4], spans[5])


def _corner_cut(part: Part, corner: list[str], along: Fraction, across: Fraction) -> Block:
    spans = _through(part)
    for edge in corner:
        axis, end = face_axis(edge)
        size, span = float(along if axis == part.along else across), part.box.span(axis)
        low, high = float(span.low), float(span.high)
        spans[axis] = (high - size, high + BEYOND) if end else (low - BEYOND, low + size)
    return block_of([spans[axis] for axis in AXES])


def _through(part: Part) -> dict[str, tuple[float, float]]:
    spans = {axis: (float(part.box.span(axis).low), float(part.box.span(axis).high)) for axis in AXES}
    thin = _thin(part)
    spans[thin] = (spans[thin][0] - BEYOND, spans[thin][1] + BEYOND)
    return spans


def _opening(part: Part, operation: Operation) -> Block:
    spans = _through(part)
    size = operation.size if isinstance(operation.size, tuple) else (operation.size, operation.size)
    for axis, at, extent in zip((part.along, part.across), operation.at, size, strict=True):
        middle = float(part.box.span(axis).low + at)
        spans[axis] = (middle - float(extent) / 2, middle + float(extent) / 2)
    return block_of([spans[axis] for axis in AXES])


def _pocket(part: Part, operation: Operation, depth: float) -> Block:
    """A recess or slot in the upper face."""
    block = _opening(part, operation)
    return (*block[:2], block[5] - BEYOND - depth, *block[3:])


def _groove(part: Part, operation: Operation, item: Box) -> Block:
    """A groove in the face that looks into the item that the piece belongs to."""
    spans, thin = _through(part), _thin(part)
    assert isinstance(operation.size, tuple) and operation.depth is not None
    for axis, at, size in zip((part.along, part.across), operation.at, operation.size, strict=True):
        middle = part.box.span(axis).low + at
        spans[axis] = (float(middle - size / 2), float(middle + size / 2))
    low, high, depth = *spans[thin], float(operation.depth)
    looks_up = part.box.span(thin).middle < item.span(thin).middle
    spans[thin] = (high - BEYOND - depth, high) if looks_up else (low, low + BEYOND + depth)
    return block_of([spans[axis] for axis in AXES])


def _items(parts: Iterable[Part]) -> dict[Place, Box]:
    """The outside of each item of a stack by its place."""
    found: dict[Place, Box] = {}
    for part in parts:
        if part.place.item is not None and not part.place.wall:
            box = found.get(part.place, part.box)
            found[part.place] = Box(*(_union(box.span(axis), part.box.span(axis)) for axis in AXES))
    return found


def _union(one: Span, other: Span) -> Span:
    return Span(min(one.low, other.low), max(one.high, other.high))


def _angle(part: Part) -> tuple[Block, ...]:
    """The tray's trim: one leg under the sheet, the other upright before its edge."""
    whole, thickness = block_about(part.box), float(part.thickness)
    upright = list(whole)
    if part.place.side == "front":
        upright[4] = whole[1] + thickness
    else:
        upright[1] = whole[4] - thickness
    seam = whole[2] + thickness
    return (_between(whole, 2, whole[2], seam), _between(upright, 2, seam, whole[5]))
