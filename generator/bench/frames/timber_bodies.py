"""Timbers as solid bodies: shoulders, tenons, mortises, grooves and holes."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from itertools import combinations

from generator.bench.box_body import about, block_about, face_axis
from generator.bench.piece import POCKET, TENONS, Operation, Part
from generator.calculators.bodies import Block, Body, block_of, carve
from generator.geometry import AXES

#: Less than this is rounding (mm).
ROUNDING = 1e-6


def timber_body(part: Part) -> Body:
    """A timber between its shoulders, with its tenons, less all that is cut into it."""
    blocks: tuple[Block, ...] = (block_about(part.shoulders),)
    for operation in part.operations:
        if operation.op in TENONS:
            blocks += (_at_end(part, operation),)
    for operation in part.operations:
        if operation.op not in TENONS:
            blocks = carve(blocks, cut_away(part, operation))
    return Body(part.mark, part.mark, "timber", blocks)


def cut_away(part: Part, operation: Operation) -> Block:
    """What an operation takes out of a timber, in the frame of the bench (mm); of a hole, the square about it."""
    axis, _ = face_axis(operation.face)
    return _at_end(part, operation) if axis == part.along else _in_side(part, operation)


#: Holes of one joint that are meant to meet.
_OF_ONE = (
    {"washer recess", "bolt hole"}, {"barrel hole", "end bolt hole"}, {"screw recess", "screw hole"},
    {POCKET, "pocket pilot hole"},
)  # fmt: skip


def holes_that_meet(parts: Iterable[Part]) -> Iterator[str]:
    """Holes and mortises of different joints that meet in one timber, in words; grooves may run into a mortise."""
    for part in parts:
        if not part.is_bar:
            continue
        cuts = [(each, cut_away(part, each)) for each in part.operations if each.op not in TENONS]
        for (one, first), (other, second) in combinations(cuts, 2):
            ops = {one.op, other.op}
            if (
                ops not in _OF_ONE
                and not (_GROOVE in ops and not ops & _NOT_IN_GROOVES)
                and meet(first, second)
            ):
                yield f"{part.mark}: {one.op} ({one.purpose}) and {other.op} ({other.purpose})"


_GROOVE = "panel groove"
#: What a sloping screw takes of a timber. Neither it nor its pocket can be in a groove: a panel is there.
WAY = "pocket screw"
_NOT_IN_GROOVES = frozenset({POCKET, WAY})


def meet(one: Block, other: Block) -> bool:
    """Whether two blocks have some of their inside in common."""
    return all(min(one[i + 3], other[i + 3]) - max(one[i], other[i]) > ROUNDING for i in range(3))


def _sides(part: Part) -> tuple[str, str]:
    first, second = (axis for axis in AXES if axis != part.along)
    return first, second


def _at_end(part: Part, operation: Operation) -> Block:
    """A tenon, or a hole that goes into an end. `size` is along the two other axes, `at` up or across."""
    axis, end = face_axis(operation.face)
    span, depth = part.box.span(axis), float(operation.depth or 0)
    low, high = float(span.low), float(span.high)
    spans = {axis: (high - depth, high) if end else (low, low + depth)}
    first, second = _sides(part)
    sizes = operation.size if isinstance(operation.size, tuple) else (operation.size, operation.size)
    for each, size in zip((first, second), sizes, strict=True):
        middle = part.box.span(each).middle + operation.aside
        if each == part.across:
            middle = part.box.span(each).low + operation.at[1]
        spans[each] = about(float(middle), float(size) / 2)
    return block_of([spans[each] for each in AXES])


def _in_side(part: Part, operation: Operation) -> Block:
    """A mortise, groove or hole in a side. `size` is along the timber, then across it."""
    axis, end = face_axis(operation.face)
    span = part.box.span(axis)
    low, high = float(span.low), float(span.high)
    if operation.depth is not None:
        depth = float(operation.depth)
        low, high = (high - depth, high) if end else (low, low + depth)
    along, wide = operation.size if isinstance(operation.size, tuple) else (operation.size, operation.size)
    other = next(each for each in AXES if each not in (axis, part.along))
    spans = {
        axis: (low, high),
        part.along: about(float(part.box.span(part.along).low + operation.at[0]), float(along) / 2),
        other: about(float(part.box.span(other).low + operation.at[1]), float(wide) / 2),
    }
    return block_of([spans[each] for each in AXES])
