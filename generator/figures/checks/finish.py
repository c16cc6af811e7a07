"""Checks of finishes: what is captured is coated before it goes in, and a litre covers no more than it can."""

from __future__ import annotations

from collections.abc import Iterator

from generator.bench.law import Case, Law
from generator.bench.model import Bench
from generator.calculators.finish import MOST_COVERAGE
from generator.codes import Code
from generator.figures.checks.check_result import CheckResult, check_result
from generator.findings import Change, dotted
from generator.provenance import inexact

FIRST = "before assembly"


def _before(case: Case) -> tuple[Change, ...]:
    return (Change(dotted(case.path), FIRST),)


def _usual(case: Case) -> tuple[Change, ...]:
    return (Change(dotted(case.path), f"{MOST_COVERAGE} m2/l"),)


LATE = Law(
    Code.FINISH_LATE, "warning", "Panels in grooves are coated before assembly",
    "These panels are coated when their edges are in the grooves", "Coat them before assembly.",
    "A brush does not reach the edges in the grooves, and finish in a groove glues the panel in.", _before,
)  # fmt: skip
COVERAGE = Law(
    Code.FINISH_COVERAGE, "note", "A litre covers no more than usual", "A litre covers more than usual",
    "Read the coverage on the tin again: area a litre, for one coat.",
    "You run out of finish in the middle of a coat, and the edge of the dry part shows.", _usual,
    quantity="area that one litre covers",
)  # fmt: skip


def finish_checks(bench: Bench) -> Iterator[CheckResult]:
    """Each key that has a coat."""
    for each in bench.coats:
        path = ("finish", each.key)
        if any(part.tongues for part in each.parts):
            yield check_result(LATE, each.coat.when == FIRST, each.key, (*path, "when"))
        yield check_result(
            COVERAGE, each.coat.coverage <= MOST_COVERAGE, each.key, (*path, "coverage"),
            value=inexact(each.coat.coverage), limit=inexact(MOST_COVERAGE), unit="m²/l",
        )  # fmt: skip
