"""Panels of solid wood from check to page: each finding is provoked, its advice helps, and the manual says it all."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.bench.solve import solve
from generator.figures.compute import compute
from generator.findings import Finding
from generator.manual import Manual
from generator.pages import PAGES
from generator.spec.adapt import adapted
from generator.spec.load import read_spec
from tests.bench.benches import changed

TEXT = (Path(__file__).parent / "data" / "timber.yml").read_text(encoding="utf-8")
CODES_OF_FLOATING = {"panel-leaves", "panel-hold", "strips-across", "panel-moisture", "moisture-open"}
CURED_FLOATING = ("panel-leaves", "panel-hold", "strips-across")
FLAT, OPEN = ("sawn: quarter", "sawn: flat"), ("moisture: 9, ", "")
UPRIGHT = ("panels: {boards", "grain: {end panel: width}\npanels: {boards")


def told(text: str) -> dict[str, Finding]:
    return {each.code: each for each in compute(solve(read_spec(text, "timber.yml")))[1]}


@pytest.mark.parametrize(
    ("pairs", "codes"),
    [
        ((), set()),
        ((FLAT,), {"panel-hold"}),
        ((FLAT, OPEN), {"panel-leaves", "moisture-open"}),
        ((OPEN,), {"panel-hold", "moisture-open"}),
        ((("moisture: 9", "moisture: 14"),), {"panel-moisture"}),
        ((UPRIGHT,), {"strips-across"}),
    ],
    ids=["usual", "flat", "flat, open", "open", "damp", "upright"],
)
@pytest.mark.usefixtures("quick_plans")
def test_each_finding_is_provoked_and_its_advice_helps(
    pairs: tuple[tuple[str, str], ...], codes: set[str]
) -> None:
    text = changed(TEXT, *pairs)
    found = told(text)
    assert set(found) & CODES_OF_FLOATING == codes
    changes = {it.path: it.value for code in codes for it in found[code].remedy}
    if changes:
        after = told(adapted(text, list(changes.items())))
        # what only a meter can cure stays
        assert set(after) & CODES_OF_FLOATING <= {"moisture-open", "panel-moisture"}
        assert not {each.code for each in after.values() if each.severity.name == "ERROR"}


#: The bench of lumber in inches with ends of solid fir, flat-sawn in a damp shop.
LUMBER = changed(
    (Path(__file__).parents[1] / "specs" / "samples" / "lumber.yml").read_text(encoding="utf-8"),
    ("ply: {use: plywood 1/2 in,", "ply: {use: plywood 1/2 in, thickness: 15/32,"),
    ("  cleat: {use", "  fir: {kind: sheet, species: Douglas-fir, moisture: 11, thickness: 15/32, density: 34 lb/ft^3, "
     "measured: 2026-11-16, stock: [{length: 96, width: 24, price: 20}]}\n  cleat: {use"),
    ("panels: {material: ply}", "panels: {material: ply, boards: {ends: fir}}\nfinish: {panels: {coat: oil}}\n"
     "climate: {driest: 45, dampest: 70}"),
)  # fmt: skip
METRIC = changed(TEXT, ("units: mm", "units: mm\nfinish: {panels: {coat: oil}}"))


@pytest.mark.usefixtures("quick_plans")
@pytest.mark.parametrize("text", [METRIC, LUMBER], ids=["millimetres", "inches"])
def test_the_manual_says_what_is_measured_cut_and_glued(text: str) -> None:
    loaded = read_spec(text, "bench.yml")
    figures, findings = compute(solve(loaded))
    assert [
        str(each) for each in findings if each.severity.name == "ERROR" or each.code in CODES_OF_FLOATING
    ] == []
    assert figures.assembly.proved
    manual = Manual(loaded, figures, "bench.yml")
    pages = {
        page.slug: manual.page(page)
        for page in PAGES
        if page.slug in ("assembly", "set-up-cards", "fits", "part-sheets")
    }
    first, second = (
        pages["set-up-cards"].index(each) for each in ("Moisture, before anything", "Panels that float")
    )
    assert first < second
    assert "Measure the moisture of the wood first" in pages["assembly"]
    assert "One spot of glue in the middle of each end" in pages["assembly"]
    assert "Coat panels of solid wood to their edges" in pages["assembly"]
    assert "Edges that move with the seasons: bottom, top" in pages["part-sheets"]
    (row,) = (row for row in figures.seasons.rows if row.name == "end panel, across its grain")
    assert row.enough and row.room is not None and 0 < row.change < row.room
    assert "End panel, across its" in pages["fits"]
