"""Off-cuts of the shop's store as stock that costs nothing, and what a plan leaves for the store."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from generator.calculators.cutting.bars import BarPlan, BarStock
from generator.calculators.cutting.sheets import SheetPlan, SheetStock
from generator.codes import Code
from generator.findings import Finding, Severity
from generator.spec.cut_material import CutMaterial
from generator.spec.cut_problem import CutProblem
from generator.spec.offcut_store import StoredOffcut
from generator.units.sizes import INCH

_INCH_STEP = INCH / 16


@dataclass(frozen=True)
class Offered:
    """A problem with the off-cuts of its material behind its own stock; `entries` are their places in the store."""

    problem: CutProblem
    entries: tuple[int, ...]
    own: int

    def taken(self, plan: BarPlan | SheetPlan) -> Counter[int]:
        """How many of each entry of the store a plan takes."""
        used = plan.bars if isinstance(plan, BarPlan) else plan.sheets
        return Counter(self.entries[each.stock - self.own] for each in used if each.stock >= self.own)


def offered(
    problem: CutProblem, names: Sequence[str], store: Sequence[StoredOffcut], left: Sequence[int]
) -> Offered:
    """The off-cuts of one of these `names` that have the kind and the sides of the problem's material.

    `left` is how many of each entry no other plan has taken.
    """
    made = problem.material
    own = len(problem.sheets or problem.stock)
    fit = [
        place
        for place, each in enumerate(store)
        if made is not None
        and left[place]
        and each.material.name in names
        and each.material.is_cut_like(made)
    ]
    free = Fraction(0)
    if problem.of_sheets:
        sheets = [SheetStock(store[at].length, store[at].width or free, free, left[at]) for at in fit]
        return Offered(replace(problem, sheets=(*problem.sheets, *sheets)), tuple(fit), own)
    bars = [BarStock(store[at].length, free, left[at], store[at].lot) for at in fit]
    return Offered(replace(problem, stock=(*problem.stock, *bars)), tuple(fit), own)


def not_used(problem: CutProblem, source: str, store: Sequence[StoredOffcut]) -> Iterator[Finding]:
    """Why off-cuts of the material's name are not taken, or none at all."""
    made = problem.material
    if made is None:
        yield Finding(
            Code.OFFCUT_NOT_USED,
            Severity.NOTE,
            f"{source} takes no off-cuts and leaves none, because it does not say its material",
            advice="Write `material: {name: ply-12, thickness: 12}` with its own values into this file.",
        )
        return
    others = [
        each for each in store if each.material.name == made.name and not each.material.is_cut_like(made)
    ]
    for other in dict.fromkeys(each.material for each in others):
        yield Finding(
            Code.OFFCUT_NOT_USED,
            Severity.NOTE,
            f"off-cuts of `{made.name}` in the store are not used for {source}",
            found=other.words(problem.units),
            allowed=made.words(problem.units),
        )


def remains(problem: CutProblem, plan: BarPlan | SheetPlan, origin: str) -> tuple[StoredOffcut, ...]:
    """The off-cuts of a plan that are worth keeping, down to what a tape shows; equal ones counted."""
    made = problem.material
    if made is None:
        return ()
    found: Counter[StoredOffcut] = Counter()
    for each in _left(problem, plan, made, origin):
        found[each] += 1
    return tuple(replace(each, count=count) for each, count in found.items())


def _left(
    problem: CutProblem, plan: BarPlan | SheetPlan, made: CutMaterial, origin: str
) -> Iterator[StoredOffcut]:
    step = _INCH_STEP if problem.units == "in" else Fraction(1)
    if isinstance(plan, BarPlan):
        for bar in plan.bars:
            if bar.offcut >= problem.keep[0]:
                yield StoredOffcut(
                    made, bar.offcut // step * step, None, 1, problem.stock[bar.stock].lot, origin
                )
        return
    least = sorted(problem.keep)
    for sheet in plan.sheets:
        defects = problem.sheets[sheet.stock].defects
        for area in sheet.offcuts:
            if any(area.meets(each) for each in defects):
                continue  # it is no clear board
            sides = sorted((area.width, area.height))
            if all(side >= limit for side, limit in zip(sides, least, strict=True)):
                yield StoredOffcut(made, area.width // step * step, area.height // step * step, 1, "", origin)
