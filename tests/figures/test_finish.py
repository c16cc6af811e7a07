"""Finishes: areas against faces summed by hand, litres, whole tins, steps, and the shopping list."""

from __future__ import annotations

from math import ceil

import pytest

from generator.figures.compute import figures_of
from generator.figures.model import Figures
from generator.findings import SpecError
from generator.spec.load import read_spec
from tests.bench.benches import DEMO

FINISH = """
finish:
  packing: {coat: paint, coats: 2, coverage: 10 m2/l, dry: 4 h}
  panels: {coat: oil, coverage: 24 m2/l, price: 28}
  top: {coat: oil, coverage: 24 m2/l, price: 28}
  drawers: {coat: shellac, coats: 3, coverage: 400 sq ft/gal, dry: 90 min, tin: 1 qt}
  shelves: {coat: oil, coats: 1, coverage: 24 m2/l, when: after assembly, price: 28}
  doors: {coat: paint}
"""
#: Faces of the demo by hand (mm), from the sizes on its cut list: a tongue of 10 is masked on both faces and its edge.
BY_HAND = {
    # 2000 × 900 × 18; its holes of 20 are not taken off
    "top": 2 * (2000 * 900 + 2000 * 18 + 900 * 18),
    # four of 966 × 278 × 18
    "shelves": 4 * 2 * (966 * 278 + 966 * 18 + 278 * 18),
    # twelve of 480 × 50 × 15, without their backs
    "packing": 12 * (480 * 50 + 2 * 480 * 15 + 2 * 50 * 15),
}


@pytest.fixture(scope="module")
def figures() -> Figures:
    found, _ = figures_of(read_spec(DEMO + FINISH, "bench.yml"))
    return found


def test_areas_are_sums_of_faces(figures: Figures) -> None:
    areas = {layer.key: layer.area_m2 * 1e6 for row in figures.finish for layer in row.layers}
    assert {key: areas[key] for key in BY_HAND} == pytest.approx(BY_HAND)


def test_tongues_are_no_faces(figures: Figures) -> None:
    # a divider of the front zone: 520 × 509 with three tongues, so 500 × 499 and its top edge; notches only in tongues
    fronts = 3 * (2 * 500 * 499 + 500 * 12)
    parts = {row.mark: row for row in figures.parts}
    faces = {}
    for mark, count, tongues in (("BD1", 1, 3), ("EF1", 2, 4), ("EB1", 2, 4)):
        long, high = float(parts[mark].length) - 20, float(parts[mark].width) - (10 if tongues == 3 else 20)
        faces[mark] = count * (2 * long * high + (long * 12 if tongues == 3 else 0))
    spines = sum(
        len(row.pieces)
        * (2 * (float(row.length) - 20) * float(row.width) + 2 * (float(row.length) - 20) * 12)
        for row in figures.parts
        if row.group == "spine panel"
    )
    # the tray: 1940 × 896 with a tongue at both ends, and its corner notches are 2 × 40 beyond them
    tray = 2 * 1920 * 896 + 2 * 1920 * 12
    (panels,) = (layer for row in figures.finish for layer in row.layers if layer.key == "panels")
    assert panels.area_m2 * 1e6 == pytest.approx(fronts + sum(faces.values()) + spines + tray)


def test_one_box_by_hand(figures: Figures) -> None:
    # the demo has 8 drawers with boxes of 472 × 500; heights by their fronts of 165, 130, 107, 80 less 25
    heights = [140, 105, 82, 55] * 2
    sides = sum(2 * (2 * 500 * h + 2 * 500 * 12 + 2 * h * 12 - 500 * 6) for h in heights)
    ends = sum(2 * (2 * 448 * h + 2 * 448 * 12 - 448 * 6) for h in heights)
    bottoms = 8 * 2 * (459 - 12) * (487 - 12)
    faces = sum(2 * (494 * f + 494 * 18 + f * 18) for f in [165, 130, 107, 80] * 2)
    (drawers,) = (layer for row in figures.finish for layer in row.layers if layer.key == "drawers")
    assert drawers.area_m2 * 1e6 == pytest.approx(sides + ends + bottoms + faces)


def test_litres_and_tins_follow_coats_and_coverage(figures: Figures) -> None:
    rows = {row.coat: row for row in figures.finish}
    assert set(rows) == {"oil", "shellac", "paint"}
    areas = {layer.key: layer.area_m2 for row in figures.finish for layer in row.layers}
    oil = (2 * areas["top"] + 2 * areas["panels"] + areas["shelves"]) / 24
    # 400 square feet a US gallon, by the exact foot and gallon
    shellac = 3 * areas["drawers"] / (400 * 0.3048**2 / 3.785411784)
    assert [rows["oil"].litres, rows["shellac"].litres] == pytest.approx([oil, shellac])
    assert rows["oil"].tins == ceil(oil * 1.15 / 0.75) and rows["shellac"].tins == ceil(
        shellac * 1.15 / 0.946352946
    )
    # no doors on this bench, so nothing is bought for them
    assert rows["paint"].litres == pytest.approx(2 * areas["packing"] / 10)
    bought = {row.item: row for row in figures.purchases if row.section == "Finishes"}
    assert bought["oil"].cost == 28 * rows["oil"].tins and "paint" in figures.purchase_total.unpriced


def test_each_part_is_coated_in_its_step(figures: Figures) -> None:
    steps = {step.key: step for step in figures.assembly.steps if "finish" in step.key}
    keys = [step.key for step in figures.assembly.steps]
    assert keys.index("boards") < keys.index("finish") < keys.index("strips")
    assert keys.index("lid") < keys.index("late-finish") < keys.index("drawers")
    assert keys.index("drawers") < keys.index("last-finish") < keys.index("load")
    assert "FD1" in steps["finish"].parts and "DS1" in steps["late-finish"].parts
    assert set(steps["last-finish"].parts) == {"SH1", "SH2", "SH3", "SH4"}
    assert "Let each coat dry for 1.5 h, and sand lightly before the next." in steps["late-finish"].notes
    assert any("tongues" in note for note in steps["finish"].notes if note.startswith("Mask"))
    assert all("finish" in step.cautions for step in steps.values())


def test_a_bench_without_finish_buys_none() -> None:
    found, _ = figures_of(read_spec(DEMO, "bench.yml"))
    assert found.finish == () and not [row for row in found.purchases if row.section == "Finishes"]


@pytest.mark.parametrize(
    ("value", "code"),
    [
        ("coverage: 10", "bad-quantity"),
        ("coverage: 10 m2", "bad-quantity"),
        ("coverage: 0 m2/l", "out-of-range"),
        ("dry: 12", "bad-quantity"),
        ("tin: 0 l", "out-of-range"),
        ("coats: 0", "bad-count"),
        ("when: later", "not-a-choice"),
    ],
)
def test_what_a_tin_cannot_say_is_refused(value: str, code: str) -> None:
    with pytest.raises(SpecError) as refused:
        read_spec(f"{DEMO}finish: {{top: {{coat: oil, {value}}}}}\n", "bench.yml")
    assert [finding.code for finding in refused.value.findings] == [code]
