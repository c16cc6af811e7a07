"""One cutting plan for each material of several files, and what all of them need from the shop."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from generator.calculators.cutting.bars import BarPlan
from generator.calculators.cutting.core import WorkBudget
from generator.calculators.cutting.sheets import SheetPlan
from generator.codes import Code
from generator.figures.cut_demands import Demand
from generator.figures.cut_solution import plan_problem
from generator.figures.offcut_stock import offered, remains
from generator.findings import Finding, Severity, SpecError
from generator.spec.cut_problem import CutProblem
from generator.spec.offcut_store import StoredOffcut


@dataclass(frozen=True)
class SharedMaterial:
    """A material, the demands of it that share one plan, and the problem of them all."""

    demands: tuple[Demand, ...]
    problem: CutProblem

    @property
    def label(self) -> str:
        """What the first file calls it."""
        return self.demands[0].label

    @property
    def names(self) -> tuple[str, ...]:
        """Its names in the files, each once."""
        return tuple(dict.fromkeys(each.material.name for each in self.demands if each.material))

    @property
    def sources(self) -> tuple[str, ...]:
        """The files that need it."""
        return tuple(each.source for each in self.demands)

    @property
    def waits(self) -> tuple[str, ...]:
        """Pieces that are cut when every bay of their bench is measured."""
        return tuple(piece for each in self.demands for piece in each.waits)

    @property
    def has_prices(self) -> bool:
        """Whether all stock that is bought has a price, so that the plan has a cost."""
        return None not in self.demands[0].prices

    def takes(self, demand: Demand) -> bool:
        """Whether a demand can share the plan: one material, saw and stock.

        Two cards are one material when they say the same of it; a problem says only the name and the sides.
        """
        if demand.material is None or not self.names or demand.terms != self.demands[0].terms:
            return False
        cards = [each.card for each in self.demands if each.card is not None]
        if cards and demand.card is not None:
            return demand.card == cards[0]
        return demand.material.name in self.names


@dataclass(frozen=True)
class ToBuy:
    """`count` bars or sheets of one size; `cost` None where the price is missing. `on_hand` is not bought."""

    item: str
    count: int
    size: tuple[Fraction, ...]
    price: Fraction | None
    on_hand: bool = False
    stored: bool = False
    """Whether it is an off-cut from the store."""

    @property
    def cost(self) -> Fraction | None:
        """What they cost together; nothing for what is there."""
        return Fraction(0) if self.on_hand else None if self.price is None else self.count * self.price


@dataclass(frozen=True)
class CombinedPlan:
    """The plan of each material, and the shopping list of all."""

    materials: tuple[SharedMaterial, ...]
    plans: tuple[BarPlan | SheetPlan, ...]
    shopping: tuple[ToBuy, ...]
    taken: tuple[int, ...] = ()
    """How many of each entry of the store the plans take."""

    def remains(self, day: str) -> tuple[StoredOffcut, ...]:
        """The off-cuts that are worth keeping; their origin is the files and the day."""
        return tuple(
            offcut
            for material, plan in zip(self.materials, self.plans, strict=True)
            for offcut in remains(
                material.problem, plan, f"{', '.join(dict.fromkeys(material.sources))} {day}".rstrip()
            )
        )

    @property
    def total(self) -> Fraction:
        """What all costs that has a price."""
        return sum((each.cost for each in self.shopping if each.cost is not None), Fraction(0))


def shared_materials(demands: Iterable[Demand]) -> tuple[tuple[SharedMaterial, ...], tuple[Finding, ...]]:
    """Demands of one material together; a finding for each name that two different materials have."""
    groups: list[SharedMaterial] = []
    findings: list[Finding] = []
    for demand in demands:
        place = next((at for at, group in enumerate(groups) if group.takes(demand)), None)
        if place is None:
            findings += _apart(groups, demand)
            groups.append(SharedMaterial((demand,), demand.problem))
        else:
            group = groups[place]
            groups[place] = SharedMaterial((*group.demands, demand), _joined(group.problem, demand))
    return tuple(groups), tuple(findings)


def _joined(problem: CutProblem, demand: Demand) -> CutProblem:
    """One problem with the pieces of both; stock with a count is what the shop has, so it is there once."""
    more = demand.problem
    return replace(
        problem,
        bar_pieces=problem.bar_pieces + more.bar_pieces,
        sheet_pieces=problem.sheet_pieces + more.sheet_pieces,
        names=problem.names + more.names,
        places=problem.places + more.places,
    )


def _apart(groups: Sequence[SharedMaterial], demand: Demand) -> Iterator[Finding]:
    """Why a demand does not share the plan of a material of its name."""
    if demand.material is None:
        if groups:
            yield Finding(
                Code.PLANNED_APART,
                Severity.NOTE,
                f"{demand.source} is planned apart, because it does not say its material",
                demand.where,
                advice="Write `material: {name: ply-12, thickness: 12}` with its own values into this file.",
            )
        return
    name = demand.material.name
    other = next((each for each in groups if name in each.names), None)
    if other is None:
        return
    first = other.demands[0]
    differ = [key for key in {**first.terms, **demand.terms} if first.terms.get(key) != demand.terms.get(key)]
    cards = [each.card for each in other.demands if each.card is not None]
    if demand.card is not None and cards:
        differ += [key for key in demand.card if demand.card[key] != cards[0].get(key)]
    yield Finding(
        Code.PLANNED_APART,
        Severity.WARNING,
        f"`{name}` of {demand.source} is planned apart from that of {first.source}; they differ in "
        f"{', '.join(dict.fromkeys(differ))}",
        demand.where,
        advice="If it is one material, write the same values in both files.",
    )


def plan_combined(
    materials: Sequence[SharedMaterial], budget: WorkBudget, store: Sequence[StoredOffcut] = ()
) -> CombinedPlan:
    """Plan each material; off-cuts of the store cost nothing. Raises SpecError with all shortages of all materials."""
    planned: list[SharedMaterial] = []
    plans: list[BarPlan | SheetPlan] = []
    shopping: list[ToBuy] = []
    findings: list[Finding] = []
    left = [each.count for each in store]
    for place, material in enumerate(materials):
        share = budget.part(budget.left // (len(materials) - place))
        offer = offered(material.problem, material.names, store, left)
        material = replace(material, problem=offer.problem)
        try:
            plan = plan_problem(offer.problem, share)
        except SpecError as error:
            findings += error.findings
            continue
        for entry, number in offer.taken(plan).items():
            left[entry] -= number
        planned.append(material)
        plans.append(plan)
        shopping += _to_buy(material, plan)
    if findings:
        raise SpecError(findings)
    taken = tuple(each.count - rest for each, rest in zip(store, left, strict=True))
    return CombinedPlan(tuple(planned), tuple(plans), tuple(shopping), taken)


def _to_buy(material: SharedMaterial, plan: BarPlan | SheetPlan) -> Iterator[ToBuy]:
    """The stock that a plan takes, in the order of the spec."""
    used = Counter(each.stock for each in (plan.bars if isinstance(plan, BarPlan) else plan.sheets))
    for place in sorted(used):
        if material.problem.of_sheets:
            sheet = material.problem.sheets[place]
            size: tuple[Fraction, ...] = (sheet.width, sheet.height)
        else:
            size = (material.problem.stock[place].length,)
        prices = material.demands[0].prices
        stored = place >= len(prices)
        price = Fraction(0) if stored else prices[place]
        yield ToBuy(material.label, used[place], size, price, price == 0, stored)
