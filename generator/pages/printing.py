"""How values are written on a page: lengths in the manual's unit, masses, marks, machining in words."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from fractions import Fraction
from shlex import quote
from typing import Any

from markupsafe import Markup

from generator.bench.joints import TO_SLOT
from generator.drawings.dimensions import Ruler
from generator.figures.comparison import Comparison
from generator.figures.model import Figures
from generator.figures.rows.buying import Bought, Purchase
from generator.figures.rows.parts import CutSection, OperationRow, PartRow
from generator.figures.workings import workings
from generator.pages.literal import (
    NBSP,
    after_colon,
    decimals,
    key,
    keyed,
    percent,
    sentence,
    tool_size,
    words,
)
from generator.pages.marks import Changes, Marks
from generator.pages.materials import Materials
from generator.pages.page import WORKING_FILE, working_anchor
from generator.pages.quantities import Quantities
from generator.readings import written
from generator.units.format import (
    format_fixed,
    format_inch,
    format_mm,
    format_thou,
    next_finer,
    rest_inch,
    rest_mm,
)
from generator.units.sizes import INCH, KG_PER_LB

MM2_PER_M2 = 1_000_000


# Private-use signs round the text of a figure and the name of its working, as with readings: they pass through
# joins and escapes untouched, and only the finished page takes them apart.
_FIGURE, _READS, _END = "\ue003", "\ue004", "\ue005"
_OPENED = re.compile(f"{_FIGURE}([^{_FIGURE}-{_END}]*){_READS}([^{_FIGURE}-{_END}]*){_END}")


class Printer:
    """The filters of all templates, for one manual."""

    def __init__(self, figures: Figures, ruler: Ruler, changes: Comparison | None = None) -> None:
        self._ruler = ruler
        self.workings = workings(figures)
        self._either = ruler.either
        self._quantities = Quantities(self._said)
        marks = Marks(figures)
        self._marks, self._changes = marks, Changes(figures, changes, marks, self)
        self._currency = figures.spec.currency
        self._materials = Materials(figures)

    def filters(self) -> dict[str, Callable[..., Any]]:
        """Name in the templates -> function."""
        own: dict[str, Callable[..., Any]] = {
            "either": self._either,
            "length": self.length,
            "rest": self.rest,
            "rest_both": self.rest_both,
            "length_of": len,
            "other": self.other,
            "other_pair": self.other_pair,
            "other_cut": self.other_cut,
            "part_size": self.part_size,
            "section_area": self.section_area,
            "edges": self.edges,
            "quantity": self.quantity,
            "money": self.money,
            "bought": self.bought,
            "measured": self.measured,
            "length_list": self.length_list,
            "signed_list": self.signed_list,
            "words": words,
            "percent": percent,
            "hole": self.hole,
            "tool_size": tool_size,
            "after_colon": after_colon,
            "key": key,
            "keyed": keyed,
            "shell": quote,
            "both": self.both,
            "fine": self.fine,
            "tolerance": self.tolerance,
            "fine_measured": self.fine_measured,
            "pair": self.pair,
            "area": self.area,
            "mass": self.mass,
            "decimals": decimals,
            "size": self.size,
            "depth": self.depth,
            "amount": self.amount,
            "assumption": self.assumption,
            "sentence": sentence,
        }
        rooms = (self._quantities, self._marks, self._materials, self._changes)
        return own | {name: each for room in rooms for name, each in room.filters().items()}

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
        return self._opened(value, self._ruler.text(value))

    def _opened(self, value: Fraction | float, text: str) -> str:
        """The text of a figure, which leads to its working where it has one."""
        key = self.workings.key_of(value)
        return f"{_FIGURE}{working_anchor(self.workings, key)}{_READS}{text}{_END}" if key else text

    def both(self, value: Fraction) -> str:
        """A length in the manual's unit, and in the other one in brackets."""
        mm, inch = f"{format_mm(value)} mm", f"{format_inch(value, self._ruler.denominator)} in"
        first, second = self._opened(value, self._either(mm, inch)), self._either(inch, mm)
        return Markup(f"{first} <span class='bm-in'>({second})</span>")

    def rest(self, value: Fraction) -> str:
        """What is left of a piece, rounded down, without its unit."""
        return self._opened(value, self._ruler.rest(value))

    def rest_both(self, value: Fraction) -> str:
        """What is left of a piece in the manual's unit, and in the other one in brackets."""
        mm, inch = f"{rest_mm(value)} mm", f"{rest_inch(value, self._ruler.denominator)} in"
        first, second = self._opened(value, self._either(mm, inch)), self._either(inch, mm)
        return Markup(f"{first} <span class='bm-in'>({second})</span>")

    def other(self, value: Fraction) -> str:
        """A length in the unit that the manual does not use."""
        text = self._either(f"{format_inch(value, self._ruler.denominator)} in", f"{format_mm(value)} mm")
        return Markup(f"<span class='bm-in'>({text})</span>")

    def other_pair(self, row: PartRow) -> str:
        """First and second size of a part in the other unit."""
        return self.other(row.length) if row.is_bar else self._other_sizes((row.length, row.width))

    def other_cut(self, row: PartRow) -> str:
        """First and second size of a board as it is cut, in the other unit."""
        return self._other_sizes(row.cut_size)

    def _other_sizes(self, sizes: tuple[Fraction, Fraction]) -> str:
        inches = " × ".join(format_inch(value, self._ruler.denominator) for value in sizes)
        text = self._either(f"{inches} in", " × ".join(map(format_mm, sizes)) + " mm")
        return Markup(f"<span class='bm-in'>({text})</span>")

    def part_size(self, row: PartRow) -> str:
        """Length of a bar; length, width and thickness of a board."""
        if row.is_bar:
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

    def quantity(self, row: Purchase) -> str:
        """An amount to buy: metres and square metres as the manual measures, pieces whole."""
        if row.unit == "pieces":
            return f"{row.quantity:g}"
        if row.unit == "m²":
            return self.area(row.quantity)
        if row.unit == "l":
            return self._quantities.volume(row.quantity)
        feet = row.quantity * 1000 / float(INCH * 12)
        return self._either(f"{format_fixed(row.quantity, 2)} m", f"{format_fixed(feet, 1)} ft")

    def money(self, amount: float) -> str:
        """A sum in the spec's currency, where it names one."""
        text = format_fixed(amount, 2)
        return f"{text}{NBSP}{self._currency}" if self._currency else text

    def bought(self, row: Bought) -> str:
        """What to buy: 5 × 6000 mm, 3 × 2440 × 1220 mm, 2 packs of 50, 24."""
        if row.pack:
            return f"{row.count} {'pack' if row.count == 1 else 'packs'} of {row.pack}"
        if row.tin:
            return f"{row.count} {'tin' if row.count == 1 else 'tins'} of {self._quantities.volume(row.tin)}"
        if row.length is None:
            return str(row.count)
        size = self.length(row.length) if row.width is None else self.pair((row.length, row.width))
        return f"{row.count} × {size}{NBSP}{self.unit}"

    def measured(self, millimetres: float) -> str:
        """A length that is measured, never cut: to a tenth, or to the rule's finest fraction."""
        return self._opened(millimetres, self._ruler.text(Fraction(str(round(millimetres, 3)))))

    def tolerance(self, value: Fraction) -> str:
        """What may differ, without its unit; on an inch rule the next finer of 1/64, 1/32, 1/16, never more."""
        return self._either(format_mm(value), next_finer(value))

    def _said(self, value: Fraction | float, metric: str, imperial: str) -> str:
        """A quantity in either system, leading to its working."""
        return self._opened(value, self._either(metric, imperial))

    def fine(self, value: Fraction) -> str:
        """The size of a fit, without its unit."""
        return self._opened(value, self._ruler.fine(value))

    def fine_measured(self, millimetres: float) -> str:
        """A clearance that comes out so, never cut: as fine as a fit is written."""
        return self._opened(millimetres, self._ruler.fine(Fraction(str(round(millimetres, 2)))))

    def pair(self, values: Sequence[Fraction]) -> str:
        """Lengths in a row with × between, without their unit."""
        return " × ".join(self.length(value) for value in values)

    def area(self, square_metres: float) -> str:
        """To a hundredth of a square metre, or to a tenth of a square foot."""
        feet = square_metres / float(INCH * 12 / 1000) ** 2
        return self._either(f"{format_fixed(square_metres, 2)} m²", f"{format_fixed(feet, 1)} sq ft")

    def mass(self, kilograms: Fraction | float) -> str:
        """To a tenth of a kilogram, or to a tenth of a pound."""
        weighed = self._either(_weight(float(kilograms), "kg"), _weight(float(kilograms) / KG_PER_LB, "lb"))
        return self._opened(kilograms, weighed)

    def length_list(self, values: Iterable[Fraction]) -> str:
        """Lengths in their order, without their unit."""
        return ", ".join(self.length(value) for value in values)

    def signed_list(self, values: Iterable[Fraction]) -> str:
        """Differences with their sign, without their unit."""
        return " × ".join(f"{'+' if value > 0 else ''}{self.fine(value)}" for value in values)

    def size(self, operation: OperationRow) -> str:
        """Diameter, thread diameter or rectangle of an operation."""
        if isinstance(operation.size, tuple):
            return self.pair(operation.size)
        if operation.thread:
            return operation.thread
        return f"Ø{NBSP}{self.hole(operation.size)}"

    def hole(self, diameter: Fraction) -> str:
        """Hole sizes keep the drill's own name: a tenth of a millimetre, or a fraction of an inch."""
        is_fraction = (diameter * 5 * 64 / 127).denominator == 1
        inches = format_inch(diameter, 64) if is_fraction else format_thou(diameter)
        return self._opened(diameter, self._either(format_mm(diameter), inches))

    def depth(self, operation: OperationRow) -> str:
        """A depth without its unit. No depth means through, but a key's hole goes to the joint's slot only."""
        if operation.depth is None:
            return "to the joint's slot" if operation.op in TO_SLOT else "through"
        return self.length(operation.depth)

    def amount(self, value: Fraction | float | None, unit: str) -> str:
        """A check's value with its unit."""
        if value is None:
            return "–"
        if unit == "mm":
            return f"{self._opened(value, self._ruler.fine(Fraction(str(round(float(value), 3)))))}{NBSP}{self.unit}"
        if unit == "kg":
            return self.mass(value)
        if unit == "kg m":
            return self._quantities.moment(value)
        if unit == "N":
            return self._quantities.force(value)
        return f"{self._opened(value, format_mm(value, 2))}{NBSP}{unit}".strip()

    def assumption(self, value: object, path: str) -> str:
        """An assumed value: lengths in the manual's unit, other quantities in the unit that cards use."""
        if isinstance(value, str):
            return value
        if isinstance(value, tuple):
            key = path.rsplit(".", 1)[-1]
            if key in _SHARES:
                return ", ".join(self._opened(item, format_mm(item, 3)) for item in value)
            if key in _RANGES:
                ends = " to ".join(self._opened(item, format_mm(item, 3)) for item in value)
                return f"{ends}{NBSP}{_RANGES[key]}"
            return " × ".join(self.fine(item) for item in value) + f" {self.unit}"
        section, key = path.split(".", 1)[0], path.rsplit(".", 1)[-1]
        quantity = _QUANTITIES.get(path) or _QUANTITIES.get(f"{section}.*.{key}") or _QUANTITIES.get(key)
        if isinstance(value, Fraction) and quantity is None:
            return f"{self.fine(value)}{NBSP}{self.unit}"
        factor, unit = quantity or (Fraction(1), "")
        text = format_mm(Fraction(str(value)) * factor, 3)
        return f"{self._opened(value, text) if isinstance(value, Fraction) else text}{NBSP}{unit}".strip()


#: Pairs of shares of a size, not of lengths.
_SHARES = ("pull_at",)
#: Ranges of what is no length, with the unit in which they are written.
_RANGES = {"stiffness": f"kN{NBSP}m/rad"}
#: Keys that are no lengths: factor from the spec's base unit, and the unit in which they are written.
_QUANTITIES: Mapping[str, tuple[Fraction, str]] = {
    "density": (Fraction(1), "kg/m³"),
    "modulus": (Fraction(1, 1000), "GPa"),
    "second_moment": (Fraction(1, 10_000), "cm⁴"),
    "mass": (Fraction(1), "kg/m"),
    "rating": (Fraction(1), "kg"),
    "load": (Fraction(1), "kg"),
    "coverage": (Fraction(1), "m²/l"),
    "dry": (Fraction(1), "h"),
    "tin": (Fraction(1), "l"),
    "loads.drawer": (Fraction(1), "kg"),
    "loads.shelf": (Fraction(1), "kg"),
    "loads.top": (Fraction(1), "kg"),
    "loads.push": (Fraction(1), "N"),
    "limits.top_force": (Fraction(1), "N"),
    "nut_force": (Fraction(1), "N"),
    "creep": (Fraction(1), ""),
    "moisture": (Fraction(1), "%"),
    "room.grip": (Fraction(1), ""),
    "limits.rail_sag": (Fraction(1), ""),
    "limits.shelf_sag": (Fraction(1), ""),
    "limits.lift_one": (Fraction(1), "kg"),
    "hardware.*.opening": (Fraction(1), "°"),
    "coldest": (Fraction(1), "°C"),
    "warmest": (Fraction(1), "°C"),
    "driest": (Fraction(1), "%"),
    "dampest": (Fraction(1), "%"),
}


def finished(page: str) -> str:
    """A page with each length as HTML that holds its other reading, and each figure as a link to its working.

    No more than one empty line is in a row, none at the start.
    """
    page = written(page, lambda own, other: f'<span data-o="{other}">{own}</span>')
    lines = (
        # a heading or title is a name: nothing in it leads elsewhere; in a list to tick a touch ticks, and Markdown
        # does not read what is in HTML
        _OPENED.sub(
            r"\2" if line.startswith(("#", "!!!", "<ul")) else rf"[\2]({WORKING_FILE}#\1){{ .bm-figure }}",
            line,
        )
        for line in page.split("\n")
    )
    return re.sub(r"\n{3,}", "\n\n", "\n".join(lines)).strip() + "\n"


def _weight(amount: float, unit: str) -> str:
    return f"under 0.1 {unit}" if 0 < amount < 0.05 else f"{format_fixed(amount, 1)} {unit}"
