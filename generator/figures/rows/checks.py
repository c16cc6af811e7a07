"""Checks, and what was not measured."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

Length = Fraction


@dataclass(frozen=True)
class Fit:
    """A panel's tongue in its groove. Clearances are totals over the thickness."""

    where: str
    groove: Length
    thickness: Length
    tongue_thickness: Length
    rabbet_depth: Length
    tongue: Length
    clearance_min: Length
    clearance_max: Length
    offset: Length
    rabbet_length: Length = Fraction(0)
    bottom_clearance: Length = Fraction(0)
    packing: Length = Fraction(0)


@dataclass(frozen=True)
class Unmeasured:
    """A typical value that is used instead of a measurement: its key path, its name in words, value and unit."""

    path: str
    name: str
    value: Length
    unit: str


@dataclass(frozen=True)
class Check:
    """A value against its limit, in `unit` (mm, kg or none). `severity` is how much it matters when not `ok`.

    `value` or `limit` None: a check by yes or no. `advice` is what to do. `sense` says on which side of the limit the
    value must be: `at least`, `at most`, or empty. `caution` is the key of the caution that belongs to a check by
    which someone can be hurt.
    """

    code: str
    severity: str
    title: str
    value: float | Length | None
    limit: float | Length | None
    unit: str
    ok: bool
    where: str
    advice: str
    sense: str = ""
    caution: str = ""
    why: str = field(default="", metadata={"silent": True})
    """Why it matters."""
    quantity: str = field(default="", metadata={"silent": True})
    """What the value measures, such as `clear width of the bay`; empty for a check by yes or no."""
