"""Off-cuts as lines of a spec's `stock:`, ready to paste."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from generator.figures.rows.cutting import Offcut
from generator.units.format import rest_inch, rest_mm


def stock_lines(offcuts: Iterable[Offcut], units: str, inch_fraction: int = 16) -> str:
    """One entry a line, in the spec's own units, each size as the plan above the lines prints it."""

    def text(length: Fraction) -> str:
        return rest_inch(length, inch_fraction) if units == "in" else rest_mm(length)

    lines = []
    for each in offcuts:
        size = f"length: {text(each.length)}" + (f", width: {text(each.width)}" if each.width else "")
        lines.append(f"- {{{size}, count: {each.count}, on_hand: true, lot: {_quoted(each.lot)}}}\n")
    return "".join(lines)


def _quoted(text: str) -> str:
    """Any text as a scalar in double quotes."""
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'
