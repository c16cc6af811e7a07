"""The record against the bench: every mark that it names must be a piece, with as many sizes as its kind has."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.bench.model import Part
from generator.codes import Code
from generator.findings import Finding, Severity, nearest
from generator.spec.load import LoadedSpec
from generator.spec.record import CutPiece

#: Kinds whose cross section is bought: one size is cut, the length.
ONE_SIZE = ("profile", "angle", "strip")


def wrong_marks(loaded: LoadedSpec, parts: Sequence[Part]) -> Iterator[Finding]:
    """Entries about pieces that the bench does not have, and sizes that a piece cannot have."""
    by_mark = {part.mark: part for part in parts}
    for entry in loaded.record.entries:
        named = [*entry.installed, *([(entry.cut.mark, (*entry.cut.at, "mark"))] if entry.cut else [])]
        for mark, at in named:
            if mark not in by_mark:
                yield Finding(
                    Code.UNKNOWN_MARK,
                    Severity.ERROR,
                    "this bench has no piece with this mark",
                    loaded.record.where(at),
                    found=mark,
                    allowed="a mark from the cut list",
                    nearest=nearest(mark, by_mark),
                )
        if entry.cut and entry.cut.mark in by_mark:
            yield from _wrong_size(loaded, entry.cut, by_mark[entry.cut.mark])


def _wrong_size(loaded: LoadedSpec, cut: CutPiece, part: Part) -> Iterator[Finding]:
    one = part.kind in ONE_SIZE
    if len(cut.size) == 1 if one else len(cut.size) == 2:
        return
    if part.kind == "strip":  # a runner is ripped to its width
        return
    yield Finding(
        Code.WRONG_SIZES,
        Severity.ERROR,
        f"{part.mark} is recorded with {'one size, its length' if one else 'two sizes, length and width'}",
        loaded.record.where((*cut.at, "size")),
        found=" x ".join(loaded.say(size) for size in cut.size),
        allowed="one length" if one else "length x width",
    )
