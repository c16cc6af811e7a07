"""Plans by the rules of the shop: each is followed cut by cut by a verifier of its own."""

from __future__ import annotations

import json
import random
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from generator.calculators.cutting.core import budget_for
from generator.calculators.cutting.sheets import (
    BreakDown,
    SheetPiece,
    SheetPlan,
    SheetStock,
    ShopRules,
    breaches,
    plan_sheets,
)
from tests.calculators.cutting.cut_verifier import check_plan
from tests.calculators.cutting.rule_verifier import breaches as counted

SHOP = json.loads((Path(__file__).parents[3] / "data" / "shop-sheets.json").read_text(encoding="utf-8"))
WIDTHS, HEIGHTS = (60, 120, 290, 402, 564, 597), (80, 300, 402, 720)
RULES = ShopRules(Fraction(1), Fraction(300))


def planned(
    problem: dict[str, Any],
    seconds: float,
    stages: int | None = 3,
    rules: ShopRules | None = RULES,
    keep: tuple[Fraction, Fraction] | None = None,
    breaking: BreakDown | None = None,
) -> SheetPlan:
    plan = plan_sheets(
        [SheetStock(*map(Fraction, entry[:3]), entry[3]) for entry in problem["sheets"]],
        [
            SheetPiece(Fraction(w), Fraction(h), count, bool(turns))
            for w, h, count, turns in problem["pieces"]
        ],
        kerf=Fraction(problem["kerf"]),
        trim=Fraction(problem["trim"]),
        budget=budget_for(seconds),
        stages=stages,
        rules=rules,
        keep=keep,
        breaking=breaking,
    )
    rule = {"max_length": breaking.longest, "kerf": breaking.kerf or problem["kerf"]} if breaking else None
    check_plan({**problem, "break_down": rule}, plan)
    return plan


def found(problem: dict[str, Any], plan: SheetPlan) -> dict[str, int]:
    """Breaches by the verifier, which must be those that the plan's own count tells."""
    kerf = Fraction(problem["kerf"])
    stock = [(Fraction(entry[0]), Fraction(entry[1])) for entry in problem["sheets"]]
    by_hand = counted(plan, kerf, Fraction(problem["trim"]), stock, RULES.least_feed)
    own = breaches(plan.sheets, RULES)
    assert (by_hand["sliver"], by_hand["feed"], by_hand["edge"]) == (
        own.slivers,
        own.small_parts,
        own.leftover_edges,
    )
    return dict(by_hand)


def job(seed: int) -> dict[str, Any]:
    """Cabinet parts, some small, on one or two sizes of sheet."""
    chance = random.Random(seed)
    sheets = [[2440, 1220, 75, None]] + ([[1500, 800, 20, 2]] if seed % 3 == 0 else [])
    pieces = [
        [chance.choice(WIDTHS), chance.choice(HEIGHTS), chance.randint(1, 7), chance.randint(0, 1)]
        for _ in range(chance.randint(3, 8))
    ]
    return {"sheets": sheets, "kerf": chance.choice([3, 4]), "trim": chance.choice([0, 10]), "pieces": pieces}


@pytest.mark.parametrize("seed", range(8))
def test_a_plan_within_the_rules_keeps_them_all(seed: int) -> None:
    problem = job(seed)
    plan = planned(problem, 0.4)
    assert plan.clean_cost is not None
    assert plan.clean_cost >= plan.cost
    assert bool(found(problem, plan)) <= (plan.clean_cost > plan.cost)
    assert max(cut.stage for sheet in plan.sheets for cut in sheet.cuts) <= 3


def test_where_the_rules_cost_a_sheet_the_cheaper_plan_stands_and_their_price_is_told() -> None:
    """Two 597s and a kerf of 3 leave 3 of 1200: the second has its size only from what is left, or by a sliver."""
    problem = {"sheets": [[1200, 600, 1, None]], "kerf": 3, "trim": 0, "pieces": [[597, 590, 2, 0]]}
    plan = planned(problem, 0.4)
    assert (plan.cost, plan.proved, plan.clean_cost) == (1, True, 2)
    assert found(problem, plan)
    roomy = {**problem, "sheets": [[1204, 600, 1, None]]}
    plan = planned(roomy, 0.4)
    assert (plan.cost, plan.clean_cost, found(roomy, plan)) == (1, 1, {})


def test_a_small_part_is_cut_from_a_long_strip() -> None:
    """Blocks of 60 x 40: what goes to the saw is 300 long to the last cut, so the strip's end is left."""
    problem = {"sheets": [[2440, 1220, 1, None]], "kerf": 3, "trim": 10, "pieces": [[60, 40, 30, 0]]}
    plan = planned(problem, 0.4)
    assert (plan.cost, plan.clean_cost, found(problem, plan)) == (1, 1, {})


def test_strips_are_filled_as_well_as_free_plans_cut() -> None:
    """Laid piece by piece this took 12 sheets in three stages."""
    problem = next(each for each in SHOP if each["name"] == "shop-sheet-08")
    assert planned(problem, 1, rules=None).cost == 11


@pytest.mark.parametrize(("number", "kerf"), [(0, "2.2"), (1, None)])
def test_sections_of_a_sheet_are_cut_by_the_rules(number: int, kerf: str | None) -> None:
    """Job 1 has parts of 2 m: the track saw cuts its sheets in strips."""
    problem = SHOP[number]
    saw = BreakDown(Fraction(1300), Fraction(5), None if kerf is None else Fraction(kerf))
    plan = planned(problem, 2, breaking=saw)
    assert plan.clean_cost == plan.cost == problem["optimum"]
    assert found(problem, plan) == {}
    assert max(cut.stage for sheet in plan.sheets for cut in sheet.cuts) == 3
    for sheet in plan.sheets:
        for cut in sheet.cuts:
            near = cut.at - (cut.area.x if cut.upright else cut.area.y)
            across = cut.area.height if cut.upright else cut.area.width
            if cut.by_track and number == 0 and max(near, across) <= 1300:
                ends = [p.area.x + p.area.width for p in sheet.pieces if p.area.x < cut.at]
                assert max(ends) + 5 <= cut.at


def test_a_sheet_too_wide_for_the_fence_has_room_for_the_other_blade() -> None:
    """The second is too long across as well and has no sections; its cuts by track saw take 2, not 1."""
    problem = {
        "sheets": [[1250, 557, 48, None], [802, 767, 42, 1]],
        "kerf": 1,
        "trim": 3,
        "pieces": [[347, 272, 3, 1], [101, 331, 2, 1], [595, 126, 3, 1]],
    }
    plan = planned(problem, 0.2, stages=None, breaking=BreakDown(Fraction(700), Fraction(5), Fraction(2)))
    assert {cut.kerf for sheet in plan.sheets for cut in sheet.cuts if cut.by_track} == {2}


def test_what_the_sheets_leave_is_left_in_one_large_part() -> None:
    """As the sheets are filled one after the other the largest part is 2064 x 111: of no use."""
    problem = next(each for each in SHOP if each["name"] == "shop-sheet-05")
    plain, kept = (planned(problem, 5, keep=keep) for keep in (None, (Fraction(400), Fraction(300))))
    largest = [
        max(area.width * area.height for sheet in plan.sheets for area in sheet.offcuts)
        for plan in (plain, kept)
    ]
    assert plain.cost == kept.cost == 7
    assert largest[1] > 2 * largest[0]
    assert found(problem, kept) == {}
    assert any(
        max(area.width, area.height) >= 400 and min(area.width, area.height) >= 300
        for sheet in kept.sheets
        for area in sheet.offcuts
    )


def test_rules_that_leave_no_place_for_any_piece_end_at_once() -> None:
    """A kerf longer than the sheet: the clean search filled no sheet, spent nothing, and so never ended."""
    problem = {"sheets": [[2440, 1220, 1, None]], "kerf": 9000, "trim": 10, "pieces": [[600, 400, 3, 1]]}
    assert planned(problem, 1).cost == 3


def test_pieces_over_half_a_sheet_are_proved_at_once() -> None:
    """Two 600s and a kerf do not fit 1200: by area five sheets would hold 20 of them."""
    problem = {
        "sheets": [[1200, 1200, 1, None]],
        "kerf": 3,
        "trim": 0,
        "pieces": [[600, 600, 20, 1], [610, 300, 3, 0]],
    }
    plan = planned(problem, 0.1, stages=None, rules=None)
    assert (plan.cost, plan.bound, plan.proved) == (20, 20, True)


def test_all_sheets_of_a_cheaper_plan_are_enumerated() -> None:
    """Three sheets and both off-cuts: strips that are filled by chance take 400 in ten times the time."""
    problem = next(each for each in SHOP if each["name"] == "shop-sheet-12-offcut")
    plan = planned(problem, 3, rules=None)
    assert (plan.cost, plan.proved) == (310, True)


@pytest.mark.parametrize(("name", "cost"), [("shop-sheet-03", 6), ("shop-sheet-11-offcut", 200)])
def test_a_plan_in_three_stages_is_proved_by_the_bound_of_three_stages(name: str, cost: int) -> None:
    """By all guillotine plans the first takes three times as long to prove, and the second stays open."""
    problem = next(each for each in SHOP if each["name"] == name)
    plan = planned(problem, 2)
    assert (plan.cost, plan.bound) == (cost, cost)


def test_small_parts_share_a_strip_as_far_as_the_last_cut_can_be_held() -> None:
    """Three would fit one behind the other, but what is left for the last cut would be too short to feed: two do."""
    problem = next(each for each in SHOP if each["name"] == "shop-sheet-11-offcut")
    assert [236, 75, 6, 0] in problem["pieces"]
    plan = planned(problem, 5)
    assert not any(found(problem, plan).values())
    assert sum(cut.setting == 75 for sheet in plan.sheets for cut in sheet.cuts) == 3
