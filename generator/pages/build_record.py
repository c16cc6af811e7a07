"""Build record: what was measured and cut against the plan, what follows, the state of every piece, the timeline."""

from __future__ import annotations

from generator.drawings.dimensions import Ruler
from generator.figures.model import Figures
from generator.figures.rows.parts import PartRow
from generator.figures.rows.record import BuildRecord, PieceState
from generator.pages.page import Context, Page

#: How each verdict is said.
VERDICTS = {
    "as planned": "as planned",
    "fits": "fits anyway",
    "trim": "too long: trim it",
    "recut": "too short: cut it again, or build to it",
}


def context(figures: Figures, ruler: Ruler) -> Context:
    """The record, its photos and faults apart, and each row of the cut list with its pieces by state."""
    record = figures.record
    return {
        "record": record,
        "verdicts": VERDICTS,
        "spoiled": [row for row in record.cuts if row.verdict in ("trim", "recut")] if record else [],
        "photos": [row for row in record.entries if row.photo] if record else [],
        "rows": _by_state(figures, record) if record else [],
    }


def _by_state(figures: Figures, record: BuildRecord) -> list[tuple[PartRow, dict[str, list[str]]]]:
    """Each part with the marks of its pieces that are to cut, cut, installed."""
    states: dict[str, PieceState] = {piece.mark: piece for piece in record.pieces}
    rows = []
    for row in figures.parts:
        marks: dict[str, list[str]] = {state: [] for state in record.progress}
        for mark in row.marks:
            marks[states[mark].state].append(mark)
        rows.append((row, marks))
    return rows


PAGE = Page(
    "build-record",
    "Build record",
    "what was measured and cut, what fits, what to cut again, how far the build is",
    context,
)
