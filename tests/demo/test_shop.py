"""The worked bench's fits, its year, and its figures for the shop."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.bench.solve import solve
from generator.figures.fit_ranges import fit_ranges
from generator.figures.model import Figures
from generator.resources import bundled
from generator.spec.load import read_spec

DEMO = bundled("specs") / "demo.yml"


def test_fits_have_their_word(figures: Figures) -> None:
    found = {row.name: row for row in figures.fit_ranges}
    tongue = found["tongue in its slot"]
    assert tongue.nominal == Fraction(1, 5)
    # slot ±0.1, sheet ±0.1, two rabbets ±0.05
    assert tongue.worst == (Fraction(-1, 10), Fraction(1, 2))
    assert tongue.likely == pytest.approx((0.2 - 0.025**0.5, 0.2 + 0.025**0.5))
    assert (tongue.verdict, tongue.worst_verdict) == ("slides by hand", "binds to slides by hand")
    assert found["space under both tongues"].worst_verdict == "clear of the bottom"
    assert found["drawer between its slides"].nominal == Fraction(3, 5)
    assert found["drawer between its slides"].worst_verdict == "binds to slides by hand"
    for row in figures.fit_ranges:
        assert row.worst[0] <= row.likely[0] <= row.likely[1] <= row.worst[1]
        assert row.worst[0] == row.nominal + sum(size.lower for size in row.sizes)


def test_a_sheet_that_nobody_measured_may_be_off_by_more() -> None:
    text = DEMO.read_text(encoding="utf-8")
    unmeasured = text.replace("    measured: 2026-10-28\n    grain", "    grain")
    spread = text.replace("thickness: 12.0", "thickness: 12.0\n    spread: 0.4")
    rows = {}
    for name, spec in (("measured", text), ("unmeasured", unmeasured), ("spread", spread)):
        changed = read_spec(spec, "bench.yml")
        rows[name] = fit_ranges(solve(changed))[0].worst
    # EN 315, 12 mm: -0.76, +0.56
    assert rows["unmeasured"] == (Fraction("-0.56"), Fraction("1.16"))
    assert rows["spread"] == (Fraction("-0.2"), Fraction("0.6"))
    assert rows["measured"] == (Fraction("-0.1"), Fraction("0.5"))


def test_the_year_moves_wood(figures: Figures) -> None:
    year = figures.seasons
    assert year is not None
    assert 6 < year.driest < 7 < 12 < year.dampest < 13
    rows = {row.name: row for row in year.rows}
    assert rows["top, length"].change > rows["top, depth"].change
    assert rows["tray, between its slots"].enough
    assert rows["bar, long rail"].change == pytest.approx(1920 * 23e-6 * 20)


def test_shop_figures_of_the_reference_bench(figures: Figures) -> None:
    """Reference: 50 ends and 35 access holes at 3 min, 15 screw holes at 5, 20 reliefs at 7: 470, notches aside."""
    shop = figures.shop
    assert shop is not None
    minutes = {row.operation: row.minutes for row in shop.times}
    assert sum(minutes.values()) - minutes["notch"] == 470
    assert [(row.low, row.high) for row in shop.tightening] == [(pytest.approx(8), pytest.approx(9.6))]
    relief = shop.cutters[0]
    assert (relief.passes, relief.pass_depth) == (3, 2)
    assert round(shop.pocket) == 41
    # bars 270, strips 63, angles 12, sheets 225 by the plans, and a tenth
    assert shop.cost_with_surcharge == pytest.approx(570 * 1.1)
