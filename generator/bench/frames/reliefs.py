"""Clamp-access reliefs: openings through the lips of outward slots that no bar leaves open."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from generator.bench.frames.slotted import slotted
from generator.bench.piece import Operation, Part
from generator.bench.role import Role
from generator.geometry import AXES, FACES
from generator.spec.load import LoadedSpec


def outward_faces(part: Part, size: tuple[Fraction, Fraction]) -> Iterator[str]:
    """Side faces of a bar that are on the outside of the frame of `size` (length, depth), never its ends."""
    limits = {"x": size[0], "y": size[1]}
    for axis in AXES[:2]:
        if axis == part.along:
            continue
        span = part.box.span(axis)
        if span.low == 0:
            yield FACES[axis][0]
        if span.high == limits[axis]:
            yield FACES[axis][1]


def machine_reliefs(
    loaded: LoadedSpec, bars: Sequence[Part], size: tuple[Fraction, Fraction]
) -> tuple[Part, ...]:
    """The bars with a clamp-access relief in each closed outward slot."""
    return tuple(replace(bar, operations=(*bar.operations, *_reliefs(loaded, bar, size))) for bar in bars)


def _reliefs(loaded: LoadedSpec, bar: Part, size: tuple[Fraction, Fraction]) -> Iterator[Operation]:
    access = loaded.spec.frame.clamp_access
    if bar.role in (Role.CORNER_POST, Role.INNER_POST, Role.KNEE_POST):
        centres = [bar.length - access.from_end]
    elif bar.place.level == "top" and bar.role in (Role.LONG_RAIL, Role.TOP_END_MEMBER):
        centres = [access.from_end, bar.length - access.from_end]
    else:
        return
    across, along = access.opening
    for face in outward_faces(bar, size):
        for centre in centres:
            yield Operation(
                "relief",
                face,
                (centre, bar.thickness / 2),
                (along, across),
                slotted(loaded.goods).slot.lip,
                "clamp access to the slot",
            )
