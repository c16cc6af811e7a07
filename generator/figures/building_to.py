"""The whole bench built to one bar that is too short: which key of the spec that changes, and every piece with it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from generator.bench.model import Bench, Part
from generator.figures.rows.record import BuildTo, Changed, ChangedSize


def building_to(bench: Bench, mark: str, states: Mapping[str, str]) -> BuildTo:
    """What becomes of the bench when it is made to suit a bar that was cut off its length."""
    suited = bench.suited[mark]
    if suited.why_not:
        return BuildTo(suited.path, suited.planned, suited.value, why_not=suited.why_not)
    changed = tuple(changed_pieces(bench.parts, suited.parts, states))
    return BuildTo(suited.path, suited.planned, suited.value, changed)


def changed_pieces(old: Sequence[Part], new: Sequence[Part], states: Mapping[str, str]) -> Iterator[Changed]:
    """Pieces whose sizes change, those with the same change together, with those of them that are cut already."""
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
