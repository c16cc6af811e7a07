"""What a piece is held, sawn and drawn by."""

from __future__ import annotations

from generator.bench.role import Role
from tests.bench.benches import solved


def test_bars_boards_and_strips_of_the_worked_bench() -> None:
    bench = solved()
    bars, boards = ({p.role for p in bench.parts if p.is_bar}, {p.role for p in bench.parts if p.is_board})
    assert {Role.CORNER_POST, Role.LONG_RAIL, Role.END_SPINE_POST} <= bars
    assert {Role.DIVIDER, Role.TRAY, Role.TOP, Role.SHELF, Role.DRAWER_BOTTOM} <= boards
    neither = {p.role for p in bench.parts if not (p.is_bar or p.is_board)}
    assert {Role.TRAY_TRIM, Role.PACKING_STRIP, Role.SHELF_CLEAT} <= neither
    assert not bars & boards
