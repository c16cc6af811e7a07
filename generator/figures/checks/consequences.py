"""Causes before consequences: a check that rests on goods which are wrong themselves says nothing new."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import replace

from generator.figures.checks.check_result import CheckResult


def causes_only(found: Sequence[CheckResult]) -> Iterator[CheckResult]:
    """Leave out each failed check that rests on a failed error; the first such error says how many wait for it.

    What holds is kept: it holds whatever else fails.
    """
    errors = [each for each in found if not each.check.ok and each.check.severity == "error"]
    waiting: Counter[int] = Counter()
    kept = []
    for each in found:
        cause = None if each.check.ok else next((one for one in errors if _rests(each, one)), None)
        if cause is None:
            kept.append(each)
        else:
            waiting[id(_first(cause, errors))] += 1
    for each in kept:
        count = waiting[id(each)]
        yield (
            replace(each, check=replace(each.check, advice=_with_count(each.check.advice, count)))
            if count
            else each
        )


def _first(cause: CheckResult, errors: Sequence[CheckResult]) -> CheckResult:
    """The error at the head of the chain."""
    above = next((one for one in errors if _rests(cause, one)), None)
    return cause if above is None else _first(above, errors)


def _rests(check: CheckResult, cause: CheckResult) -> bool:
    """On a check by its code, or on anything that is said of a key path. A cause rests on nothing of its own kind."""
    if check is cause or check.check.code == cause.check.code:
        return False
    return any(path == (cause.check.code,) or cause.path[: len(path)] == path for path in check.rests_on)


def _with_count(advice: str, count: int) -> str:
    more = "another failed check rests" if count == 1 else f"{count} other failed checks rest"
    return f"{advice} Mend this first: {more} on it."
