"""Boards with knots: every plan is checked by shapely and by following its cuts, and a worked board is cut by hand."""

from __future__ import annotations

import random
from fractions import Fraction
from typing import Any

import pytest
from shapely import box

from generator.calculators.cutting.core import WorkBudget
from generator.calculators.cutting.sheets import Area, SheetPiece, SheetPlan, SheetStock, plan_sheets
from tests.calculators.cutting.cut_verifier import check_plan
from tests.effort import THOROUGH

F = Fraction


def planned(
    boards: list[SheetStock], pieces: list[SheetPiece], kerf: int = 3, trim: int = 10, stages: int | None = 3
) -> SheetPlan:
    return plan_sheets(boards, pieces, kerf=F(kerf), trim=F(trim), budget=WorkBudget(150_000), stages=stages)


def checked(
    boards: list[SheetStock], pieces: list[SheetPiece], kerf: int = 3, trim: int = 10, stages: int | None = 3
) -> SheetPlan:
    """A plan that shapely and the saw agree with: no piece touches a defect, all cuts run from edge to edge."""
    plan = planned(boards, pieces, kerf, trim, stages)
    assert not plan.shortages
    problem: dict[str, Any] = {
        "kerf": kerf, "trim": trim,
        "sheets": [(each.width, each.height, each.price, each.limit) for each in boards],
        "pieces": [(each.width, each.height, each.count, each.turns) for each in pieces],
    }  # fmt: skip
    check_plan(problem, plan)
    for sheet in plan.sheets:
        knots = [
            box(*map(float, (d.x, d.y, d.x + d.width, d.y + d.height))) for d in boards[sheet.stock].defects
        ]
        for placed in sheet.pieces:
            a = placed.area
            own = box(*map(float, (a.x, a.y, a.x + a.width, a.y + a.height)))
            assert all(own.intersection(knot).area == 0 for knot in knots)
        assert stages is None or max((cut.stage for cut in sheet.cuts), default=0) <= stages
    return plan


def knot(x: int, y: int, length: int, width: int) -> Area:
    return Area(F(x), F(y), F(length), F(width))


def board(length: int, width: int, *defects: Area, limit: int | None = 1) -> SheetStock:
    return SheetStock(F(length), F(width), F(1), limit, defects)


def test_a_board_with_a_knot_right_across_is_two_boards() -> None:
    """2000 x 150, 10 off each end, a crack from 900 to 1000: 890 and 990 of clear wood, so 880 and 980 fit."""
    cracked = board(2000, 170, knot(900, 0, 100, 170))
    plan = checked([cracked], [SheetPiece(F(880), F(150), 1), SheetPiece(F(990), F(150), 1)])
    assert sorted((piece.area.x, piece.area.width) for piece in plan.sheets[0].pieces) == [
        (10, 880),
        (1000, 990),
    ]
    short = planned([cracked], [SheetPiece(F(880), F(150), 1), SheetPiece(F(991), F(150), 1)]).shortages
    assert [(each.piece, each.count) for each in short] == [(1, 1)]


def test_a_knot_at_the_edge_is_ripped_off() -> None:
    """1000 x 220 with a knot 60 wide along its lower edge: two strips of 60 beside it, with one cut between them."""
    plan = checked([board(1000, 220, knot(300, 0, 200, 70))], [SheetPiece(F(980), F(68), 2)])
    assert sorted(piece.area.y for piece in plan.sheets[0].pieces) == [70, 141]


def test_a_clear_board_is_taken_where_no_other_has_room() -> None:
    boards = [board(1200, 200, knot(500, 80, 50, 50)), board(1200, 200)]
    plan = checked(boards, [SheetPiece(F(1100), F(150), 1)])
    assert [sheet.stock for sheet in plan.sheets] == [1]


def test_a_piece_without_grain_is_turned_beside_a_knot() -> None:
    knotty = board(600, 420, knot(250, 10, 60, 400))
    plan = checked([knotty], [SheetPiece(F(390), F(200), 2, turns=True)])
    assert all(piece.turned for piece in plan.sheets[0].pieces)


def random_problem(seed: int) -> tuple[list[SheetStock], list[SheetPiece]]:
    some = random.Random(seed)
    boards = []
    for _ in range(some.randint(4, 9)):
        length, width = some.randint(900, 2600), some.randint(110, 320)
        knots = [
            knot(
                some.randint(0, length - 60),
                some.randint(0, width - 30),
                some.randint(10, 90),
                some.randint(10, 60),
            )
            for _ in range(some.randint(0, 4))
        ]
        boards.append(board(length, width, *knots))
    pieces = [
        SheetPiece(F(some.randint(200, 800)), F(some.randint(40, 90)), some.randint(1, 3)) for _ in range(5)
    ]
    return [*boards, board(3000, 250, knot(1500, 100, 20, 20), limit=None)], pieces


@pytest.mark.parametrize("seed", range(40 if THOROUGH else 6))
@pytest.mark.parametrize("stages", [3, None])
def test_random_boards_are_cut_around_their_knots(seed: int, stages: int | None) -> None:
    boards, pieces = random_problem(seed)
    plan = checked(boards, pieces, kerf=1 + seed % 4, trim=5 * (seed % 3), stages=stages)
    assert plan.bound <= plan.cost


def test_the_same_problem_has_the_same_plan() -> None:
    boards, pieces = random_problem(3)
    assert planned(boards, pieces) == planned(boards, pieces)
