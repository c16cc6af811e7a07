"""A comparison of two benches as text: pieces first, by what a piece that is cut needs; then the rest."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import fields, is_dataclass
from fractions import Fraction
from typing import Any

from generator.figures.compare import alike, shown
from generator.figures.comparison import ActChange, Comparison, FieldChange, PartChange, RowChange
from generator.figures.rows.parts import NotchRow, OperationRow
from generator.figures.rows.spec import SpecFacts
from generator.units.format import format_inch, format_mm

MOST_ACTS = 4
"""This many operations are listed one by one; a top has hundreds of holes."""
#: Values that are no lengths though they are exact.
_COUNTS = {"count", "spare", "load_each", "required", "rating", "empty", "loaded", "mass"}


class ComparisonText:
    """Writes in the unit of the new spec."""

    def __init__(self, comparison: Comparison) -> None:
        self._found = comparison
        self._metric = comparison.new.units == "mm"
        self._fraction = comparison.new.inch_fraction

    def text(self) -> str:
        """The whole comparison, ending with a newline."""
        found = self._found
        head = f"{_issue(found.old)} -> {_issue(found.new)}"
        if found.is_empty:
            return f"{head}\nNothing differs.\n"
        return "\n".join((head, *self._lines())) + "\n"

    def _lines(self) -> Iterator[str]:
        found = self._found
        for need, title in (
            ("new piece", "Recut"),
            ("trim", "Trim"),
            ("rework", "Rework"),
            ("nothing", "No rework"),
        ):
            groups = alike(each for each in found.parts if each.how == need)
            yield from _section(title, (self.part(marks, each) for marks, each in groups))
        yield from _section("Other figures", map(self.row, found.rows))
        yield from _section(
            "Stock",
            (
                f"{each.material}: {each.old_count} -> {each.new_count}{cost(each.old_cost, each.new_cost)}"
                for each in found.stock
            ),
        )
        if cost_text := cost(found.old_cost, found.new_cost):
            yield from _section("All purchases with a price", (cost_text.removeprefix(", cost "),))
        yield from _section("Checks that fail now", (f"{c.title} ({c.where})" for c in found.failing))
        yield from _section("Checks that pass again", (f"{c.code} ({c.where})" for c in found.mended))

    def part(self, marks: Sequence[str], change: PartChange) -> str:
        """Equal pieces: their marks, name, what changed, and that they are cut already."""
        details = [*map(self.field, shown(change.fields)), *map(self.act, change.acts[:MOST_ACTS])]
        if more := change.acts[MOST_ACTS:]:
            details.append(f"{len(more)} more operations")
        what = f": {'; '.join(details)}" if details else ""
        cut = f" ({change.state} already)" if change.state in ("cut", "installed") else ""
        word = f" {change.change}" if change.change != "changed" else ""
        return f"{', '.join(marks)} {change.name}{word}{what}{cut}"

    def row(self, change: RowChange) -> str:
        """A row of another section."""
        what = f": {'; '.join(map(self.field, change.fields))}" if change.fields else f" {change.change}"
        key = "" if change.key == change.section else f" {change.key}"
        return f"{change.section}{key}{what}"

    def field(self, change: FieldChange) -> str:
        """A value before and after, and by how much it differs."""
        name = change.what.replace("_", " ")
        old, new = change.old, change.new
        if change.what == "corner":
            return "is elsewhere"
        if isinstance(old, tuple | dict) and not _is_short(old):
            return f"{name} changed"
        by = ""
        if isinstance(old, Fraction) and isinstance(new, Fraction):
            by = f" ({'+' if new > old else ''}{self.value(new - old, change.what)})"
        return f"{name} {self.value(old, change.what)} -> {self.value(new, change.what)}{by}"

    def act(self, change: ActChange) -> str:
        """An operation or notch that is gone, new, or changed."""
        if change.old is None or change.new is None:
            act = change.old or change.new
            return f"{'no ' if change.new is None else 'new '}{self._act(act)}"
        differing = [
            FieldChange(f.name, getattr(change.old, f.name), getattr(change.new, f.name))
            for f in fields(change.new)
            if getattr(change.old, f.name) != getattr(change.new, f.name)
        ]
        return f"{self._act(change.old)}: {', '.join(map(self.field, differing))}"

    def _act(self, act: NotchRow | OperationRow | None) -> str:
        if isinstance(act, NotchRow):
            return f"notch {act.corner}"
        assert act is not None
        return f"{act.op} {act.face} at {self.value(act.at)}"

    def value(self, value: Any, what: str = "") -> str:
        """A length in the spec's unit, a mass, a word, or a few of them."""
        if isinstance(value, Fraction) and what not in _COUNTS:
            return format_mm(value, 2) if self._metric else format_inch(value, max(self._fraction, 64))
        if isinstance(value, float | Fraction):
            return format_mm(value, 2)
        if isinstance(value, tuple):
            return " x ".join(self.value(item) for item in value) or "none"
        if isinstance(value, dict):
            return ", ".join(f"{key} {self.value(item)}" for key, item in value.items())
        if is_dataclass(value):
            return type(value).__name__.lower()
        return "none" if value is None else str(value)


def cost(old: float | None, new: float | None) -> str:
    """The cost before and after, when both are known."""
    if old is None or new is None or old == new:
        return ""
    return f", cost {format_mm(old, 2)} -> {format_mm(new, 2)} ({'+' if new > old else ''}{format_mm(new - old, 2)})"


def _issue(facts: SpecFacts) -> str:
    return f"{facts.title}, revision {facts.revision}, spec {facts.checksum}"


def _section(title: str, lines: Iterable[str]) -> Iterator[str]:
    shown = list(lines)
    if shown:
        yield f"\n{title} ({len(shown)})"
        yield from (f"  {line}" for line in shown)


def _is_short(value: Any) -> bool:
    return len(value) <= 3 and not any(is_dataclass(item) for item in value)
