"""Cuts stage by stage over all sheets: each after the cut that makes its part, each size set once a stage."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.calculators.cutting.core import budget_for
from generator.calculators.cutting.sheets import (
    BreakDown,
    CutSheet,
    SheetPiece,
    SheetStock,
    StageOrder,
    plan_sheets,
    stage_order,
)


def planned(sizes: list[tuple[int, int]], breaking: BreakDown | None = None) -> tuple[CutSheet, ...]:
    return plan_sheets(
        [SheetStock(Fraction(240), Fraction(120))],
        [SheetPiece(Fraction(wide), Fraction(high), 1) for wide, high in sizes],
        kerf=Fraction(1),
        trim=Fraction(1),
        budget=budget_for(0.02),
        stages=3,
        breaking=breaking,
    ).sheets


def follow(sheets: tuple[CutSheet, ...], order: StageOrder) -> None:
    """Every cut once, by its setting, after the cut that makes its part; a sheet never goes back to a stage."""
    rows = order.by_sheet(len(sheets))
    for sheet, row in zip(sheets, rows, strict=True):
        assert sorted(map(id, sheet.tree.cuts())) == sorted(id(made.cut) for made in row)
        assert [made.number for made in row] == list(range(1, len(row) + 1))
        fenced = [made.cut.stage for made in row if not made.cut.by_track]
        assert fenced == sorted(fenced)
        for made in row:
            if made.parent is None:
                assert made.cut.area == sheet.tree.area
                continue
            assert made.parent.number < made.number
            outer, inner = made.parent.cut, made.cut.area
            low = inner.x if outer.upright else inner.y
            assert (low < outer.at) is made.near
    for each in order.passes:
        assert {cut.cut.setting for cut in each.cuts} == {each.setting}
        assert not any(cut.cut.by_track for cut in each.cuts)
    assert all(cut.cut.by_track for cut in order.first)


SIZES = st.lists(st.tuples(st.integers(5, 110), st.integers(5, 110)), min_size=1, max_size=12)


@settings(max_examples=40, deadline=None)
@given(SIZES, st.booleans())
def test_any_plan_can_be_cut_in_this_order_with_no_more_settings_than_sheet_by_sheet(
    sizes: list[tuple[int, int]], broken: bool
) -> None:
    sheets = planned(sizes, BreakDown(Fraction(120), Fraction(2), Fraction(3, 2)) if broken else None)
    order = stage_order(sheets)
    follow(sheets, order)
    assert len(order.passes) <= order.sheet_by_sheet


def test_sheets_that_are_cut_alike_take_the_settings_of_one() -> None:
    sheets = planned([(100, 100), (60, 100), (50, 40)] * 4)
    order = stage_order(sheets)
    follow(sheets, order)
    assert len(sheets) > 1
    assert len(order.passes) <= order.least < order.sheet_by_sheet


@pytest.mark.parametrize("size", [(238, 118), (100, 50)])
def test_a_sheet_with_one_piece_or_no_cut(size: tuple[int, int]) -> None:
    sheets = planned([size])
    order = stage_order(sheets)
    follow(sheets, order)
    assert len(order.passes) == (0 if size == (238, 118) else 2)
