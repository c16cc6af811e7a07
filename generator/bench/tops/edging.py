"""The edging of a top as pieces, and the board within it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from generator.bench.piece import Operation, Part
from generator.bench.place import Place
from generator.bench.role import Role
from generator.geometry import Box, Span
from generator.spec.load import LoadedSpec


@dataclass(frozen=True)
class Taken:
    """What the edging takes off the board on each side (mm)."""

    front: Fraction = Fraction(0)
    back: Fraction = Fraction(0)
    left: Fraction = Fraction(0)
    right: Fraction = Fraction(0)


def taken(loaded: LoadedSpec) -> Taken:
    """The thickness of the strip on each side that has it."""
    edging = loaded.spec.top.edging
    if edging is None:
        return Taken()
    thickness = loaded.goods.strips[edging.material].thickness
    return Taken(**dict.fromkeys(edging.sides, thickness))


def core_of(whole: Box, off: Taken) -> Box:
    """The board within its edging."""
    return Box(
        Span(whole.x.low + off.left, whole.x.high - off.right),
        Span(whole.y.low + off.front, whole.y.high - off.back),
        whole.z,
    )


def from_core(act: Operation, off: Taken) -> Operation:
    """Machining of the finished top, measured from the corner of its board."""
    return replace(act, at=(act.at[0] - off.left, act.at[1] - off.front)) if off.left or off.front else act


def edging_parts(loaded: LoadedSpec, whole: Box) -> Iterator[Part]:
    """The strips: at front and rear as long as the top, at the ends between these, or all mitred where they meet."""
    edging, off = loaded.spec.top.edging, taken(loaded)
    if edging is None:
        return
    mitred = edging.corners == "mitred"
    between = whole.y if mitred else Span(whole.y.low + off.front, whole.y.high - off.back)
    boxes = {
        "front": Box(whole.x, Span(whole.y.low, whole.y.low + off.front), whole.z),
        "back": Box(whole.x, Span(whole.y.high - off.back, whole.y.high), whole.z),
        "left": Box(Span(whole.x.low, whole.x.low + off.left), between, whole.z),
        "right": Box(Span(whole.x.high - off.right, whole.x.high), between, whole.z),
    }
    strip = loaded.goods.strips[edging.material]
    places = {
        "front": Place(side="front", level="top"),
        "back": Place(side="back", level="top"),
        "left": Place(end="left", level="top"),
        "right": Place(end="right", level="top"),
    }
    sides = [side for side in boxes if side in edging.sides]
    for number, side in enumerate(sides, 1):
        yield Part(
            mark=f"TE{number}",
            name="top edging",
            role=Role.TOP_EDGING,
            material=edging.material,
            kind="strip",
            box=boxes[side],
            along="x" if side in ("front", "back") else "y",
            across="z",
            place=places[side],
            thickness=strip.thickness,
            mitres=_met(side, sides) if mitred else (),
        )


def _met(side: str, sides: Sequence[str]) -> tuple[str, ...]:
    """The end faces of a strip that meet another one."""
    ends = ("front", "back") if side in ("left", "right") else ("left", "right")
    return tuple({"back": "rear"}.get(end, end) for end in ends if end in sides)
