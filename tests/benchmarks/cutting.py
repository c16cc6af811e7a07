"""Cutting plans against known optima, first-fit decreasing and rectpack, as one table.

    python tests/benchmarks/cutting.py                     the shop problems in tests/data
    python tests/benchmarks/cutting.py --problems DIR      bars.json and sheets.json in DIR (literature sets as well)
    python tests/benchmarks/cutting.py --list              a line for each problem too

Every plan is counted again here before it is reported. Times are of one core, the search alone.
"""

from __future__ import annotations

import argparse
import json
import sys
import time
from collections.abc import Callable, Iterable
from fractions import Fraction
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from generator.calculators.cutting.bars import BarPiece, BarStock, plan_bars  # noqa: E402
from generator.calculators.cutting.core import budget_for  # noqa: E402
from generator.calculators.cutting.sheets import SheetPiece, SheetStock, ShopRules, plan_sheets  # noqa: E402
from tests.calculators.cutting.bars.test_plan import check as check_bars  # noqa: E402
from tests.calculators.cutting.cut_verifier import check_plan  # noqa: E402
from tests.calculators.cutting.rule_verifier import breaches  # noqa: E402

Problem = dict[str, Any]
Row = dict[str, Any]


def solve_bars(problem: Problem, seconds: float) -> Row:
    stock = [BarStock(Fraction(length), Fraction(price), limit) for length, price, limit in problem["stock"]]
    pieces = [BarPiece(Fraction(length), count) for length, count in problem["pieces"]]
    start = time.perf_counter()
    plan = plan_bars(
        stock,
        pieces,
        kerf=Fraction(problem["kerf"]),
        trim=Fraction(problem["trim"]),
        budget=budget_for(seconds),
    )
    took = time.perf_counter() - start
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
    start = time.perf_counter()
    plan = plan_sheets(
        stock,
        pieces,
        kerf=Fraction(problem["kerf"]),
        trim=Fraction(problem["trim"]),
        budget=budget_for(seconds),
        stages=stages,
        rules=rules,
    )
    took = time.perf_counter() - start
    check_plan(problem, plan)
    row = {"cost": plan.cost, "bound": plan.bound, "proved": plan.proved, "seconds": took}
    if rules is not None:
        sizes = [(sheet.width, sheet.height) for sheet in stock]
        kerf, trim = Fraction(problem["kerf"]), Fraction(problem["trim"])
        row["breaches"] = breaches(plan, kerf, trim, sizes, rules.least_feed)
        row["clean_cost"] = plan.clean_cost
        row["stages"] = max(cut.stage for sheet in plan.sheets for cut in sheet.cuts)
    return row


def first_fit_bars(problem: Problem) -> int | None:
    """First-fit decreasing; off-cuts first, then the stock with the lowest price a length that holds the piece."""
    kerf, trim = problem["kerf"], problem["trim"]
    stock = [(length - 2 * trim + kerf, price, limit) for length, price, limit in problem["stock"]]
    left = {index: limit for index, (_, _, limit) in enumerate(stock)}
    room: list[int] = []
    cost = 0
    for length in sorted((size for size, count in problem["pieces"] for _ in range(count)), reverse=True):
        place = next((at for at, rest in enumerate(room) if rest >= length + kerf), None)
        if place is None:
            usable = [
                (limit is None, price / capacity, index)
                for index, (capacity, price, limit) in enumerate(stock)
                if capacity >= length + kerf and left[index] != 0
            ]
            if not usable:
                return None
            index = min(usable)[2]
            if left[index] is not None:
                left[index] -= 1
            cost += stock[index][1]
            place = len(room)
            room.append(stock[index][0])
        room[place] -= length + kerf
    return cost


def first_fit_sheets(problem: Problem) -> int | None:
    """First-fit decreasing height on shelves, pieces as they lie, one size of sheet."""
    if len(problem["sheets"]) > 1:
        return None
    ((width, height, price, _),) = problem["sheets"]
    kerf, trim = problem["kerf"], problem["trim"]
    wide, high = width - 2 * trim + kerf, height - 2 * trim + kerf
    pieces = [(h + kerf, w + kerf) for w, h, count, _ in problem["pieces"] for _ in range(count)]
    sheets: list[list[list[int]]] = []  # shelves: height, width left
    for tall, broad in sorted(pieces, reverse=True):
        for shelves in sheets:
            shelf = next((s for s in shelves if s[0] >= tall and s[1] >= broad), None)
            if shelf is None and sum(s[0] for s in shelves) + tall <= high:
                shelf = [tall, wide]
                shelves.append(shelf)
            if shelf is not None:
                shelf[1] -= broad
                break
        else:
            sheets.append([[tall, wide - broad]])
    return price * len(sheets)


def rectpack_sheets(problem: Problem) -> int | None:
    """The best of all guillotine settings of rectpack, or None when it is not installed or sizes differ."""
    try:
        import rectpack  # type: ignore[import-untyped]
        from rectpack import guillotine  # type: ignore[import-untyped]
    except ImportError:
        return None
    if len(problem["sheets"]) > 1 or len({turns for *_, turns in problem["pieces"]}) > 1:
        return None
    ((width, height, price, _),) = problem["sheets"]
    kerf, trim = problem["kerf"], problem["trim"]
    turns = bool(problem["pieces"][0][3])
    names = [
        f"Guillotine{fit}{rule}"
        for fit in ("Baf", "Bssf", "Blsf")
        for rule in ("Sas", "Las", "Slas", "Llas", "Maxas", "Minas")
    ]
    sorts = [
        getattr(rectpack, f"SORT_{name}")
        for name in ("AREA", "PERI", "DIFF", "SSIDE", "LSIDE", "RATIO", "NONE")
    ]
    total = sum(count for *_, count, _ in problem["pieces"])
    best: int | None = None
    for name in names:
        for order in sorts:
            packer = rectpack.newPacker(
                mode=rectpack.PackingMode.Offline,
                bin_algo=rectpack.PackingBin.BBF,
                pack_algo=getattr(guillotine, name),
                sort_algo=order,
                rotation=turns,
            )
            for w, h, count, _ in problem["pieces"]:
                for _ in range(count):
                    packer.add_rect(w + kerf, h + kerf)
            packer.add_bin(width - 2 * trim + kerf, height - 2 * trim + kerf, count=total)
            packer.pack()
            if sum(len(sheet) for sheet in packer) == total:
                best = min(best or total, len(packer))
    return None if best is None else price * best


def percentile(values: list[float], share: float) -> float:
    ordered = sorted(values)
    return ordered[min(len(ordered) - 1, int(share * len(ordered)))] if ordered else 0.0


def table(title: str, rows: list[Row], limit: float) -> None:
    """One block of the table."""
    if not rows:
        return
    number = len(rows)
    proved = sum(row["proved"] and row["seconds"] < limit for row in rows)
    gaps = [float((row["cost"] - row["bound"]) / row["bound"]) for row in rows]
    seconds = [row["seconds"] for row in rows]
    known = [row for row in rows if row["known_best"] is not None]
    print(f"\n{title}: {number} problems")
    print(f"  proved under {limit:g} s          {proved} of {number} ({100 * proved / number:.1f} %)")
    print(f"  gap mean / largest         {100 * sum(gaps) / number:.3f} % / {100 * max(gaps):.3f} %")
    times = (percentile(seconds, 0.5), percentile(seconds, 0.95), max(seconds))
    print("  seconds median / p95 / max " + " / ".join(f"{each:.3f}" for each in times))
    worse = [row["name"] for row in known if row["cost"] > row["known_best"]]
    better = [row["name"] for row in known if row["cost"] < row["known_best"]]
    below = [
        row["name"] for row in rows if row["known_bound"] is not None and row["cost"] < row["known_bound"]
    ]
    print(f"  against the best known     {len(better)} cheaper, {len(worse)} dearer {' '.join(worse)}")
    if below:
        print(f"  BELOW A PUBLISHED BOUND    {' '.join(below)}")
    for rival in ("first fit", "rectpack"):
        compared = [row for row in rows if row.get(rival) is not None]
        if compared:
            ours = sum(row["cost"] for row in compared)
            theirs = sum(row[rival] for row in compared)
            lost = [row["name"] for row in compared if row["cost"] > row[rival]]
            wins = sum(row["cost"] < row[rival] for row in compared)
            print(
                f"  against {rival:<10}         {len(compared)} compared, cost {float(ours):g} : {float(theirs):g}, "
                f"{wins} cheaper, {len(lost)} dearer {' '.join(lost)}"
            )


def run(
    problems: Iterable[Problem],
    solve: Callable[[Problem, float], Row],
    rivals: dict[str, Any],
    seconds: float,
    show: bool,
) -> list[Row]:
    rows = []
    for problem in problems:
        row = solve(problem, seconds)
        row["name"], row["problem"] = problem["name"], problem
        row["known_best"], row["known_bound"] = problem.get("best"), problem.get("bound")
        for name, rival in rivals.items():
            row[name] = rival(problem)
        rows.append(row)
        if show:
            against = " ".join(f"{name} {row[name]}" for name in rivals if row[name] is not None)
            print(
                f"{row['name']:<26} cost {float(row['cost']):g} bound {float(row['bound']):g} "
                f"{'proved' if row['proved'] else 'gap   '} {row['seconds']:.2f} s  "
                f"known {row['known_bound']}..{row['known_best']} {against}",
                flush=True,
            )
    return rows


def read(folder: Path | None, kind: str) -> list[Problem]:
    path = folder / f"{kind}.json" if folder else ROOT / "tests" / "data" / f"shop-{kind}.json"
    problems: list[Problem] = json.loads(path.read_text(encoding="utf-8"))
    return problems


def main() -> None:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--problems", type=Path, help="folder with bars.json and sheets.json")
    parser.add_argument("--only", default="", help="only problems whose name contains this")
    parser.add_argument("--list", action="store_true", help="print each problem too")
    parser.add_argument("--bar-seconds", type=float, default=8)
    parser.add_argument("--sheet-seconds", type=float, default=4)
    options = parser.parse_args()
    bars = [p for p in read(options.problems, "bars") if options.only in p["name"]]
    sheets = [p for p in read(options.problems, "sheets") if options.only in p["name"]]
    single = [p for p in bars if len(p["stock"]) == 1]
    several = [p for p in bars if len(p["stock"]) > 1]
    one_size = [p for p in sheets if len(p["sheets"]) == 1]
    sizes = [p for p in sheets if len(p["sheets"]) > 1]
    rivals: dict[str, Any] = {"first fit": first_fit_bars}
    rows = run(single, solve_bars, rivals, options.bar_seconds, options.list)
    multi = run(several, solve_bars, rivals, min(4.0, options.bar_seconds), options.list)
    rivals = {"first fit": first_fit_sheets, "rectpack": rectpack_sheets}
    ones = run(one_size, solve_sheets, rivals, options.sheet_seconds, options.list)
    more = run(sizes, solve_sheets, rivals, options.sheet_seconds, options.list)
    table(
        "Bars, one stock length, at most 40 sizes", [r for r in rows if len(r["problem"]["pieces"]) <= 40], 1
    )
    table("Bars, one stock length, whole set", rows, 10)
    table("Bars, several lengths, prices, off-cuts", multi, 5)
    table("Sheets, one size", ones, 5)
    above = [
        row["name"]
        for row in ones
        if row["cost"] > row["bound"] + min(e[2] for e in row["problem"]["sheets"])
    ]
    print(f"  more than 1 above the bound {len(above)} {' '.join(above)}")
    table("Sheets, several sizes and off-cuts", more, 5)
    shop = [p for p in sheets if p["name"].startswith("shop")]
    free = {row["name"]: row["cost"] for row in (*ones, *more)}
    by_rules = run(shop, solve_by_rules, {}, options.sheet_seconds, options.list)
    table("Sheets by the rules of the shop, three stages", by_rules, 5)
    if by_rules:
        over = [float(row["cost"] / free[row["name"]]) - 1 for row in by_rules]
        dirty = [row["name"] for row in by_rules if not row["clean"]]
        print(f"  above the free plan, mean   {100 * sum(over) / len(over):.2f} %")
        print(f"  cheaper against the rules   {len(dirty)} {' '.join(dirty)}")


if __name__ == "__main__":
    main()
