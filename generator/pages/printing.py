"""How values are written on a page: lengths in the manual's unit, masses, marks, machining in words."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from fractions import Fraction
from shlex import quote
from typing import Any

from markupsafe import Markup, escape

from generator.drawings.dimensions import Ruler
from generator.figures.compare import shown, touched
from generator.figures.comparison import ActChange, Comparison, FieldChange, PartChange
from generator.figures.model import Figures
from generator.figures.rows.buying import Bought, Purchase
from generator.figures.rows.parts import CutSection, Notch, Operation, PartRow
from generator.figures.steps.words import key_size
from generator.figures.working import workings
from generator.pages.page import WORKING_FILE, anchor, part_links, working_anchor
from generator.pages.quantities import Quantities
from generator.readings import written
from generator.units.format import format_fixed, format_inch, format_mm, format_thou
from generator.units.sizes import INCH, KG_PER_LB

MM2_PER_M2 = 1_000_000

#: So many operations are told one by one; a top has hundreds of holes.
MOST_ACTS = 3
#: Keeps a number and its unit on one line.
NBSP = "\u00a0"


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
        self._links = part_links(figures)
        record = figures.record
        self._touched = touched(changes) if changes else set()
        self._touched |= {mark for each in record.changed for mark in each.marks} if record else set()
        self._states = {piece.mark: piece.state for piece in record.pieces} if record else {}
        self._rows = {(row.section, row.key) for row in changes.rows} if changes else set()
        self._currency = figures.spec.currency
        self._sheets = {mark: row.mark for row in figures.parts for mark in row.marks}

    def filters(self) -> dict[str, Callable[..., Any]]:
        """Name in the templates -> function."""
        own: dict[str, Callable[..., Any]] = {
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
            "money": self.money,
            "bought": self.bought,
            "measured": self.measured,
            "mark_list": self.mark_list,
            "length_list": self.length_list,
            "signed_list": self.signed_list,
            "changed": self.changed,
            "done": self.done,
            "changed_row": self.changed_row,
            "changes": self.changes,
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
            "marks": self.marks,
            "mark": self.mark,
            "size": self.size,
            "depth": self.depth,
            "amount": self.amount,
            "assumption": self.assumption,
            "sentence": sentence,
            "code_words": code_words,
        }
        return own | self._quantities.filters()

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

    def money(self, amount: float) -> str:
        """A sum in the spec's currency, where it names one."""
        text = format_fixed(amount, 2)
        return f"{text}{NBSP}{self._currency}" if self._currency else text

    def bought(self, row: Bought) -> str:
        """What to buy: 5 × 6000 mm, 3 × 2440 × 1220 mm, 2 packs of 50, 24."""
        if row.pack:
            return f"{row.count} {'pack' if row.count == 1 else 'packs'} of {row.pack}"
        if row.length is None:
            return str(row.count)
        size = self.length(row.length) if row.width is None else self.pair((row.length, row.width))
        return f"{row.count} × {size}{NBSP}{self.unit}"

    def measured(self, millimetres: float) -> str:
        """A length that is measured, never cut: to a tenth, or to the rule's finest fraction."""
        return self._opened(millimetres, self._ruler.text(Fraction(str(round(millimetres, 3)))))

    def tolerance(self, value: Fraction) -> str:
        """What may differ, without its unit; on an inch rule the next finer of 1/64, 1/32, 1/16, never more."""
        whole = [Fraction(1, n) for n in (16, 32, 64) if INCH * Fraction(1, n) <= value]
        return self._either(format_mm(value), str(whole[0]) if whole else format_thou(value))

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

    def done(self, marks: Iterable[str]) -> str:
        """Which pieces of a row are cut or in their place already; empty when none is."""
        told = []
        for state in ("cut", "installed"):
            if found := [mark for mark in marks if self._states.get(mark) == state]:
                told.append(f"{state}: {self.plain_marks(found)}")
        return Markup("<br><em>{}</em>").format(literal("; ".join(told))) if told else ""

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
            return "lies elsewhere"
        return self._from_to(words(change.what), self._told(change.old), self._told(change.new))

    def _act_change(self, change: ActChange) -> str:
        old, new = change.old, change.new
        act = new or old
        name = f"notch {act.corner}" if isinstance(act, Notch) else f"{act.op} {act.face}" if act else ""
        if old is None or new is None:
            return f"{'no ' if new is None else 'new '}{name}"
        if isinstance(old, Operation) and isinstance(new, Operation) and old.at != new.at:
            return self._from_to(f"{name} at", self.pair(old.at), self.pair(new.at))
        return f"{name} of another size"

    def _from_to(self, name: str, old: str, new: str) -> str:
        return Markup("{} {} → {}").format(literal(name), literal(old), literal(new))

    def _told(self, value: object) -> str:
        if isinstance(value, Fraction):
            return self.fine(value)
        if isinstance(value, float):
            return format_mm(value, 2)
        if isinstance(value, tuple):
            return ", ".join(self._told(item) for item in value) or "none"
        return "none" if value is None else str(value)

    def signed_list(self, values: Iterable[Fraction]) -> str:
        """Differences with their sign, without their unit."""
        return " × ".join(f"{'+' if value > 0 else ''}{self.fine(value)}" for value in values)

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
        return self._opened(diameter, self._either(format_mm(diameter), inches))

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
            return f"{self._opened(value, self._ruler.fine(Fraction(str(round(float(value), 3)))))}{NBSP}{self.unit}"
        if unit == "kg":
            return self.mass(value)
        if unit == "kg m":
            return self._quantities.moment(value)
        return f"{self._opened(value, format_mm(value, 2))}{NBSP}{unit}".strip()

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
        text = format_mm(Fraction(str(value)) * factor, 3)
        return f"{self._opened(value, text) if isinstance(value, Fraction) else text}{NBSP}{unit}".strip()


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
    "limits.top_force": (Fraction(1), "N"),
    "limits.rail_sag": (Fraction(1), ""),
    "limits.shelf_sag": (Fraction(1), ""),
    "limits.lift_one": (Fraction(1), "kg"),
    "coldest": (Fraction(1), "°C"),
    "warmest": (Fraction(1), "°C"),
    "driest": (Fraction(1), "%"),
    "dampest": (Fraction(1), "%"),
}


#: Signs that Markdown or HTML would take for its own; a number reference shows them as they are, in either.
_SIGNS = {ord(sign): f"&#{ord(sign)};" for sign in "|*_[]{}`~\\"}
#: What would begin a heading, a list, a quotation, a note or a line below a heading where a text begins a line.
_BEGINS = re.compile(r"[#+\-=:!]|\d+(?=[.)](?:\s|$))")


def literal(value: object) -> object:
    """Every text that a template prints is shown as it is written; `Markup` alone is taken as it stands."""
    if isinstance(value, Markup) or not isinstance(value, str):
        return value
    text = str(escape(value)).translate(_SIGNS).replace("\n", " ")
    first = _BEGINS.match(text)
    return Markup(
        f"{''.join(f'&#{ord(sign)};' for sign in first[0])}{text[first.end() :]}" if first else text
    )


def keyed(text: str) -> Markup:
    """A text whose keys and values stand between backticks, these as code; a lone backtick is a sign like any other."""
    words = text.split("`")
    if len(words) % 2 == 0:
        return Markup(literal(text))
    return Markup("").join(
        Markup(f"<code>{literal(word)}</code>") if number % 2 else Markup(literal(word))
        for number, word in enumerate(words)
    )


def finished(page: str) -> str:
    """A page with each length as HTML that holds its other reading, and each figure as a link to its working."""
    page = written(page, lambda own, other: f'<span data-o="{other}">{own}</span>')
    return "\n".join(
        # a heading or title is a name: nothing in it leads elsewhere; in a list to tick a touch ticks, and Markdown
        # does not read what stands in HTML
        _OPENED.sub(
            r"\2" if line.startswith(("#", "!!!", "<ul")) else rf"[\2]({WORKING_FILE}#\1){{ .bm-figure }}",
            line,
        )
        for line in page.split("\n")
    )


def _weight(amount: float, unit: str) -> str:
    return f"under 0.1 {unit}" if 0 < amount < 0.05 else f"{format_fixed(amount, 1)} {unit}"


def words(name: str) -> str:
    """The name of a field as words."""
    return name.replace("_", " ")


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
