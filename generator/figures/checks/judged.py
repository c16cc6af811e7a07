"""One judged check: its rule, its value against its limit, and the place in the spec that it is about."""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction

from generator.bench.layout import BayPlace, ZonePlace
from generator.bench.model import Bench
from generator.bench.stands.facts import Law
from generator.figures.checks.rules import RULES
from generator.figures.checks.safety import SAFETY
from generator.figures.rows.checks import Check
from generator.findings import Change
from generator.reasons import reason
from generator.spec.schema import Spec
from generator.units import INCH, format_inch, format_mm
from generator.working import constant

Path = tuple[str | int, ...]

#: A slide that stands less proud than this catches on a post that is not quite plumb (mm). Common practice.
LEAST_PROUD = constant("1/2", "a slide stands before the bars by at least")


@dataclass(frozen=True)
class Judged:
    """A check and the key path that it is about.

    `rests_on`: key paths, or codes of checks as paths of one, that must be right before this check says anything.
    `remedy`: the changes that cure it, where the check works them out itself.
    """

    check: Check
    path: Path
    rests_on: tuple[Path, ...] = ()
    remedy: tuple[Change, ...] = ()


def judged(
    law: str | Law,
    ok: bool,
    where: str,
    path: Path,
    *,
    value: float | Fraction | None = None,
    limit: float | Fraction | None = None,
    unit: str = "",
    severity: str = "",
    sense: str = "at most",
    advice: str = "",
    rests_on: tuple[Path, ...] = (),
    remedy: tuple[Change, ...] = (),
) -> Judged:
    """A check by its code. `severity` and `advice` override the rule's own. Raises KeyError for an unknown code.

    `sense` tells on which side of a limit, where there is one, the value must lie.
    """
    rule = RULES[law] if isinstance(law, str) else law
    code = law if isinstance(law, str) else law.code
    check = Check(
        code=code,
        severity=severity or rule.severity,
        title=rule.holds if ok else rule.fails,
        value=value,
        limit=limit,
        unit=unit,
        ok=ok,
        where=where,
        caution=rule.caution or SAFETY.get(code, ""),
        why=rule.why or reason(code),
        advice="" if ok else advice or rule.advice,
        sense="" if limit is None else sense,
    )
    return Judged(check, path, rests_on, remedy)


def at_least(
    code: str,
    value: Fraction,
    limit: Fraction,
    where: str,
    path: Path,
    *,
    severity: str = "",
    advice: str = "",
) -> Judged:
    """A length (mm) that must not fall below its limit."""
    return judged(
        code, value >= limit, where, path,
        value=value, limit=limit, unit="mm", severity=severity, sense="at least", advice=advice,
    )  # fmt: skip


def at_most(
    code: str,
    value: Fraction,
    limit: Fraction,
    where: str,
    path: Path,
    *,
    severity: str = "",
    advice: str = "",
) -> Judged:
    """A length (mm) that must not exceed its limit."""
    return judged(
        code, value <= limit, where, path,
        value=value, limit=limit, unit="mm", severity=severity, advice=advice,
    )  # fmt: skip


def bay_path(bay: BayPlace) -> Path:
    """The key path of a bay."""
    return ("zones", bay.zone, "bays", bay.index)


def zone_of(bench: Bench, bay_name: str) -> tuple[ZonePlace, BayPlace]:
    """The zone and the bay of that name."""
    return next((zone, bay) for zone in bench.layout.zones for bay in zone.bays if bay.name == bay_name)


def said(spec: Spec, length: Fraction, *, down: bool = False) -> str:
    """A length to write in the spec: a whole tenth of a millimetre or 64th of an inch, no less, or no more (`down`)."""
    step = INCH / 64 if spec.units == "in" else Fraction(1, 10)
    whole = (math.floor if down else math.ceil)(length / step) * step
    return f"{format_inch(whole)} in" if spec.units == "in" else f"{format_mm(whole)} mm"
