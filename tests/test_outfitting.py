"""Fillings and stands on many benches: doors turned by geometry of its own, and what tips whatever it stands on."""

from __future__ import annotations

from dataclasses import replace

import pytest

from generator.bench.model import Bench
from generator.figures.balance import masses
from generator.figures.hardware import hardware
from generator.figures.parts import part_rows
from generator.figures.stability import stability
from generator.geometry import Span
from tests.bench.benches import DEMO, changed, solved
from tests.benchmarks.outfitting import Case, blocked, cases, overlaps, spec_of, swept, wrong_with
from tests.effort import THOROUGH

BEHIND_A_DOOR = Case("front", "{shelf: 80}", "left", 340, "feet", banded=False)


@pytest.fixture(scope="module")
def bench() -> Bench:
    return solved(spec_of(BEHIND_A_DOOR))


def test_a_door_turns_clear_of_all_that_stands_there(bench: Bench) -> None:
    assert list(swept(bench)) == []
    assert overlaps(bench) == []


def test_a_board_in_the_way_of_a_door_is_found(bench: Bench) -> None:
    """A shelf moved to the front of its bay, where the door is."""
    (shelf,) = (part for part in bench.parts if part.name == "shelf" and part.place.bay == "it")
    moved = replace(shelf, box=replace(shelf.box, y=replace(shelf.box.y, low=shelf.box.y.low - 40)))
    before = replace(bench, parts=tuple(moved if part is shelf else part for part in bench.parts))
    assert {what.split(" ")[0] for _, what in swept(before)} == {shelf.mark}


if THOROUGH:

    @pytest.mark.parametrize("case", cases(), ids=str)
    def test_nothing_is_wrong_with_a_filling_in_any_size(case: Case) -> None:
        assert wrong_with(case) == []


def test_feet_and_casters_tip_alike_where_they_stand_alike() -> None:
    """Casters without trail, and feet at the same points under the same masses."""
    casters = "base: {casters: caster, count: 6, plate: {size: [170, 170], thickness: 10}}"
    feet = "base: {feet: pad, count: 6, plate: {size: [170, 170], thickness: 10}}"
    card = ("\nhardware:\n", "\nhardware:\n  pad: {use: foot M10}\n")
    rolling = solved(changed(DEMO, ("trail: 40", "trail: 0")))
    standing = solved(changed(DEMO, (casters, feet), card)).stand
    assert (rolling.stand.inward, standing.inward) == (0, None)
    weight = masses(rolling, part_rows(rolling), hardware(rolling))
    alike = replace(rolling, stand=replace(standing, points=rolling.stand.points))
    assert [row.margins for row in stability(alike, weight)] == [
        row.margins for row in stability(rolling, weight)
    ]


def test_a_drawer_that_would_hit_the_open_door_is_found() -> None:
    """Behind a door before the posts; the drawer is then moved to the wall at the hinges."""
    bench = solved(spec_of(Case("front", "{drawer: share}", "overlay left", 480, "feet", banded=False)))
    assert list(blocked(bench)) == [] and list(swept(bench)) == []
    (door,) = (part for part in bench.parts if part.name == "door" and part.place.bay == "it")
    side = next(part for part in bench.parts if part.name == "drawer side" and part.place.bay == "it")
    shift = side.box.x.low - door.box.x.low
    moved = replace(side, box=replace(side.box, x=Span(side.box.x.low - shift, side.box.x.high - shift)))
    hit = replace(bench, parts=tuple(moved if part is side else part for part in bench.parts))
    assert list(blocked(hit)) == [(door.mark, side.mark)]
