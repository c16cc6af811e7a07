"""A layout of rounded sizes laid out anew in true ones: what is only a hair too large is cut to size."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from generator.calculators.cutting.sheets.job import Layout, Leaf, reach, split

#: Lengths of this module are true, not whole steps as layouts have them elsewhere.
Size = tuple[Any, Any]


def true_reach(layout: Layout, sizes: Sequence[Size]) -> Size:
    """How far the true sizes of a layout's pieces reach across and up when each lies at the one before."""
    if isinstance(layout, Leaf):
        if layout.piece < 0:
            return 0, 0
        wide, high = sizes[layout.piece]
        return (high, wide) if layout.turned else (wide, high)
    first, second = (true_reach(part, sizes) for part in (layout.first, layout.second))
    if layout.upright:
        return first[0] + second[0], max(first[1], second[1])
    return max(first[0], second[0]), first[1] + second[1]


@dataclass(frozen=True)
class Track:
    """What is longer than `longest` is cut by track saw, which takes `wider` more than a piece has for its kerf."""

    longest: Fraction
    wider: Fraction


def true_layout(
    layout: Layout, room: Size, sizes: Sequence[Size], step: Fraction, track: Track | None
) -> Layout | None:
    """The layout on a room that its pieces do not reach out of; its own steps are about `step` long.

    None where the cuts by track saw leave too little of the room.
    """
    if isinstance(layout, Leaf):
        if layout.piece < 0:
            return Leaf(*room)
        own = true_reach(layout, sizes)
        if own[0] > room[0] or own[1] > room[1]:
            return None
        piece = Leaf(*own, layout.piece, layout.turned)
        return _cut_off(room, True, _cut_off((own[0], room[1]), False, piece, track), track)
    axis = 0 if layout.upright else 1
    needs = [true_reach(part, sizes)[axis] for part in (layout.first, layout.second)]
    wider = _wider(room, track)
    at = needs[0]
    if reach(layout.first)[axis] != layout.at:  # a cut that follows no piece breaks a sheet down
        at = min(max(at, layout.at * step), room[axis] - needs[1] - (wider if needs[1] else 0))
    rest = max(Fraction(0), room[axis] - at - wider) if at < room[axis] else Fraction(0)
    rooms = [(at, room[1]), (rest, room[1])] if layout.upright else [(room[0], at), (room[0], rest)]
    first, second = (
        true_layout(part, own, sizes, step, track)
        for part, own in zip((layout.first, layout.second), rooms, strict=True)
    )
    return split(*room, layout.upright, at, first, second) if first and second else None


def _wider(room: Size, track: Track | None) -> Fraction:
    """By how much a cut through a room takes more than a piece has for its kerf."""
    return track.wider if track and max(room) > track.longest else Fraction(0)


def _cut_off(room: Size, upright: bool, part: Layout, track: Track | None) -> Layout:
    """The part, cut off a room that is as wide or as high."""
    at, size = (part.width, room[0]) if upright else (part.height, room[1])
    rest = max(Fraction(0), size - at - _wider(room, track))
    return split(*room, upright, at, part, Leaf(rest, room[1]) if upright else Leaf(room[0], rest))
