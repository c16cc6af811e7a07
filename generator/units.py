"""Text to exact millimetres and back: the one place that knows units.

A small grammar of our own reads numbers, fractions and feet with inches, because a units library takes the
space in `23 5/8 in` for a multiplication. Pint only turns the name of a unit into its size, and no object of
pint leaves this module.
"""

from __future__ import annotations

import difflib
import math
import re
import unicodedata
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from pint import UnitRegistry

__all__ = [
    "INCH",
    "MAX_LENGTH",
    "MAX_TEXT",
    "QUANTITIES",
    "UnitError",
    "format_fixed",
    "format_inch",
    "format_mm",
    "format_thou",
    "format_worked",
    "parse_length",
    "parse_number",
    "parse_quantity",
    "plain",
]

Number = Fraction | int | float

INCH = Fraction(127, 5)
"""Millimetres in an inch, exact since the international yard of 1959."""

MAX_LENGTH = 100_000
"""The largest length that is read, in mm: anything longer is a slip of the unit, not a bench."""

MAX_TEXT = 64
"""The longest text that is read as a number or a quantity, in characters."""

QUANTITIES: dict[str, str] = {
    "mass": "kg",
    "force": "N",
    "density": "kg/m^3",
    "mass per length": "kg/m",
    "second moment": "mm^4",
    "modulus": "MPa",
}
"""The kinds that `parse_quantity` reads, and the unit in which it answers."""

_EXAMPLES = {
    "mass": "20 kg",
    "force": "200 N",
    "density": "680 kg/m^3",
    "mass per length": "1.7 kg/m",
    "second moment": "9.5 cm^4",
    "modulus": "70 GPa",
}

_LENGTH_ADVICE = "write mm, cm, m, in, ft, yd or thou"

# Only to name what a wrong unit measures.
_OTHER_DIMENSIONS = {
    "length": "mm",
    "area": "mm^2",
    "volume": "mm^3",
    "time": "s",
    "speed": "m/s",
    "temperature": "K",
    "energy": "J",
    "power": "W",
    "electric current": "A",
}

# A list of our own: pint would also read `pin` (a trillionth of an inch) and parsecs without a word.
# fmt: off
_LENGTH_UNITS = (
    "mm", "cm", "dm", "m", "um", "µm", "in", "inch",
    "ft", "foot", "yd", "yard", "thou", "inches", "feet", "yards",
    "millimetre", "millimetres", "millimeter", "millimeters",
    "centimetre", "centimetres", "centimeter", "centimeters",
    "metre", "metres", "meter", "meters", "micron", "microns",
)
_OTHER_UNITS = (
    "kg", "g", "t", "tonne", "lb", "lbs", "oz", "kilogram",
    "kilograms", "gram", "grams", "pound", "pounds", "ounce", "ounces", "N",
    "kN", "daN", "newton", "newtons", "lbf", "kgf", "kip", "Pa",
    "kPa", "MPa", "GPa", "psi", "ksi", "Mpsi",
)
# fmt: on
_FOOT_MARKS = "'\N{PRIME}\N{RIGHT SINGLE QUOTATION MARK}"
_INCH_MARKS = '"\N{DOUBLE PRIME}\N{RIGHT DOUBLE QUOTATION MARK}'
_FOOT_UNITS = {"ft", "foot", "feet", *_FOOT_MARKS}
_INCH_UNITS = {"in", "inch", "inches", "''", *_INCH_MARKS}

_VULGAR = "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"
_SLASHES = "/\N{FRACTION SLASH}"
_MINUSES = "-\N{MINUS SIGN}"
_SIGN = re.compile(rf"\s*(?P<minus>[{_MINUSES}]?)\s*")
_NUMBER = re.compile(
    rf"""(?:(?P<whole>[0-9]+)(?:\s+|-|(?=[{_VULGAR}])))?
         (?:(?P<above>[0-9]+)[{_SLASHES}](?P<below>[0-9]+)|(?P<vulgar>[{_VULGAR}]))
       | (?P<decimal>[0-9]+\.?[0-9]*|\.[0-9]+)""",
    re.VERBOSE,
)
_COMMA = re.compile(r",(?P<after>[0-9]+)")
_EXPONENT = re.compile(r"[eE][-+]?[0-9]")
_WORD = rf"[^\W0-9_{_VULGAR}²³⁴]+"
# The hyphen in 3'-2 1/2" is a common way to write feet and inches, not a subtraction.
_LENGTH_UNIT = re.compile(
    rf"""\s*(?:(?P<unit>''|[{_FOOT_MARKS}{_INCH_MARKS}]|{_WORD})\.?
             (?:(?<=[{_FOOT_MARKS}])\s*-(?=\s*[0-9.]))?\s*)?""",
    re.VERBOSE,
)
_FACTOR = rf"{_WORD}(?:(?:\^|\*\*)[1-9](?![0-9])|[²³⁴])?"
_UNIT_EXPRESSION = re.compile(rf"{_FACTOR}(?:\s*[*·/]\s*{_FACTOR})*")
_SUPERSCRIPTS = {"²": "^2", "³": "^3", "⁴": "^4", "·": "*"}


class UnitError(ValueError):
    """A text that is no number, length or quantity. `position` counts characters of `text` from 0."""

    def __init__(self, text: str, position: int, reason: str) -> None:
        super().__init__(text, position, reason)
        self.text = text
        self.position = position
        self.reason = reason

    def __str__(self) -> str:
        return f"'{_shown(self.text)}': {self.reason}"


class _Term(NamedTuple):
    """A number with the unit that stands behind it, empty when there is none, and where that unit begins."""

    value: Fraction
    unit: str
    position: int


# --- reading


def parse_number(text: str) -> Fraction:
    """Return the exact value of a bare number: `600`, `12.5`, `3/8`, `33 1/4`, `33-1/4`, `33½`, `-2`.

    Raises UnitError for anything else, scientific notation and decimal commas among them.
    """
    sign, start = _scan_sign(text)
    value, end = _scan_number(text, start)
    if text[end:].strip():
        raise UnitError(text, end, f"'{_shown(text[end:].strip())}' is not understood; write a number alone")
    return sign * value


def parse_length(text: str, default_unit: str = "mm") -> Fraction:
    """Return a length in exact millimetres; a bare number is in `default_unit` (`mm` or `in`).

    Zero and negative lengths are read: the caller knows what is sensible.
    Raises UnitError for a text that is no length, or one of more than 100 m either way.
    """
    if default_unit not in ("mm", "in"):
        raise ValueError(f"the default unit must be mm or in, not {default_unit!r}")
    sign, start = _scan_sign(text)
    terms = _scan_terms(text, start)
    if len(terms) > 1 and [_short_name(term.unit) for term in terms] != ["ft", "in"]:
        raise UnitError(text, terms[0].position, "only feet and inches go together, such as 3 ft 2 1/2 in")
    value = sign * sum((term.value * _millimetres(text, term, default_unit) for term in terms), Fraction(0))
    if abs(value) > MAX_LENGTH:
        raise UnitError(text, start, "longer than 100 m; check the unit")
    return value


def parse_quantity(text: str, kind: str) -> Fraction:
    """Return a quantity of a `kind` named in QUANTITIES, exact, in the unit given there.

    Raises UnitError when the unit is missing, unknown or of another kind.
    """
    target, example = QUANTITIES[kind], _EXAMPLES[kind]
    sign, start = _scan_sign(text)
    value, end = _scan_number(text, start)
    expression = text[end:].strip()
    position = text.index(expression, end)
    if not expression:
        raise UnitError(text, position, f"the unit is missing; write a unit, for instance {example}")
    if not _UNIT_EXPRESSION.fullmatch(expression):
        raise UnitError(text, position, f"'{_shown(expression)}' is no unit; write for instance {example}")
    for word in re.finditer(_WORD, expression):
        _refuse_unknown_unit(text, position + word.start(), word[0], kind)
    return sign * value * _size(text, position, expression, kind, target)


def _scan_sign(text: str) -> tuple[int, int]:
    """Return 1 or -1, and where the number begins. The cap on the text comes first: all readers pass here."""
    if len(text) > MAX_TEXT:
        raise UnitError(text, MAX_TEXT, f"longer than {MAX_TEXT} characters; this is no number")
    match = _SIGN.match(text)
    assert match is not None  # every part of the pattern is optional
    return (-1 if match["minus"] else 1), match.end()


def _scan_number(text: str, start: int) -> tuple[Fraction, int]:
    """Return the number that begins at `start`, and where it ends."""
    match = _NUMBER.match(text, start)
    if match is None:
        raise UnitError(text, start, _why_no_number(text, start))
    end = match.end()
    if comma := _COMMA.match(text, end):
        raise UnitError(text, end, _comma_reason(match[0], comma["after"]))
    if _EXPONENT.match(text, end):
        raise UnitError(text, end, "scientific notation is not read; write the number out, such as 1000")
    return _number_value(text, match), end


def _number_value(text: str, match: re.Match[str]) -> Fraction:
    if match["decimal"]:
        return Fraction(match["decimal"])
    if match["vulgar"]:
        part = Fraction(unicodedata.normalize("NFKC", match["vulgar"]).replace(_SLASHES[1], "/"))
    elif int(match["below"]) == 0:
        raise UnitError(text, match.start("below"), "a fraction cannot have 0 below its line")
    else:
        part = Fraction(int(match["above"]), int(match["below"]))
    if match["whole"] is None:
        return part
    if part >= 1:
        # 23 58/8 is a slip of the pen for 23 5/8: reading it as 30 1/4 would spoil a part.
        raise UnitError(text, match.start("above"), "the fraction after a whole number must be less than 1")
    return int(match["whole"]) + part


def _scan_terms(text: str, start: int) -> list[_Term]:
    terms: list[_Term] = []
    while not terms or start < len(text):
        value, end = _scan_number(text, start)
        match = _LENGTH_UNIT.match(text, end)
        assert match is not None  # every part of the pattern is optional
        unit = match["unit"] or ""
        terms.append(_Term(value, unit, match.start("unit") if unit else end))
        start = match.end()
        if not unit and start < len(text):
            raise UnitError(text, start, _why_no_unit(text, start))
    return terms


def _short_name(unit: str) -> str:
    """Return `ft` or `in` for their marks and long names, any other unit as it is."""
    if unit in _FOOT_UNITS:
        return "ft"
    return "in" if unit in _INCH_UNITS else unit


def _millimetres(text: str, term: _Term, default_unit: str) -> Fraction:
    """Return the size in mm of the unit of `term`."""
    unit = _short_name(term.unit) or default_unit
    if unit in ("mm", "in"):
        return Fraction(1) if unit == "mm" else INCH  # by far the most common: no need to load pint
    _refuse_unknown_unit(text, term.position, unit, "length")
    return _size(text, term.position, unit, "length", "mm")


# --- reasons


def _shown(text: str) -> str:
    """Return `text` fit for a message: short and without control characters."""
    clean = "".join(char if char.isprintable() else "·" for char in text[: MAX_TEXT + 1])
    return clean if len(text) <= MAX_TEXT else f"{clean[:MAX_TEXT]}…"


def _why_no_number(text: str, start: int) -> str:
    if text[:start].strip(" \t" + _MINUSES):
        return f"'{_shown(text[start:].strip())}' is not understood here"
    return "no number here; write for instance 600, 12.5 or 23 5/8"


def _why_no_unit(text: str, start: int) -> str:
    if _NUMBER.match(text, start):
        return "two numbers without a unit between them; write 1200 without a space, or a fraction as 23 5/8"
    return f"'{_shown(text[start:].strip())}' is not understood here"


def _comma_reason(before: str, after: str) -> str:
    thousands = f" or {before}{after}" if len(after) == 3 else ""
    return f"a comma is not read in a number; write {before}.{after}{thousands}"


def _refuse_unknown_unit(text: str, position: int, unit: str, kind: str) -> None:
    """Raise UnitError when `unit` is none of ours, naming the nearest right one or what it measures."""
    allowed = _LENGTH_UNITS if kind == "length" else _LENGTH_UNITS + _OTHER_UNITS
    unit = unit.replace("μ", "µ")  # Greek letter and micro sign look alike
    if unit in _LENGTH_UNITS + _OTHER_UNITS:
        return
    if unit in ("mil", "mils"):
        # A millimetre to some, a thousandth of an inch to others.
        raise UnitError(text, position, f"{unit} can mean two things; write mm or thou")
    advice = _LENGTH_ADVICE if kind == "length" else f"write for instance {_EXAMPLES[kind]}"
    same = [name for name in allowed if name.casefold() == unit.casefold()]
    found = "" if same else _dimension_of_word(unit)
    if found not in ("", "length", kind):
        raise UnitError(text, position, f"{unit} measures {found}, not {kind}; {advice}")
    # A single letter is near to everything, and nobody means micrometres by a slip.
    likely = [name for name in allowed if len(name) > 1 and name not in ("um", "µm")]
    near = same or difflib.get_close_matches(unit, likely, 1, 0.5)
    advice = f"did you mean '{near[0]}'?" if near else advice
    raise UnitError(text, position, f"unknown unit '{unit}'; {advice}")


# --- pint


#: What nearly every spec needs: pint, which takes a quarter of a second to load, would say the same.
_COMMON = {("GPa", "MPa"): Fraction(1000), ("cm^4", "mm^4"): Fraction(10_000)}


@cache
def _registry() -> UnitRegistry[Fraction]:
    """Return the one registry, made on first use because importing pint is slow."""
    import pint

    return pint.UnitRegistry(non_int_type=Fraction)


def _size(text: str, position: int, expression: str, kind: str, target: str) -> Fraction:
    """Return how many `target` units `expression` is, exact. Raises UnitError when it is of another kind."""
    for character, plain_form in _SUPERSCRIPTS.items():
        expression = expression.replace(character, plain_form)
    if expression == target:
        return Fraction(1)
    if (expression, target) in _COMMON:
        return _COMMON[expression, target]
    found = _dimension(expression)
    if found == kind:
        return _convert(expression, target)
    advice = _LENGTH_ADVICE if kind == "length" else f"write for instance {_EXAMPLES[kind]}"
    if kind == "force" and f"{expression}f" in _OTHER_UNITS:
        advice = f"write {expression}f"
    raise UnitError(text, position, f"{expression} measures {found}, not {kind}; {advice}")


@cache
def _convert(expression: str, target: str) -> Fraction:
    return Fraction(_registry().Quantity(Fraction(1), expression).to(target).magnitude)


@cache
def _dimension(expression: str) -> str:
    """Return the name of what a unit measures."""
    registry = _registry()
    found = registry.get_dimensionality(expression)
    for name, unit in (_OTHER_DIMENSIONS | QUANTITIES).items():
        if registry.get_dimensionality(unit) == found:
            return name
    return "something else"


def _dimension_of_word(word: str) -> str:
    """Return what a unit that is not on our list measures, or an empty string when pint does not know it."""
    registry = _registry()
    if not (word.isascii() and registry.parse_unit_name(word)):
        return ""
    from pint.errors import PintError

    try:
        return _dimension(word)
    except PintError:  # a name that pint knows but refuses, such as kdegC
        return ""


# --- printing


def format_fixed(value: Number, decimals: int) -> str:
    """Return `value` with exactly so many decimals, halves rounded away from zero; never `-0`."""
    units = _steps(value, 10**decimals)
    digits = str(abs(units)).rjust(decimals + 1, "0")
    whole, part = digits[: len(digits) - decimals], digits[len(digits) - decimals :]
    return f"{'-' if units < 0 else ''}{whole}{'.' if part else ''}{part}"


def format_mm(value: Number, decimals: int = 1) -> str:
    """Return a length in mm without its unit and without trailing zeros: `1920`, `17.5`."""
    text = format_fixed(value, decimals)
    return text.rstrip("0").rstrip(".") if "." in text else text


def format_inch(value_mm: Number, denominator: int = 32) -> str:
    """Return a length in mm as the nearest reduced fraction of an inch, without its unit: `23 5/8`, `3/8`."""
    steps = _steps(_exact(value_mm) / INCH, denominator)
    whole, rest = divmod(abs(steps), denominator)
    part = str(Fraction(rest, denominator)) if rest else ""
    text = " ".join(piece for piece in (str(whole) if whole else "", part) if piece) or "0"
    return f"-{text}" if steps < 0 else text


def format_thou(value_mm: Number) -> str:
    """Return a length in mm as decimal inches to a thousandth, without its unit: `0.315`."""
    return format_fixed(_exact(value_mm) / INCH, 3)


def format_worked(value: Number, unit: str, units: str) -> str:
    """Return a number of a calculation without its unit, to a thousandth; lengths in the manual's `units`.

    `unit` is that of the value: a length in mm is given in inches to a thousandth when `units` is `in`. A number
    below zero has a minus sign, as the formulas around it have.
    """
    if unit == "mm" and units == "in":
        text = format_mm(_exact(value) / INCH, 3)
    else:
        text = format_mm(value, 3 if abs(_exact(value)) < 1000 else 1)
    return text.replace("-", "−")


def plain(value: Number) -> float | int:
    """Return `value` for JSON: an int when it is whole, else a float of nine decimals.

    Raises ValueError for nan and infinity.
    """
    rounded = round(_exact(value), 9)
    return rounded.numerator if rounded.denominator == 1 else float(rounded)


def _exact(value: Number) -> Fraction:
    """Return `value` as a fraction; a float counts as the decimal that it prints as, as people see it."""
    if isinstance(value, float):
        if not math.isfinite(value):
            raise ValueError(f"{value} is not a finite number")
        return Fraction(repr(float(value)))
    return Fraction(value)


def _steps(value: Number, parts: int) -> int:
    """Return how many `1/parts` are nearest to `value`, halves away from zero so that -x prints as -(x)."""
    exact = _exact(value)
    count = (2 * abs(exact.numerator) * parts + exact.denominator) // (2 * exact.denominator)
    return -count if exact < 0 else count
