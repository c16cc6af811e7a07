"""What a unit measures and how large it is, by its name.

Pint turns the name of a unit into its size; no object of pint leaves this module.
"""

from __future__ import annotations

import difflib
from fractions import Fraction
from functools import cache
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pint import UnitRegistry

INCH = Fraction(127, 5)
"""Millimetres in an inch, exact since the international yard of 1959."""

KG_PER_LB = 0.45359237
#: One pound of force in newtons, by its definition.
N_PER_LBF = 4.4482216152605
"""Kilograms in a pound, exact since the international pound of 1959."""

MAX_TEXT = 64
"""The longest text that is read as a number or a quantity, in characters."""

QUANTITIES: dict[str, str] = {
    "mass": "kg",
    "force": "N",
    "density": "kg/m^3",
    "mass per length": "kg/m",
    "second moment": "mm^4",
    "modulus": "MPa",
    "volume": "l",
    "time": "h",
    "coverage": "m^2/l",
}
"""The kinds that `parse_quantity` reads, and the unit in which it answers."""

EXAMPLES = {
    "mass": "20 kg",
    "force": "200 N",
    "density": "680 kg/m^3",
    "mass per length": "1.7 kg/m",
    "second moment": "9.5 cm^4",
    "modulus": "70 GPa",
    "volume": "0.75 l",
    "time": "12 h",
    "coverage": "10 m^2/l",
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
    "l", "L", "ml", "litre", "litres", "liter", "liters", "gal", "gallon", "gallons", "qt", "quart", "quarts",
    "min", "h", "hour", "hours", "day", "days",
)
# fmt: on
_SUPERSCRIPTS = {"²": "^2", "³": "^3", "⁴": "^4", "·": "*"}


class UnitError(ValueError):
    """A text that is no number, length or quantity. `position` counts characters of `text` from 0."""

    def __init__(self, text: str, position: int, reason: str) -> None:
        super().__init__(text, position, reason)
        self.text = text
        self.position = position
        self.reason = reason

    def __str__(self) -> str:
        return f"'{shown(self.text)}': {self.reason}"


def shown(text: str) -> str:
    """Return `text` fit for a message: short and without control characters."""
    clean = "".join(char if char.isprintable() else "·" for char in text[: MAX_TEXT + 1])
    return clean if len(text) <= MAX_TEXT else f"{clean[:MAX_TEXT]}…"


def refuse_unknown_unit(text: str, position: int, unit: str, kind: str) -> None:
    """Raise UnitError when `unit` is none of ours, naming the nearest right one or what it measures."""
    allowed = _LENGTH_UNITS if kind == "length" else _LENGTH_UNITS + _OTHER_UNITS
    unit = unit.replace("μ", "µ")  # Greek letter and micro sign look the same
    if unit in _LENGTH_UNITS + _OTHER_UNITS:
        return
    if unit in ("mil", "mils"):
        # A millimetre to some, a thousandth of an inch to others.
        raise UnitError(text, position, f"{unit} can mean two things; write mm or thou")
    advice = _LENGTH_ADVICE if kind == "length" else f"write it as in {EXAMPLES[kind]}"
    same = [name for name in allowed if name.casefold() == unit.casefold()]
    found = "" if same else _dimension_of_word(unit)
    if found not in ("", "length", kind):
        raise UnitError(text, position, f"{unit} is a unit of {found}, not of {kind}; {advice}")
    # A single letter is near to everything, and nobody means micrometres by a slip.
    likely = [name for name in allowed if len(name) > 1 and name not in ("um", "µm")]
    near = same or difflib.get_close_matches(unit, likely, 1, 0.5)
    advice = f"did you mean '{near[0]}'?" if near else advice
    raise UnitError(text, position, f"unknown unit '{unit}'; {advice}")


#: What nearly every spec needs: pint, which takes a quarter of a second to load, would say the same.
_COMMON = {("GPa", "MPa"): Fraction(1000), ("cm^4", "mm^4"): Fraction(10_000)}


@cache
def _registry() -> UnitRegistry[Fraction]:
    """Return the one registry, made on first use because importing pint is slow."""
    import pint

    return pint.UnitRegistry(non_int_type=Fraction)


def size_in(text: str, position: int, expression: str, kind: str, target: str) -> Fraction:
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
    advice = _LENGTH_ADVICE if kind == "length" else f"write it as in {EXAMPLES[kind]}"
    if kind == "force" and f"{expression}f" in _OTHER_UNITS:
        advice = f"write {expression}f"
    raise UnitError(text, position, f"{expression} is a unit of {found}, not of {kind}; {advice}")


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
