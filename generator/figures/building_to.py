"""The whole bench built to one bar that is too short: which key of the spec that changes, and every piece with it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction

from generator.bench.model import Bench, Part
from generator.bench.role import Role
from generator.bench.solve import solve
from generator.figures.rows.record import BuildTo, Changed, ChangedSize
from generator.findings import SpecError
from generator.spec.schema import Spec

#: The outside size that a bar along each axis follows from.
_SIZES = {"x": "length", "y": "depth", "z": "height"}


def building_to(bench: Bench, bar: Part, off: Fraction, states: Mapping[str, str]) -> BuildTo:
    """What becomes of the bench when it is made to suit a bar that is `off` mm longer than planned."""
    loaded = bench.loaded
    if bar.role is Role.END_SPINE_POST:
        path, planned = "tray.end_rail_bottom", bench.layout.levels.end_rail_bottom
    else:
        key = _SIZES[bar.along]
        path, planned = f"bench.{key}", getattr(loaded.spec.bench, key)
    value = planned + off
    try:
        suited = solve(replace(loaded, spec=_with(loaded.spec, path, value)))
    except SpecError as error:
        return BuildTo(path, planned, value, why_not=error.findings[0].message)
    return BuildTo(path, planned, value, tuple(changed_pieces(bench.parts, suited.parts, states)))


def changed_pieces(old: Sequence[Part], new: Sequence[Part], states: Mapping[str, str]) -> Iterator[Changed]:
    """Pieces of other sizes, alike ones together, with those of them that are cut already."""
    before = {part.mark: part for part in old}
    rows: dict[tuple[str, tuple[ChangedSize, ...]], list[str]] = {}
    for part in new:
        if part.mark in before and (sizes := tuple(_differences(before[part.mark], part))):
            rows.setdefault((part.name, sizes), []).append(part.mark)
    for (name, sizes), marks in rows.items():
        cut = tuple(mark for mark in marks if states.get(mark, "to cut") != "to cut")
        yield Changed(tuple(marks), name, sizes, cut)


def _differences(old: Part, new: Part) -> Iterator[ChangedSize]:
    sizes = [
        ("length", old.length, new.length),
        ("width", old.width, new.width),
        ("thickness", old.thickness, new.thickness),
    ]
    if old.fit and new.fit:
        sizes.append(("rabbet depth", old.fit.rabbet_depth, new.fit.rabbet_depth))
    yield from (ChangedSize(*row) for row in sizes if row[1] != row[2])


def _with(spec: Spec, path: str, value: Fraction) -> Spec:
    section, key = path.split(".")
    node = getattr(spec, section).model_copy(update={key: value})
    return spec.model_copy(update={section: node})
