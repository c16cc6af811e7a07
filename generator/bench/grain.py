"""Which way the grain of each board runs: as its material says, or as the spec says for the part or its group."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from generator.bench.piece import Part
from generator.codes import Code
from generator.findings import Finding, Severity, nearest
from generator.spec.load import LoadedSpec


def grained(loaded: LoadedSpec, parts: Sequence[Part]) -> tuple[Part, ...]:
    """The parts with their grain. What is said of a mark wins over what is said of its group."""
    return tuple(replace(part, grain=grain_of(loaded, part)) for part in parts)


def grain_of(loaded: LoadedSpec, part: Part) -> str:
    """The size that the grain of a part runs along; empty for what is no board."""
    said, sheet = loaded.spec.grain, loaded.goods.sheets.get(part.material)
    return "" if sheet is None else said.get(part.mark) or said.get(part.group) or sheet.grain


def wrong_grain(loaded: LoadedSpec, parts: Sequence[Part]) -> Iterator[Finding]:
    """Names under `grain` that are no board of this bench."""
    boards = [part for part in parts if part.grain]
    names = dict.fromkeys(name for part in boards for name in (part.group, part.mark))
    groups = ", ".join(dict.fromkeys(part.group for part in boards))
    for name in loaded.spec.grain:
        if name not in names:
            yield Finding(
                Code.UNKNOWN_BOARD,
                Severity.ERROR,
                "this bench has no board with this mark and no such group of boards",
                loaded.where("grain", name),
                found=name,
                allowed=f"a board's mark, or one of {groups}",
                nearest=nearest(name, names),
            )
