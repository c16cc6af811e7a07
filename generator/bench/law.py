"""A law: a check in one place. What it says, how much it matters, why, what to do, and what someone is hurt by."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor
from typing import Literal

from generator.bench.layout import BayPlace, Layout
from generator.codes import Code
from generator.findings import Change, Steps, dotted
from generator.spec.chosen import ChosenGoods
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec
from generator.units.format import format_inch, format_mm
from generator.units.sizes import INCH

Severity = Literal["note", "warning", "error"]


def said(spec: Spec, length: Fraction, *, down: bool = False) -> str:
    """A length to write in the spec: a whole tenth of a millimetre or 64th of an inch, no less, or no more (`down`)."""
    step = INCH / 64 if spec.units == "in" else Fraction(1, 10)
    whole = (floor if down else ceil)(length / step) * step
    return f"{format_inch(whole, 64)} in" if spec.units == "in" else f"{format_mm(whole)} mm"


def to_write(spec: Spec, path: Steps, length: Fraction, *, down: bool = False) -> tuple[Change, ...]:
    """One length to write, no less or no more (`down`) than this; nothing for a length that cannot be."""
    return (Change(dotted(path), said(spec, length, down=down)),) if length > 0 else ()


def about(spec: Spec, length: Fraction) -> str:
    """A usual length in the spec's unit: to the nearest 64th of an inch, a thin one to the thousandth."""
    if spec.units == "mm":
        return f"{format_mm(length)} mm"
    if length < INCH / 16:
        return f"{format_mm(length / INCH, 3)} in"
    return f"{format_inch(Fraction(round(length / INCH * 64), 64) * INCH, 64)} in"


@dataclass(frozen=True)
class Case:
    """A failed check, with what its remedy is worked out from. `down`: the value must be below the limit."""

    loaded: LoadedSpec
    layout: Layout
    path: Steps
    value: Fraction
    limit: Fraction
    down: bool

    @property
    def spec(self) -> Spec:
        """What the spec wishes."""
        return self.loaded.spec

    @property
    def goods(self) -> ChosenGoods:
        """The cards that it chooses."""
        return self.loaded.goods

    @property
    def off(self) -> Fraction:
        """By how much it fails."""
        return abs(self.limit - self.value)

    def length(self, path: Steps, value: Fraction, *, down: bool = False) -> tuple[Change, ...]:
        """One length to write, see `to_write`."""
        return to_write(self.spec, path, value, down=down)


Cure = Callable[[Case], tuple[Change, ...]]


@dataclass(frozen=True)
class Law:
    """A check in one place: what it says when it holds and when it fails, what to do, and why it matters.

    `cure` gives the keys of the spec that cure it, with values that work, or says why no key does. `caution` is the
    key of the caution that belongs to a check by which someone can be hurt. An error means: do not cut by this.
    `lengths` (mm) are in the advice where it has `{}`, in the spec's unit. `quantity` names what the value of the check
    measures, with the place that it is a distance from; empty for a law without a value.

    A law travels by value. Two kinds that share a code with different words would overwrite each other in a table.
    """

    code: Code
    severity: Severity
    holds: str
    fails: str
    advice: str
    why: str
    cure: Cure | str
    caution: str = ""
    lengths: tuple[Fraction, ...] = ()
    quantity: str = ""

    def advised(self, spec: Spec) -> str:
        """The advice with its lengths in the spec's unit."""
        return (
            self.advice.format(*(about(spec, each) for each in self.lengths)) if self.lengths else self.advice
        )

    def changes(self, case: Case) -> tuple[Change, ...]:
        """The changes that cure a failed check; none where no key does."""
        return () if isinstance(self.cure, str) else self.cure(case)


@dataclass(frozen=True)
class Verdict:
    """A law judged by geometry: a value against its limit, or a plain yes or no (no limit).

    `unit` is that of both, `sense` on which side of the limit the value must be. `severity` and `advice` override the
    law's own. `remedy`: the changes that cure it, where the kind works them out itself.
    """

    law: Law
    ok: bool
    where: str
    path: Steps
    value: float | Fraction | None = None
    limit: float | Fraction | None = None
    sense: Literal["at most", "at least"] = "at most"
    remedy: tuple[Change, ...] = ()
    unit: str = "mm"
    severity: str = ""
    advice: str = ""


def at_least(
    law: Law,
    value: Fraction,
    limit: Fraction,
    where: str,
    path: Steps,
    *,
    severity: str = "",
    advice: str = "",
    remedy: tuple[Change, ...] = (),
) -> Verdict:
    """A length (mm) that must not fall below its limit."""
    return Verdict(
        law, value >= limit, where, path, value, limit, "at least", remedy, severity=severity, advice=advice
    )


def at_most(
    law: Law,
    value: Fraction,
    limit: Fraction,
    where: str,
    path: Steps,
    *,
    severity: str = "",
    advice: str = "",
    remedy: tuple[Change, ...] = (),
) -> Verdict:
    """A length (mm) that must not exceed its limit."""
    return Verdict(
        law, value <= limit, where, path, value, limit, remedy=remedy, severity=severity, advice=advice
    )


def bay_path(bay: BayPlace) -> Steps:
    """The key path of a bay."""
    return ("zones", bay.zone, "bays", bay.index)


# ---- cures that laws share


def to_limit(case: Case) -> tuple[Change, ...]:
    """The key that the check is about, at the limit that it missed."""
    return case.length(case.path, case.limit, down=case.down)


def by_the_check(_: Case) -> tuple[Change, ...]:
    """Nothing here: the check works its changes out itself, where it knows what they need."""
    return ()


# ---- why no key cures a check, where more than one law has the same reason

HOUSE = "guards the tool's own work: no spec that passes the others provokes it, and no key cures it"
PLACED = "only a bar or board that the spec places under `extra` can be so: its place decides"
MEASURE = "the goods were measured or copied wrongly: only measuring them again tells the value"
GOODS = "which goods to take instead is a choice among cards, and more than one value changes with it"
WORK = "says how the work is done or the bench is used: there is nothing to change in the spec"
CHOICE = "which of the two members gets another joint is a choice of the maker"
