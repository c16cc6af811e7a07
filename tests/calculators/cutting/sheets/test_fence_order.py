"""The order of the cuts at the fence: it can be followed, and small ones are held against all orders there are."""

from dataclasses import replace
from fractions import Fraction
from itertools import count

from hypothesis import given, settings
from hypothesis import strategies as st

from generator.calculators.cutting.core import budget_for
from generator.calculators.cutting.sheets import (
    CutSheet,
    CutTree,
    FenceOrder,
    SheetPiece,
    SheetStock,
    fence_order,
    plan_sheets,
)
from generator.figures.sawn import late_last


def planned(sizes: list[tuple[int, int]], sheet: tuple[int, int] = (2440, 1220)) -> tuple[CutSheet, ...]:
    plan = plan_sheets(
        [SheetStock(Fraction(sheet[0]), Fraction(sheet[1]))],
        [SheetPiece(Fraction(w), Fraction(h), 1) for w, h in sizes],
        kerf=Fraction(3),
        trim=Fraction(10),
        budget=budget_for(0.1),
    )
    return plan.sheets


def fewest(sheets: tuple[CutSheet, ...]) -> int:
    """All orders, by breadth: sets of cuts made with one setting more each round."""
    cuts: list[tuple[int, Fraction]] = []

    def collect(tree: object, parent: int) -> None:
        cut = getattr(tree, "cut", None)
        if cut is not None:
            cuts.append((parent, cut.setting))
            place = len(cuts) - 1
            collect(tree.first, place)  # type: ignore[attr-defined]
            collect(tree.second, place)  # type: ignore[attr-defined]

    for sheet in sheets:
        collect(sheet.tree, -1)
    reached = {frozenset[int]()}
    for rounds in count():
        if any(len(made) == len(cuts) for made in reached):
            return rounds
        following = set()
        for made in reached:
            ready = {s for i, (p, s) in enumerate(cuts) if i not in made and (p < 0 or p in made)}
            for setting in ready:
                now = set(made)
                for place, (parent, own) in enumerate(cuts):
                    if own == setting and (parent < 0 or parent in now):
                        now.add(place)
                following.add(frozenset(now))
        reached = following
    raise AssertionError


def follow(sheets: tuple[CutSheet, ...], order: FenceOrder) -> None:
    """Every cut is made once, from a part that is there, at the fence as it stands."""
    parts = [{0: [sheet.tree]} for sheet in sheets]
    numbers = [0] * len(sheets)
    for batch in order.batches:
        for cut in batch.cuts:
            numbers[cut.sheet] += 1
            assert cut.number == numbers[cut.sheet]
            waiting = parts[cut.sheet][cut.parent]
            part = waiting[0 if cut.near or cut.parent == 0 else 1]
            assert part is cut.tree and part.cut is not None
            assert part.cut.setting == batch.setting
            parts[cut.sheet][cut.number] = [part.first, part.second]  # type: ignore[list-item]
    assert numbers == [len(sheet.cuts) for sheet in sheets]
    assert order.settings <= order.setups <= order.setups_sheet_by_sheet


boards = st.tuples(st.sampled_from([200, 300, 450, 600, 900]), st.sampled_from([150, 300, 400, 500]))


@settings(max_examples=12)
@given(st.lists(boards, min_size=2, max_size=9))
def test_small_plans_have_as_few_settings_as_any_order(sizes: list[tuple[int, int]]) -> None:
    sheets = planned(sizes)
    order = fence_order(sheets)
    follow(sheets, order)
    assert order.setups == fewest(sheets)


def test_two_sheets_cut_alike_share_every_setting() -> None:
    """Two sheets of four boards: 1000 across, 590 along; a sheet at a time sets the fence four times."""
    sheets = planned([(1000, 590)] * 8)
    order = fence_order(sheets)
    follow(sheets, order)
    assert (len(sheets), order.setups, order.fewest) == (2, 2, True)
    assert {batch.setting for batch in order.batches} == {1000, 590}
    assert order.setups_sheet_by_sheet > order.setups


def test_a_sheet_that_is_not_cut_needs_no_setting() -> None:
    whole = planned([(2420, 1200)])
    assert fence_order(whole) == FenceOrder((), 0, 0)


@settings(max_examples=12)
@given(st.lists(boards, min_size=2, max_size=9), st.sets(st.integers(0, 8)))
def test_what_is_late_is_cut_last_and_nothing_else_waits_for_it(
    sizes: list[tuple[int, int]], late: set[int]
) -> None:
    def waits(tree: CutTree) -> bool:
        return all(each.piece in late for each in tree.pieces())

    sheets = tuple(replace(sheet, tree=late_last(sheet.tree, waits)) for sheet in planned(sizes))
    assert sorted(p.piece for sheet in sheets for p in sheet.pieces) == list(range(len(sizes)))
    order = fence_order(sheets, waits)
    follow(sheets, order)
    days = [batch.late for batch in order.batches]
    assert days == sorted(days)
    # what is still whole when the first day ends holds nothing but late pieces and waste
    made = {(cut.sheet, id(cut.tree)) for batch in order.batches if not batch.late for cut in batch.cuts}
    for place, sheet in enumerate(sheets):
        waiting = [sheet.tree]
        while waiting:
            tree = waiting.pop()
            if (place, id(tree)) in made:
                waiting += [part for part in (tree.first, tree.second) if part is not None]
            elif tree.cut is not None:
                assert waits(tree)


def test_strips_of_late_parts_are_laid_behind_the_others() -> None:
    """Three strips across a sheet, the first of them late: it comes last, where its cut is the end of the sheet."""
    (sheet,) = planned([(900, 1200), (700, 1200), (600, 1200)])
    first = next(iter(sheet.pieces)).piece
    tree = late_last(sheet.tree, lambda tree: all(each.piece == first for each in tree.pieces()))
    order = [each.piece for each in tree.pieces()]
    assert order[-1] == first and sorted(order) == [0, 1, 2]
