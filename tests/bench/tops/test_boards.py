"""Tops of several boards and layers: they fill the finished size, share its machining, and dry joints lie over bars."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from itertools import combinations, pairwise

import pytest

from generator.bench.model import Bench
from generator.bench.role import Role
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.findings import Finding
from generator.spec.adapt import adapted
from tests.bench.benches import DEMO, changed, faults, solved, span

PLAIN = changed(DEMO, (", holes: {diameter: 20, pitch: 96, edge: 60, keep_clear: 3}", ""))
PORT = "cutouts: [{name: port, at: [420, 450], size: [120, 90], ledge: 10, depth: 20, corner: 0}]"


def with_top(keys: str) -> str:
    return changed(PLAIN, ("overhang: 0", f"overhang: 0, {keys}"))


@cache
def made(keys: str) -> tuple[Bench, Figures, tuple[Finding, ...]]:
    bench = solved(with_top(keys))
    return bench, *compute(bench)


@pytest.mark.parametrize(
    ("keys", "widths"),
    [
        ("boards: [share, 300]", [600, 300]),
        ("boards: [500, share, share 3], run: depth", [500, 375, 1125]),
        ("boards: [share, share], layers: 2", [225, 450, 225, 450, 450]),
        ("layers: 3", [900, 900, 900]),
        ("boards: [share, share], edging: {material: poplar-15}", [435, 435]),
    ],
)
def test_boards_and_edging_fill_the_top(keys: str, widths: list[int]) -> None:
    """Their volumes add up to the finished top of 2000 by 900, no two overlap, and the bench keeps its height."""
    bench, figures, _ = made(keys)
    pieces = [*bench.of(Role.TOP), *bench.of(Role.TOP_EDGING)]
    assert [each.width for each in bench.of(Role.TOP)] == widths
    thick = 18 * bench.spec.top.layers
    assert sum(each.box.x.size * each.box.y.size * each.box.z.size for each in pieces) == 2000 * 900 * thick
    assert not any(one.box.overlaps(other.box) for one, other in combinations(pieces, 2))
    # on casters of 127 and plates of 10
    assert max(span(each, "z")[1] for each in pieces) + 127 + 10 == 880
    assert (figures.top.length, figures.top.width, figures.top.thickness) == (2000, 900, thick)
    assert [each.width for each in figures.top.boards] == widths
    (step,) = [each for each in figures.assembly.steps if each.key == "top"]
    assert step.parts == tuple(each.mark for each in pieces)
    assert not [each for each in figures.checks if each.code in ("order-blocked", "overlap") and not each.ok]


def test_joints_of_layers_are_staggered() -> None:
    bench = made("boards: [share, share, share], layers: 2")[0]
    lower = {span(each, "y")[1] for each in bench.of(Role.TOP) if span(each, "z")[0] == 707}
    upper = {span(each, "y")[1] for each in bench.of(Role.TOP) if span(each, "z")[0] == 725}
    assert (lower, upper) == ({150, 450, 750, 900}, {300, 600, 900})


def test_each_board_has_its_share_of_an_opening() -> None:
    """A port over the joint: its recess of 20 goes through the upper boards and 2 into the lower; volumes add up."""
    bench, figures, _ = made(f"boards: [share, share], layers: 2, {PORT}")
    gone = Fraction(0)
    for board in bench.of(Role.TOP):
        through = [op.size for op in board.operations if op.depth is None and isinstance(op.size, tuple)]
        cuts = [op for op in board.operations if op.op == "recess" and op.depth is not None]
        gone += max((a * b * 18 for a, b in through), default=Fraction(0))
        for op in cuts:
            assert isinstance(op.size, tuple) and op.depth is not None
            hole = max(a * b for a, b in through)
            gone += (op.size[0] * op.size[1] - hole) * op.depth
    # a recess of 120 x 90 x 20 above an opening of 100 x 70 through the other 16 mm
    assert gone == 120 * 90 * 20 + 100 * 70 * 16
    assert figures.top.features[0].size == (120, 90)


def test_dry_joints_lie_over_bars_or_the_boards_that_do_are_named() -> None:
    keys = "boards: [share, share, share], run: depth, joint: dry"
    found = [each for each in made(keys)[2] if each.code == "joint-off-bar"]
    assert [each.found for each in found] == ["106.5 mm", "106.5 mm"]
    mended = solved(adapted(with_top(keys), [(each.path, each.value) for each in found[0].remedy]))
    bars = [part.box.x.middle for part in mended.of(Role.TOP_CROSS_MEMBER)]
    boards = mended.of(Role.TOP)
    for one, other in pairwise(boards):
        assert other.box.x.low - one.box.x.high == 1
        assert min(abs((one.box.x.high + other.box.x.low) / 2 - bar) for bar in bars) <= 10
    assert not [each for each in compute(mended)[1] if each.code == "joint-off-bar"]


def test_dry_boards_need_close_bars_and_brackets() -> None:
    figures = made("boards: [share, share], joint: dry")[1]
    checks = {(each.code, each.where): each for each in figures.checks}
    assert checks["boards-sag", "below the top"].value == 540
    thin = made("boards: [40, share, share], joint: dry")[1]
    held = next(each for each in thin.checks if each.code == "board-held" and not each.ok)
    assert held.where == "TB2" and held.value == 0


@pytest.mark.parametrize(
    ("keys", "code"),
    [
        ("boards: [400, 300]", "top-sum"),
        ("boards: [800, 300, share]", "top-sum"),
        ("layers: 2, joint: dry", "top-sum"),
        ("layers: 5", "out-of-range"),
    ],
)
def test_what_does_not_fill_the_top_is_refused(keys: str, code: str) -> None:
    assert [each.code for each in faults(with_top(keys))] == [code]
