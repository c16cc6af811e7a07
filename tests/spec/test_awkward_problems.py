"""Problem files that ask for too much: each ends within its budget of counted work, in little memory, with a plan that
can be cut or with a finding at its place."""

import json
import os
import resource
import subprocess
import sys
import time
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.bench.solve import solve
from generator.calculators.cutting.bars import BarPlan
from generator.calculators.cutting.core import UNITS_PER_SECOND, budget_for
from generator.figures.cut_solution import plan_problem, solution_data
from generator.figures.cutting import cutting
from generator.findings import SpecError
from generator.spec.cut_problem import CutProblem, read_cut_problem
from generator.spec.load import read_spec
from tests.calculators.cutting.bars.test_plan import check as check_bars
from tests.calculators.cutting.cut_verifier import check_plan
from tests.effort import examples
from tests.peak_memory import peak_kilobytes

ROOT = Path(__file__).resolve().parents[2]

BUDGET = 0.15
"""Seconds of counted work for each problem."""

PRIMES = (7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53, 59, 61, 67)


def bars(stock: list[Any], pieces: list[Any], kerf: str = "3", trim: str = "10") -> dict[str, Any]:
    return {"stock": stock, "kerf": kerf, "trim": trim, "pieces": pieces}


def sheets(
    sheet: list[Any], pieces: list[Any], kerf: str = "3", trim: str = "10", **more: Any
) -> dict[str, Any]:
    return {"sheets": sheet, "kerf": kerf, "trim": trim, "pieces": pieces, **more}


TWO = [[725, 40], [333, 70]]
BOARDS = [[700, 400, 6], [500, 300, 7]]

#: What is planned all the same.
PLANNED: dict[str, dict[str, Any]] = {
    "a hair": bars([[6000, 54]], [["500.0000001", 3], [400, 2], [300, 5]]),
    "a hair and a third": bars([["701 1/3"]], [["700.0000001", 3]], "0", "0"),
    "a hair too long for two": bars([[1000]], [["500.0000001", 30], ["499.9999999", 30]], "0", "0"),
    "filled to the last bit": bars([["999.9999999"]], [["333.3333333", 30]], "0", "0"),
    "no common measure": bars(
        [["6000 1/7919", 54], ["5000 1/104729", 40, 5]],
        [[f"{300 + 31 * n} 1/{p}", 7] for n, p in enumerate(PRIMES)],
    ),
    "a thousand stock lengths": bars(
        [[1000 + 7 * n, f"{10 + 0.37 * n:.2f}"] for n in range(1000)], [[300 + 29 * n, 9] for n in range(20)]
    ),
    "stock on hand in many lengths": bars([[1000 + 7 * n, n % 2, 1 + n % 4] for n in range(300)], TWO),
    "three hundred lengths": bars(
        [[6000, 54], [4000, 37], [2500, 23, 40]],
        [[f"{200 + 11 * n}.{n * 37 % 1000:03d}", 1 + n % 7] for n in range(300)],
    ),
    "a thousand lengths": bars([[6000, 54]], [[f"{200 + n * 1.37:.2f}", 3] for n in range(1000)]),
    "crumbs": bars([[100000]], [["0.001", 10000], ["0.0011", 10000]], "0", "0"),
    "twenty thousand": bars([[6000, 54]], [[725, 10000], [333, 10000]]),
    "dear and cheap": bars([[6000, "99999999999999999999"], [4000, "0.0000000001"]], TWO),
    "inches with six places": sheets(
        [[2440, 1220]], [["27.559055 in", "11.811024 in", 4], ["15.748031 in", "19.685039 in", 3]]
    ),
    "sheets a hair apart": sheets([[1000, 1000]], [["500.0000001", 300, 3, 1], [500, 200, 4, 1]], "0", "0"),
    "sheets filled to the last bit": sheets(
        [["999.9999999", "999.9999999"]], [["333.3333333", "333.3333333", 18]], "0", "0"
    ),
    "sheets without a common measure": sheets(
        [["2440 1/7919", "1220 1/104729"]],
        [[f"{300 + 31 * n} 1/{p}", f"{100 + 17 * n} 1/{p + 2}", 3, 1] for n, p in enumerate(PRIMES)],
    ),
    "a sliver among boards": sheets(
        [[3000, 3000]], [[400, 1191, 9, 1], [195, 227, 9], [558, "0.0000001", 9, 1]], "0", "0"
    ),
    "a thousand sheet sizes": sheets([[1000 + 7 * n, 500 + 3 * n, 10 + n % 17] for n in range(1000)], BOARDS),
    "three hundred boards": sheets(
        [[2440, 1220]], [[200 + 3 * n, f"{100 + 1.7 * n:.1f}", 2, 1] for n in range(300)]
    ),
    "ten thousand boards of a thousand sizes": sheets(
        [[2440, 1220]], [[200 + n, 100 + n % 7, 10, n % 2] for n in range(1000)]
    ),
    "many boards on sheets of two sizes": sheets(
        [[2440, 1220], [3000, 1500, 70]], [[70 + 7 * n, 40 + 5 * n, 300, n % 2] for n in range(11)]
    ),
    "many boards": sheets([[2440, 1220]], [[70, 40, 1500], [50, 30, 1500]]),
    "many boards in two stages": sheets([[2440, 1220]], [[70, 40, 500], [50, 30, 500]], stages=2),
    "many boards broken down": sheets(
        [[2440, 1220]], [[70, 40, 1000], [50, 30, 1000]], break_down={"max_length": 1300, "allowance": 5}
    ),
}

#: What is refused: the finding's code, its key, and what it allows or says.
REFUSED: dict[str, tuple[dict[str, Any], str, str, str]] = {
    "kerf": (bars([[6000]], TWO, "9000"), "bad-length", "kerf", "from 0 to 25.4 mm"),
    "count": (bars([[6000]], [[725, 0]]), "bad-number", "pieces[0][1]", "from 1 to 10000"),
    "entries": (
        bars([[6000]], [[5 + n, 1] for n in range(1001)]),
        "too-large-a-problem",
        "pieces",
        "1000 or fewer",
    ),
    "too little": (bars([[6000, 54, 2]], [["1000.1234567", 300]]), "too-little-stock", "pieces[0]", ""),
    "no room": (bars([[6000]], TWO, trim="3000"), "piece-too-long", "pieces[0]", ""),
    "no sheet": (sheets([[2440, 1220]], [[2500, 100, 1]]), "piece-too-large", "pieces[0]", ""),
    "fence": (
        sheets([[2440, 1220]], BOARDS, break_down={"max_length": 1}),
        "bad-length",
        "break_down.max_length",
        "122 mm or more, a twentieth of the longest sheet",
    ),
    "allowance": (
        sheets([[2440, 1220]], BOARDS, break_down={"max_length": 1300, "allowance": 1290}),
        "bad-length",
        "break_down.allowance",
        "from 0 to 650 mm, half of max_length",
    ),
    "slivers": (
        sheets([[2440, 1220]], [[2400, 1, 10000]], "0", "0"),
        "too-large-a-problem",
        "pieces[0]",
        "300 or fewer; plan strips first, then the pieces from the strips",
    ),
}


def ends(problem: dict[str, Any], seconds: float) -> tuple[CutProblem, Any, list[Any], int]:
    """The problem, its plan (or None), what was found, and the units of work beyond the budget."""
    budget = budget_for(seconds)
    read = read_cut_problem(json.dumps({"name": "trial", **problem}), "problem.json")
    try:
        plan, found = plan_problem(read, budget), []
    except SpecError as error:
        plan, found = None, list(error.findings)
    return read, plan, found, max(0, -budget.left)


def in_mm(read: CutProblem) -> dict[str, Any]:
    """The read problem as the verifiers want it."""
    rule = read.breaking
    track = read.kerf if rule is None or rule.kerf is None else rule.kerf
    return {
        "kerf": read.kerf,
        "trim": read.trim,
        "stock": [[each.length, each.price, each.limit] for each in read.stock],
        "sheets": [[each.width, each.height, each.price, each.limit] for each in read.sheets],
        "pieces": [[each.length, each.count] for each in read.bar_pieces]
        or [[each.width, each.height, each.count, each.turns] for each in read.sheet_pieces],
        **({"break_down": {"max_length": rule.longest, "kerf": track}} if rule else {}),
    }


def verify(read: CutProblem, plan: Any) -> None:
    (check_bars if isinstance(plan, BarPlan) else check_plan)(in_mm(read), plan)


def child(seconds: float = BUDGET) -> None:
    """Plan all of them under limits on memory and time; a line each. `tests/benchmarks/awkward.py` has its times."""
    resource.setrlimit(resource.RLIMIT_AS, (2 << 30, 2 << 30))
    resource.setrlimit(resource.RLIMIT_CPU, (600, 600))
    for name, problem in PLANNED.items():
        began = time.process_time()
        read, plan, found, beyond = ends(problem, seconds)
        if plan is not None:
            json.dumps(solution_data(read, plan))
        took = time.process_time() - began
        row = {"name": name, "planned": plan is not None, "found": [str(each) for each in found]}
        row |= {"beyond": beyond / UNITS_PER_SECOND, "kilobytes": peak_kilobytes(), "seconds": took}
        sys.stdout.write(json.dumps(row) + "\n")


def test_problems_that_ask_for_too_much_are_planned_in_little_memory_and_work() -> None:
    code = "from tests.spec.test_awkward_problems import child; child()"
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    with subprocess.Popen(
        [sys.executable, "-c", code], stdout=subprocess.PIPE, text=True, env=environment, cwd=ROOT
    ) as process:
        assert process.stdout is not None
        rows = [json.loads(line) for line in process.stdout]
    assert process.returncode == 0
    assert [row["name"] for row in rows] == list(PLANNED)
    for row in rows:
        assert row["planned"], row
        assert row["beyond"] < 2, row
        assert row["kilobytes"] < 500_000, row


SMALL = [name for name in PLANNED if "thousand" not in name and "many" not in name and "hundred" not in name]


@pytest.mark.parametrize("name", SMALL)
def test_their_plans_can_be_cut(name: str) -> None:
    read, plan, found, _ = ends(PLANNED[name], BUDGET)
    assert not found
    verify(read, plan)


def test_nothing_is_lost_where_a_hair_decides() -> None:
    """Worked by hand: a pair of 1000 exactly, three thirds, and nine squares on a sheet."""
    costs = {
        name: ends(PLANNED[name], 1)[1]
        for name in (
            "a hair too long for two",
            "filled to the last bit",
            "a hair and a third",
            "sheets filled to the last bit",
        )
    }
    assert [(plan.cost, plan.proved) for plan in costs.values()] == [
        (30, True),
        (10, True),
        (3, True),
        (2, True),
    ]


@pytest.mark.parametrize("name", REFUSED)
def test_nonsense_is_refused_with_its_place(name: str) -> None:
    problem, code, key, allowed = REFUSED[name]
    try:
        _, plan, found, _ = ends(problem, BUDGET)
    except SpecError as error:
        plan, found = None, list(error.findings)
    assert plan is None
    finding = found[0]
    assert finding.where is not None
    assert (finding.code, finding.where.path, finding.where.file) == (code, key, "problem.json")
    assert finding.where.line > 0
    assert finding.allowed == allowed
    assert bool(finding.found) == bool(allowed)


NUMBER = st.one_of(
    st.integers(1, 3000).map(str),
    st.decimals("0.0001", 3000, places=7).map(str),
    st.tuples(st.integers(1, 3000), st.sampled_from(PRIMES)).map(lambda two: f"{two[0]} 1/{two[1]}"),
    st.sampled_from(["0", "-1", "1e9", "100000", "0.0000001", "1/3", "x", "", "3 in"]),
)
COUNT = st.one_of(st.integers(1, 30), st.sampled_from([0, -1, 10000, 10**9, "x", None]))


@st.composite
def problem_files(draw: st.DrawFn) -> dict[str, Any]:
    of_sheets = draw(st.booleans())
    sides = 2 if of_sheets else 1
    size = [NUMBER] * sides
    stock = st.tuples(*(st.sampled_from([2440, 1220, "3000.5", "96 in"]) for _ in size), NUMBER, COUNT).map(
        list
    )
    piece = st.tuples(*size, COUNT, *([st.sampled_from([0, 1])] if of_sheets else [])).map(list)
    problem = {
        "sheets" if of_sheets else "stock": draw(st.lists(stock, min_size=1, max_size=4)),
        "pieces": draw(st.lists(piece, min_size=1, max_size=6)),
        "kerf": draw(st.sampled_from(["3", "1/8 in", "3.175", "0", "0.0000001", "9000", "-3"])),
        "trim": draw(st.sampled_from(["0", "10", "0.3333333", "2000"])),
    }
    if of_sheets and draw(st.booleans()):
        problem["stages"] = draw(st.sampled_from([2, 3, 4, 0, 99]))
    if of_sheets and draw(st.booleans()):
        problem["break_down"] = {"max_length": draw(NUMBER), "allowance": draw(NUMBER)}
        problem["break_down"] |= draw(st.sampled_from([{}, {"kerf": "2.2"}, {"kerf": "0.3333333"}]))
    return problem


@settings(max_examples=examples(15, 60), deadline=None)
@given(problem_files())
def test_any_problem_file_ends_with_a_plan_or_with_findings(problem: dict[str, Any]) -> None:
    try:
        read, plan, found, beyond = ends(problem, 0.05)
    except SpecError as error:
        plan, found, beyond = None, list(error.findings), 0
    assert beyond < 2 * UNITS_PER_SECOND
    assert (plan is None) == bool(found)
    for finding in found:
        assert finding.where is not None
        assert finding.where.line > 0
        assert finding.message
    if plan is not None and sum(piece.count for piece in (*read.bar_pieces, *read.sheet_pieces)) < 200:
        verify(read, plan)


def test_the_same_awkward_problem_gives_the_same_plan() -> None:
    problem = PLANNED["no common measure"]
    assert ends(problem, BUDGET)[1] == ends(problem, BUDGET)[1]


def test_lengths_are_taken_exactly() -> None:
    read, plan, _, _ = ends(PLANNED["no common measure"], BUDGET)
    assert {Fraction(piece.length).denominator for piece in read.bar_pieces} == set(PRIMES)
    verify(read, plan)


@pytest.mark.parametrize(("length", "kerf"), [("1200.0000001", "3.1415926"), ("47 1/7 in", "1/8 in")])
def test_a_bench_of_awkward_lengths_is_planned_like_any_other(length: str, kerf: str) -> None:
    text = (
        (ROOT / "specs" / "starter.yml")
        .read_text(encoding="utf-8")
        .replace("length: 1300", f"length: {length}")
    )
    saws = f"saws:\n  bar: {{kerf: {kerf}, end_trim: 10.0000001}}\n  sheet: {{kerf: {kerf}, edge_trim: 9.9999999}}\n"
    loaded = read_spec(text + saws, "starter.yml")
    plans = cutting(solve(loaded))
    assert plans.summaries
    assert all(summary.proved for summary in (*plans.summaries, *plans.sheet_summaries))
    for bar in plans.bars:
        held = sum(bar.lengths, Fraction(0)) + bar.kerf * (len(bar.lengths) - 1) + 2 * bar.trim
        assert held <= bar.stock_length
