"""The cheapest plan of sheets cut in three stages: sheets are filled strip by strip, and chosen by set covering.

What pieces are worth leads the filling: first their area, then the prices of the linear program over all sheets that
were filled before (Gilmore & Gomory 1965 price strips so). The choice among them is made in whole numbers.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Protocol

from generator.calculators.cutting.core.budget import WorkBudget
from generator.calculators.cutting.core.covering import Column
from generator.calculators.cutting.core.job import Cut
from generator.calculators.cutting.sheets.choice import chosen_sheets
from generator.calculators.cutting.sheets.job import Layout, SheetCut, SheetJob
from generator.calculators.cutting.sheets.local_search import chances
from generator.calculators.cutting.sheets.sections import BrokenSheet, SectionFill
from generator.calculators.cutting.sheets.strips import StripFill, StripSheet

AnySheet = StripSheet | BrokenSheet


class StockFill(Protocol):
    """What fills sheets, and lays out those that it filled."""

    budget: WorkBudget

    def sheet(self, stock: int, upright: bool, left: Sequence[int], values: Sequence[float]) -> AnySheet:
        """One sheet, for much value."""

    def layout(self, sheet: Any) -> Layout:
        """The cuts of a sheet."""


#: Plans that are made before the sheets are combined; the next time is half as many plans later again.
FIRST_PLANS = 8

#: By how much at most a piece is taken for more or less than it is worth.
NOISE = 0.08

#: By how much at most a sheet is taken for better than it is, where others hold more for their price.
DARING = 0.4

#: Units of work to see whether a sheet keeps to the rules. Measured, no source.
CHECKED = 120


class StripSearch:
    """One search over plans of strips. It ends when a plan costs the bound, or the budget is spent."""

    def __init__(self, job: SheetJob, budget: WorkBudget) -> None:
        self.job, self.budget = job, budget
        self.areas = job.areas
        self.known: dict[Column, AnySheet] = {}
        self.plan: list[Cut] | None = None
        self._chance = chances().__next__
        self._fill: StockFill = (SectionFill if job.longest is not None else StripFill)(
            job, self._chance, budget
        )
        self._duals: Sequence[float] | None = None
        self._made, self._next = 0, FIRST_PLANS
        self._daring = 0.0

    @property
    def cost(self) -> int | None:
        """What the plan at hand costs."""
        if self.plan is None:
            return None
        return sum(self.job.prices[cut.stock] * cut.times for cut in self.plan)

    def learn(self, other: StripSearch) -> None:
        """Take over the sheets of a search within stricter rules, and its plan."""
        self.known.update(other.known)
        self._take(other.plan)

    def learn_sheets(self, sheets: Mapping[Column, StripSheet]) -> None:
        """Take over sheets that keep to the rules of this search."""
        for column, sheet in sheets.items():
            self.budget.spend(CHECKED)
            fill = self._fill
            kept = fill.by_rule(sheet) if self.job.rule.gap and isinstance(fill, StripFill) else sheet
            if kept is not None and not self.budget.spent:
                self.known.setdefault(column, kept)

    def learn_prices(self, duals: Sequence[int]) -> None:
        """Take over what pieces are worth by a bound."""
        self._duals = [float(dual) for dual in duals]

    def take(self, plan: list[Cut]) -> None:
        """Take over a plan of known sheets if it is cheaper."""
        self._take(plan)

    def learn_smaller(self, other: StripSearch) -> None:
        """Take over the sheets of a search for all pieces but the last."""
        self.known.update({(stock, (*counts, 0)): sheet for (stock, counts), sheet in other.known.items()})

    def run(self, bound: int, budget: WorkBudget) -> None:
        """Look for a cheaper plan until it costs the bound."""
        while not budget.spent and (self.cost is None or self.cost > bound):
            # a first plan may take longer: without one the work was for nothing
            part = budget if self.plan else self.budget.part(self.budget.left * 3 // 4)
            plan = self._sequence(part)
            if plan is None and (part.spent or not self.known):
                return  # without a single sheet: the rules leave no place for any piece
            self._take(plan)
            self._made += 1
            if self._made == self._next:
                self._next = self._made * 3 // 2
                self._combine(bound, budget)

    def cuts(self, real: int | None = None) -> tuple[SheetCut, ...] | None:
        """The plan with its layouts; with `real`, of the first pieces only, the others left out."""
        if self.plan is None:
            return None
        pieces, found = len(self.job.pieces), []
        wanted = pieces if real is None else real
        for cut in self.plan:
            sheet = self.known.get((cut.stock, cut.pattern))
            if sheet is None:
                spare = [
                    (sum(counts), counts)
                    for stock, counts in self.known
                    if stock == cut.stock and all(a >= b for a, b in zip(counts, cut.pattern, strict=True))
                ]
                counts = min(spare)[1]
                surplus = [has - wants for has, wants in zip(counts, cut.pattern, strict=True)]
                sheet = self.known[cut.stock, counts].without(surplus)
            assert sheet.counts(pieces) == cut.pattern
            if any(cut.pattern[wanted:]):
                sheet = sheet.without([0] * wanted + list(cut.pattern[wanted:]))
            if any(cut.pattern[:wanted]):
                found.append(SheetCut(cut.stock, self._fill.layout(sheet), cut.pattern[:wanted], cut.times))
        return tuple(found)

    def _take(self, plan: list[Cut] | None) -> None:
        if plan is None:
            return
        cost = sum(self.job.prices[cut.stock] * cut.times for cut in plan)
        if self.cost is None or cost < self.cost:
            self.plan = plan

    def _values(self) -> list[float]:
        chance = self._chance
        power = (1.0, 1.02, 1.05, 1.1)[int(4 * chance())]
        values = [float(area) ** power for area in self.areas.lengths]
        if self._duals is not None and chance() < 0.6:
            share = chance()
            most, top = max(values), max(self._duals) or 1.0
            values = [
                share * value / most + (1 - share) * dual / top
                for value, dual in zip(values, self._duals, strict=True)
            ]
        return [value * (1 + NOISE * (2 * chance() - 1)) for value in values]

    def _sequence(self, budget: WorkBudget) -> list[Cut] | None:
        """A plan sheet by sheet; None when the stock on hand does not hold all, or the budget is spent before."""
        job, pieces = self.job, len(self.job.pieces)
        self._fill.budget = budget
        values = self._values()
        self._daring = DARING * self._chance() if self._made else 0.0
        left, limits = list(job.demands), list(job.limits)
        plan = []
        while any(left):
            best: tuple[float, int, AnySheet, tuple[int, ...]] | None = None
            for stock in range(len(job.sheets)):
                if limits[stock] == 0:
                    continue
                for upright in (False, True):
                    if budget.spent:
                        return None
                    sheet = self._fill.sheet(stock, upright, left, values)
                    counts = sheet.counts(pieces)
                    if not any(counts):
                        continue
                    self.known.setdefault((stock, counts), sheet)
                    value = sum(a * b for a, b in zip(values, counts, strict=True))
                    merit = value / max(1e-9, job.prices[stock]) * (1 + self._daring * self._chance())
                    if best is None or merit > best[0]:
                        best = merit, stock, sheet, counts
            if best is None:
                return None
            _, stock, _, counts = best
            times = min(have // count for have, count in zip(left, counts, strict=True) if count)
            limit = limits[stock]
            if limit is not None:
                times = min(times, limit)
                limits[stock] = limit - times
            left = [have - times * count for have, count in zip(left, counts, strict=True)]
            plan.append(Cut(stock, counts, times))
        return plan

    def _combine(self, bound: int, budget: WorkBudget) -> None:
        """The cheapest choice among all sheets that were filled, and what pieces are worth for the next."""
        dearest = sum(self.areas.prices) * sum(self.areas.demands) if self.cost is None else self.cost - 1
        choice = chosen_sheets(self.areas, self.known, dearest, bound, budget)
        self._duals = choice.worth
        if choice.cuts is not None:
            self._take(choice.cuts)
