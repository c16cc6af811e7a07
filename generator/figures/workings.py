"""The working of every figure: its formula in the names of other figures, down to what the spec gives.

Nothing is calculated here. The numbers of the figures carry their calculation (`generator.provenance`); this module
gives its pieces their names and cuts it into lines, each of which leads to the next.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Hashable, Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property

from generator.figures.calculations import RAISED, StructuralKey, UnitOf, base_of
from generator.figures.model import Figures
from generator.figures.number_names import given_name, numbers_of, spec_names
from generator.names import slugs
from generator.provenance import (
    Arithmetic,
    Formula,
    GivenValue,
    Named,
    Number,
    Provenance,
    provenance_of,
)
from generator.readings import own_reading


@dataclass(frozen=True)
class FormulaTerm:
    """A piece of a formula: a sign, or a number with its name. `of` is the key of the number's own working."""

    text: str
    value: Number | None = None
    unit: str = ""
    of: str = ""


@dataclass(frozen=True)
class Working:
    """How one number came about.

    `key` is its path in figures.json, the key path of the spec, or a constant's name. What is calculated has `terms`
    (its formula), `rule` and `source`; what is given has `given`.
    """

    key: str
    name: str
    value: Number
    unit: str
    terms: tuple[FormulaTerm, ...] = ()
    rule: str = ""
    source: str = ""
    given: GivenValue | None = None

    @property
    def needs(self) -> tuple[str, ...]:
        """Keys of the workings that this one leads to, each once."""
        return tuple(dict.fromkeys(term.of for term in self.terms if term.of))


@dataclass(frozen=True)
class Workings:
    """All workings of one bench by key, in the order of the figures; `paths`: path of figures.json -> key."""

    by_key: Mapping[str, Working]
    paths: Mapping[str, str]
    _keys: Mapping[Hashable, str] = field(repr=False)
    _alike: Callable[[Number], Hashable] = field(repr=False)

    @cached_property
    def slugs(self) -> Mapping[str, str]:
        """A name for each key that can be used in a link; no two are the same."""
        return dict(zip(self.by_key, slugs(self.by_key), strict=True))

    def key_of(self, value: Number) -> str:
        """The key of a number's working; empty when it has none."""
        return self._keys.get(self._alike(value), "") if provenance_of(value) else ""

    def tree(self, key: str) -> tuple[Working, ...]:
        """The working of `key` and all that it leads to, each once, the nearest first. Raises KeyError."""
        found: dict[str, Working] = {}
        waiting = [key]
        while waiting:
            here = waiting.pop(0)
            if here not in found:
                found[here] = self.by_key[here]
                waiting.extend(found[here].needs)
        return tuple(found.values())


def spelled(terms: Iterable[FormulaTerm], say: Callable[[FormulaTerm], str]) -> str:
    """A formula in one line; `say` writes a single term."""
    text = ""
    for term in terms:
        tight = not text or text.endswith(("(", "√")) or term.text in _CLOSING
        said = say(term)
        # a number that is negative by itself follows another sign in brackets
        bare = (
            term.text in _CLOSING or not text or term.value is None or not own_reading(said).startswith("−")
        )
        text += ("" if tight else " ") + (said if bare else f"({said})")
    return text


def workings(figures: Figures) -> Workings:
    """The working of every number of the figures that has one."""
    book = _WorkingsBuilder(spec_names(figures))
    numbers = list(numbers_of(figures))
    for retold in (False, True):
        for path, name, value in numbers:
            if retold == bool(_RETOLD.match(path)):
                book.enter(path, name, value)
        book.write()
    return book.closed()


#: How often a summand is in a sum.
Times = Fraction | int


class _WorkingsBuilder:
    """Names come first, formulas after: a formula speaks of a number by the name it has as a figure."""

    def __init__(self, names: Mapping[tuple[str, str], str]) -> None:
        self._spec_names = names
        self._alike, self._unit = StructuralKey(), UnitOf()
        self._paths: dict[str, str] = {}
        self._keys: dict[Hashable, str] = {}
        self._names: dict[str, str] = {}
        self._values: dict[str, Number] = {}
        self._rules: dict[Hashable, Named] = {}
        # values that are figures: a sum takes the name of an equal figure, but never that of an equal step between
        self._figures: set[Hashable] = set()
        self._lines: dict[str, Working] = {}

    def enter(self, path: str, name: str, value: Number) -> None:
        how = provenance_of(value)
        if how is not None:
            known, alike = len(self._keys), self._alike(value)
            self._paths[path] = self._key(how, value, path, name)
            if len(self._keys) > known:
                self._figures.add(alike)

    def _key(self, how: Provenance, value: Number, path: str, name: str) -> str:
        """The key of a number's working, which is opened under this path and name if there is none yet."""
        alike = self._alike(value)
        if isinstance(how, Named):
            self._rules.setdefault(alike, how)
        if alike not in self._keys:
            if isinstance(how, GivenValue):
                path, name = how.name, self._spec_names.get((how.name, how.unit)) or given_name(how)
            key = _unused(path, self._values)
            self._keys[alike], self._names[key], self._values[key] = key, name, value
        return self._keys[alike]

    def write(self) -> None:
        """Write the lines of all that has been entered; they speak of each other, and of nothing that comes later."""
        while len(self._lines) < len(self._values):  # a formula may open workings of its own
            for key, value in list(self._values.items()):
                if key not in self._lines:
                    self._lines[key] = self._line(key, value)

    def closed(self) -> Workings:
        return Workings(self._lines, self._paths, self._keys, self._alike)

    def _line(self, key: str, value: Number) -> Working:
        how = provenance_of(value)
        assert how is not None
        base, name, unit = base_of(how), self._names[key], self._unit(value)
        if isinstance(base, GivenValue):
            return Working(key, name, value, unit, given=base)
        named = self._rules.get(self._alike(value))
        terms = self._formula(base) if isinstance(base, Formula) else self._operation(value, 0)
        return Working(
            key, name, value, unit, tuple(terms), named.rule if named else "", named.source if named else ""
        )

    def _formula(self, how: Formula) -> list[FormulaTerm]:
        pieces = re.findall(r"[A-Za-z_]\w*|\*\*\d|[\d.]+|\S", how.text)
        return [
            self._number(how.inputs[piece], piece)
            if piece in how.inputs
            else FormulaTerm(_SIGNS.get(piece, piece))
            for piece in pieces
        ]

    def _operation(self, value: Number, binding: int) -> list[FormulaTerm]:
        """The terms of an operation, in brackets where it binds less than what is around it."""
        bare = provenance_of(value)
        how = base_of(bare) if bare else None
        assert isinstance(how, Arithmetic)
        if how.sign in "+−":
            terms, mine = self._sum(self._summands(value)), 1
        elif how.sign == "×" and provenance_of(how.operands[0]) is None and how.operands[0] == -1:
            terms, mine = self._sum([(-1, how.operands[1])]), 1
        elif how.sign in "×÷":
            left, right = how.operands
            mine = 2
            terms = [
                *self._operand(left, 2),
                FormulaTerm(how.sign),
                *self._operand(right, 2 + (how.sign == "÷")),
            ]
        elif how.sign in RAISED:
            terms, mine = [*self._operand(how.operands[0], 4), FormulaTerm(how.sign)], 3
        else:
            terms, mine = [FormulaTerm(how.sign), FormulaTerm("(")], 4
            for operand in how.operands:
                terms += [*self._operand(operand, 0), FormulaTerm(",")]
            terms[-1] = FormulaTerm(")")
        return [FormulaTerm("("), *terms, FormulaTerm(")")] if mine < binding else terms

    def _summands(self, whole: Number) -> list[tuple[Times, Number]]:
        """A sum in the order of its writing, as (how often, what); what has a name of its own stays whole."""
        found: list[tuple[Times, Number]] = []
        waiting: list[tuple[Times, Number]] = [(1, whole)]
        while waiting:
            times, value = waiting.pop()
            top = value is whole
            how = provenance_of(value)
            base = base_of(how) if top and how else how
            inner: list[tuple[Times, Number]] = []
            if isinstance(base, Arithmetic) and (top or self._alike(value) not in self._figures):
                inner = _within(base, times, top)
            if inner:
                waiting.extend(reversed(inner))
            else:
                found.append((times, value))
        return found

    def _sum(self, summands: Iterable[tuple[Times, Number]]) -> list[FormulaTerm]:
        """Like ones together; what is added and taken away again is left out."""
        together: dict[Hashable, tuple[Times, Number]] = {}
        for times, value in summands:
            alike = self._alike(value)
            together[alike] = (together[alike][0] + times if alike in together else times, value)
        terms: list[FormulaTerm] = []
        left = [(times, value) for times, value in together.values() if times]
        if left and left[0][0] < 0:  # a sum begins with what there is, not with what is taken away
            left.sort(key=lambda each: each[0] < 0)
        for times, value in left:
            if provenance_of(value) is None and value < 0:
                times, value = -times, -value
            if terms or times < 0:
                terms.append(FormulaTerm("+" if times > 0 else "−"))
            often = times if times > 0 else -times
            if often.numerator != 1:
                terms += [FormulaTerm("", often.numerator), FormulaTerm("×")]
            terms += self._operand(value, 2 if often != 1 or times < 0 else 1)
            if often.denominator != 1:
                terms += [FormulaTerm("÷"), FormulaTerm("", often.denominator)]
        return terms or [FormulaTerm("", 0)]

    def _operand(self, value: Number, binding: int) -> list[FormulaTerm]:
        how = provenance_of(value)
        if isinstance(how, Arithmetic) and self._alike(value) not in self._figures:
            return self._operation(value, binding)
        return [self._number(value, "")]

    def _number(self, value: Number, name: str) -> FormulaTerm:
        how = provenance_of(value)
        if how is None:
            return FormulaTerm(name.replace("_", " "), value)
        words = (how.name if isinstance(how, Named) else name).replace("_", " ")
        key = self._key(how, value, words, words)
        return FormulaTerm(self._names[key], value, self._unit(value), key)


def _within(base: Arithmetic, times: Times, top: bool) -> list[tuple[Times, Number]]:
    """What is in a sum, or in the multiple of one, as (how often, what); nothing for any other operation."""
    one, *rest = base.operands
    if base.sign in "+−":
        return [(times, one), (times if base.sign == "+" else -times, rest[0])]
    if base.sign == "×" and not top:
        for factor, other in ((one, rest[0]), (rest[0], one)):
            if provenance_of(factor) is None and isinstance(factor, Fraction | int):
                return [(times * factor, other)]
    if (
        base.sign == "÷"
        and not top
        and provenance_of(rest[0]) is None
        and isinstance(rest[0], Fraction | int)
    ):
        return [(times / Fraction(rest[0]), one)]
    return []


_CLOSING = (")", ",", "²", "³", "⁴", "⁹")
_SIGNS = {
    "*": "×",
    "/": "÷",
    "-": "−",
    "**2": "²",
    "**3": "³",
    "**4": "⁴",
    "**9": "⁹",
    "sqrt": "√",
    "pi": "π",
}


def _unused(words: str, taken: Mapping[str, object]) -> str:
    number, key = 2, words
    while key in taken:
        key, number = f"{words} ({number})", number + 1
    return key


#: Sections that repeat numbers of others come last: a number has the name under which a reader meets it first.
_RETOLD = re.compile(
    r"(spacers|sticks|height_rod|setups|goods|assumed|checks|assembly|casters|joint_rows)\b|parts\[\d+\]\.(operations|notches)"
)
