"""A material is called what it is, in the unit of its bench; its name in the spec is small beside it."""

from __future__ import annotations

import re

import pytest

from generator.bench.solve import solve
from generator.figures.compute import compute
from generator.manual import Manual
from generator.pages import PAGES
from generator.spec.cards import typical_cards
from generator.spec.labels import AnyMaterial, material_label
from generator.spec.load import read_spec
from generator.writers.starter import starter_text


def material(words: str, units: str = "mm") -> AnyMaterial:
    text = starter_text(units).replace("materials:\n", f"materials:\n  x: {words}\n")
    return read_spec(text, "x.yml").spec.materials["x"]


@pytest.mark.parametrize(
    ("words", "units", "label"),
    [
        ("{use: profile 40}", "mm", "40 × 40 aluminium bar"),
        ("{use: profile 40, modulus: 210 GPa}", "mm", "40 × 40 steel bar"),
        ("{use: profile 1 1/2 in}", "in", "1 1/2 × 1 1/2 in aluminium bar"),
        ("{use: plywood 12}", "mm", "12 mm plywood"),
        ("{use: plywood 12, thickness: 11.8}", "mm", "11.8 mm plywood"),
        ("{use: plywood 12, label: birch plywood}", "mm", "12 mm birch plywood"),
        ("{use: plywood 12, thickness: 11.8, label: 12 mm birch plywood}", "mm", "12 mm birch plywood"),
        ("{use: plywood 3/4 in}", "in", "23/32 in plywood"),
        ("{use: plywood 1/2 in, thickness: 0.475}", "in", "0.475 in plywood"),
        ("{use: mdf 18}", "mm", "18 mm MDF"),
        ("{kind: sheet, thickness: 9, density: 700 kg/m^3}", "mm", "9 mm sheet"),
        ("{use: strip 50 x 20}", "mm", "50 × 20 mm wood strip"),
        ("{use: angle 15}", "mm", "15 × 15 × 2 mm aluminium angle"),
        ("{use: angle 15, density: 7850 kg/m^3}", "mm", "15 × 15 × 2 mm steel angle"),
    ],
)
def test_a_label_says_size_and_stuff(words: str, units: str, label: str) -> None:
    assert material_label(material(words, units), units) == label


def test_every_sheet_among_the_cards_says_what_it_is() -> None:
    """Only a sheet's kind does not say it."""
    sheets = {name: card for name, card in typical_cards()["materials"].items() if card["kind"] == "sheet"}
    assert sheets and {name for name, card in sheets.items() if "label" not in card} == set()


def test_pages_name_materials_by_their_labels_and_the_spec_s_name_beside_them() -> None:
    text = starter_text().replace("use: plywood 12", "use: plywood 12, label: birch plywood")
    loaded = read_spec(text, "x.yml")
    manual = Manual(loaded, compute(solve(loaded))[0], "x.yml")
    shown = ("cut-list", "bar-plan", "sheet-plan", "set-up-cards", "shopping-list")
    pages = {page.slug: manual.page(page) for page in PAGES if page.slug in shown}
    for slug, name, label in (
        ("cut-list", "bar", "40 × 40 aluminium bar"),
        ("bar-plan", "bar", "40 × 40 aluminium bar"),
        ("cut-list", "ply-12", "12 mm birch plywood"),
        ("sheet-plan", "ply-12", "12 mm birch plywood"),
    ):
        assert f'## {label} <small class="bm-key">{name}</small>' in pages[slug]
    assert "Fence: 12 mm birch plywood" in pages["set-up-cards"]
    assert "Sheet 1 of 12 mm birch plywood</title>" in pages["sheet-plan"]
    assert "Thickness of 12 mm birch plywood (ply-12)" in pages["set-up-cards"]
    assert re.search(r"12 mm birch plywood.*ply-12", pages["shopping-list"])


def test_two_materials_of_one_label_keep_their_names() -> None:
    text = starter_text().replace("materials:\n", "materials:\n  other: {use: plywood 12}\n")
    figures, _ = compute(solve(read_spec(text + "tray: {material: other}\n", "x.yml")))
    assert figures.materials["other"] == "12 mm plywood (other)"
    assert figures.materials["ply-12"] == "12 mm plywood (ply-12)"
