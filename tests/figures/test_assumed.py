"""What the user did not say: the plays that no key changes are those that the pieces were cut with."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from generator.bench.model import Bench
from generator.bench.role import Role
from generator.figures.assumed import assumed
from tests.bench.benches import STACK, solved

FIXED = "fixed millimetres in any unit"


def told(bench: Bench) -> dict[str, Any]:
    return {row.path: row.value for row in assumed(bench) if row.reason == FIXED}


def test_the_plays_that_are_told_are_in_the_pieces() -> None:
    """Of the worked bench, from its placed pieces and the bars beside them."""
    bench = solved()
    fixed = told(bench)
    trims = [part for part in bench.parts if part.role is Role.TRAY_TRIM]
    bays = {bay.name: bay.width for bay in bench.layout.bays}
    assert {bays[trim.place.bay] - trim.length for trim in trims} == {
        fixed["a trim piece is shorter than its bay by"]
    }
    strips = [part for part in bench.parts if part.role is Role.PACKING_STRIP]
    assert {strip.box.z.low - bench.layout.levels.base_top for strip in strips} == {
        fixed["a packing strip begins above the base rail by"]
    }
    runners = [part for part in bench.parts if part.role is Role.TOTE_RUNNER]
    zones = {bay.name: bench.layout.zones[bay.zone].y.size for bay in bench.layout.bays}
    assert {zones[runner.place.bay] - runner.length for runner in runners} == {
        fixed["a runner is shorter than its zone by"]
    }


def test_a_bench_of_shelves_is_told_the_plays_of_shelves() -> None:
    bench = solved(STACK % "{shelf: 300}")
    fixed = told(bench)
    assert [name for name in fixed if "shelf" in name] == [
        "a shelf is shorter than its recess and its zone by"
    ]
    assert not [name for name in fixed if "drawer" in name or "runner" in name or "packing" in name]
    (shelf,) = [part for part in bench.parts if part.role is Role.SHELF]
    (play,) = (value for name, value in fixed.items() if "shelf" in name)
    assert bench.layout.zones[0].y.size - shelf.box.y.size == play == Fraction(2)
