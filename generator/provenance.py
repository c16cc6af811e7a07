"""Numbers that remember how they came about, so that every figure can show its working.

A value of the spec and a constant of the trade are `given`; what is calculated from them keeps its operands. The
working of a figure is therefore the calculation itself, never a second account of it. All of them are ordinary
fractions or floats to any code that calculates: equal, sorted and hashed by value.
"""

from __future__ import annotations

import operator
from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields, is_dataclass, replace
from fractions import Fraction
from functools import wraps
from inspect import signature
from typing import Any, ParamSpec, TypeVar, cast

Number = Fraction | float | int
P = ParamSpec("P")
R = TypeVar("R")
N = TypeVar("N", Fraction, float)


@dataclass(frozen=True, eq=False)
class GivenValue:
    """A value that is not calculated: `name` is its key path, or says in words what a constant is for.

    `origin` says where it comes from (spec, measured, record, card, default, constant, plan), `detail` the date or the
    card's name. `unit` is that of the number (mm, kg, N, MPa, mm^4, kg/m, kg/m^3, or nothing), `text` what the user
    wrote in `line` (from 1) of `file`, `why` what it is or its source. `path` has the steps of a key path: names may
    hold dots.
    """

    name: str
    unit: str
    origin: str
    detail: str = ""
    text: str = ""
    file: str = ""
    line: int = 0
    why: str = ""
    path: tuple[str | int, ...] = ()

    @property
    def in_words(self) -> bool:
        """Whether its name is in words, not a key path."""
        return self.origin in ("constant", "plan")


@dataclass(frozen=True, eq=False)
class Arithmetic:
    """One step of a calculation: `sign` is +, −, ×, ÷, a power, or a word such as `least of`."""

    sign: str
    operands: tuple[Number, ...]


@dataclass(frozen=True, eq=False)
class Formula:
    """A calculation that is shown by its formula: `text` in Python's signs, over the names of `inputs`."""

    text: str
    inputs: Mapping[str, Number]
    unit: str


@dataclass(frozen=True, eq=False)
class Named:
    """The result of a rule: what it is called, what the rule says, and the rule's source."""

    name: str
    rule: str
    source: str
    calculation: Arithmetic | Formula


Provenance = GivenValue | Arithmetic | Formula | Named


#: Signs of the powers that keep their base.
POWERS = {2: "²", 3: "³", 4: "⁴"}


class _Calculated:
    """Signs of a number that keep their operands."""

    __slots__ = ()

    def __add__(self, other: Any) -> Any:
        return _add(self, other) if _is_number(other) else NotImplemented

    def __radd__(self, other: Any) -> Any:
        return _add(other, self) if _is_number(other) else NotImplemented

    def __sub__(self, other: Any) -> Any:
        return _subtract(self, other) if _is_number(other) else NotImplemented

    def __rsub__(self, other: Any) -> Any:
        return _subtract(other, self) if _is_number(other) else NotImplemented

    def __mul__(self, other: Any) -> Any:
        return _multiply(self, other) if _is_number(other) else NotImplemented

    def __rmul__(self, other: Any) -> Any:
        return _multiply(other, self) if _is_number(other) else NotImplemented

    def __truediv__(self, other: Any) -> Any:
        return _divide(self, other) if _is_number(other) else NotImplemented

    def __rtruediv__(self, other: Any) -> Any:
        return _divide(other, self) if _is_number(other) else NotImplemented

    def __pow__(self, power: Any) -> Any:
        if power not in (2, 3, 4):
            return NotImplemented
        return traced(_plain(self) ** power, Arithmetic(POWERS[power], (cast(Number, self),)))

    def __neg__(self) -> Any:
        return _multiply(-1, self)

    def __pos__(self) -> Any:
        return self

    def __abs__(self) -> Any:
        return self if self >= 0 else -self  # type: ignore[operator]

    def __reduce__(self) -> tuple[Any, ...]:
        return traced, (_plain(self), provenance_of(self))  # to another process it goes with its working


class TracedFraction(_Calculated, Fraction):
    """An exact number with its working in `provenance`."""

    __slots__ = ("provenance",)
    provenance: Provenance


class TracedFloat(_Calculated, float):  # type: ignore[misc]  # float's own power has overloads
    """An inexact number with its working in `provenance`."""

    __slots__ = ("provenance",)
    provenance: Provenance


def provenance_of(value: object) -> Provenance | None:
    """The working of a number, or None for one that has none."""
    # by its type: this is asked of every operand, and to ask whether it is a Fraction takes an ABC's time
    kind = type(value)
    return value.provenance if kind is TracedFraction or kind is TracedFloat else None  # type: ignore[attr-defined]


def operands_of(how: Provenance) -> tuple[Number, ...]:
    """The numbers that a calculation is made of; none for what is given."""
    if isinstance(how, Named):
        return operands_of(how.calculation)
    if isinstance(how, Arithmetic):
        return how.operands
    return tuple(how.inputs.values()) if isinstance(how, Formula) else ()


def givens(value: Number) -> tuple[tuple[GivenValue, Number], ...]:
    """All that a number rests on: what is given, with its value, each once, in the order of the calculation.

    What a sum adds and takes away again is left out: a size does not rest on the place that it is measured from.
    """
    found: dict[int, tuple[GivenValue, Number]] = {}
    waiting = [value]
    while waiting:
        for atom in _summands(waiting.pop()):
            base = _base(atom)
            if isinstance(base, GivenValue):
                found[id(base)] = (base, atom)
            elif base is not None:
                waiting.extend(reversed(operands_of(base)))
    return tuple(found.values())


def _summands(value: Number) -> list[Number]:
    """What is in a sum with its brackets dissolved, without what cancels; a number that is no sum is its own."""
    together: dict[int, tuple[Fraction | int, Number]] = {}
    waiting: list[tuple[Fraction | int, Number]] = [(1, value)]
    while waiting:
        times, here = waiting.pop()
        base = _base(here)
        if isinstance(base, Arithmetic):
            one, *rest = base.operands
            if base.sign in "+−":
                waiting += [(times if base.sign == "+" else -times, rest[0]), (times, one)]
                continue
            if base.sign in "×÷":
                factor, other = (one, rest[0]) if provenance_of(one) is None else (rest[0], one)
                if provenance_of(factor) is None and factor and isinstance(factor, Fraction | int):
                    if base.sign == "×":
                        waiting.append((times * factor, other))
                        continue
                    if other is one:
                        waiting.append((times / Fraction(factor), other))
                        continue
        if base is not None:
            together[id(base)] = (together.get(id(base), (0, here))[0] + times, here)
    return [atom for times, atom in together.values() if times]


def _base(value: Number) -> GivenValue | Arithmetic | Formula | None:
    how = provenance_of(value)
    return how.calculation if isinstance(how, Named) else how


def traced(value: Number, how: Provenance) -> Fraction | float:
    """The number with this working."""
    if not isinstance(value, float):
        # Fraction's own constructor only looks for a common divisor that a result no longer has
        exact = Fraction.__new__(TracedFraction, value.numerator, value.denominator)
        exact.provenance = how
        return exact
    rough = TracedFloat(value)
    rough.provenance = how
    return rough


def given(value: Fraction, source: GivenValue) -> Fraction:
    """A value from outside, with what there is to say of it."""
    return cast(Fraction, traced(value, source))


def constant(
    value: Fraction | int | str, name: str, why: str = "common practice, no source", unit: str = "mm"
) -> Fraction:
    """A constant of the trade, by default a length in millimetres."""
    return given(Fraction(value), GivenValue(name, unit, "constant", why=why))


def chosen(value: Fraction, name: str, why: str) -> Fraction:
    """A length in millimetres that a search chose: it follows from no formula."""
    return given(value, GivenValue(name, "mm", "plan", why=why))


def inexact(value: Number) -> float:
    """The number as a float that keeps its working."""
    how = provenance_of(value)
    return cast(float, traced(float(value), how)) if how else float(value)


def least(*values: N) -> N:
    """The least of some numbers; its working names them all."""
    return _chosen(min(values), "least of", values)


def greatest(*values: N) -> N:
    """The greatest of some numbers; its working names them all."""
    return _chosen(max(values), "greatest of", values)


def rounded_down(value: Fraction, step: Fraction) -> Fraction:
    """The largest multiple of `step` that is not above the value."""
    result = _plain(value) // _plain(step) * _plain(step)
    return cast(Fraction, traced(result, Arithmetic("rounded down to a multiple of", (value, step))))


def named(value: N, name: str, says: str, source: str) -> N:
    """A calculated number under a name of its own, so that a long formula speaks of it in one word.

    `says` is a sentence of the trade, as a rule's docstring begins with one.
    """
    base = _base(value)
    if not isinstance(base, Arithmetic | Formula):
        return value
    return cast(N, traced(value, Named(name, says, source, base)))


def root(value: float) -> float:
    """The square root; its working keeps what is under it."""
    result = _plain(value) ** 0.5
    return result if provenance_of(value) is None else cast(float, traced(result, Arithmetic("√", (value,))))


def rule(source: str) -> Callable[[Callable[P, R]], Callable[P, R]]:
    """Mark a calculator as a rule of the trade or of a standard: its results know what it says and its source.

    What it says is the first paragraph of its docstring; the results' names are those of the fields.
    """

    def mark(calculate: Callable[P, R]) -> Callable[P, R]:
        says = _first_paragraph(calculate)
        name = calculate.__name__.replace("_", " ")

        @wraps(calculate)
        def ruled(*args: P.args, **kwargs: P.kwargs) -> R:
            return cast(R, _named(calculate(*args, **kwargs), name, says, source))

        return ruled

    return mark


def formula(text: str, unit: str, source: str) -> Callable[[Callable[P, R]], Callable[P, R]]:
    """Mark a calculator of one number whose working is shown by a formula over the names of its arguments."""

    def mark(calculate: Callable[P, R]) -> Callable[P, R]:
        says, known = _first_paragraph(calculate), signature(calculate).parameters
        name = calculate.__name__.replace("_", " ")
        order, defaults = tuple(known), {each.name: each.default for each in known.values()}

        @wraps(calculate)
        def worked(*args: P.args, **kwargs: P.kwargs) -> R:
            value = cast(Number, calculate(*args, **kwargs))
            inputs = {**defaults, **dict(zip(order, args, strict=False)), **kwargs}
            return cast(R, traced(value, Named(name, says, source, Formula(text, inputs, unit))))

        return worked

    return mark


def _first_paragraph(calculate: Callable[..., object]) -> str:
    return " ".join((calculate.__doc__ or "").split("\n\n")[0].split())


def _named(value: Any, name: str, says: str, source: str) -> Any:
    """The results with the rule on all that it calculated; what it only passed on stays as it was."""
    how = provenance_of(value)
    if isinstance(how, Arithmetic | Formula):
        return traced(value, Named(name, says, source, how))
    if is_dataclass(value) and not isinstance(value, type):
        inner = {
            each.name: _named(getattr(value, each.name), each.name.replace("_", " "), says, source)
            for each in fields(value)
        }
        return replace(value, **inner)
    if type(value) is tuple:
        one = len(value) == 1
        return tuple(
            _named(item, name if one else f"{name} {n}", says, source) for n, item in enumerate(value, 1)
        )
    return value


def _chosen(value: N, sign: str, values: tuple[N, ...]) -> N:
    if all(provenance_of(each) is None for each in values):
        return value
    return cast(N, traced(value, Arithmetic(sign, values)))


def _is_number(value: object) -> bool:
    return type(value) in _KINDS or isinstance(value, Number)


_KINDS = frozenset({TracedFraction, Fraction, int, TracedFloat, float})
_EXACT = frozenset({TracedFraction, Fraction, int})


def _plain(value: Any) -> Any:
    kind = type(value)
    if kind is TracedFraction:
        return Fraction(value.numerator, value.denominator)
    return float(value) if kind is TracedFloat else value


def _worked_out(
    one: Any, other: Any, exact: Callable[[Any, Any], Any], rough: Callable[[Any, Any], Any]
) -> Any:
    """The plain result. Fraction's own signs take a traced one as it is, and answer with a plain one."""
    if type(one) in (TracedFraction, Fraction) and type(other) in _EXACT:
        return exact(one, other)
    return rough(_plain(one), _plain(other))


def _add(one: Any, other: Any) -> Any:
    if _is_nothing(one):
        return other
    if _is_nothing(other):
        return one
    return traced(_worked_out(one, other, Fraction.__add__, operator.add), Arithmetic("+", (one, other)))


def _subtract(one: Any, other: Any) -> Any:
    if _is_nothing(other):
        return one
    how = provenance_of(one)
    if isinstance(how, Arithmetic) and how.sign == "+":
        # what was added is taken away again: the other summand, with its own working, is left
        for kept, gone in (how.operands, how.operands[::-1]):
            if gone is other:
                return kept
    return traced(_worked_out(one, other, Fraction.__sub__, operator.sub), Arithmetic("−", (one, other)))


def _multiply(one: Any, other: Any) -> Any:
    return traced(_worked_out(one, other, Fraction.__mul__, operator.mul), Arithmetic("×", (one, other)))


def _divide(one: Any, other: Any) -> Any:
    exact = Fraction(one) if type(one) is int else one  # so that two whole numbers have an exact quotient
    quotient = _worked_out(exact, other, Fraction.__truediv__, operator.truediv)
    return traced(quotient, Arithmetic("÷", (one, other)))


def _is_nothing(value: Number) -> bool:
    """A zero that nobody gave, such as the start of a sum."""
    return provenance_of(value) is None and not value
