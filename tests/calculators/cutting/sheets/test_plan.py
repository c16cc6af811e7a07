"""Sheet plans: an independent check of every plan, agreement with another solver, plain refusals."""

import json
from fractions import Fraction
from itertools import pairwise, product
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from ortools.sat.python import cp_model

from generator.calculators.cutting.core import budget_for
from generator.calculators.cutting.sheets import (
    BreakDown,
    SawCut,
    SheetPiece,
    SheetPlan,
    SheetStock,
    plan_sheets,
)
from tests.calculators.cutting.cut_verifier import check_plan, guillotine
from tests.effort import sample

SHOP = json.loads((Path(__file__).parents[3] / "data" / "shop-sheets.json").read_text(encoding="utf-8"))

Problem = dict[str, Any]


def plan(
    problem: Problem,
    seconds: float = 3,
    stages: int | None = None,
    breaking: BreakDown | None = None,
) -> SheetPlan:
    return plan_sheets(
        [
            SheetStock(Fraction(w), Fraction(h), Fraction(price), limit)
            for w, h, price, limit in problem["sheets"]
        ],
        [
            SheetPiece(Fraction(w), Fraction(h), count, bool(turns))
            for w, h, count, turns in problem["pieces"]
        ],
        kerf=Fraction(problem["kerf"]),
        trim=Fraction(problem["trim"]),
        budget=budget_for(seconds),
        stages=stages,
        breaking=breaking,
    )


@pytest.mark.parametrize("problem", sample(SHOP, 3), ids=lambda problem: problem["name"])
def test_shop_problems(problem: Problem) -> None:
    result = plan(problem, 1.5)
    check_plan(problem, result)
    assert problem["bound"] <= result.cost
    if len(problem["sheets"]) == 1:
        assert result.cost <= result.bound + 1


def test_a_board_that_just_fits_and_one_that_misses_by_a_hair() -> None:
    """Two boards side by side with one kerf fill the trimmed sheet; 0.1 wider and they take two sheets."""
    problem = {"sheets": [[2440, 1220, 1, None]], "kerf": 3, "trim": 10}
    side = Fraction(2440 - 20 - 3, 2)
    fits = problem | {"pieces": [[side, 1200, 2, 0]]}
    misses = problem | {"pieces": [[side + Fraction(1, 10), 1200, 2, 0]]}
    for case, sheets in ((fits, 1), (misses, 2)):
        result = plan(case, 1)
        check_plan(case, result)
        assert (result.cost, result.proved) == (sheets, True)


def test_grain_keeps_a_piece_from_turning() -> None:
    problem = {"sheets": [[1000, 500, 1, None]], "kerf": 0, "trim": 0, "pieces": [[500, 400, 2, 0]]}
    upright = {**problem, "pieces": [[400, 500, 2, 0]]}
    lying = {**problem, "sheets": [[500, 1000, 1, None]], "pieces": [[900, 500, 1, 1]]}
    for case in (problem, upright, lying):
        result = plan(case, 1)
        check_plan(case, result)
        assert result.cost == 1
    refused = plan({**lying, "pieces": [[900, 500, 1, 0]]}, 1)
    (shortage,) = refused.shortages
    assert (shortage.short_by, shortage.sheets, shortage.needs) == (400, 0, (900, 500))


def test_a_ring_of_four_is_no_guillotine_layout() -> None:
    """Four boards around a hole fit one sheet, but no saw cut goes from edge to edge."""
    ring = [(0, 0, 6, 4), (6, 0, 10, 6), (4, 6, 10, 10), (0, 4, 4, 10)]
    rectangles = [tuple(map(Fraction, rectangle)) for rectangle in ring]
    area = tuple(map(Fraction, (0, 0, 10, 10)))
    assert not guillotine(area, rectangles, Fraction(0))
    problem = {"sheets": [[10, 10, 1, None]], "kerf": 0, "trim": 0, "pieces": [[6, 4, 2, 0], [4, 6, 2, 0]]}
    result = plan(problem, 1)
    check_plan(problem, result)
    assert (result.cost, result.proved) == (2, True)


def test_too_few_sheets_says_how_many_would_do() -> None:
    problem = {"sheets": [[1000, 1000, 1, 1]], "kerf": 0, "trim": 0, "pieces": [[600, 600, 2, 0]]}
    (shortage,) = plan(problem, 1).shortages
    assert (shortage.piece, shortage.count, shortage.needs, shortage.sheets) == (0, 1, (1000, 1000), 1)


@pytest.mark.parametrize("problem", SHOP[7:10], ids=lambda problem: problem["name"])
def test_a_plan_comes_even_without_effort(problem: Problem) -> None:
    """Of a very large job the budget is spent before anything was tried; it must be cut all the same."""
    result = plan(problem, 0)
    check_plan(problem, result)
    assert result.sheets


def test_the_same_problem_gives_the_same_plan() -> None:
    problem = next(problem for problem in SHOP if problem["name"] == "shop-sheet-08")
    assert plan(problem, 1) == plan(problem, 1)


@st.composite
def problems(draw: st.DrawFn) -> Problem:
    side = st.integers(4, 40)
    sheets = [[draw(st.integers(30, 60)), draw(st.integers(30, 60)), draw(st.integers(1, 20)), None]]
    for _ in range(draw(st.integers(0, 2))):
        sheets.append([draw(side), draw(side), draw(st.integers(1, 20)), draw(st.integers(0, 2))])
    trim = draw(st.integers(0, 2))
    size = st.integers(1, 30 - 2 * trim)
    piece = st.tuples(size, size, st.integers(1, 4), st.integers(0, 1))
    return {
        "sheets": sheets,
        "kerf": draw(st.integers(0, 3)),
        "trim": trim,
        "pieces": [list(entry) for entry in draw(st.lists(piece, min_size=1, max_size=5))],
    }


@settings(max_examples=60, deadline=None)
@given(problems())
def test_every_plan_is_sound(problem: Problem) -> None:
    result = plan(problem, 0.3)
    check_plan(problem, result)


@settings(max_examples=40, deadline=None)
@given(problems())
def test_another_solver_agrees(problem: Problem) -> None:
    """All sets of at most six pieces that a sheet can hold, by brute force; the cheapest cover by CP-SAT."""
    small = problem | {
        "pieces": [[w, h, min(count, 2), turns] for w, h, count, turns in problem["pieces"][:3]]
    }
    result = plan(small, 1)
    check_plan(small, result)
    assert result.proved
    assert result.cost == _least_cost(small)


def _boxes(sizes: tuple[tuple[int, int, int], ...], kerf: int) -> set[tuple[int, int]]:
    """Every smallest rectangle that holds these pieces so that a saw can part them."""
    if len(sizes) == 1:
        ((width, height, turns),) = sizes
        return {(width, height), (height, width)} if turns else {(width, height)}
    found = set()
    for mask in range(1, 2 ** (len(sizes) - 1)):
        one = tuple(size for place, size in enumerate(sizes) if mask >> place & 1)
        two = tuple(size for place, size in enumerate(sizes) if not mask >> place & 1)
        for a, b in product(_boxes(one, kerf), _boxes(two, kerf)):
            found.add((a[0] + kerf + b[0], max(a[1], b[1])))
            found.add((max(a[0], b[0]), a[1] + kerf + b[1]))
    return {box for box in found if not any(o != box and o[0] <= box[0] and o[1] <= box[1] for o in found)}


def _least_cost(problem: Problem) -> int:
    sizes = [(w, h, turns) for w, h, count, turns in problem["pieces"] for _ in range(count)]
    model = cp_model.CpModel()
    held: list[list[Any]] = [[] for _ in sizes]
    taken: list[list[Any]] = [[] for _ in problem["sheets"]]
    for mask in range(1, 2 ** len(sizes)):
        chosen = [place for place in range(len(sizes)) if mask >> place & 1]
        boxes = _boxes(tuple(sizes[place] for place in chosen), problem["kerf"])
        for stock, (width, height, _, _) in enumerate(problem["sheets"]):
            room = (width - 2 * problem["trim"], height - 2 * problem["trim"])
            if any(box[0] <= room[0] and box[1] <= room[1] for box in boxes):
                there = model.new_bool_var(f"{stock} {mask}")
                taken[stock].append(there)
                for place in chosen:
                    held[place].append(there)
    for covers in held:
        model.add(sum(covers) >= 1)
    for (_, _, _, limit), sheets in zip(problem["sheets"], taken, strict=True):
        if limit is not None:
            model.add(sum(sheets) <= limit)
    model.minimize(
        sum(sheet[2] * var for sheet, own in zip(problem["sheets"], taken, strict=True) for var in own)
    )
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    assert solver.solve(model) == cp_model.OPTIMAL
    return round(solver.objective_value)


LIMITED = [SHOP[place] for place in (0, 4, 9, 11)]


@pytest.mark.parametrize("problem", LIMITED, ids=lambda problem: problem["name"])
@pytest.mark.parametrize("stages", [2, 3])
def test_no_sheet_takes_more_stages_than_the_saw(problem: Problem, stages: int) -> None:
    """Runs of cuts in one direction are counted here from the cuts themselves, each within the one before."""
    result = plan(problem, 0.3, stages)
    check_plan(problem, result)
    for sheet in result.sheets:
        for cut in sheet.cuts:
            above = [c for c in sheet.cuts if c is not cut and within(cut, c)]
            order = [c.upright for c in sorted(above, key=lambda c: -c.area.width * c.area.height)]
            order.append(cut.upright)
            assert 1 + sum(a is not b for a, b in pairwise(order)) <= stages


def within(inner: SawCut, outer: SawCut) -> bool:
    a, b = inner.area, outer.area
    across = b.x <= a.x and a.x + a.width <= b.x + b.width
    return across and b.y <= a.y and a.y + a.height <= b.y + b.height


def test_two_stages_cost_a_sheet_where_a_third_would_save_it() -> None:
    """A cut at 800 leaves 200 x 1000, one at 600 leaves 800 x 400: its two pieces take a third run of cuts."""
    problem = {
        "sheets": [[1000, 1000, 1, None]],
        "kerf": 0,
        "trim": 0,
        "pieces": [[800, 600, 1, 0], [200, 1000, 1, 0], [390, 400, 2, 0]],
    }
    free, three, two = (plan(problem, 0.5, stages) for stages in (None, 3, 2))
    for result in (free, three, two):
        check_plan(problem, result)
    assert (free.cost, three.cost, two.cost) == (1, 1, 2)
    assert free.proved and three.proved and not two.proved and two.bound == 1


@pytest.mark.parametrize("problem", LIMITED, ids=lambda problem: problem["name"])
def test_what_is_too_long_for_the_fence_is_cut_by_track_saw_with_its_allowance(problem: Problem) -> None:
    longest, allowance = Fraction(1300), Fraction(5)
    result = plan(problem, 0.3, breaking=BreakDown(longest, allowance))
    check_plan({**problem, "break_down": {"max_length": longest}}, result)
    cuts = [cut for sheet in result.sheets for cut in sheet.cuts]
    assert any(cut.by_track for cut in cuts)
    for cut in cuts:
        assert cut.by_track == (max(cut.area.width, cut.area.height) > longest)
    for sheet in result.sheets:
        for cut in sheet.cuts:
            near = cut.at - (cut.area.x if cut.upright else cut.area.y)
            across = cut.area.height if cut.upright else cut.area.width
            whole = cut.area.width + 20 == problem["sheets"][sheet.stock][0]
            if not (cut.by_track and whole and cut.upright and max(near, across) <= longest):
                continue
            # what lies in the part that comes off ends an allowance before its edge
            ends = [p.area.x + p.area.width for p in sheet.pieces if p.area.x < cut.at]
            assert max(ends) + allowance <= cut.at


@st.composite
def two_saws(draw: st.DrawFn) -> Problem:
    """Sheets too long for the fence, and blades of different widths; sizes in tenths, or without a common measure."""
    parts = draw(st.sampled_from([1, 10, 7919]))

    def size(low: int, high: int) -> Fraction:
        return Fraction(draw(st.integers(low * parts, high * parts)), parts)

    pieces = [[size(5, 60), size(5, 40), draw(st.integers(1, 3)), draw(st.integers(0, 1))]]
    pieces += [[size(5, 60), size(5, 40), 1, 1] for _ in range(draw(st.integers(0, 3)))]
    return {
        "sheets": [[size(90, 140), size(60, 80), 5, None]],
        "kerf": size(0, 4),
        "trim": draw(st.integers(0, 2)),
        "pieces": pieces,
        "break_down": {"max_length": size(40, 90), "allowance": size(0, 3), "kerf": size(0, 4)},
    }


@settings(max_examples=40, deadline=None)
@given(two_saws())
def test_each_saw_takes_its_own_kerf(problem: Problem) -> None:
    rule = problem["break_down"]
    breaking = BreakDown(rule["max_length"], rule["allowance"], rule["kerf"])
    check_plan(problem, plan(problem, 0.02, breaking=breaking))


def test_a_thinner_track_saw_makes_room_for_a_piece_and_a_wider_one_takes_it() -> None:
    """Two boards of 600 and the blade between them on 1202.5 mm: 2.5 and no more."""
    problem = {
        "sheets": [[Fraction("1202.5"), 500, 1, None]],
        "kerf": 3,
        "trim": 0,
        "pieces": [[600, 500, 2, 0]],
    }
    for kerf, sheets in (("2.5", 1), ("2.6", 2)):
        result = plan(problem, 0.3, breaking=BreakDown(Fraction(700), Fraction(0), Fraction(kerf)))
        check_plan({**problem, "break_down": {"max_length": 700, "kerf": kerf}}, result)
        assert (result.cost, result.bound) == (sheets, sheets)


def test_a_sheet_that_the_fence_takes_is_not_broken_down() -> None:
    problem = {"sheets": [[1200, 800, 1, None]], "kerf": 3, "trim": 10, "pieces": [[500, 300, 4, 0]]}
    result = plan(problem, 0.5, breaking=BreakDown(Fraction(1300), Fraction(5)))
    assert result == plan(problem, 0.5)
    assert not any(cut.by_track for sheet in result.sheets for cut in sheet.cuts)
