"""One judged check: its law, its value against its limit, and the place in the spec that it is about."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.bench.law import Law, Verdict
from generator.bench.layout import BayPlace, ZonePlace
from generator.bench.model import Bench
from generator.figures.rows.checks import Check
from generator.findings import Change
from generator.working import constant

Path = tuple[str | int, ...]

#: A slide that stands less proud than this catches on a post that is not quite plumb (mm). Common practice.
LEAST_PROUD = constant("1/2", "a slide stands before the bars by at least")


@dataclass(frozen=True)
class Judged:
    """A check, its law, and the key path that it is about.

    `rests_on`: key paths, or codes of checks as paths of one, that must be right before this check says anything.
    `remedy`: the changes that cure it, where the check works them out itself.
    """

    check: Check
    law: Law
    path: Path
    rests_on: tuple[Path, ...] = ()
    remedy: tuple[Change, ...] = ()


def judged(
    law: Law,
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
    """A check by its law. `severity` and `advice` override the law's own.

    `sense` tells on which side of a limit, where there is one, the value must lie.
    """
    check = Check(
        code=law.code,
        severity=severity or law.severity,
        title=law.holds if ok else law.fails,
        value=value,
        limit=limit,
        unit=unit,
        ok=ok,
        where=where,
        caution=law.caution,
        why=law.why,
        advice="" if ok else advice or law.advice,
        sense="" if limit is None else sense,
    )
    return Judged(check, law, path, rests_on, remedy)


def of_verdict(each: Verdict) -> Judged:
    """A law that a kind judged by geometry."""
    unit = "" if each.limit is None else "mm"
    return judged(each.law, each.ok, each.where, each.path,
                  value=each.value, limit=each.limit, unit=unit, sense=each.sense,
                  remedy=each.remedy)  # fmt: skip


def at_least(
    law: Law,
    value: Fraction,
    limit: Fraction,
    where: str,
    path: Path,
    *,
    severity: str = "",
    advice: str = "",
    remedy: tuple[Change, ...] = (),
) -> Judged:
    """A length (mm) that must not fall below its limit."""
    return judged(
        law, value >= limit, where, path,
        value=value, limit=limit, unit="mm", severity=severity, sense="at least", advice=advice, remedy=remedy,
    )  # fmt: skip


def at_most(
    law: Law,
    value: Fraction,
    limit: Fraction,
    where: str,
    path: Path,
    *,
    severity: str = "",
    advice: str = "",
    remedy: tuple[Change, ...] = (),
) -> Judged:
    """A length (mm) that must not exceed its limit."""
    return judged(
        law, value <= limit, where, path,
        value=value, limit=limit, unit="mm", severity=severity, advice=advice, remedy=remedy,
    )  # fmt: skip


def bay_path(bay: BayPlace) -> Path:
    """The key path of a bay."""
    return ("zones", bay.zone, "bays", bay.index)


def zone_of(bench: Bench, bay_name: str) -> tuple[ZonePlace, BayPlace]:
    """The zone and the bay of that name."""
    return next((zone, bay) for zone in bench.layout.zones for bay in zone.bays if bay.name == bay_name)
