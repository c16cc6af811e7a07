"""The boards of a top: side by side, and in layers whose joints are staggered."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise

from generator.bench.piece import Operation, Part
from generator.bench.place import Place
from generator.bench.regions import Region
from generator.bench.role import Role
from generator.calculators.spacing import divide, starts
from generator.codes import Code
from generator.findings import Finding
from generator.geometry import Box, Span
from generator.provenance import constant
from generator.spec.load import LoadedSpec
from generator.spec.tops import Top

#: The gap at a dry joint (mm). Common practice, no source.
DRY = constant(1, "gap between two boards that are not glued")
GLUED = constant(0, "gap between two boards that are glued")
MOST_LAYERS = 4


@dataclass(frozen=True)
class _Slice:
    """One board of one layer: where it is across the boards and up, from the core's corner and face (mm)."""

    across: Span
    deep: Span


def in_pieces(top: Top) -> bool:
    """Whether the top is more than one board."""
    return len(top.boards) > 1 or top.layers > 1


def board_spans(loaded: LoadedSpec, size: Fraction) -> tuple[Span, ...]:
    """Where each board begins and ends across the boards (mm), for a core of this size there."""
    top = loaded.spec.top
    if len(top.boards) < 2:
        return (Span(Fraction(0), size),)
    gap = DRY if top.joint == "dry" else GLUED
    sizes = divide(size - gap * (len(top.boards) - 1), top.boards).sizes
    return tuple(
        Span(low, low + each) for low, each in zip(starts(sizes, Fraction(0), gap), sizes, strict=True)
    )


def joints_of(spans: Sequence[Span]) -> tuple[Fraction, ...]:
    """The middle of each joint (mm)."""
    return tuple((one.high + other.low) / 2 for one, other in pairwise(spans))


def _staggered(spans: Sequence[Span]) -> tuple[Span, ...]:
    """The boards of every second layer: half a board at both ends, joints in the middle of the others."""
    if len(spans) < 2:
        return tuple(spans)
    edges = (spans[0].low, *(span.middle for span in spans), spans[-1].high)
    return tuple(Span(low, high) for low, high in pairwise(edges))


def across_of(top: Top) -> str:
    """The axis across the boards."""
    return "y" if top.run == "length" else "x"


def board_parts(loaded: LoadedSpec, core: Box, acts: Sequence[Operation]) -> Iterator[Part]:
    """Every board, the lowest layer first. `acts` is the machining of the whole core from its own corner."""
    top, axis = loaded.spec.top, across_of(loaded.spec.top)
    sheet = loaded.goods.sheets[top.material].thickness
    spans = board_spans(loaded, core.span(axis).size)
    number = 0
    for layer in range(top.layers - 1, -1, -1):  # 0 is the uppermost
        deep = Span(layer * sheet, (layer + 1) * sheet)
        for span in _staggered(spans) if layer % 2 else spans:
            number += 1
            yield _piece(loaded, core, _Slice(span, deep), acts, number)


def _piece(loaded: LoadedSpec, core: Box, cut: _Slice, acts: Sequence[Operation], number: int) -> Part:
    top = loaded.spec.top
    whole = Span(Fraction(0), core.x.size), Span(Fraction(0), core.y.size)
    plan = Region(whole[0], cut.across) if across_of(top) == "y" else Region(cut.across, whole[1])
    box = Box(
        Span(core.x.low + plan.x.low, core.x.low + plan.x.high),
        Span(core.y.low + plan.y.low, core.y.low + plan.y.high),
        Span(core.z.high - cut.deep.high, core.z.high - cut.deep.low),
    )
    lengthways = across_of(top) == "y"
    own = [piece for act in acts for piece in _cut_here(act, plan, cut.deep)]
    return Part(
        mark=f"TB{number}",
        name="top board",
        role=Role.TOP,
        material=top.material,
        kind="sheet",
        box=box,
        along="x" if lengthways else "y",
        across="y" if lengthways else "x",
        place=Place(level="top"),
        thickness=loaded.goods.sheets[top.material].thickness,
        own_group="top board",
        operations=tuple(own if lengthways else map(_turned, own)),
    )


def _turned(act: Operation) -> Operation:
    """Machining of a board that runs from front to rear, along it first."""
    size = (act.size[1], act.size[0]) if isinstance(act.size, tuple) else act.size
    return replace(act, at=(act.at[1], act.at[0]), size=size)


def _cut_here(act: Operation, plan: Region, deep: Span) -> Iterator[Operation]:
    """What of an act is in one board, from the board's own corner; nothing where it does not reach it."""
    if act.depth is not None and act.depth <= deep.low:
        return
    depth = None if act.depth is None or act.depth >= deep.high else act.depth - deep.low
    if not isinstance(act.size, tuple):
        region = Region.about(act.at, (act.size, act.size))
        if region.apart(plan) < 0:
            yield replace(act, at=(act.at[0] - plan.x.low, act.at[1] - plan.y.low), depth=depth)
        return
    region = Region.about(act.at, act.size)
    if region.apart(plan) >= 0:
        return
    x, y = (_common(region.beside(axis), plan.beside(axis)) for axis in (0, 1))
    at = (x.middle - plan.x.low, y.middle - plan.y.low)
    yield replace(act, at=at, size=(x.size, y.size), depth=depth)


def _common(one: Span, other: Span) -> Span:
    return Span(max(one.low, other.low), min(one.high, other.high))


# ---- what cannot be


def unfilled(loaded: LoadedSpec, size: Fraction) -> Iterator[Finding]:
    """Boards that do not fill the core, which is `size` wide across them; layers that nothing holds together."""
    top = loaded.spec.top
    if len(top.boards) > 1:
        gap = DRY if top.joint == "dry" else GLUED
        room = size - gap * (len(top.boards) - 1)
        found = divide(room, top.boards)
        if not found.ok:
            yield loaded.fault(
                Code.TOP_SUM, "the boards do not fill the top", "top", "boards",
                found=loaded.say(room - found.residual), allowed=f"{loaded.say(room)} in all; one may be a `share`",
            )  # fmt: skip
    if top.layers > MOST_LAYERS:
        yield loaded.fault(
            Code.OUT_OF_RANGE, "a top has fewer layers", "top", "layers", found=str(top.layers),
            allowed=f"from 1 to {MOST_LAYERS}",
        )  # fmt: skip
    if top.layers > 1 and top.joint == "dry":
        yield loaded.fault(
            Code.TOP_SUM, "layers are glued, so the joints of the boards cannot stay dry", "top", "joint",
            found="dry", allowed="glued",
        )  # fmt: skip
