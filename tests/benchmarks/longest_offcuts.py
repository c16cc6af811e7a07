"""Whether an off-cut of bars that is called the longest is the longest, on random jobs against an exact model.

    python -m tests.benchmarks.longest_offcuts                 300 jobs
    python -m tests.benchmarks.longest_offcuts 1000 --seed 3   others

CP-SAT looks for the longest off-cut of all plans of the same cost, for ten seconds at most. A job whose off-cut is
longer than that, or called the longest and shorter, is printed; the last line has the counts.
"""

from __future__ import annotations

import argparse
import random
from typing import Any

from tests.calculators.cutting.bars.test_longest_offcut import longest_at_cost
from tests.calculators.cutting.bars.test_plan import check, plan

#: For the model of one job.
SECONDS = 10.0


def job(chance: random.Random) -> dict[str, Any]:
    """Bars of one or two lengths, the second perhaps on hand, and up to five sizes of pieces."""
    stock: list[Any] = [[chance.randint(60, 160), chance.randint(1, 9), None]]
    if chance.random() < 0.5:
        limit = chance.choice([None, 1, 2])
        stock.append([chance.randint(20, 160), chance.randint(1 if limit is None else 0, 9), limit])
    trim = chance.randint(0, 3)
    longest = stock[0][0] - 2 * trim
    pieces = [
        [min(chance.randint(8, 70), longest), chance.randint(1, 4)] for _ in range(chance.randint(1, 5))
    ]
    return {"stock": stock, "kerf": chance.randint(0, 4), "trim": trim, "pieces": pieces}


def main() -> int:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("jobs", type=int, nargs="?", default=300)
    parser.add_argument("--seed", type=int, default=7)
    options = parser.parse_args()
    chance = random.Random(options.seed)
    called = judged = reached = wrong = 0
    for _ in range(options.jobs):
        problem = job(chance)
        result = plan(problem, 1)
        check(problem, result)
        true = longest_at_cost(problem, int(result.cost), len(result.bars) + 1, SECONDS)
        if true is None:
            continue
        judged += 1
        called += result.offcut_is_longest
        reached += result.offcut == true
        if result.offcut > true or (result.offcut_is_longest and result.offcut < true):
            wrong += 1
            print(f"WRONG: {problem}: {result.offcut}, by the model {true}", flush=True)
    print(
        f"{judged} of {options.jobs} jobs judged: {called} called the longest, {reached} are, {wrong} wrong"
    )
    return int(wrong > 0)


if __name__ == "__main__":
    raise SystemExit(main())
