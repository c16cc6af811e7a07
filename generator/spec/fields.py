"""The kinds of value that a spec holds, each parsed once, here, from the text that the user wrote.

Every scalar arrives as a string. The unit of a bare length comes from the validation context `{"units": "mm"}`.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Annotated, Any

from pydantic import PlainSerializer, PlainValidator, ValidationInfo, WithJsonSchema
from pydantic_core import PydanticCustomError

from generator.calculators.fasteners import THREADS
from generator.calculators.spacing import Share
from generator.calculators.wood_screws import SHANKS
from generator.codes import Code
from generator.findings import one_of
from generator.units.dates import A_DATE, is_date
from generator.units.parse import parse_length, parse_number, parse_quantity
from generator.units.sizes import QUANTITIES, UnitError

MOST_MM = Fraction(100_000)
#: Smaller than an atom: solids are floating-point numbers, and the volume of a thinner one is 0.
LEAST_MM = Fraction(1, 10**9)


@dataclass(frozen=True)
class Screw:
    """A screw by its thread, or a wood screw by its size, and length (mm); `text` as the user wrote it."""

    thread: str
    length: Fraction
    text: str

    @property
    def shank(self) -> Fraction:
        """Diameter (mm) of a wood screw's shank."""
        return SHANKS[self.thread]

    def __str__(self) -> str:
        return self.text


@dataclass(frozen=True)
class InUnit:
    """Beside a kind of value: the unit of its number, mm or one of QUANTITIES; empty for a bare number."""

    name: str


def _fault(code: Code, message: str, found: object, allowed: str) -> PydanticCustomError:
    return PydanticCustomError(
        code, "{message}", {"message": message, "found": str(found), "allowed": allowed}
    )


def _text(value: Any, allowed: str) -> str:
    if isinstance(value, str) and value.strip():
        return value
    found = "nothing" if value is None or value == "" else f"a {_KINDS.get(type(value), 'value')}"
    raise _fault(Code.WRONG_KIND, "this needs a single value", found, allowed)


_KINDS: dict[type, str] = {dict: "group of keys", list: "list"}


def _units(info: ValidationInfo) -> str:
    return str((info.context or {}).get("units", "mm"))


A_LENGTH = "a length such as 600 mm, 23 5/8 in or 3 ft 2 1/2 in"


def length_of(
    value: Any, info: ValidationInfo, *, least: Fraction | None, above: bool, allowed: str = A_LENGTH
) -> Fraction:
    """A length (mm) from text, with its bounds; a fault says what is `allowed`."""
    if isinstance(value, Fraction):
        return value
    text = _text(value, allowed)
    try:
        length = parse_length(text, _units(info))
    except UnitError as fault:
        raise _fault(Code.BAD_LENGTH, fault.reason, text, allowed) from None
    if least is not None and (length < least or (above and length == least)):
        bound = "above 0" if above else "0 or more"
        raise _fault(Code.OUT_OF_RANGE, "this length is too small", text, bound)
    if 0 < abs(length) < LEAST_MM:
        raise _fault(Code.OUT_OF_RANGE, "this length is too small", text, "0.000000001 mm or more")
    if abs(length) > MOST_MM:
        raise _fault(Code.OUT_OF_RANGE, "this length is too large", text, "100 m or less")
    return length


def _positive(value: Any, info: ValidationInfo) -> Fraction:
    return length_of(value, info, least=Fraction(0), above=True)


def _not_negative(value: Any, info: ValidationInfo) -> Fraction:
    return length_of(value, info, least=Fraction(0), above=False)


def _any_length(value: Any, info: ValidationInfo) -> Fraction:
    return length_of(value, info, least=None, above=False)


def _share_or_length(value: Any, info: ValidationInfo) -> Fraction | Share:
    if isinstance(value, Share | Fraction):
        return value
    allowed = "`share`, `share N`, or a length such as 600 mm or 23 5/8 in"
    text = _text(value, allowed)
    words = text.split(maxsplit=1)
    if words[0].casefold() != "share":
        return length_of(text, info, least=Fraction(0), above=True, allowed=allowed)
    try:
        weight = parse_number(words[1]) if len(words) > 1 else Fraction(1)
    except UnitError as fault:
        raise _fault(Code.BAD_SHARE, fault.reason, text, allowed) from None
    if not 0 < weight <= 1000:
        raise _fault(
            Code.BAD_SHARE, "this share is out of range", text, "a share above 0, `share 1000` or less"
        )
    return Share(weight)


A_NUMBER = "a number of 0 or more, such as 12.5 or 3/8"


def _number(value: Any) -> Fraction:
    if isinstance(value, Fraction):
        return value
    text = _text(value, A_NUMBER)
    try:
        number = parse_number(text)
    except UnitError as fault:
        raise _fault(Code.BAD_NUMBER, fault.reason, text, A_NUMBER) from None
    if not 0 <= number <= 10**9:
        raise _fault(Code.OUT_OF_RANGE, "this number is out of range", text, "from 0 to 1 000 000 000")
    return number


def _between(least: float, most: float, what: str) -> Callable[[Any], Fraction]:
    allowed = f"{what} from {least} to {most}"

    def parse(value: Any) -> Fraction:
        if isinstance(value, Fraction):
            return value
        text = _text(value, allowed)
        try:
            number = parse_number(text)
        except UnitError as fault:
            raise _fault(Code.BAD_NUMBER, fault.reason, text, allowed) from None
        if not least <= number <= most:
            raise _fault(Code.OUT_OF_RANGE, "this number is out of range", text, allowed)
        return number

    return parse


FREE = "free"
"""The word for any number of stages."""


def _whole_to(most: int, least: int = 1) -> Callable[[Any], int]:
    def parse(value: Any) -> int:
        allowed = f"a whole number from {least} to {most}"
        text = _text(str(value) if isinstance(value, int) else value, allowed)
        if not re.fullmatch(r"\d{1,6}", text) or not least <= int(text) <= most:
            raise _fault(Code.BAD_COUNT, "this is not a count", text, allowed)
        return int(text)

    return parse


def _stages(value: Any) -> int | None:
    """`free` is no limit."""
    return None if str(value).casefold() == FREE else _whole_to(20, least=2)(value)


def _flag(value: Any) -> bool:
    if isinstance(value, bool):
        return value
    text = _text(value, "true or false").casefold()
    if text not in ("true", "false", "yes", "no"):
        raise _fault(Code.BAD_FLAG, "this is neither true nor false", value, "true or false")
    return text in ("true", "yes")


#: Quantities of which nothing would carry, or weigh, nothing: the sums divide by them.
ABOVE_ZERO = ("volume", "coverage", "density", "mass per length", "second moment", "modulus")


def _raised(text: str) -> str:
    """Areas as tins have them, such as 10 m2/l or 400 sq ft/gal, with their power."""
    return re.sub(r"\b(m|ft)2\b", r"\1^2", re.sub(r"\bsq\.? ?ft\b", "ft^2", text))


def _quantity(kind: str, example: str) -> Callable[[Any], Fraction]:
    def parse(value: Any) -> Fraction:
        if isinstance(value, Fraction):
            return value
        allowed = f"a {kind} with its unit, such as {example}"
        text = _text(value, allowed)
        try:
            quantity = parse_quantity(_raised(text), kind)
        except UnitError as fault:
            raise _fault(Code.BAD_QUANTITY, fault.reason, text, allowed) from None
        if quantity < 0:
            raise _fault(Code.OUT_OF_RANGE, f"this {kind} is negative", text, "0 or more")
        if quantity == 0 and kind in ABOVE_ZERO:
            raise _fault(Code.OUT_OF_RANGE, f"this {kind} is 0", text, f"above 0, such as {example}")
        return quantity

    return parse


def _screw(value: Any) -> Screw:
    allowed = "a screw such as M8x25 or 5/16-18 x 1 1/4"
    if isinstance(value, Screw):
        return value
    text = _text(value, allowed)
    thread, cross, length = (piece.strip() for piece in text.replace("×", "x").partition("x"))
    if not cross or thread not in THREADS:
        raise _fault(Code.BAD_SCREW, "unknown thread", text, f"{allowed}; threads: {', '.join(THREADS)}")
    try:
        size = parse_length(length, "mm" if thread.startswith("M") else "in")
    except UnitError as fault:
        raise _fault(Code.BAD_SCREW, fault.reason, text, allowed) from None
    if not 0 < size <= 500:
        raise _fault(Code.BAD_SCREW, "this screw length is out of range", text, "above 0 and 500 mm or less")
    return Screw(thread, size, text)


def _wood_screw(value: Any) -> Screw:
    allowed = 'a wood screw such as 4x25, or "#6 x 1" with its quotation marks'
    if isinstance(value, Screw):
        return value
    text = _text(value, allowed)
    size, cross, length = (piece.strip() for piece in text.replace("×", "x").partition("x"))
    if not cross or size not in SHANKS:
        raise _fault(Code.BAD_SCREW, "unknown wood screw", text, f"{allowed}; sizes: {', '.join(SHANKS)}")
    try:
        measured = parse_length(length, "in" if size.startswith("#") else "mm")
    except UnitError as fault:
        raise _fault(Code.BAD_SCREW, fault.reason, text, allowed) from None
    if not 0 < measured <= 200:
        raise _fault(Code.BAD_SCREW, "this screw length is out of range", text, "above 0 and 200 mm or less")
    return Screw(size, measured, text)


def _thread(value: Any) -> str:
    text = _text(value, "a thread").strip()
    if text not in THREADS:
        raise _fault(Code.BAD_THREAD, "unknown thread", text, one_of(THREADS))
    return text


def _words(value: Any) -> str:
    """A text that may be empty; runs of white space become one space, so that it fits a line."""
    return "" if value == "" else _name(value)


def _date(value: Any) -> str:
    """A day, or an empty text for none."""
    text = "" if value == "" else _text(value, A_DATE).strip()
    if text and not is_date(text):
        raise _fault(Code.BAD_DATE, "this is not a date", text, A_DATE)
    return text


def _name(value: Any) -> str:
    text = " ".join(_text(value, "a short text").split())
    if len(text) > 200:
        raise _fault(
            Code.TOO_LONG, "this text is too long", f"{len(text)} characters", "200 characters or fewer"
        )
    return text


def _inch_fraction(value: Any) -> int:
    allowed = "one of 1/2, 1/4, 1/8, 1/16, 1/32, 1/64"
    if isinstance(value, int):
        return value
    text = _text(value, allowed).replace(" ", "")
    if text not in ("1/2", "1/4", "1/8", "1/16", "1/32", "1/64"):
        raise _fault(Code.BAD_FRACTION, "an inch rule has no such fraction", value, allowed)
    return int(text[2:])


LENGTH_SCHEMA = {
    "type": ["number", "string"],
    "description": "A length; a bare number is in the spec's units.",
    "examples": ["600 mm", "23 5/8 in", "3 ft 2 1/2 in", "1.2 m"],
    "x-unit": "mm",
}
_SHARE_SCHEMA = {**LENGTH_SCHEMA, "examples": ["share", "share 2", "400", "15 3/4 in"]}

_as_text = PlainSerializer(str, return_type=str)

Length = Annotated[Fraction, PlainValidator(_positive), WithJsonSchema(LENGTH_SCHEMA), _as_text, InUnit("mm")]
LengthOrZero = Annotated[
    Fraction, PlainValidator(_not_negative), WithJsonSchema(LENGTH_SCHEMA), _as_text, InUnit("mm")
]
Position = Annotated[
    Fraction, PlainValidator(_any_length), WithJsonSchema(LENGTH_SCHEMA), _as_text, InUnit("mm")
]
ShareOrLength = Annotated[
    Fraction | Share, PlainValidator(_share_or_length), WithJsonSchema(_SHARE_SCHEMA), _as_text, InUnit("mm")
]
Number = Annotated[
    Fraction, PlainValidator(_number), WithJsonSchema({"type": ["number", "string"]}), _as_text, InUnit("")
]
_NUMBER_SCHEMA = {"type": ["number", "string"]}
Divisor = Annotated[
    Fraction,
    PlainValidator(_between(1, 100_000, "a number")),
    WithJsonSchema(_NUMBER_SCHEMA),
    _as_text,
    InUnit(""),
]


def number_field(least: float, most: float, what: str, unit: str = "") -> Any:
    """A bare number between two others, in a unit that nobody writes."""
    schema = _NUMBER_SCHEMA | {"minimum": least, "maximum": most}
    return (PlainValidator(_between(least, most, what)), WithJsonSchema(schema), _as_text, InUnit(unit))


PartOfSize = Annotated[Fraction, *number_field(0, 1, "a part of the size,")]
Celsius = Annotated[Fraction, *number_field(-40, 60, "degrees Celsius")]
Degrees = Annotated[Fraction, *number_field(90, 180, "degrees")]
Humidity = Annotated[Fraction, *number_field(0, 95, "per cent of relative humidity")]
Moisture = Annotated[Fraction, *number_field(4, 30, "per cent of moisture")]
Count = Annotated[
    int, PlainValidator(_whole_to(500)), WithJsonSchema({"type": "integer", "minimum": 1, "maximum": 500})
]
Stages = Annotated[
    int | None,
    PlainValidator(_stages),
    WithJsonSchema({"anyOf": [{"type": "integer", "minimum": 2, "maximum": 20}, {"const": FREE}]}),
]
PackSize = Annotated[
    int,
    PlainValidator(_whole_to(10_000)),
    WithJsonSchema({"type": "integer", "minimum": 1, "maximum": 10_000}),
]
Flag = Annotated[bool, PlainValidator(_flag), WithJsonSchema({"type": "boolean"})]
Name = Annotated[str, PlainValidator(_name), WithJsonSchema({"type": ["string", "number"], "maxLength": 200})]
Words = Annotated[
    str, PlainValidator(_words), WithJsonSchema({"type": ["string", "number"], "maxLength": 200})
]
Date = Annotated[
    str,
    PlainValidator(_date),
    WithJsonSchema({"type": "string", "pattern": r"^(\d{4}-\d{2}-\d{2})?$", "examples": ["2026-11-03"]}),
]
Thread = Annotated[str, PlainValidator(_thread), WithJsonSchema({"enum": list(THREADS)})]
ScrewField = Annotated[
    Screw,
    PlainValidator(_screw),
    WithJsonSchema({"type": "string", "examples": ["M8x25", "5/16-18 x 1 1/4"]}),
    _as_text,
    InUnit("mm"),
]
WoodScrewField = Annotated[
    Screw,
    PlainValidator(_wood_screw),
    WithJsonSchema({"type": "string", "examples": ["4x25", "#6 x 1"]}),
    _as_text,
    InUnit("mm"),
]
InchFraction = Annotated[
    int,
    PlainValidator(_inch_fraction),
    PlainSerializer(lambda value: f"1/{value}", return_type=str),
    WithJsonSchema({"enum": ["1/2", "1/4", "1/8", "1/16", "1/32", "1/64"]}),
]


def _quantity_field(kind: str, example: str) -> Any:
    with_unit = PlainSerializer(lambda value: f"{value} {QUANTITIES[kind]}", return_type=str)
    unit = QUANTITIES[kind]
    schema = {"type": "string", "description": f"A {kind} ({unit}).", "examples": [example], "x-unit": unit}
    return (PlainValidator(_quantity(kind, example)), WithJsonSchema(schema), with_unit, InUnit(unit))


Mass = Annotated[Fraction, *_quantity_field("mass", "20 kg")]
Force = Annotated[Fraction, *_quantity_field("force", "200 N")]
Density = Annotated[Fraction, *_quantity_field("density", "680 kg/m^3")]
MassPerLength = Annotated[Fraction, *_quantity_field("mass per length", "1.7 kg/m")]
SecondMoment = Annotated[Fraction, *_quantity_field("second moment", "9.5 cm^4")]
Modulus = Annotated[Fraction, *_quantity_field("modulus", "70 GPa")]
Volume = Annotated[Fraction, *_quantity_field("volume", "0.75 l")]
Duration = Annotated[Fraction, *_quantity_field("time", "12 h")]
Coverage = Annotated[Fraction, *_quantity_field("coverage", "10 m2/l")]
