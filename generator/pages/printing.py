"""How values are written on a page: lengths in the manual's unit, masses, marks, machining in words."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from fractions import Fraction
from typing import Any

from markupsafe import Markup, escape

from generator.drawings.dimensions import Ruler
from generator.figures.model import CutSection, Figures, Operation, PartRow, Purchase
from generator.figures.steps.words import key_size
from generator.pages.page import anchor, part_links
from generator.readings import written
from generator.reasons import reason
from generator.units import INCH, format_fixed, format_inch, format_mm, format_thou

KG_PER_LB = 0.45359237
MM2_PER_M2 = 1_000_000

#: Keeps a number and its unit on one line.
NBSP = "\u00a0"


class Printer:
    """The filters of all templates, for one manual."""

    def __init__(self, figures: Figures, ruler: Ruler) -> None:
        self._ruler = ruler
        self._either = ruler.either
        self._links = part_links(figures)
        self._sheets = {mark: row.mark for row in figures.parts for mark in row.marks}

    def filters(self) -> dict[str, Callable[..., Any]]:
        """Name in the templates -> function."""
        return {
            "either": self._either,
            "length": self.length,
            "length_of": len,
            "other": self.other,
            "other_pair": self.other_pair,
            "part_size": self.part_size,
            "section_area": self.section_area,
            "edges": self.edges,
            "plain_marks": self.plain_marks,
            "quantity": self.quantity,
            "measured": self.measured,
            "mark_list": self.mark_list,
            "length_list": self.length_list,
            "percent": percent,
            "hole": self.hole,
            "tool_size": tool_size,
            "after_colon": after_colon,
            "key": key,
            "both": self.both,
            "fine": self.fine,
            "pair": self.pair,
            "area": self.area,
            "mass": self.mass,
            "decimals": decimals,
            "marks": self.marks,
            "mark": self.mark,
            "size": self.size,
            "depth": self.depth,
            "amount": self.amount,
            "assumption": self.assumption,
            "sentence": sentence,
            "reason": reason,
            "code_words": code_words,
        }

    @property
    def unit(self) -> str:
        """The manual's own unit of length, as a sign: mm or in."""
        return self._either("mm", "in")

    @property
    def unit_word(self) -> str:
        """The manual's unit in words."""
        return self._either("millimetres", "inches")

    @property
    def unit_note(self) -> str:
        """The unit as the head line has it; the other one is rounded, and says so."""
        inches = f"inches, rounded to 1/{self._ruler.denominator}"
        if self._ruler.units == "mm":
            return self._either("millimetres", f"{inches}; the spec is in millimetres")
        return self._either("millimetres, rounded to a tenth; the spec is in inches", "inches")

    @property
    def other_unit(self) -> str:
        """The unit of the second value, as a heading."""
        return self._either("In inches", "In mm")

    def length(self, value: Fraction) -> str:
        """A length without its unit."""
        return self._ruler.text(value)

    def both(self, value: Fraction) -> str:
        """A length in the manual's unit, and in the other one in brackets."""
        mm, inch = f"{format_mm(value)} mm", f"{format_inch(value, self._ruler.denominator)} in"
        first, second = self._either(mm, inch), self._either(inch, mm)
        return Markup(f"{first} <span class='bm-in'>({second})</span>")

    def other(self, value: Fraction) -> str:
        """A length in the unit that the manual does not use."""
        text = self._either(f"{format_inch(value, self._ruler.denominator)} in", f"{format_mm(value)} mm")
        return Markup(f"<span class='bm-in'>({text})</span>")

    def other_pair(self, row: PartRow) -> str:
        """First and second size of a part in the other unit."""
        if row.kind == "profile":
            return self.other(row.length)
        inches = " × ".join(format_inch(value, self._ruler.denominator) for value in (row.length, row.width))
        text = self._either(f"{inches} in", f"{format_mm(row.length)} × {format_mm(row.width)} mm")
        return Markup(f"<span class='bm-in'>({text})</span>")

    def part_size(self, row: PartRow) -> str:
        """Length of a bar; length, width and thickness of a board."""
        if row.kind == "profile":
            return f"{self.length(row.length)} {self.unit}"
        return (
            f"{self.length(row.length)} × {self.length(row.width)} × {self.fine(row.thickness)} {self.unit}"
        )

    def section_area(self, section: CutSection) -> str:
        """All pieces of a section together, as rectangles: notches and cut-outs are not taken off."""
        return self.area(float(section.total_area) / MM2_PER_M2)

    def edges(self, tongues: Mapping[str, Fraction]) -> str:
        """Edges and their tongues: front, rear and bottom 10."""
        by_size: dict[Fraction, list[str]] = {}
        for edge, size in tongues.items():
            by_size.setdefault(size, []).append(edge)
        return "; ".join(f"{', '.join(edges)} {self.fine(size)}" for size, edges in by_size.items())

    def plain_marks(self, names: Iterable[str]) -> str:
        """Marks in short, without links: A1, A4, C1–C3."""
        return ", ".join(
            first if first == last else f"{first}–{last}" for first, last in runs(list(names), self._sheets)
        )

    def quantity(self, row: Purchase) -> str:
        """An amount to buy: metres and square metres as the manual measures, pieces whole."""
        if row.unit == "pieces":
            return f"{row.quantity:g}"
        if row.unit == "m²":
            return self.area(row.quantity)
        feet = row.quantity * 1000 / float(INCH * 12)
        return self._either(f"{format_fixed(row.quantity, 2)} m", f"{format_fixed(feet, 1)} ft")

    def measured(self, millimetres: float) -> str:
        """A length that is measured, never cut: to a tenth, or to the rule's finest fraction."""
        return self.length(Fraction(str(round(millimetres, 3))))

    def fine(self, value: Fraction) -> str:
        """The size of a fit, without its unit."""
        return self._ruler.fine(value)

    def pair(self, values: Sequence[Fraction]) -> str:
        """Lengths in a row with × between, without their unit."""
        return " × ".join(self.length(value) for value in values)

    def area(self, square_metres: float) -> str:
        """To a hundredth of a square metre, or to a tenth of a square foot."""
        feet = square_metres / float(INCH * 12 / 1000) ** 2
        return self._either(f"{format_fixed(square_metres, 2)} m²", f"{format_fixed(feet, 1)} sq ft")

    def mass(self, kilograms: float) -> str:
        """To a tenth of a kilogram, or to a tenth of a pound."""
        return self._either(_weight(kilograms, "kg"), _weight(kilograms / KG_PER_LB, "lb"))

    def mark(self, name: str) -> str:
        """A part's mark, linked to its sheet."""
        return _link(name, self._sheets.get(name))

    def marks(self, names: Iterable[str]) -> str:
        """Marks in short, each run linked to the sheet of its first: A1, A4, C1–C3."""
        return Markup(", ").join(self._run(first, last) for first, last in runs(list(names), self._sheets))

    def mark_list(self, names: Iterable[str]) -> str:
        """Marks one by one, in their order, each linked."""
        return Markup(", ").join(_link(name, self._sheets.get(name)) for name in names)

    def length_list(self, values: Iterable[Fraction]) -> str:
        """Lengths in their order, without their unit."""
        return ", ".join(self.length(value) for value in values)

    def _run(self, first: str, last: str) -> Markup:
        text = first if first == last else f"{first}–{last}"
        return _link(text, self._sheets.get(first))

    def size(self, operation: Operation) -> str:
        """Diameter, thread diameter or rectangle of an operation."""
        if isinstance(operation.size, tuple):
            return self.pair(operation.size)
        if operation.thread:
            return operation.thread
        return f"Ø {self.hole(operation.size)}"

    def hole(self, diameter: Fraction) -> str:
        """Hole sizes keep the drill's own name: a tenth of a millimetre, or a fraction of an inch."""
        is_fraction = (diameter * 5 * 64 / 127).denominator == 1
        inches = format_inch(diameter, 64) if is_fraction else format_thou(diameter)
        return self._either(format_mm(diameter), inches)

    def depth(self, operation: Operation) -> str:
        """A depth without its unit. No depth means through, but an access hole goes to the joint's slot only."""
        if operation.depth is None:
            return "to the joint's slot" if operation.op == "access hole" else "through"
        return self.length(operation.depth)

    def amount(self, value: Fraction | float | None, unit: str) -> str:
        """A check's value with its unit."""
        if value is None:
            return "–"
        if unit == "mm":
            return f"{self.fine(Fraction(str(round(float(value), 3))))}{NBSP}{self.unit}"
        if unit == "kg":
            return self.mass(float(value))
        return f"{format_mm(value, 2)}{NBSP}{unit}".strip()

    def assumption(self, value: object, path: str) -> str:
        """An assumed value: lengths in the manual's unit, other quantities in the unit that cards use."""
        if isinstance(value, str):
            return value
        if isinstance(value, tuple):
            return " × ".join(self.fine(item) for item in value) + f" {self.unit}"
        quantity = _QUANTITIES.get(path, _QUANTITIES.get(path.rsplit(".", 1)[-1]))
        if isinstance(value, Fraction) and quantity is None:
            return f"{self.fine(value)}{NBSP}{self.unit}"
        factor, unit = quantity or (Fraction(1), "")
        return f"{format_mm(Fraction(str(value)) * factor, 3)}{NBSP}{unit}".strip()


#: Keys that are no lengths: factor from the spec's base unit, and the unit in which they are written.
_QUANTITIES: Mapping[str, tuple[Fraction, str]] = {
    "density": (Fraction(1), "kg/m³"),
    "modulus": (Fraction(1, 1000), "GPa"),
    "second_moment": (Fraction(1, 10_000), "cm⁴"),
    "mass": (Fraction(1), "kg/m"),
    "rating": (Fraction(1), "kg"),
    "load": (Fraction(1), "kg"),
    "loads.drawer": (Fraction(1), "kg"),
    "loads.shelf": (Fraction(1), "kg"),
    "loads.top": (Fraction(1), "kg"),
    "loads.push": (Fraction(1), "N"),
}


#: Signs that Markdown or HTML would take for its own; a number reference shows them as they are, in either.
_SIGNS = {ord(sign): f"&#{ord(sign)};" for sign in "|*_[]{}`~\\"}


def literal(value: object) -> object:
    """Every text that a template prints is shown as it is written; `Markup` alone is taken as it stands."""
    if isinstance(value, Markup) or not isinstance(value, str):
        return value
    return Markup(str(escape(value)).translate(_SIGNS).replace("\n", " "))


def switchable(page: str) -> str:
    """A finished page with each length as HTML that holds its other reading for the switch of units."""
    return written(page, lambda own, other: f'<span data-o="{other}">{own}</span>')


def _weight(amount: float, unit: str) -> str:
    return f"under 0.1 {unit}" if 0 < amount < 0.05 else f"{format_fixed(amount, 1)} {unit}"


def _link(text: str, sheet: str | None) -> Markup:
    if sheet is None:
        return Markup(literal(text))
    return Markup(f"[{text}](part-sheets.md#{anchor(sheet)}){{ .bm-mark }}")


def percent(share: float) -> str:
    """A share of one in whole per cent, or to a tenth below one."""
    hundred = share * 100
    return f"{format_fixed(hundred, 0 if hundred >= 1 else 1)}{NBSP}%"


def tool_size(across_flats: Fraction) -> str:
    """A key by its size, on one line."""
    return key_size(across_flats).replace(" ", NBSP)


def decimals(value: float, places: int = 1) -> str:
    """A number with so many decimals, zeros kept, so that a column lines up."""
    return format_fixed(value, places)


def key(path: str) -> Markup:
    """A key path of the spec; it may break after its dots, nowhere else."""
    return (
        Markup("<code>")
        + Markup(".<wbr>").join(Markup(literal(step)) for step in path.split("."))
        + Markup("</code>")
    )


def code_words(text: str) -> Markup:
    """Text in which words between backticks are keys or values of the spec."""
    parts = text.split("`")
    return Markup("").join(
        Markup("<code>") + Markup(literal(part)) + Markup("</code>") if odd else Markup(literal(part))
        for odd, part in ((index % 2, part) for index, part in enumerate(parts))
    )


def after_colon(text: str) -> str:
    """What a label says after its kind."""
    return text.split(": ", 1)[-1]


def sentence(text: str) -> str:
    """The text with a capital at its start; the rest stays as written, for marks and names."""
    return text[:1].upper() + text[1:]


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
