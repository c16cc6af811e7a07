"""The check of the budget: what all goods with a price cost, and what is not counted."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from generator.bench.law import Law
from generator.codes import Code
from generator.figures.checks.check_result import CheckResult, check_result
from generator.figures.purchases import total
from generator.figures.rows.buying import Purchase
from generator.provenance import inexact
from generator.spec.schema import Spec
from generator.units.format import format_fixed

#: So many of the most costly goods are named.
NAMED = 3

BUDGET = Law(
    Code.BUDGET, "warning", "The goods cost no more than the budget", "The goods cost more than the budget",
    "Use cheaper goods, or a larger budget.", "You notice it when half of the goods are bought.",
    "which goods are cheaper, and whether the budget may grow, is the maker's choice",
    quantity="cost of all goods with a price",
)  # fmt: skip


def budget_checks(spec: Spec, lines: Sequence[Purchase]) -> Iterator[CheckResult]:
    """The total against the budget; the advice names what costs most and how many goods have no price."""
    if spec.budget is None:
        return
    found = total(lines)
    yield check_result(
        BUDGET, Fraction(str(found.cost)) <= spec.budget, "all goods", ("budget",),
        value=found.cost, limit=inexact(spec.budget), unit=spec.display.currency,
        advice=" ".join((BUDGET.advice, *_facts(lines, found.unpriced))),
    )  # fmt: skip


def _facts(lines: Sequence[Purchase], unpriced: Sequence[str]) -> Iterator[str]:
    priced = sorted((line for line in lines if line.cost), key=lambda line: -(line.cost or 0))
    most = ", ".join(f"{line.item} {format_fixed(line.cost or 0, 2)}" for line in priced[:NAMED])
    yield f"These cost most: {most}."
    if unpriced:
        goods = "1 item has" if len(unpriced) == 1 else f"{len(unpriced)} items have"
        yield f"{goods} no price and {'is' if len(unpriced) == 1 else 'are'} not counted: see the shopping list."
