"""Timber creeps under what stays, metal does not: each row against Eurocode 5 and against a plain beam."""

from __future__ import annotations

import pytest

from generator.figures.compute import compute
from tests.bench.benches import DEMO, changed, solved
from tests.test_every_key import TIMBER

#: 1 + k_def of solid timber in service class 1: EN 1995-1-1, table 3.2.
SOLID = 1.6


@pytest.mark.usefixtures("quick_plans")
def test_rails_of_timber_are_judged_by_what_stays_for_years() -> None:
    text = changed(TIMBER.read_text(encoding="utf-8"), ("creep: 1.6, ", ""))
    figures, _ = compute(solved(text))
    rails = [row for row in figures.sags if row.kind in ("top rail", "base rail")]
    stays = [row for row in rails if row.years is not None]
    assert len(stays) == 3 and all(row.spread for row in stays)
    for row in stays:
        assert row.years == pytest.approx(SOLID * row.sag)
        assert row.judged == row.years
    assert all(row.spread or row.years is None for row in rails)


@pytest.mark.usefixtures("quick_plans")
def test_a_top_rail_in_its_frame_sags_less_than_a_beam_over_its_whole_length() -> None:
    """Half of 100 kg over a rail of 1430 on knife edges, 5 w L⁴ / 384 E I with 70 x 95 of 12 GPa: 0.4 mm."""
    figures, _ = compute(solved(TIMBER.read_text(encoding="utf-8")))
    for row in figures.sags:
        if row.kind == "top rail" and row.years is not None:
            beam = 5 * 50 * 9.80665 * 1430**3 / (384 * 12_000 * 70 * 95**3 / 12)
            assert 0 < row.sag < beam + 1


@pytest.mark.usefixtures("quick_plans")
def test_bars_of_metal_do_not_creep() -> None:
    figures, _ = compute(solved(DEMO))
    assert all(row.years is None for row in figures.sags if row.kind in ("top rail", "base rail"))
