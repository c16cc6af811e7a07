"""Whole steps for awkward sizes: what surely fits, what may fit, and plans that stay true on a very coarse grid."""

from fractions import Fraction
from itertools import product
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.calculators.cutting.bars import plan as bars_module
from generator.calculators.cutting.core.grid import on_grid, price_steps
from generator.calculators.cutting.sheets import plan as sheets_module
from tests.calculators.cutting.bars import test_plan as test_bars
from tests.calculators.cutting.cut_verifier import check_plan
from tests.calculators.cutting.sheets import test_plan as test_sheets

AWKWARD = st.fractions(Fraction(1, 3), 40, max_denominator=10**7)


@settings(max_examples=80, deadline=None)
@given(
    st.lists(st.tuples(AWKWARD, st.integers(1, 3)), min_size=1, max_size=4),
    st.lists(st.fractions(-2, 90, max_denominator=10**7), min_size=1, max_size=3),
    st.integers(3, 200),
)
def test_every_set_within_the_inner_sum_fits_and_none_beyond_the_outer(
    pieces: list[tuple[Fraction, int]], rooms: list[Fraction], most: int
) -> None:
    sizes = [size for size, _ in pieces]
    # a set that fills a room to the last bit is the hardest
    rooms = [*rooms, sum(sizes, Fraction(0))]
    grid = on_grid(sizes, [[(place, count) for place, (_, count) in enumerate(pieces)]], rooms, most)
    assert all(inner <= outer for inner, outer in zip(grid.inner, grid.outer, strict=True))
    for counts in product(*(range(count + 1) for _, count in pieces)):
        length = sum((size * count for size, count in zip(sizes, counts, strict=True)), Fraction(0))
        steps = sum(size * count for size, count in zip(grid.sizes, counts, strict=True))
        close = sum(size * count for size, count in zip(grid.close_sizes, counts, strict=True))
        for place, room in enumerate(rooms):
            if length <= room:
                assert steps <= grid.outer[place]
            elif any(counts):
                assert steps > grid.inner[place]
                assert close > grid.close_rooms[place]


def test_a_hair_is_told_apart_where_no_sum_lies_between() -> None:
    """Two pieces of 500.0000001 do not go on a bar of 1000, two of 499.9999999 do; a tenth of a step apart."""
    hair = Fraction(1, 10**7)
    for size, most in ((500 + hair, 1), (500 - hair, 2)):
        grid = on_grid([size], [[(0, 9)]], [Fraction(1000)], 1000)
        assert not grid.exact
        assert grid.inner == grid.outer
        assert grid.inner[0] // grid.sizes[0] == most


@given(
    st.lists(st.fractions(0, 10**20), min_size=1, max_size=4).filter(any),
    st.lists(st.integers(0, 9), min_size=4, max_size=4),
)
def test_nothing_costs_less_than_its_steps(prices: list[Fraction], bought: list[int]) -> None:
    steps, worth = price_steps(prices, 1000)
    assert [step == 0 for step in steps] == [price == 0 for price in prices]
    cost = sum((price * count for price, count in zip(prices, bought, strict=False)), Fraction(0))
    assert cost >= worth * sum(step * count for step, count in zip(steps, bought, strict=False))


def test_whole_prices_lose_nothing() -> None:
    assert price_steps([Fraction(54), Fraction(81, 2), Fraction(0)], 1000) == ((4, 3, 0), Fraction(27, 2))


@pytest.fixture(scope="module")
def coarse() -> Any:
    """So few steps that nearly every size is rounded."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(bars_module, "MOST_STEPS", 25)
        patch.setattr(sheets_module, "MOST_STEPS", 25)
        yield


@settings(max_examples=25, deadline=None)
@given(test_bars.problems())
def test_a_bar_plan_on_a_coarse_grid_can_be_cut_and_its_bound_is_true(
    coarse: None, problem: dict[str, Any]
) -> None:
    result = test_bars.plan(problem, 0.5)
    test_bars.check(problem, result)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(bars_module, "MOST_STEPS", 10**6)
        exact = test_bars.plan(problem, 2)
    assert result.bound <= exact.cost
    assert result.cost >= exact.bound
    if result.offcut_is_longest:
        assert (result.cost, result.offcut) == (exact.cost, exact.offcut)


@settings(max_examples=15, deadline=None)
@given(test_sheets.problems(), st.sampled_from([None, 3]))
def test_a_sheet_plan_on_a_coarse_grid_can_be_cut_and_its_bound_is_true(
    coarse: None, problem: dict[str, Any], stages: int | None
) -> None:
    result = test_sheets.plan(problem, 0.1, stages)
    check_plan(problem, result)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(sheets_module, "MOST_STEPS", 10**6)
        exact = test_sheets.plan(problem, 0.3)
    assert result.bound <= exact.cost
    assert result.cost >= exact.bound
