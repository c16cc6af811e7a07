"""Names and lengths as they are written, and what the defaults name."""

from __future__ import annotations

import pytest

from generator.bench.role import Role
from generator.bench.solve import solve
from generator.figures.compute import compute
from generator.spec.load import read_spec
from generator.writers.figures_json import figures_json
from tests.test_spec_faults import BASE, faults

# --- the remainder of rounded shares

ROUNDED = """\
spec: 1
title: Trial
bench: {length: 1300, depth: 900, height: 900, round_shares: {step: 0.5, remainder: B2}}
zones:
  - {name: front, bays: [{width: 380}, {width: 380}, {width: 380}]}
  - {name: back, bays: [{}, {}, {}]}
"""


def test_the_remainder_may_be_a_bay_without_a_written_name() -> None:
    """B2 is the name of the back zone's second bay, on every page."""
    shares = ROUNDED.replace("[{width: 380}, {width: 380}, {width: 380}]", "[{}, {}, {}]")
    layout = solve(read_spec(shares, "bench.yml")).layout
    assert [bay.name for bay in layout.zones[1].bays] == ["B1", "B2", "B3"]
    assert [float(bay.width) for bay in layout.zones[1].bays] == [380, 380, 380]


def test_a_remainder_that_is_no_bay_is_told() -> None:
    found = faults(ROUNDED.replace("B2", "nowhere"))
    assert [finding.code for finding in found] == ["no-remainder-bay"]


# --- entries that the defaults name


@pytest.mark.parametrize(
    ("entry", "section", "key", "card"),
    [
        pytest.param(
            "materials: {bar: {use: plywood 12}}", "frame", "material", "profile 40", id="bar is a sheet"
        ),
        pytest.param(
            "materials: {ply-12: {use: strip 50 x 15}}", "panels", "material", "plywood 12", id="ply-12 is a strip"
        ),
        pytest.param(
            "materials: {poplar-20: {use: plywood 12}}", "drawers", "packing", "strip 50 x 20",
            id="poplar-20 is a sheet",
        ),
        pytest.param(
            "hardware: {caster: {use: slide 500}}", "base", "casters", "caster 100", id="caster is a slide"
        ),
        pytest.param(
            "hardware: {slot-nut: {use: end clip M8}}", "frame", "slot_nut", "slot nut M8", id="there is no slot nut"
        ),
    ],
)  # fmt: skip
def test_a_default_name_that_means_something_else_leaves_the_typical_card(
    entry: str, section: str, key: str, card: str
) -> None:
    """Names mean nothing: the spec may call its goods as it likes."""
    spec = read_spec(BASE.replace(", {totes: bin}", "") + entry + "\n", "bench.yml").spec
    assert getattr(getattr(spec, section), key) == card


# --- names and lengths as they are written


@pytest.mark.parametrize(
    "name", ["No", "On", "yes", "1e3", "0x1F", "012", "12:30", "2026-11-02", ".inf", "1_000", "null0"]
)
def test_names_stay_what_was_written(name: str) -> None:
    text = BASE.replace("name: left", f"name: {name}").replace("title: Trial", f"title: {name}")
    text = (
        text.replace(", {totes: bin}", "")
        + f"materials: {{{name}: {{use: plywood 12}}}}\npanels: {{material: {name}}}\n"
    )
    loaded = read_spec(text, "bench.yml")
    assert loaded.spec.title == name
    bench = solve(loaded)
    assert bench.layout.bays[0].name == name
    assert f'"bay": "{name}"' in figures_json(compute(bench)[0])
    assert bench.of(Role.DIVIDER)[0].material == name


@pytest.mark.parametrize(
    ("units", "written", "millimetres"),
    [
        ("mm", "1300", 1300),
        ("mm", "1.3 m", 1300),
        ("mm", "130 cm", 1300),
        ("mm", "50 in", 1270),
        ("mm", "4 ft 2 in", 1270),
        ("mm", "4' 2\"", 1270),
        ("mm", "50 1/2 in", 1282.7),
        ("mm", "50½ in", 1282.7),
        ("mm", "1300 1/2", 1300.5),
        ("in", "50", 1270),
        ("in", "50 1/2", 1282.7),
        ("in", "50-1/2", 1282.7),
        ("in", "4 ft 2 1/2 in", 1282.7),
        ("in", "4'2-1/2\"", 1282.7),
        ("in", "1300 mm", 1300),
        ("in", "4.25 ft", 1295.4),
    ],
)
def test_lengths_with_fractions_and_feet(units: str, written: str, millimetres: float) -> None:
    text = BASE.replace("units: mm", f"units: {units}")
    if units == "in":
        text = text.replace("depth: 700, height: 900", "depth: 28, height: 36").replace(
            "{shelf: 60}", "{shelf: 3}"
        )
    loaded = read_spec(text.replace("length: 1300", f"length: {written}"), "bench.yml")
    assert float(loaded.spec.bench.length) == pytest.approx(millimetres, abs=1e-9)


@pytest.mark.parametrize(
    "saw", ["bar: {kerf: 9000}", "sheet: {kerf: 26}", "sheet: {break_down: {max_length: 900, kerf: 26}}"]
)
def test_a_kerf_wider_than_any_blade_is_refused(saw: str) -> None:
    (found,) = faults(BASE.replace(", {totes: bin}", "") + f"saws: {{{saw}}}\n")
    assert found.code == "out-of-range"
    assert "kerf: no saw blade is this wide" in str(found)
