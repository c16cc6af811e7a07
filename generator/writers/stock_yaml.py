"""Off-cuts as lines of a spec's `stock:`, ready to paste."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from generator.figures.rows.cutting import Offcut
from generator.units.format import format_inch, format_mm
from generator.units.sizes import INCH


def stock_lines(offcuts: Iterable[Offcut], units: str, inch_fraction: int = 16) -> str:
    """One entry a line, in the spec's own units, down to a whole millimetre or a fraction of an inch."""

    def down(length: Fraction) -> str:
        step = INCH / inch_fraction if units == "in" else Fraction(1)
        whole = length // step * step
        return format_inch(whole, inch_fraction) if units == "in" else format_mm(whole)

    lines = []
    for each in offcuts:
        size = f"length: {down(each.length)}" + (f", width: {down(each.width)}" if each.width else "")
        lines.append(f"- {{{size}, count: {each.count}, on_hand: true, lot: {_quoted(each.lot)}}}\n")
    return "".join(lines)


def _quoted(text: str) -> str:
    """Any text as a scalar in double quotes."""
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'
