"""Cutting plans against general means, as one table: first fit, a packer of rectangles, and models for CP-SAT.

    python tests/benchmarks/cutting.py                     the shop problems in tests/data
    python tests/benchmarks/cutting.py --problems DIR      bars.json and sheets.json in DIR (literature sets as well)
    python tests/benchmarks/cutting.py --seconds 2 5 20    budgets, each a row of the table
    python tests/benchmarks/cutting.py --every 4           a sample: each fourth problem of a set
    python tests/benchmarks/cutting.py --set bars three    only sets with one of these words in the title
    python tests/benchmarks/cutting.py --table T --rows R  the table in Markdown and every row in JSON, to files as well

Every plan is counted again here before it is reported. All run in one process on one core, and all seconds are of the
processor: of our plans for the search alone, of CP-SAT for the solver alone. CP-SAT runs once a problem, as long as the
longest budget, and in three stages --model-seconds where our plan is not proved; what it had found by then stands in
each row. It ends at a plan that costs no more than ours that is proved. The packer (`pip install rectpack`) is left out
where it is not installed.
"""

from __future__ import annotations

import argparse
import json
import math
import os
import sys
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from generator.calculators.cutting.bars import BarPiece, BarStock, plan_bars  # noqa: E402
from generator.calculators.cutting.core import budget_for  # noqa: E402
from generator.calculators.cutting.sheets import SheetPiece, SheetStock, ShopRules, plan_sheets  # noqa: E402
from tests.benchmarks.cutting_rivals import (  # noqa: E402
    Problem,
    Rival,
    Trials,
    first_fit_bars,
    first_fit_sheets,
    modelled_bars,
    modelled_sheets,
    packed_sheets,
)
from tests.benchmarks.cutting_table import Goal, Row, head, line  # noqa: E402
from tests.calculators.cutting.bars.test_plan import check as check_bars  # noqa: E402
from tests.calculators.cutting.cut_verifier import check_plan  # noqa: E402
from tests.calculators.cutting.rule_verifier import breaches  # noqa: E402


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
    row: Row = {"cost": plan.cost, "bound": plan.bound, "proved": plan.proved, "seconds": took}
    if rules is not None:
        sizes = [(sheet.width, sheet.height) for sheet in stock]
        kerf, trim = Fraction(problem["kerf"]), Fraction(problem["trim"])
        row["breaches"] = breaches(plan, kerf, trim, sizes, rules.least_feed)
        row["clean_cost"] = plan.clean_cost
        row["stages"] = max(cut.stage for sheet in plan.sheets for cut in sheet.cuts)
    return row


@dataclass(frozen=True)
class BenchmarkSet:
    """Problems of some rows of the table, how we plan them, what they must show, and the model that plans them too."""

    title: str
    problems: Sequence[Problem]
    goal: Goal
    solve: Callable[[Problem, float], Row]
    model: Callable[[Problem, float, float | None], Trials]
    staged: bool = False


def ours(each: BenchmarkSet, problem: Problem, seconds: float, free: dict[tuple[str, float], float]) -> Row:
    """Our plan with one budget; a plan of three stages beside the free one."""
    row = each.solve(problem, seconds)
    row |= {
        "cost": float(row["cost"]),
        "bound": float(row["bound"]),
        "name": problem["name"],
        "budget": seconds,
    }
    key = problem["name"], seconds
    if each.staged and key not in free:
        free[key] = float(solve_sheets(problem, seconds)["cost"])
    if not each.staged:
        free[key] = row["cost"]
        if problem.get("bound") is not None and row["cost"] < problem["bound"]:
            print(f"BELOW A PUBLISHED BOUND: {problem['name']}", flush=True)
    return row | {
        "set": each.title,
        "free": free[key] if each.staged else None,
        "bar": max(stock[-2] for stock in problem["stock" if "stock" in problem else "sheets"]),
    }


def rows_of(
    each: BenchmarkSet,
    problem: Problem,
    budgets: Sequence[float],
    long: float,
    free: dict[tuple[str, float], float],
) -> list[Row]:
    """One problem with every budget, and what general means make of it."""
    rows = [ours(each, problem, seconds, free) for seconds in budgets]
    flat = "stock" in problem
    first = first_fit_bars(problem) if flat else first_fit_sheets(problem)
    packed = Rival(None) if flat else packed_sheets(problem)
    proved = [row["cost"] for row in rows if row["proved"]]
    longer = each.staged and len(proved) < len(rows)
    found = each.model(problem, long if longer else max(budgets), min(proved, default=None))
    for row in rows:
        row["first_fit"], row["packer"], row["packer_stages"] = first.cost, packed.cost, packed.stages
        row["three_staged_packer"] = packed.cost if packed.stages is not None and packed.stages <= 3 else None
        row["model"] = found.by(row["budget"])
        row["long_model"] = found.by(math.inf) if each.staged else None
        print(
            f"  {row['name']:<24} {row['budget']:>3g} s: {row['cost']:g} bound {row['bound']:g} "
            f"{'proved' if row['proved'] else 'open'} {row['seconds']:.2f} s, first fit {first.cost}, "
            f"packer {packed.cost} in {packed.stages}, CP-SAT {row['model']}, long {row['long_model']}",
            flush=True,
        )
    return rows


def read(folder: Path | None, kind: str) -> list[Problem]:
    path = folder / f"{kind}.json" if folder else ROOT / "tests" / "data" / f"shop-{kind}.json"
    problems: list[Problem] = json.loads(path.read_text(encoding="utf-8"))
    return problems


def sets_of(bars: Sequence[Problem], sheets: Sequence[Problem]) -> list[BenchmarkSet]:
    """The rows of the table: of literature, any stages and no rules of the shop, for its best plans end at the edge."""

    def parts(problem: Problem) -> int:
        return sum(int(piece[2]) for piece in problem["pieces"])

    one = [p for p in sheets if len(p["sheets"]) == 1]
    few, many = [p for p in one if parts(p) <= 60], [p for p in one if parts(p) > 60]
    several = [p for p in sheets if len(p["sheets"]) > 1]
    shop = [p for p in sheets if p["name"].startswith("shop")]
    small, rest = [p for p in bars if len(p["pieces"]) <= 40], [p for p in bars if len(p["pieces"]) > 40]
    never = ("three_staged_packer", "long_model")
    return [
        BenchmarkSet("bars, at most 40 sizes", small, Goal(soon=1), solve_bars, modelled_bars),
        BenchmarkSet("bars, the rest", rest, Goal(soon=0.96, bars=1), solve_bars, modelled_bars),
        BenchmarkSet(
            "sheets, one size, at most 60 parts",
            few,
            Goal(soon=0.92, gap=0.01),
            solve_sheets,
            modelled_sheets,
        ),
        BenchmarkSet("sheets, one size, more parts", many, Goal(), solve_sheets, modelled_sheets),
        BenchmarkSet(
            "sheets, several sizes", several, Goal(soon=0.6, gap=0.02), solve_sheets, modelled_sheets
        ),
        BenchmarkSet(
            "three stages, rules on",
            shop,
            Goal(proved=0.8, free=0.03, never=never),
            solve_by_rules,
            modelled_sheets,
            True,
        ),
    ]


def main() -> None:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--problems", type=Path, help="folder with bars.json and sheets.json")
    parser.add_argument("--only", default="", help="only problems whose name contains this")
    parser.add_argument("--set", nargs="+", default=[""], help="only sets whose title contains one of these")
    parser.add_argument("--every", type=int, default=1, help="a sample: every nth problem of a set")
    parser.add_argument("--seconds", type=float, nargs="+", default=[2, 5, 20])
    parser.add_argument(
        "--model-seconds",
        type=float,
        default=60,
        help="for CP-SAT in three stages, where our plan is not proved",
    )
    parser.add_argument("--table", type=Path, help="write the table here too")
    parser.add_argument("--rows", type=Path, help="write the rows here, as JSON")
    options = parser.parse_args()
    if hasattr(os, "sched_setaffinity"):
        os.sched_setaffinity(0, [min(os.sched_getaffinity(0))])
    bars, sheets = (
        [p for p in read(options.problems, kind) if options.only in p["name"]] for kind in ("bars", "sheets")
    )
    table, every = [head(options.model_seconds)], []
    free: dict[tuple[str, float], float] = {}
    for each in sets_of(bars, sheets):
        if not each.problems or not any(word in each.title for word in options.set):
            continue
        rows = [
            row
            for problem in each.problems[:: options.every]
            for row in rows_of(each, problem, options.seconds, options.model_seconds, free)
        ]
        every += rows
        for seconds in options.seconds:
            table.append(line(each.title, each.goal, [row for row in rows if row["budget"] == seconds]))
            print(table[-1], flush=True)
    print("\n".join(table))
    if options.table:
        options.table.write_text("\n".join(table) + "\n", encoding="utf-8")
    if options.rows:
        text = ",\n".join(json.dumps(row, default=float) for row in every)
        options.rows.write_text(f"[\n{text}\n]\n", encoding="utf-8")


if __name__ == "__main__":
    main()
