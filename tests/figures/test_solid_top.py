"""A top of solid wood: the slots of its brackets by the trade's own sum, and what its wood does with the seasons."""

from __future__ import annotations

from math import ceil

import pytest

from generator.bench.model import Bench
from generator.calculators.wood_movement import moisture_in_equilibrium, slot_length
from generator.figures.seasons import moistures, seasons
from generator.figures.solid_top import fixed_line, moves_in_depth, slot_needed
from tests.bench.benches import solved
from tests.test_every_key import TIMBER


@pytest.fixture(scope="module")
def bench() -> Bench:
    return solved(TIMBER.read_text())


def test_a_slot_has_room_for_the_whole_change_either_way() -> None:
    """Beech 700 wide, held in its middle, moves 6 at the edge: 5 + 12 + 1 for a screw of 5."""
    assert slot_length(shank=5.0, change=6.0) == pytest.approx(18)


def test_the_slots_follow_wood_climate_and_place(bench: Bench) -> None:
    """American beech takes 0.431 % for each per cent of moisture across its grain, table 13-5."""
    climate = bench.spec.climate
    wetter = moisture_in_equilibrium(
        celsius=float(climate.coldest), humidity=float(climate.dampest)
    ) - moisture_in_equilibrium(celsius=float(climate.warmest), humidity=float(climate.driest))
    assert moves_in_depth(bench)
    furthest = max(abs(each.at[1] - fixed_line(bench)) for each in bench.brackets)
    expected = 5 + 2 * float(furthest) * 0.00431 * wetter + 1
    assert slot_needed(bench, moistures(bench)[2]) == ceil(expected)


def test_it_moves_across_its_grain_and_hardly_along_it(bench: Bench) -> None:
    along, across = (row.change / float(row.size) for row in seasons(bench).rows[:2])
    assert across / along == pytest.approx(0.00431 / 0.00005)
