"""One judged check: its law, its value against its limit, and the place in the spec that it is about."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import ParamSpec

from generator.bench import law as laws
from generator.bench.law import Law, Verdict
from generator.figures.rows.checks import Check
from generator.findings import Change

Path = tuple[str | int, ...]
#: A note whose value is this many times off its limit is a warning. Common practice, no source.
FAR_OFF = 10
P = ParamSpec("P")


@dataclass(frozen=True)
class CheckResult:
    """A check, its law, and the key path that it is about.

    `rests_on`: key paths, or codes of checks as paths of one, that must be right before this check says anything.
    `remedy`: the changes that cure it, where the check works them out itself.
    """

    check: Check
    law: Law
    path: Path
    rests_on: tuple[Path, ...] = ()
    remedy: tuple[Change, ...] = ()


def check_result(
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
) -> CheckResult:
    """A check by its law. `severity` and `advice` override the law's own; a note far off its limit is a warning.

    `sense` says on which side of a limit, where there is one, the value must be.
    """
    weighed = _by_distance(
        severity or law.severity, _number(value), _number(limit), at_least=sense == "at least"
    )
    check = Check(
        code=law.code,
        severity=weighed if not ok else severity or law.severity,
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
        quantity="" if value is None else law.quantity,
    )
    return CheckResult(check, law, path, rests_on, remedy)


def _by_distance(severity: str, value: float | None, limit: float | None, *, at_least: bool) -> str:
    """The severity of a failed check: a note is a warning where its value is `FAR_OFF` times off its limit."""
    if severity != "note" or value is None or limit is None:
        return severity
    near, far = (value, limit) if at_least else (limit, value)
    return "warning" if abs(near) * FAR_OFF <= abs(far) else severity


def _number(value: float | Fraction | None) -> float | None:
    return None if value is None else float(value)


def of_verdict(each: Verdict) -> CheckResult:
    """A law that was judged on the bench floor."""
    unit = "" if each.limit is None else each.unit
    return check_result(
        each.law, each.ok, each.where, each.path, value=each.value, limit=each.limit, unit=unit,
        severity=each.severity, sense=each.sense, advice=each.advice, remedy=each.remedy,
    )  # fmt: skip


def _at_once(judge: Callable[P, Verdict]) -> Callable[P, CheckResult]:
    return lambda *args, **keys: of_verdict(judge(*args, **keys))


at_least = _at_once(laws.at_least)
"""A length (mm) that must not fall below its limit."""
at_most = _at_once(laws.at_most)
"""A length (mm) that must not exceed its limit."""
