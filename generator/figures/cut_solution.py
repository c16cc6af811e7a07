"""The answer to a cutting problem as plain data: what `bench-manual cuts` prints."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from typing import Any

from generator.calculators.cutting.bars import BarPlan, BarShortage, plan_bars
from generator.calculators.cutting.core import WorkBudget
from generator.calculators.cutting.sheets import (
    SheetPlan,
    SheetShortage,
    ShopRules,
    StageOrder,
    breaches,
    plan_sheets,
    stage_order,
)
from generator.codes import Code
from generator.findings import Finding, Severity, SpecError
from generator.spec.cut_problem import CutProblem
from generator.units.format import format_inch, format_mm, plain
from generator.units.sizes import INCH

__all__ = ["plan_problem", "solution_data", "solve_problem"]


def plan_problem(problem: CutProblem, budget: WorkBudget) -> BarPlan | SheetPlan:
    """Plan a problem. Raises SpecError when it cannot be cut: which piece, by how much, what is enough."""
    if problem.of_sheets:
        sheets = plan_sheets(
            problem.sheets,
            problem.sheet_pieces,
            kerf=problem.kerf,
            trim=problem.trim,
            budget=budget,
            stages=problem.stages,
            breaking=problem.breaking,
            rules=problem.rules,
            keep=(problem.keep[0], problem.keep[-1]),
        )
        if sheets.shortages:
            raise SpecError([_sheet_finding(problem, shortage) for shortage in sheets.shortages])
        return sheets
    bars = plan_bars(problem.stock, problem.bar_pieces, kerf=problem.kerf, trim=problem.trim, budget=budget)
    if bars.shortages:
        raise SpecError([_bar_finding(problem, shortage) for shortage in bars.shortages])
    return bars


def solve_problem(problem: CutProblem, budget: WorkBudget) -> dict[str, Any]:
    """Plan a problem and give the answer as plain data, without the seconds that it took."""
    return solution_data(problem, plan_problem(problem, budget))


def solution_data(problem: CutProblem, plan: BarPlan | SheetPlan) -> dict[str, Any]:
    """`{name, cost, bound, proved, bars: [...]}` or `sheets: [...]`; lengths in the problem's own unit."""
    data: dict[str, Any] = {
        "name": problem.name,
        "cost": plain(plan.cost),
        "bound": plain(plan.bound),
        "proved": plan.proved,
    }
    if isinstance(plan, BarPlan):
        data["bars"] = _bars(problem, plan)
    else:
        order = stage_order(plan.sheets)
        data["sheets"] = _sheets(problem, plan, order)
        data["fences"] = [
            {
                "setting": _own(problem, each.setting),
                "cuts": [{"sheet": sheet + 1, "cuts": cuts} for sheet, cuts in each.by_sheet().items()],
            }
            for each in order.passes
        ]
        data["fence_settings"] = {"all_sheets": len(order.passes), "sheet_by_sheet": order.sheet_by_sheet}
        if problem.rules:
            data["rules"] = _rules(problem, plan, problem.rules)
    return data


def _own(problem: CutProblem, length: Fraction) -> float | int:
    return _number(length.numerator, length.denominator, problem.units)


@lru_cache(maxsize=4096)
def _number(numerator: int, denominator: int, units: str) -> float | int:
    """A plan has the same few thousand lengths over and over; two whole numbers are found faster than a fraction."""
    length = Fraction(numerator, denominator)
    return plain(length / INCH if units == "in" else length)


def _bars(problem: CutProblem, plan: BarPlan) -> list[dict[str, Any]]:
    return [
        {
            "stock": _own(problem, problem.stock[bar.stock].length),
            "pieces": [_own(problem, problem.bar_pieces[place].length) for place in bar.pieces],
            "offcut": _own(problem, bar.offcut),
            **({"names": [problem.names[place] for place in bar.pieces]} if any(problem.names) else {}),
        }
        for bar in plan.bars
    ]


def _sheets(problem: CutProblem, plan: SheetPlan, order: StageOrder) -> list[dict[str, Any]]:
    """Positions from the sheet's own corner, sizes as they lie; cuts after the edges are trimmed, in order."""
    fence = _own(problem, problem.kerf)
    rule = problem.breaking
    track = fence if rule is None or rule.kerf is None else _own(problem, rule.kerf)
    return [
        {
            "stock": [
                _own(problem, problem.sheets[sheet.stock].width),
                _own(problem, problem.sheets[sheet.stock].height),
            ],
            **(
                {"defects": [[_own(problem, each) for each in vars(d).values()] for d in defects]}
                if defects
                else {}
            ),
            "pieces": [
                {
                    "size": [_own(problem, placed.area.width), _own(problem, placed.area.height)],
                    "x": _own(problem, placed.area.x),
                    "y": _own(problem, placed.area.y),
                    "rotated": placed.turned,
                    **({"name": problem.names[placed.piece]} if problem.names[placed.piece] else {}),
                }
                for placed in sheet.pieces
            ],
            "cuts": [
                {
                    "of_cut": made.parent.number if made.parent else 0,
                    "near": made.near,
                    "axis": "x" if cut.upright else "y",
                    "at": _own(problem, cut.at),
                    "from": _own(problem, cut.area.y if cut.upright else cut.area.x),
                    "to": _own(
                        problem,
                        cut.area.y + cut.area.height if cut.upright else cut.area.x + cut.area.width,
                    ),
                    "setting": _own(problem, cut.setting),
                    "stage": cut.stage,
                    "tool": "track saw" if cut.by_track else "saw",
                    "kerf": track if cut.by_track else fence,
                }
                for made in cuts
                for cut in (made.cut,)
            ],
        }
        for sheet, cuts in zip(plan.sheets, order.by_sheet(len(plan.sheets)), strict=True)
        for defects in (problem.sheets[sheet.stock].defects,)
    ]


def _rules(problem: CutProblem, plan: SheetPlan, rules: ShopRules) -> dict[str, Any]:
    """Whether the plan keeps to the rules of the shop, and what one that does costs."""
    found = breaches(plan.sheets, rules)
    return {
        "kept": found.kept,
        "slivers": found.slivers,
        "small_parts": found.small_parts,
        "leftover_edges": found.leftover_edges,
        "cost_when_kept": None if plan.clean_cost is None else plain(plan.clean_cost),
    }


def _say(problem: CutProblem, length: Fraction) -> str:
    return f"{format_inch(length)} in" if problem.units == "in" else f"{format_mm(length)} mm"


def _named(problem: CutProblem, place: int) -> str:
    """What a piece is called, in quotes behind its size."""
    return f' "{problem.names[place]}"' if problem.names[place] else ""


def _bar_finding(problem: CutProblem, shortage: BarShortage) -> Finding:
    where = problem.places[shortage.piece]
    length = _say(problem, problem.bar_pieces[shortage.piece].length) + _named(problem, shortage.piece)
    if not shortage.bars:
        return Finding(
            Code.PIECE_TOO_LONG,
            Severity.ERROR,
            f"the piece of {length} is {_say(problem, shortage.short_by)} too long for every bar "
            "after its end trims",
            where,
            advice=f"Use a bar of {_say(problem, shortage.needs)} or more.",
        )
    return Finding(
        Code.TOO_LITTLE_STOCK,
        Severity.ERROR,
        f"no bar was found for {shortage.count} of the pieces of {length}",
        where,
        advice=f"Add {_count(shortage.bars, 'more bar')} of {_say(problem, shortage.needs)}.",
    )


def _sheet_finding(problem: CutProblem, shortage: SheetShortage) -> Finding:
    where = problem.places[shortage.piece]
    piece = problem.sheet_pieces[shortage.piece]
    size = f"{_say(problem, piece.width)} x {_say(problem, piece.height)}{_named(problem, shortage.piece)}"
    needs = " x ".join(_say(problem, side) for side in shortage.needs)
    if not shortage.sheets:
        return Finding(
            Code.PIECE_TOO_LARGE,
            Severity.ERROR,
            f"the piece of {size} is {_say(problem, shortage.short_by)} too large for every sheet "
            "after its edge trims",
            where,
            advice=f"Use a sheet of {needs} or more.",
        )
    return Finding(
        Code.TOO_LITTLE_STOCK,
        Severity.ERROR,
        f"no place was found for {shortage.count} of the pieces of {size}",
        where,
        advice=f"Add {_count(shortage.sheets, 'more sheet')} of {needs}.",
    )


def _count(number: int, noun: str) -> str:
    return f"{number} {noun}{'' if number == 1 else 's'}"
