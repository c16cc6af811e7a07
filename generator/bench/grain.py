"""Which way the grain of each board runs: as its material says, or as the spec says for the part or its group."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from generator.bench.model import Part
from generator.codes import Code
from generator.findings import Finding, Severity, nearest
from generator.spec.goods import Sheet
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec


def grained(spec: Spec, parts: Sequence[Part]) -> tuple[Part, ...]:
    """The parts with their grain. What is said of a mark wins over what is said of its group."""
    return tuple(replace(part, grain=_grain(spec, part)) for part in parts)


def _grain(spec: Spec, part: Part) -> str:
    material = spec.materials.get(part.material)
    if not isinstance(material, Sheet):
        return ""
    return spec.grain.get(part.mark) or spec.grain.get(part.group) or material.grain


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
                "no board of this bench has this mark or is of this group",
                loaded.where("grain", name),
                found=name,
                allowed=f"a board's mark, or {groups}",
                nearest=nearest(name, names),
            )
