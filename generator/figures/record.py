"""The record of the build against the bench: what was measured and cut, what fits, what to cut again."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping
from dataclasses import replace
from fractions import Fraction

from generator.bench.model import Bench, Part
from generator.bench.recorded import ONE_SIZE
from generator.calculators.as_built import BAR_TOLERANCE, BOARD_TOLERANCE, AsBuiltFit, Held, outcome
from generator.codes import Code
from generator.figures.building_to import building_to, changed_pieces
from generator.figures.consequences import following, held
from generator.figures.rows.record import (
    BuildRecord,
    Changed,
    CutRow,
    Following,
    MeasuredRow,
    PieceState,
    RecordEntry,
)
from generator.findings import Finding, Severity
from generator.spec.load import LoadedSpec
from generator.spec.measured import Measured
from generator.spec.record import CutPiece, Entry

TO_CUT, CUT, INSTALLED = "to cut", "cut", "installed"
#: Verdicts in the order of how bad they are.
_WORST = ("as planned", "fits", "trim", "recut")


def build_record(bench: Bench) -> BuildRecord:
    """What the record comes to. Without one, every piece is still to cut."""
    loaded = bench.loaded
    pieces = _states(bench)
    states = {piece.mark: piece.state for piece in pieces}
    entries = tuple(row for entry in loaded.record.entries for row in _timeline(loaded, entry))
    verified = tuple(row for row in entries if row.kind == "verified")
    progress = {state: list(states.values()).count(state) for state in (TO_CUT, CUT, INSTALLED)}
    return BuildRecord(
        checksum=record_checksum(loaded),
        state=_state(loaded, progress),
        measured=tuple(_measured(bench)),
        cuts=tuple(_cuts(bench, states)),
        changed=tuple(_changed(bench, states)),
        pieces=pieces,
        progress=progress,
        entries=entries,
        verified=verified,
        bar_tolerance=BAR_TOLERANCE,
        board_tolerance=BOARD_TOLERANCE,
    )


def record_checksum(loaded: LoadedSpec) -> str:
    """First twelve hex digits of the SHA-256 of the record's bytes; empty without entries."""
    text = loaded.record.text
    return hashlib.sha256(text.encode()).hexdigest()[:12] if loaded.record.entries else ""


def record_findings(loaded: LoadedSpec, record: BuildRecord) -> Iterator[Finding]:
    """Pieces that do not fit at the size at which they were cut, at their line of the record."""
    places = {entry.cut.mark: entry.cut.at for entry in loaded.record.entries if entry.cut}
    for row in record.cuts:
        if row.verdict in ("as planned", "fits"):
            continue
        upset = [each.mark for each in row.consequences if not each.ok]
        also = f" It also changes {', '.join(upset)}." if upset else ""
        advice = (
            "Trim it to size."
            if row.verdict == "trim"
            else "Cut it again. Or build to it, as the page Build record says."
        )
        yield Finding(
            Code.CUT_OFF_SIZE,
            Severity.WARNING,
            f"{row.mark} was cut to another size than planned",
            loaded.record.where((*places[row.mark], "size")),
            found=" x ".join(loaded.say(size) for size in row.actual),
            allowed=" x ".join(loaded.say(size) for size in row.planned),
            advice=advice + also,
        )


def _state(loaded: LoadedSpec, progress: Mapping[str, int]) -> str:
    if not loaded.record.entries:
        return "draft"
    if progress[TO_CUT] or progress[CUT]:
        return "in work"
    acts = [bool(entry.verified) for entry in loaded.record.entries if entry.verified or entry.installed]
    return "built and verified" if acts[-1] else "built"


def _states(bench: Bench) -> tuple[PieceState, ...]:
    loaded = bench.loaded
    found: dict[str, PieceState] = {}
    for entry in loaded.record.entries:
        if entry.cut and found.get(entry.cut.mark, PieceState("", "")).state != INSTALLED:
            found[entry.cut.mark] = PieceState(entry.cut.mark, CUT, entry.date)
        for mark, _ in entry.installed:
            found[mark] = PieceState(mark, INSTALLED, entry.date)
    return tuple(found.get(part.mark, PieceState(part.mark, TO_CUT)) for part in bench.parts)


def _measured(bench: Bench) -> Iterator[MeasuredRow]:
    loaded = bench.loaded
    newest = {each.path: each for each in loaded.measured}
    widths = {bay.name: bay.width for bay in bench.layout.bays}
    for each in loaded.measured:
        nominal = widths[each.bay] if each.nominal is None else each.nominal
        affected = tuple(_cut_before(bench, each)) if newest[each.path] is each else ()
        effective = newest[each.path].value
        yield MeasuredRow(each.path, nominal, each.value, effective, each.date, each.by, affected)


def _cut_before(bench: Bench, measured: Measured) -> Iterator[str]:
    """Pieces of a measured material that were cut before it was measured."""
    loaded = bench.loaded
    materials = {part.mark: part.material for part in bench.parts}
    for entry in loaded.record.entries:
        if entry.measured and (entry.measured.path, entry.date) == (measured.path, measured.date):
            return
        if entry.cut and measured.key[:2] == ("materials", materials[entry.cut.mark]):
            yield entry.cut.mark


def _cuts(bench: Bench, states: Mapping[str, str]) -> Iterator[CutRow]:
    """The newest cut of each piece."""
    loaded = bench.loaded
    newest: dict[str, tuple[Entry, CutPiece]] = {
        entry.cut.mark: (entry, entry.cut) for entry in loaded.record.entries if entry.cut
    }
    parts = {part.mark: part for part in bench.parts}
    lengths = {mark: cut.size[0] for mark, (_, cut) in newest.items()}
    for mark, (entry, cut) in newest.items():
        part = parts[mark]
        results = _outcomes(bench, part, cut)
        verdict = max((result.verdict for result in results), key=_WORST.index)
        consequences: tuple[Following, ...] = ()
        if verdict != "as planned":
            consequences = following(bench, part, results[0].off, lengths, states)
        yield CutRow(
            mark=mark,
            name=part.name,
            planned=part.cut_size[: len(cut.size)],
            actual=cut.size,
            off=tuple(result.off for result in results),
            left=min(result.left for result in results),
            verdict=verdict,
            date=entry.date,
            by=entry.by,
            consequences=consequences,
            build_to=building_to(bench, mark, states) if part.is_bar and verdict == "recut" else None,
        )


def _outcomes(bench: Bench, part: Part, cut: CutPiece) -> list[AsBuiltFit]:
    bar = part.kind in ONE_SIZE
    tolerance = BAR_TOLERANCE if bar else BOARD_TOLERANCE
    planned = zip((part.along, part.across), part.cut_size, strict=True)
    return [
        outcome(size, actual, _held(bench, part, axis), tolerance)
        for (axis, size), actual in zip(planned, cut.size, strict=False)
    ]


def _held(bench: Bench, part: Part, axis: str) -> Held:
    """A bar of the frame has no play: it stands face to face."""
    return Held(Fraction(0), Fraction(0)) if part.is_bar else held(bench, part, axis)


def _changed(bench: Bench, states: Mapping[str, str]) -> Iterator[Changed]:
    """Pieces that measured values have made other than planned, those with the same change together."""
    if bench.written:
        yield from changed_pieces(bench.written, bench.parts, states)


def _timeline(loaded: LoadedSpec, entry: Entry) -> Iterator[RecordEntry]:
    """An entry as lines: one for each thing that was done. Its note goes with the first."""
    lines = []
    if entry.measured:
        lines.append(
            RecordEntry(entry.date, "measured", entry.by, entry.measured.path, (), entry.measured.text)
        )
    if entry.cut:
        lines.append(RecordEntry(entry.date, "cut", entry.by, entry.cut.mark, entry.cut.size))
    if entry.installed:
        marks = ", ".join(mark for mark, _ in entry.installed)
        lines.append(RecordEntry(entry.date, "installed", entry.by, marks))
    if entry.photo:
        file = photo_files(loaded).get(entry.photo.file, "")
        shown = loaded.record.photos.get(entry.photo.file)
        size = (shown.width, shown.height) if shown else (0, 0)
        lines.append(
            RecordEntry(entry.date, "photo", entry.by, photo=file, alt=entry.photo.alt, photo_size=size)
        )
    if entry.verified:
        lines.append(RecordEntry(entry.date, "verified", entry.by, text=entry.verified))
    if entry.note:
        first = lines[0] if lines else None
        if first is not None and not first.text:
            lines[0] = replace(first, text=entry.note)
        else:
            lines.append(RecordEntry(entry.date, "note", entry.by, text=entry.note))
    yield from lines


def photo_files(loaded: LoadedSpec) -> dict[str, str]:
    """Name in the record -> name among the pages, in the order of the record."""
    photos = loaded.record.photos
    return {name: f"photos/{n:03d}{photo.suffix}" for n, (name, photo) in enumerate(photos.items(), 1)}
