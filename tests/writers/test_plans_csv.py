"""The plans as tables: every piece once, cuts that add up to the sheets, prices that add up to the total."""

from __future__ import annotations

import csv
import io
from collections import Counter

import pytest

from generator.figures.model import Figures
from generator.writers.plans_csv import plans_csv
from tests.prints.bench import NAMES, figures_of

Rows = list[dict[str, str]]


def table(figures: Figures, name: str) -> Rows:
    return list(csv.DictReader(io.StringIO(plans_csv(figures)[name])))


@pytest.mark.parametrize("name", NAMES)
def test_every_piece_stands_once_and_bars_add_up(name: str) -> None:
    figures = figures_of(name)
    bars = table(figures, "bar-plan.csv")
    assert Counter(row["mark"] for row in bars) == Counter(m for b in figures.cutting.bars for m in b.pieces)
    saw = figures.cutting.bars[0]
    for row in bars:
        same = [r for r in bars if (r["material"], r["bar"]) == (row["material"], row["bar"])]
        taken = sum(float(r["stop_mm"]) + float(saw.kerf) for r in same)
        rest = float(row["stock_mm"]) - 2 * float(saw.trim) - taken
        assert float(row["offcut_mm"]) == pytest.approx(max(0.0, rest), abs=1e-6)
    laid = Counter(row["mark"] for row in table(figures, "sheet-plan.csv"))
    assert laid == Counter(p.mark for sheet in figures.cutting.sheets for p in sheet.pieces)


@pytest.mark.parametrize("name", NAMES)
def test_cuts_stand_in_the_order_of_the_fence(name: str) -> None:
    figures = figures_of(name)
    rows = table(figures, "sheet-cuts.csv")
    assert len(rows) == sum(len(sheet.cuts) for sheet in figures.cutting.sheets)
    settings = [(row["material"], int(row["setting"])) for row in rows]
    for material in {row["material"] for row in rows}:
        own = [n for name, n in settings if name == material]
        assert own == sorted(own) and set(own) == set(range(1, max(own) + 1))
    for row in rows:
        across = row["direction"] == "across"
        assert float(row["cut_at_mm"]) < float(row["from_length_mm" if across else "from_width_mm"])


@pytest.mark.parametrize("name", NAMES)
def test_the_costs_of_the_shopping_list_add_up(name: str) -> None:
    figures = figures_of(name)
    rows = table(figures, "shopping-list.csv")
    assert sum(float(row["cost"] or 0) for row in rows) == pytest.approx(figures.purchase_total.cost)
    assert len(rows) == sum(max(1, len(row.buy)) for row in figures.purchases)
