"""The top and its grid: the worked board, and an overhang that moves its edges but not the bars below it."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.bench.role import Role
from tests.bench.benches import DEMO, changed, solved, span


def test_the_worked_top() -> None:
    """2000 x 900 x 18 on a frame of 725; 162 holes of 20; the columns over P2 and P4 are left out."""
    bench = solved()
    (top,) = bench.of(Role.TOP)
    assert (span(top, "x"), span(top, "y"), span(top, "z")) == ((0, 2000), (0, 900), (725, 743))
    assert len(top.operations) == 162
    assert {(op.op, op.face, op.size, op.depth) for op in top.operations} == {("hole", "top", 20, None)}
    assert bench.grid is not None
    assert bench.grid.columns.omitted == (568, 1432)
    assert {op.at[0] for op in top.operations} == set(bench.grid.columns.kept)


def test_a_plain_top() -> None:
    bench = solved(changed(DEMO, (", holes: {diameter: 20, pitch: 96, edge: 60, keep_clear: 3}", "")))
    assert bench.grid is None
    assert bench.of(Role.TOP)[0].operations == ()


@pytest.mark.parametrize("overhang", [0, 7, 30])
def test_no_hole_meets_a_bar_below(overhang: int) -> None:
    """Every hole's rim against every upper bar, 3 mm apart; what was left out would have come nearer."""
    bench = solved(changed(DEMO, ("overhang: 0", f"overhang: {overhang}")))
    (top,), grid = bench.of(Role.TOP), bench.grid
    assert grid is not None
    assert (top.length, top.width) == (2000 + 2 * overhang, 900 + 2 * overhang)
    cross = [each.box.x for each in bench.of(Role.TOP_CROSS_MEMBER, Role.TOP_END_MEMBER)]
    rails = [each.box.y for each in bench.of(Role.LONG_RAIL, level="top")]

    def apart(at: Fraction, low: Fraction, bars: list) -> Fraction:
        return min(max(bar.low - (low + at + 10), low + at - 10 - bar.high) for bar in bars)

    for line, low, bars in ((grid.columns, top.box.x.low, cross), (grid.rows, top.box.y.low, rails)):
        assert all(apart(at, low, bars) >= 3 for at in line.kept)
        assert all(apart(at, low, bars) < 3 for at in line.omitted)
        assert len(line.kept) + len(line.omitted) == len(line.positions)
