"""Cutting plans against general means, as one table: first fit, a packer of rectangles, and models for CP-SAT.

    python tests/benchmarks/cutting.py                     the shop problems in tests/data
    python tests/benchmarks/cutting.py --problems DIR      bars.json and sheets.json in DIR (literature sets as well)
    python tests/benchmarks/cutting.py --seconds 2 5 20    budgets, each a row of the table
    python tests/benchmarks/cutting.py --every 4           a sample: each fourth problem of a set
    python tests/benchmarks/cutting.py --list              a line for each problem too

Every plan is counted again here before it is reported. All run in one process on one core. Times of our plans are of
the processor, the search alone; CP-SAT has as many seconds by the clock, or --model-seconds for three stages. The
packer (`pip install rectpack`) is left out where it is not installed.
"""

from __future__ import annotations

import argparse
import json
import os
import sys
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from generator.calculators.cutting.bars import BarPiece, BarStock, plan_bars  # noqa: E402
from generator.calculators.cutting.core import budget_for  # noqa: E402
from generator.calculators.cutting.sheets import SheetPiece, SheetStock, ShopRules, plan_sheets  # noqa: E402
from tests.benchmarks.cutting_rivals import (  # noqa: E402
    Problem,
    Rival,
    first_fit_bars,
    first_fit_sheets,
    modelled_bars,
    modelled_sheets,
    packed_sheets,
)
from tests.calculators.cutting.bars.test_plan import check as check_bars  # noqa: E402
from tests.calculators.cutting.cut_verifier import check_plan  # noqa: E402
from tests.calculators.cutting.rule_verifier import breaches  # noqa: E402

Row = dict[str, Any]

#: A plan counts as proved when it is within so many seconds.
SOON = 5


def solve_bars(problem: Problem, seconds: float) -> Row:
    stock = [BarStock(Fraction(length), Fraction(price), limit) for length, price, limit in problem["stock"]]
    pieces = [BarPiece(Fraction(length), count) for length, count in problem["pieces"]]
    start = time.process_time()
    plan = plan_bars(
        stock,
        pieces,
        kerf=Fraction(problem["kerf"]),
        trim=Fraction(problem["trim"]),
        budget=budget_for(seconds),
    )
    took = time.process_time() - start
    check_bars(problem, plan)
    return {"cost": plan.cost, "bound": plan.bound, "proved": plan.proved, "seconds": took}


def solve_by_rules(problem: Problem, seconds: float) -> Row:
    """Three stages and the rules of the shop, as `cuts` plans without being told otherwise."""
    row = solve_sheets(problem, seconds, stages=3, rules=ShopRules(Fraction(1), Fraction(300)))
    found = row.pop("breaches")
    row["clean"] = not found
    assert row["stages"] <= 3
    assert not found or row["clean_cost"] is None or row["clean_cost"] > row["cost"], found
    return row


def solve_sheets(
    problem: Problem, seconds: float, stages: int | None = None, rules: ShopRules | None = None
) -> Row:
    stock = [SheetStock(*map(Fraction, entry[:3]), entry[3]) for entry in problem["sheets"]]
    pieces = [
        SheetPiece(Fraction(w), Fraction(h), count, bool(turns)) for w, h, count, turns in problem["pieces"]
    ]
    start = time.process_time()
    plan = plan_sheets(
        stock,
        pieces,
        kerf=Fraction(problem["kerf"]),
        trim=Fraction(problem["trim"]),
        budget=budget_for(seconds),
        stages=stages,
        rules=rules,
    )
    took = time.process_time() - start
    check_plan(problem, plan)
    row = {"cost": plan.cost, "bound": plan.bound, "proved": plan.proved, "seconds": took}
    if rules is not None:
        sizes = [(sheet.width, sheet.height) for sheet in stock]
        kerf, trim = Fraction(problem["kerf"]), Fraction(problem["trim"])
        row["breaches"] = breaches(plan, kerf, trim, sizes, rules.least_feed)
        row["clean_cost"] = plan.clean_cost
        row["stages"] = max(cut.stage for sheet in plan.sheets for cut in sheet.cuts)
    return row


@dataclass(frozen=True)
class BenchmarkSet:
    """Problems of one row of the table, how we plan them, and who else does; a model gets the seconds of the row."""

    title: str
    problems: Sequence[Problem]
    solve: Callable[[Problem, float], Row]
    rivals: dict[str, Callable[[Problem], Rival]]
    model: Callable[[Problem, float], Rival]
    staged: bool = False


def report(each: BenchmarkSet, rows: Sequence[Row], seconds: float) -> None:
    """One row of the table: what is proved, how far from the bound, and against each rival where it has a plan."""
    number = len(rows)
    proved = sum(row["proved"] and row["seconds"] < SOON for row in rows)
    gap = sum(float(row["cost"] / row["bound"]) - 1 for row in rows) / number
    cells = [
        each.title,
        f"{seconds:g} s",
        f"{proved} of {number} ({100 * proved / number:.0f} %)",
        f"{100 * gap:.2f} %",
    ]
    for name in (*each.rivals, "CP-SAT"):
        met = [row for row in rows if row[name].cost is not None]
        if each.staged and name == "rectpack":
            met = [row for row in met if row[name].stages <= 3]
        ours, theirs = sum(row["cost"] for row in met), sum(row[name].cost for row in met)
        lost = [row["name"] for row in met if row["cost"] > row[name].cost]
        share = f" ({100 * float(ours / theirs) - 100:+.1f} %)" if theirs else ""
        cells.append(
            f"{len(met)}: {float(ours):g} : {theirs:g}{share}" + "".join(f" DEARER {n}" for n in lost)
        )
    print("| " + " | ".join(cells) + " |", flush=True)
    below = [row["name"] for row in rows if row["known"] is not None and row["cost"] < row["known"]]
    if below:
        print(f"BELOW A PUBLISHED BOUND: {' '.join(below)}")


def run(each: BenchmarkSet, budgets: Sequence[float], model_seconds: float | None, show: bool) -> list[Row]:
    """The rows of the last budget."""
    found = {
        problem["name"]: {k: rival(problem) for k, rival in each.rivals.items()} for problem in each.problems
    }
    long: dict[str, Rival] = {}
    rows: list[Row] = []
    for seconds in budgets:
        rows = []
        for problem in each.problems:
            name = problem["name"]
            row = each.solve(problem, seconds)
            row |= {"name": name, "known": None if each.staged else problem.get("bound"), **found[name]}
            if each.staged and model_seconds is not None:
                long[name] = row["CP-SAT"] = long.get(name) or each.model(problem, model_seconds)
            else:
                row["CP-SAT"] = each.model(problem, seconds)
            rows.append(row)
            if show:
                rest = " ".join(f"{k} {row[k].cost}" for k in (*each.rivals, "CP-SAT"))
                print(
                    f"  {name:<24} {float(row['cost']):g} bound {float(row['bound']):g} {row['seconds']:.2f} s {rest}",
                    flush=True,
                )
        if rows:
            report(each, rows, seconds)
    return rows


def read(folder: Path | None, kind: str) -> list[Problem]:
    path = folder / f"{kind}.json" if folder else ROOT / "tests" / "data" / f"shop-{kind}.json"
    problems: list[Problem] = json.loads(path.read_text(encoding="utf-8"))
    return problems


def sets_of(bars: Sequence[Problem], sheets: Sequence[Problem]) -> list[BenchmarkSet]:
    """The rows of the table: of literature, any stages and no rules of the shop, for its best plans end at the edge."""
    for_bars = {"first fit": first_fit_bars, "rectpack": lambda _: Rival(None)}
    for_sheets = {"first fit": first_fit_sheets, "rectpack": packed_sheets}

    def parts(problem: Problem) -> int:
        return sum(int(piece[2]) for piece in problem["pieces"])

    one = [p for p in sheets if len(p["sheets"]) == 1]
    few, many = [p for p in one if parts(p) <= 60], [p for p in one if parts(p) > 60]
    several = [p for p in sheets if len(p["sheets"]) > 1]
    shop = [p for p in sheets if p["name"].startswith("shop")]
    small, rest = [p for p in bars if len(p["pieces"]) <= 40], [p for p in bars if len(p["pieces"]) > 40]
    return [
        BenchmarkSet("bars, at most 40 sizes", small, solve_bars, for_bars, modelled_bars),
        BenchmarkSet("bars, the rest", rest, solve_bars, for_bars, modelled_bars),
        BenchmarkSet("sheets, one size, at most 60 parts", few, solve_sheets, for_sheets, modelled_sheets),
        BenchmarkSet("sheets, one size, more parts", many, solve_sheets, for_sheets, modelled_sheets),
        BenchmarkSet("sheets, several sizes", several, solve_sheets, for_sheets, modelled_sheets),
        BenchmarkSet("three stages, rules on", shop, solve_by_rules, for_sheets, modelled_sheets, True),
    ]


def main() -> None:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--problems", type=Path, help="folder with bars.json and sheets.json")
    parser.add_argument("--only", default="", help="only problems whose name contains this")
    parser.add_argument("--set", default="", help="only sets whose title contains this")
    parser.add_argument("--every", type=int, default=1, help="a sample: every nth problem of a set")
    parser.add_argument("--list", action="store_true", help="print each problem too")
    parser.add_argument("--seconds", type=float, nargs="+", default=[2, 5, 20])
    parser.add_argument(
        "--model-seconds", type=float, help="for CP-SAT in three stages; else those of the row"
    )
    options = parser.parse_args()
    if hasattr(os, "sched_setaffinity"):
        os.sched_setaffinity(0, [min(os.sched_getaffinity(0))])
    bars, sheets = (
        [p for p in read(options.problems, kind) if options.only in p["name"]] for kind in ("bars", "sheets")
    )
    print("| set | budget | proved under 5 s | mean gap | first fit | rectpack (sheets) | CP-SAT |")
    print("|---|---|---|---|---|---|---|")
    free: dict[str, Any] = {}
    for each in sets_of(bars, sheets):
        if options.set not in each.title:
            continue
        chosen = BenchmarkSet(**{**vars(each), "problems": each.problems[:: options.every]})
        rows = run(chosen, options.seconds, options.model_seconds, options.list)
        if not each.staged:
            free |= {row["name"]: row["cost"] for row in rows}
        over = [
            float(row["cost"] / free[row["name"]]) - 1 for row in rows if each.staged and row["name"] in free
        ]
        if over:
            print(f"above the free plan, mean {100 * sum(over) / len(over):.2f} %")


if __name__ == "__main__":
    main()
