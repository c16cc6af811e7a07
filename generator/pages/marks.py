"""Marks of pieces on a page: in short, linked to their sheets, and what became of them since."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from fractions import Fraction
from typing import Any, Protocol

from markupsafe import Markup

from generator.figures.compare import shown, touched
from generator.figures.comparison import ActChange, Comparison, FieldChange, PartChange
from generator.figures.model import Figures
from generator.figures.rows.parts import NotchRow, OperationRow
from generator.pages.literal import literal, words
from generator.pages.page import anchor
from generator.units.format import format_mm

#: This many operations are listed one by one; a top has hundreds of holes.
MOST_ACTS = 3


class Marks:
    """Filters for one manual: marks, each linked to its part sheet."""

    def __init__(self, figures: Figures) -> None:
        self._sheets = {mark: row.mark for row in figures.parts for mark in row.marks}

    def filters(self) -> dict[str, Callable[..., Any]]:
        """Name in the templates -> function."""
        return {
            "mark": self.mark,
            "marks": self.marks,
            "mark_list": self.mark_list,
            "plain_marks": self.plain_marks,
        }

    def plain_marks(self, names: Iterable[str]) -> str:
        """Marks in short, without links: A1, A4, C1–C3."""
        return ", ".join(
            first if first == last else f"{first}–{last}" for first, last in runs(list(names), self._sheets)
        )

    def mark(self, name: str) -> str:
        """A part's mark, linked to its sheet."""
        return _link(name, self._sheets.get(name))

    def marks(self, names: Iterable[str]) -> str:
        """Marks in short, each run linked to the sheet of its first: A1, A4, C1–C3."""
        return Markup(", ").join(self._run(first, last) for first, last in runs(list(names), self._sheets))

    def mark_list(self, names: Iterable[str]) -> str:
        """Marks one by one, in their order, each linked."""
        return Markup(", ").join(_link(name, self._sheets.get(name)) for name in names)

    def _run(self, first: str, last: str) -> Markup:
        text = first if first == last else f"{first}–{last}"
        return _link(text, self._sheets.get(first))


class Lengths(Protocol):
    """How the manual writes a length."""

    def fine(self, value: Fraction) -> str:
        """The size of a fit, without its unit."""

    def pair(self, values: Sequence[Fraction]) -> str:
        """Lengths in a row with × between, without their unit."""


class Changes:
    """Filters for one manual: what was done already, and what is not as in the earlier revision or in the plan."""

    def __init__(self, figures: Figures, changes: Comparison | None, marks: Marks, lengths: Lengths) -> None:
        record = figures.record
        self._marks, self._lengths = marks, lengths
        self._touched = touched(changes) if changes else set()
        self._touched |= {mark for each in record.changed for mark in each.marks} if record else set()
        self._states = {piece.mark: piece.state for piece in record.pieces} if record else {}
        self._rows = {(row.section, row.key) for row in changes.rows} if changes else set()

    def filters(self) -> dict[str, Callable[..., Any]]:
        """Name in the templates -> function."""
        return {
            "done": self.done,
            "changed": self.changed,
            "changed_row": self.changed_row,
            "changes": self.changes,
        }

    def done(self, marks: Iterable[str]) -> str:
        """Which pieces of a row are cut or in their place already; empty when none is."""
        states = []
        for state in ("cut", "installed"):
            if found := [mark for mark in marks if self._states.get(mark) == state]:
                states.append(f"{state}: {self._marks.plain_marks(found)}")
        return Markup("<br><em>{}</em>").format(literal("; ".join(states))) if states else ""

    def changed(self, marks: Iterable[str]) -> str:
        """The class of a margin bar, beside others, where a piece is not as in the earlier revision or in the plan."""
        return " bm-changed" if self._touched & set(marks) else ""

    def changed_row(self, key: str, section: str) -> str:
        """The same for a row of another section of the figures."""
        return " bm-changed" if (section, key) in self._rows else ""

    def changes(self, change: PartChange) -> str:
        """What changed on a piece, in short: its sizes, then its operations and notches."""
        details = [self._change(field) for field in shown(change.fields)]
        details += [self._act_change(act) for act in change.acts[:MOST_ACTS]]
        if more := len(change.acts[MOST_ACTS:]):
            details.append(f"and {more} more")
        return Markup("; ").join(details) or change.change

    def _change(self, change: FieldChange) -> str:
        if change.what == "corner":
            return "is elsewhere"
        return self._from_to(words(change.what), self._told(change.old), self._told(change.new))

    def _act_change(self, change: ActChange) -> str:
        old, new = change.old, change.new
        act = new or old
        name = f"notch {act.corner}" if isinstance(act, NotchRow) else f"{act.op} {act.face}" if act else ""
        if old is None or new is None:
            return f"{'no ' if new is None else 'new '}{name}"
        if isinstance(old, OperationRow) and isinstance(new, OperationRow) and old.at != new.at:
            return self._from_to(f"{name} at", self._lengths.pair(old.at), self._lengths.pair(new.at))
        return f"{name} of another size"

    def _from_to(self, name: str, old: str, new: str) -> str:
        return Markup("{} {} → {}").format(literal(name), literal(old), literal(new))

    def _told(self, value: object) -> str:
        if isinstance(value, Fraction):
            return self._lengths.fine(value)
        if isinstance(value, float):
            return format_mm(value, 2)
        if isinstance(value, tuple):
            return ", ".join(self._told(item) for item in value) or "none"
        return "none" if value is None else str(value)


def _link(text: str, sheet: str | None) -> Markup:
    if sheet is None:
        return Markup(literal(text))
    return Markup(f"[{text}](part-sheets.md#{anchor(sheet)}){{ .bm-mark }}")


def runs(names: list[str], sheets: Mapping[str, str]) -> list[tuple[str, str]]:
    """Consecutive numbers of one letter and one sheet as (first, last)."""
    found: list[tuple[str, str]] = []
    for name in names:
        if found and _follows(found[-1][1], name) and sheets.get(found[-1][0]) == sheets.get(name):
            found[-1] = (found[-1][0], name)
        else:
            found.append((name, name))
    return found


def _follows(before: str, after: str) -> bool:
    a, b = (re.fullmatch(r"(\D*)(\d*)", name) for name in (before, after))
    if not a or not b or not a[2] or not b[2]:
        return False
    return a[1] == b[1] and int(b[2]) == int(a[2]) + 1
