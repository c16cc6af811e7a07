"""Bar plans: known optima, an independent count of every plan, agreement with another solver, plain refusals."""

import json
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from ortools.sat.python import cp_model

from generator.calculators.cutting.bars import BarPiece, BarPlan, BarStock, plan_bars
from generator.calculators.cutting.core import budget_for
from tests.effort import sample

SHOP = json.loads((Path(__file__).parents[3] / "data" / "shop-bars.json").read_text(encoding="utf-8"))

Problem = dict[str, Any]

DEMO: Problem = {
    "stock": [[6000, 54, None]],
    "kerf": 4,
    "trim": 10,
    "pieces": [[725, 4], [1920, 4], [820, 12], [645, 7], [485, 2]],
}

#: Published problems without a kerf: stock, pieces, least number of bars.
PUBLISHED = {
    "paper machine": (
        5600,
        "1380x22 1520x25 1560x12 1710x14 1820x18 1880x18 1930x20 2000x10 2050x12 2100x14 2140x16 2150x18 2200x20",
        73,
    ),
    "Chvatal ch. 13": (100, "45x97 36x610 31x395 14x211", 453),
    "Woodco": (17, "3x25 5x20 9x15", 19),
    "modelling-language book": (110, "20x48 45x35 50x24 55x10 75x8", 47),
    "lumber yard": (25, "7x5000 9x1200 11x300", 2167),
    "steel 45 ft": (45, "14x7 12x12 7x1", 7),
    "non-round-up": (132, "44x2 33x3 12x6", 3),
    "textbook error trap": (132, "44x3 33x2 12x6", 3),
}


def plan(problem: Problem, seconds: float = 4) -> BarPlan:
    return plan_bars(
        [BarStock(Fraction(length), Fraction(price), limit) for length, price, limit in problem["stock"]],
        [BarPiece(Fraction(length), count) for length, count in problem["pieces"]],
        kerf=Fraction(problem["kerf"]),
        trim=Fraction(problem["trim"]),
        budget=budget_for(seconds),
    )


def check(problem: Problem, result: BarPlan) -> None:
    """Count a plan with nothing of the planner: saw every bar, kerf by kerf, and count what comes off."""
    made: dict[int, int] = {}
    used: dict[int, int] = {}
    cost = Fraction(0)
    longest = Fraction(0)
    for bar in result.bars:
        length, price, _ = problem["stock"][bar.stock]
        at, end = Fraction(problem["trim"]), Fraction(length) - Fraction(problem["trim"])
        assert bar.pieces
        sizes = [Fraction(problem["pieces"][place][0]) for place in bar.pieces]
        assert sizes == sorted(sizes, reverse=True)
        for place, size in zip(bar.pieces, sizes, strict=True):
            at += size
            assert at <= end, "a piece runs over the end of its bar"
            at += Fraction(problem["kerf"])
            made[place] = made.get(place, 0) + 1
        assert bar.offcut == max(Fraction(0), end - at)
        longest = max(longest, bar.offcut)
        used[bar.stock] = used.get(bar.stock, 0) + 1
        cost += Fraction(price)
    assert made == {place: count for place, (_, count) in enumerate(problem["pieces"]) if count}
    for stock, count in used.items():
        limit = problem["stock"][stock][2]
        assert limit is None or count <= limit
    assert result.cost == cost
    assert result.bound <= cost
    assert result.proved == (result.bound == cost)
    assert result.offcut == longest


def test_the_demo_takes_five_bars_and_leaves_one_long_offcut() -> None:
    result = plan(DEMO)
    check(DEMO, result)
    assert (len(result.bars), result.proved, result.offcut) == (5, True, 3843)
    assert result.offcut_is_longest


def test_the_demo_takes_ten_short_bars() -> None:
    problem = DEMO | {"stock": [[3000, 1, None]]}
    result = plan(problem)
    check(problem, result)
    assert (len(result.bars), result.proved) == (10, True)


@pytest.mark.parametrize("name", PUBLISHED)
def test_published_optima(name: str) -> None:
    stock, pieces, bars = PUBLISHED[name]
    sizes = [[int(number) for number in piece.split("x")] for piece in pieces.split()]
    problem = {"stock": [[stock, 1, None]], "kerf": 0, "trim": 0, "pieces": sizes}
    result = plan(problem)
    check(problem, result)
    assert (result.cost, result.proved) == (bars, True)


@pytest.mark.parametrize("problem", sample(SHOP, 4), ids=lambda problem: problem["name"])
def test_shop_problems(problem: Problem) -> None:
    result = plan(problem)
    check(problem, result)
    assert result.proved
    assert problem["bound"] <= result.cost <= problem["best"]


def test_the_same_problem_gives_the_same_plan() -> None:
    problem = next(problem for problem in SHOP if problem["name"] == "shop-bar-multi-01")
    assert plan(problem) == plan(problem)


def test_exact_fractions_are_not_rounded() -> None:
    """Three pieces and two kerfs that fill the bar to the last 1/320 mm; 1/320 mm less and they do not."""
    third = Fraction(1000, 3)
    pieces = [BarPiece(third, 3)]
    kerf = Fraction(127, 40)
    full = 3 * third + 2 * kerf
    fits = plan_bars([BarStock(full)], pieces, kerf=kerf, trim=Fraction(0), budget=budget_for(1))
    misses = plan_bars(
        [BarStock(full - Fraction(1, 320))], pieces, kerf=kerf, trim=Fraction(0), budget=budget_for(1)
    )
    assert (fits.cost, misses.cost) == (1, 2)


def test_a_bar_on_hand_costs_nothing_and_goes_first() -> None:
    stock = [BarStock(Fraction(6000), Fraction(54)), BarStock(Fraction(1480), Fraction(0), 2)]
    result = plan_bars(
        stock, [BarPiece(Fraction(725), 4)], kerf=Fraction(4), trim=Fraction(10), budget=budget_for(1)
    )
    assert (result.cost, result.proved) == (0, True)
    assert [bar.stock for bar in result.bars] == [1, 1]


def test_a_piece_too_long_says_by_how_much() -> None:
    problem = {
        "stock": [[3000, 1, None], [4000, 1, 0]],
        "kerf": 4,
        "trim": 10,
        "pieces": [[2000, 1], [3100, 2]],
    }
    result = plan(problem)
    (shortage,) = result.shortages
    assert not result.bars and not result.proved
    assert (shortage.piece, shortage.count, shortage.short_by) == (1, 2, 120)
    assert (shortage.needs, shortage.bars) == (3120, 0)


def test_too_little_stock_says_what_is_missing() -> None:
    problem = {"stock": [[1000, 1, 2]], "kerf": 0, "trim": 0, "pieces": [[600, 3], [300, 2]]}
    result = plan(problem)
    (shortage,) = result.shortages
    assert (shortage.piece, shortage.count, shortage.short_by) == (0, 1, 600)
    assert (shortage.needs, shortage.bars) == (1000, 1)


@st.composite
def problems(draw: st.DrawFn) -> Problem:
    number = st.integers(1, 60)
    stock = [[draw(st.integers(60, 120)), draw(st.integers(1, 30)), None]]
    for _ in range(draw(st.integers(0, 3))):
        limit = draw(st.one_of(st.none(), st.integers(0, 3)))
        price = draw(st.integers(1 if limit is None else 0, 30))
        stock.append([draw(st.integers(20, 150)), price, limit])
    trim = draw(st.integers(0, 5))
    pieces = draw(st.lists(st.tuples(number, st.integers(1, 4)), min_size=1, max_size=5))
    sizes = [[min(size, stock[0][0] - 2 * trim), count] for size, count in pieces]
    return {"stock": stock, "kerf": draw(st.integers(0, 4)), "trim": trim, "pieces": sizes}


@settings(max_examples=60, deadline=None)
@given(problems())
def test_every_plan_is_sound(problem: Problem) -> None:
    check(problem, plan(problem, 1))


@settings(max_examples=15, deadline=None)
@given(problems())
def test_another_solver_agrees(problem: Problem) -> None:
    result = plan(problem)
    assert result.proved
    assert result.cost == _least_cost(problem, len(result.bars) + 3)


def _least_cost(problem: Problem, most: int) -> int:
    """The least cost by constraint programming: each bar of each stock is there or not, pieces are assigned."""
    model = cp_model.CpModel()
    counts = [count for _, count in problem["pieces"]]
    made: list[list[cp_model.IntVar]] = [[] for _ in counts]
    price: list[Any] = []
    for stock, (length, cost, limit) in enumerate(problem["stock"]):
        room = length - 2 * problem["trim"] + problem["kerf"]
        for bar in range(most if limit is None else limit):
            there = model.new_bool_var(f"bar {stock} {bar}")
            held = [model.new_int_var(0, count, f"{stock} {bar} {p}") for p, count in enumerate(counts)]
            sizes = [size + problem["kerf"] for size, _ in problem["pieces"]]
            model.add(sum(size * var for size, var in zip(sizes, held, strict=True)) <= max(0, room) * there)
            price.append(cost * there)
            for place, var in enumerate(held):
                made[place].append(var)
    for count, vars_of in zip(counts, made, strict=True):
        model.add(sum(vars_of) == count)
    model.minimize(sum(price))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_time_in_seconds = 60
    assert solver.solve(model) == cp_model.OPTIMAL
    return round(solver.objective_value)
