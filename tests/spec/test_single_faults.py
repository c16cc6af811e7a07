"""Faults that are told in one place only, with what was probably meant."""

from __future__ import annotations

import pytest

from generator.bench.solve import solve
from generator.findings import Severity
from generator.spec.load import read_spec
from tests.test_spec_faults import BASE, faults, told, with_second_zone


def test_base_has_no_fault() -> None:
    loaded = read_spec(BASE.replace(", {totes: bin}", ""), "bench.yml")
    solve(loaded)


def test_a_single_faulty_zone_is_not_a_list_too_short() -> None:
    """One fault, one finding: the list of zones has the one zone that it needs."""
    found = faults(BASE.replace("{shelf: 60}", "{shelf: 6o}"))
    assert [finding.code for finding in found] == ["bad-length"]


def test_zones_that_are_missing_are_told() -> None:
    text = BASE[: BASE.index("zones:")] + "zones: []\n"
    assert [told(finding) for finding in faults(text)] == [("too-few", 5, 8, "zones", "a list of 0", "")]
    text = BASE[: BASE.index("zones:")] + "zones: [{name: a, bays: []}, {name: b, bays: [{}]}]\n"
    assert [told(finding) for finding in faults(text)] == [
        ("too-few", 5, 25, "zones[0].bays", "a list of 0", "")
    ]
    text = (
        BASE[: BASE.index("zones:")]
        + f"zones: [{', '.join(f'{{name: z{n}, bays: [{{}}]}}' for n in range(9))}]\n"
    )
    assert [told(finding) for finding in faults(text)] == [("too-many", 5, 8, "zones", "a list of 9", "")]


def test_a_misspelt_kind_is_shown_with_the_right_one() -> None:
    (finding,) = faults(BASE + "materials: {a: {kind: sheat}}\n")
    assert told(finding) == ("unknown-kind", 12, 23, "materials.a.kind", "sheat", "sheet")


@pytest.mark.parametrize(
    "text",
    [
        "base: {plate: {size: [170]}}\n",
        "hardware: {end-clip: {use: end clip M8, clip: [36, 14]}}\n",
        "frame: {clamp_access: {opening: [16]}}\n",
        "extra: {members: [{name: brace, along: x, at: [0, 0], length: 100}]}\n",
    ],
)
def test_a_list_of_fixed_length_that_is_too_short_is_told(text: str) -> None:
    (finding,) = faults(BASE + text)
    assert finding.code in ("too-few", "missing-key")
    assert finding.where is not None
    assert finding.where.line == 12


def test_two_keys_that_resemble_one_are_two_faults() -> None:
    found = faults(BASE + "panels: {tonge: 9, tounge: 8}\n")
    assert [(finding.code, finding.found) for finding in found] == [
        ("unknown-key", "tonge"),
        ("unknown-key", "tounge"),
    ]
    found = faults(BASE + "panels: {tongue: 9, tounge: 8}\n")
    assert [(finding.code, finding.found) for finding in found] == [("unknown-key", "tounge")]


def test_a_misspelt_key_hides_no_fault_below_it() -> None:
    """What stands under it is read as under the right key; the right key is not told to be missing."""
    found = faults(BASE.replace("bench: {length: 1300", "bensh: {length: 13oo"))
    assert [told(finding) for finding in found] == [
        ("unknown-key", 4, 1, "bensh", "bensh", "bench"),
        ("bad-length", 4, 17, "bensh.length", "13oo", ""),
    ]


def test_an_unknown_card_is_one_fault() -> None:
    """The name is there; only its card is not. What refers to the name is no second fault."""
    text = BASE + "materials: {board: {use: playwood 12}}\npanels: {material: board}\n"
    assert [finding.code for finding in faults(text)] == ["unknown-card"]


def test_a_missing_kind_is_one_fault() -> None:
    text = BASE + "materials: {board: {thickness: 12}}\npanels: {material: board}\n"
    assert [finding.code for finding in faults(text)] == ["missing-kind"]


def test_lines_too_close() -> None:
    zones = BASE.index("totes: {bin")
    text = BASE[:zones] + "  - {name: back, depth: share, bays: [{width: 600}, {}]}\n" + BASE[zones:]
    text = text.replace(", {totes: bin}", "")
    (finding,) = faults(text)
    assert told(finding) == ("lines-too-close", 6, 3, "zones", "", "")
    assert "10 mm apart" in finding.message
    assert "630 mm and 640 mm" in finding.message


def test_a_back_needs_a_bench_of_one_zone() -> None:
    text = with_second_zone(BASE).replace(", {totes: bin}", "") + "panels: {walls: [back]}\n"
    assert [told(finding) for finding in faults(text)] == [
        ("wall-without-place", 13, 17, "panels.walls", "back", "")
    ]


def test_an_end_in_the_air() -> None:
    """Only bars that the spec places one by one can end there."""
    brace = "extra: {members: [{name: brace, along: x, at: [40, 0, 200], length: 300}]}\n"
    findings = solve(read_spec(BASE.replace(", {totes: bin}", "") + brace, "bench.yml")).findings
    assert [(f.code, f.severity, f.where and f.where.path) for f in findings] == [
        ("end-in-the-air", Severity.WARNING, "extra.members[0]")
    ]
    assert "the right end of X1 (brace)" in findings[0].message
