"""One judged check: its law, its value against its limit, and the place in the spec that it is about."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.bench import law as laws
from generator.bench.law import Law, Verdict
from generator.figures.rows.checks import Check
from generator.findings import Change

Path = tuple[str | int, ...]


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
    """A law that was judged on the bench floor."""
    unit = "" if each.limit is None else each.unit
    return judged(
        each.law, each.ok, each.where, each.path, value=each.value, limit=each.limit, unit=unit,
        severity=each.severity, sense=each.sense, advice=each.advice, remedy=each.remedy,
    )  # fmt: skip


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
    found = laws.at_least(law, value, limit, where, path, severity=severity, advice=advice, remedy=remedy)
    return of_verdict(found)


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
    found = laws.at_most(law, value, limit, where, path, severity=severity, advice=advice, remedy=remedy)
    return of_verdict(found)
