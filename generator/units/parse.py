"""Text to exact millimetres and other exact quantities.

A small grammar of our own reads numbers, fractions and feet with inches, because a units library takes the space in `23
5/8 in` for a multiplication.
"""

from __future__ import annotations

import re
import unicodedata
from fractions import Fraction
from typing import NamedTuple

from generator.units.sizes import (
    EXAMPLES,
    INCH,
    MAX_TEXT,
    QUANTITIES,
    UnitError,
    refuse_unknown_unit,
    shown,
    size_in,
)

MAX_LENGTH = 100_000
"""The largest length that is read, in mm: anything longer is a slip of the unit, not a bench."""

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


class _Term(NamedTuple):
    """A number with the unit that follows it, empty when there is none, and where that unit begins."""

    value: Fraction
    unit: str
    position: int


def parse_number(text: str) -> Fraction:
    """Return the exact value of a bare number: `600`, `12.5`, `3/8`, `33 1/4`, `33-1/4`, `33½`, `-2`.

    Raises UnitError for anything else, scientific notation and decimal commas among them.
    """
    sign, start = _scan_sign(text)
    value, end = _scan_number(text, start)
    if text[end:].strip():
        raise UnitError(
            text, end, f"'{shown(text[end:].strip())}' is not understood; write a number without a unit"
        )
    return sign * value


def parse_length(text: str, default_unit: str = "mm") -> Fraction:
    """Return a length in exact millimetres; a bare number is in `default_unit` (`mm` or `in`).

    Zero and negative lengths are read: the caller knows what is sensible. Raises UnitError for a text that is no
    length, or one of more than 100 m either way.
    """
    if default_unit not in ("mm", "in"):
        raise ValueError(f"the default unit must be mm or in, not {default_unit!r}")
    sign, start = _scan_sign(text)
    terms = _scan_terms(text, start)
    if len(terms) > 1 and [_short_name(term.unit) for term in terms] != ["ft", "in"]:
        raise UnitError(text, terms[0].position, "only feet and inches go together, such as 3 ft 2 1/2 in")
    value = sign * sum((term.value * _millimetres(text, term, default_unit) for term in terms), Fraction(0))
    if abs(value) > MAX_LENGTH:
        raise UnitError(text, start, "this is longer than 100 m; check the unit")
    return value


def parse_quantity(text: str, kind: str) -> Fraction:
    """Return a quantity of a `kind` named in QUANTITIES, exact, in the unit given there.

    Raises UnitError when the unit is missing, unknown or of another kind.
    """
    target, example = QUANTITIES[kind], EXAMPLES[kind]
    sign, start = _scan_sign(text)
    value, end = _scan_number(text, start)
    expression = text[end:].strip()
    position = text.index(expression, end)
    if not expression:
        raise UnitError(text, position, f"the unit is missing; write a unit, for instance {example}")
    if not _UNIT_EXPRESSION.fullmatch(expression):
        raise UnitError(text, position, f"'{shown(expression)}' is not a unit; write for instance {example}")
    for word in re.finditer(_WORD, expression):
        refuse_unknown_unit(text, position + word.start(), word[0], kind)
    return sign * value * size_in(text, position, expression, kind, target)


def _scan_sign(text: str) -> tuple[int, int]:
    """Return 1 or -1, and where the number begins. The cap on the text comes first: all readers pass here."""
    if len(text) > MAX_TEXT:
        raise UnitError(text, MAX_TEXT, f"longer than {MAX_TEXT} characters; this is not a number")
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
        raise UnitError(text, end, "scientific notation cannot be used; write the number out, such as 1000")
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
    refuse_unknown_unit(text, term.position, unit, "length")
    return size_in(text, term.position, unit, "length", "mm")


def _why_no_number(text: str, start: int) -> str:
    if text[:start].strip(" \t" + _MINUSES):
        return f"'{shown(text[start:].strip())}' is not understood here"
    return "no number here; write for instance 600, 12.5 or 23 5/8"


def _why_no_unit(text: str, start: int) -> str:
    if _NUMBER.match(text, start):
        return "two numbers without a unit between them; write 1200 without a space, or a fraction as 23 5/8"
    return f"'{shown(text[start:].strip())}' is not understood here"


def _comma_reason(before: str, after: str) -> str:
    thousands = f" or {before}{after}" if len(after) == 3 else ""
    return f"a number cannot have a comma; write {before}.{after}{thousands}"
