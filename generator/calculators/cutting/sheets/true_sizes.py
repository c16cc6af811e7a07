"""A layout of rounded sizes laid out anew in true ones: what is only a hair too large is cut to size."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from generator.calculators.cutting.sheets.job import Layout, Leaf, reach, split
from generator.calculators.cutting.sheets.table import around

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


def true_layout(layout: Layout, room: Size, sizes: Sequence[Size], step: Fraction) -> Layout:
    """The layout on a room that its pieces do not reach out of; its own steps are about `step` long."""
    if isinstance(layout, Leaf):
        if layout.piece < 0:
            return Leaf(*room)
        own = true_reach(layout, sizes)
        return around(*room, Leaf(*own, layout.piece, layout.turned), None, None, True)
    axis = 0 if layout.upright else 1
    needs = [true_reach(part, sizes)[axis] for part in (layout.first, layout.second)]
    at = needs[0]
    if reach(layout.first)[axis] != layout.at:  # a cut that follows no piece breaks a sheet down
        at = min(max(at, layout.at * step), room[axis] - needs[1])
    rooms = (
        [(at, room[1]), (room[0] - at, room[1])]
        if layout.upright
        else [(room[0], at), (room[0], room[1] - at)]
    )
    parts = [
        true_layout(part, own, sizes, step)
        for part, own in zip((layout.first, layout.second), rooms, strict=True)
    ]
    return split(*room, layout.upright, at, *parts)
