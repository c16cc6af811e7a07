"""The goods that a spec chooses, found once: each of the kind that its place asks for, with what was measured."""

from __future__ import annotations

from fractions import Fraction

from generator.spec.load import LoadedSpec, RecordText, read_spec
from tests.bench.benches import DEMO

MEASURED = "- date: 2026-02-01\n  measured: {path: 'materials.ply-12.thickness', value: 11.7}\n"


def loaded(text: str = DEMO, record: str = "") -> LoadedSpec:
    return read_spec(text, "bench.yml", RecordText(record, "bench.record.yml") if record else None)


def test_each_card_is_the_one_that_its_place_names() -> None:
    """The worked bench: a bar of 40, a slide of 500, brackets of 5 without a card."""
    given = loaded()
    spec, goods = given.spec, given.goods
    assert goods.profile is not None
    assert goods.profile.section == 40
    assert goods.wall is spec.materials[spec.panels.material]
    assert goods.tray is spec.materials[spec.tray.material]
    assert goods.top is spec.materials[spec.top.material]
    assert goods.slot_nut is spec.hardware[spec.frame.slot_nut]
    assert (goods.bracket, goods.bracket_thickness) == (None, spec.top.bracket_thickness)
    assert goods.slides[spec.drawers.slide].length == 500
    assert set(goods.joints) == {"end-clip", "through-screw"}


def test_every_material_is_sold_by_length_or_by_sheet() -> None:
    given = loaded()
    spec, goods = given.spec, given.goods
    assert not set(goods.sheets) & set(goods.lengths)
    assert {*goods.sheets, *goods.lengths} == set(spec.materials)
    assert {*goods.strips, *goods.angles} < set(goods.lengths)


def test_a_bracket_of_the_spec_brings_its_own_thickness() -> None:
    card = "\n  corner: {kind: bracket, size: [40, 40, 6], holes: [20], screw: 5x16}"
    text = DEMO.replace("\nhardware:", f"\nhardware:{card}").replace("\ntop: {", "\ntop: {bracket: corner, ")
    goods = loaded(text).goods
    assert goods.bracket is goods.brackets["corner"]
    assert goods.bracket_thickness == 6


def test_measured_goods_are_the_ones_in_use_and_written_ones_stay() -> None:
    """They are found once: what is asked twice is the same."""
    written, measured = loaded(), loaded(record=MEASURED)
    assert measured.goods.wall.thickness == Fraction("11.7")
    assert measured.as_written().goods.wall.thickness == written.goods.wall.thickness == 12
    assert measured.goods is measured.goods
