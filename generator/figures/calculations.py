"""What follows for a number from how it was calculated: its unit, and whether another was calculated the same way."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Container, Hashable, Iterator
from functools import cache
from typing import Generic, TypeVar

from generator.figures.unit_algebra import product, square_root
from generator.provenance import (
    POWERS,
    Arithmetic,
    Formula,
    GivenValue,
    Named,
    Number,
    Provenance,
    operands_of,
    provenance_of,
)

Result = TypeVar("Result")
DEEP = 200
"""Nested calculations are followed by calls down to this depth; deeper ones would be too many calls for Python."""


RAISED = {sign: power for power, sign in POWERS.items()}
"""Sign -> the power to which it raises."""


def base_of(how: Provenance) -> Provenance:
    """The calculation itself, without the rule that it follows."""
    return how.calculation if isinstance(how, Named) else how


def _from_below(base: Provenance, known: Container[int]) -> Iterator[Provenance]:
    """A calculation and those behind it that are not known yet, each after all that it is made of.

    They wait on a list, for a sum of a thousand pieces is a thousand calculations deep.
    """
    waiting = [base]
    while waiting:
        base = waiting[-1]
        above = len(waiting)
        for operand in operands_of(base):
            inner = provenance_of(operand)
            if inner is not None and id(within := base_of(inner)) not in known:
                waiting.append(within)
        if len(waiting) == above:
            waiting.pop()
            if id(base) not in known:
                yield base


class MemoizedVisitor(ABC, Generic[Result]):
    """What is to be said of a number by what it is calculated from, worked out once for each calculation."""

    def __init__(self) -> None:
        # a calculation stays in its entry, so that nothing else ever takes its identity
        self._known: dict[int, tuple[Provenance, Result]] = {}
        self._depth = 0

    def __call__(self, value: Number) -> Result:
        """What is to be said of this number."""
        how = provenance_of(value)
        if how is None:
            return self._bare(value)
        base = base_of(how)
        known = self._known.get(id(base))
        if known is not None:
            return known[1]
        # a sum of a thousand pieces is a thousand calculations deep: then the innermost ones come first
        for inner in (base,) if self._depth < DEEP else _from_below(base, self._known):
            self._depth += 1
            self._known[id(inner)] = inner, self._of(inner)
            self._depth -= 1
        return self._known[id(base)][1]

    @abstractmethod
    def _bare(self, value: Number) -> Result:
        """Of a number without a calculation."""

    @abstractmethod
    def _of(self, base: Provenance) -> Result:
        """Of a calculation; it asks for its operands."""


class UnitOf(MemoizedVisitor[str]):
    """The unit of each calculation."""

    def _bare(self, value: Number) -> str:
        return ""

    def _of(self, base: Provenance) -> str:
        if isinstance(base, GivenValue | Formula):
            return base.unit
        assert isinstance(base, Arithmetic)
        if base.sign in "×÷":
            one, other = base.operands
            return _product(self(one), self(other), 1 if base.sign == "×" else -1)
        if base.sign in RAISED:
            return product([(self(base.operands[0]), RAISED[base.sign])])
        if base.sign == "√":
            return square_root(self(base.operands[0]))
        # a sum has one unit: that of the first summand that has any
        return next((unit for operand in base.operands if (unit := self(operand))), "")


@cache
def _product(one: str, other: str, power: int) -> str:
    return product(((one, 1), (other, power)))


class StructuralKey(MemoizedVisitor[Hashable]):
    """A key for a number: equal for all that were calculated in the same way from the same things."""

    def __init__(self) -> None:
        super().__init__()
        self._numbers: dict[Hashable, int] = {}

    def _bare(self, value: Number) -> Hashable:
        return value

    def _of(self, base: Provenance) -> Hashable:
        # one small number for each shape, so that a key never grows with the calculation behind it
        return "shape", self._numbers.setdefault(self._shape(base), len(self._numbers))

    def _shape(self, base: Provenance) -> Hashable:
        if isinstance(base, Arithmetic):
            return base.sign, tuple(self(operand) for operand in base.operands)
        if isinstance(base, Formula):
            return base.text, tuple((name, self(value)) for name, value in base.inputs.items())
        assert isinstance(base, GivenValue)
        return base.name
