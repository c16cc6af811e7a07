"""The record of a build: what is read, what is refused and where, and what its measured values change."""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from pydantic import BaseModel

from generator.bench.solve import solve
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.figures.rows.parts import PartRow
from generator.findings import Finding, SpecError
from generator.provenance import GivenValue, provenance_of
from generator.resources import bundled
from generator.spec.document import path_text
from generator.spec.load import LoadedSpec, RecordText, read_spec, read_spec_file

DEMO = (bundled("specs") / "demo.yml").read_text(encoding="utf-8")
CAPTURED = {"divider", "end panel", "spine panel", "back panel", "tray"}


def loaded(record: str, spec: str = DEMO) -> LoadedSpec:
    return read_spec(spec, "demo.yml", RecordText(record, "demo.record.yml"))


@cache
def figures(record: str = "") -> Figures:
    spec = loaded(record) if record else read_spec(DEMO, "demo.yml")
    return compute(solve(spec))[0]


def measured(path: str, value: str, date: str = "2026-11-03") -> str:
    return f"- date: {date}\n  measured: {{path: '{path}', value: {value}}}\n"


def rows(record: str = "") -> dict[str, PartRow]:
    return {mark: row for row in figures(record).parts for mark in row.marks}


def machined(row: PartRow) -> tuple[Any, ...]:
    return (row.length, row.width, row.thickness, row.rabbet_depth, row.tongues, row.notches, row.operations)


def changed_by(record: str) -> set[str]:
    before, after = rows(), rows(record)
    assert set(before) == set(after)
    return {mark for mark in before if machined(before[mark]) != machined(after[mark])}


# --- measured values win downstream, and the plan stays as it was


def test_a_thinner_sheet_changes_rabbet_offset_and_packing_and_no_panel_outside() -> None:
    record = measured("materials.ply-12.thickness", "11.8")
    before, after = rows(), rows(record)
    for mark, row in before.items():
        if row.group in CAPTURED:
            assert (after[mark].length, after[mark].width) == (row.length, row.width)
            assert (row.rabbet_depth, after[mark].rabbet_depth) == (2, Fraction(19, 10))
            assert after[mark].tongue_thickness == 8
            assert (after[mark].notches, after[mark].operations) == (row.notches, row.operations)
    bars = {row.group for mark, row in before.items() if row.kind == "profile" and mark in changed_by(record)}
    assert bars == set()
    old, new = figures().fits[0], figures(record).fits[0]
    assert (old.offset, new.offset) == (14, Fraction(141, 10))
    assert (old.packing, new.packing) == (15, Fraction(151, 10))
    assert figures(record).sticks == figures().sticks


def test_nominal_measured_and_effective_stay_apart() -> None:
    spec = loaded(
        measured("materials.ply-12.thickness", "11.9") + measured("materials.ply-12.thickness", "11.8 mm")
    )
    sheet, planned = spec.spec.materials["ply-12"], spec.nominal.materials["ply-12"]
    assert getattr(planned, "thickness", None) == 12
    assert getattr(sheet, "thickness", None) == Fraction(59, 5)
    found = spec.measured_at("materials", "ply-12", "thickness")
    assert found is not None
    assert (found.nominal, found.value, found.date) == (12, Fraction(59, 5), "2026-11-03")
    assert [each.value for each in spec.measured] == [Fraction(119, 10), Fraction(59, 5)]
    assert (found.where.file, found.where.line) == ("demo.record.yml", 4)
    assert spec.where("materials", "ply-12", "thickness") == found.where
    assert spec.text == DEMO


def test_one_bay_that_measures_narrower_changes_its_own_boxes_only() -> None:
    record = measured("bays.F1.width", "499.2")
    changed = changed_by(record)
    before, after = rows(), rows(record)
    homes = {piece.mark: piece.where for row in before.values() for piece in row.pieces}
    assert {homes[mark].split(",")[0] for mark in changed} == {"bay F1"}
    assert {before[mark].group for mark in changed} == {
        "drawer front and back",
        "drawer bottom",
        "drawer face",
    }
    for mark in changed:
        sizes = [(getattr(before[mark], s), getattr(after[mark], s)) for s in ("length", "width")]
        assert sorted({old - new for old, new in sizes}) == [0, Fraction(4, 5)]
    boxes = {(d.bay, d.number): d.box_width for d in figures(record).drawers}
    assert {boxes[bay, n] for bay, n in boxes if bay == "F1"} == {Fraction("499.2") - 2 - 26}
    bay = figures(record).layout.bays[0]
    assert (bay.name, bay.width, bay.measured) == ("F1", 500, Fraction("499.2"))


@pytest.mark.parametrize("width", ["495", "500.7", "506"])
def test_a_measured_bay_never_upsets_the_proof(width: str) -> None:
    found = figures(measured("bays.F1.width", width))
    assert found.assembly.proved
    assert [check.code for check in found.checks if not check.ok and check.severity == "error"] == []


def test_the_newest_value_of_a_quantity_wins_by_its_date() -> None:
    late, early = (measured("bays.F1.width", v, d) for v, d in (("499", "2026-11-09"), ("498", "2026-11-04")))
    assert loaded(late + early).bay_widths()["F1"].value == 499
    assert loaded(early + late).bay_widths()["F1"].value == 499


def test_a_measured_board_is_no_longer_a_typical_one() -> None:
    path = "materials.ply-18.thickness"
    assert path in [row.path for row in figures().assumed]
    after = figures(measured(path, "17.7"))
    assert path not in [row.path for row in after.assumed]
    assert "ply-18" not in [check.where for check in after.checks if check.code == "not-measured"]


def quantities(node: Any, path: tuple[str | int, ...] = ()) -> list[tuple[tuple[str | int, ...], Fraction]]:
    """Every exact number of a spec with its key path."""
    if isinstance(node, Fraction):
        return [(path, node)]
    pairs: list[tuple[str | int, Any]] = []
    if isinstance(node, BaseModel):
        pairs = [(name, getattr(node, name)) for name in type(node).model_fields]
    elif isinstance(node, dict):
        pairs = list(node.items())
    elif isinstance(node, tuple):
        pairs = list(enumerate(node))
    return [found for step, below in pairs for found in quantities(below, (*path, step))]


def unit_of(value: Fraction) -> str:
    """The unit in which the spec's model keeps a number."""
    how = provenance_of(value)
    return how.unit if isinstance(how, GivenValue) else ""


def test_every_quantity_of_a_spec_can_be_measured() -> None:
    spec = read_spec(DEMO, "demo.yml").spec
    planned = [(path, value) for path, value in quantities(spec) if path[0] != "zones"]
    assert len(planned) > 100
    # a pull is at a part of its face's size, a floor holds with a part of the load, a hinge opens by degrees,
    # and wood and metal both have this density
    values = [
        "0.25"
        if {"pull_at", "grip"} & {*path}
        else {"opening": "120", "density": "1250"}.get(str(path[-1]), "7.25")
        for path, _ in planned
    ]
    record = "".join(
        # a stiffness is a number in the one unit that its key names
        measured(path_text(path), value if "stiffness" in path else f"{value} {unit_of(plan)}".strip())
        for value, (path, plan) in zip(values, planned, strict=True)
    )
    found = loaded(record).measured
    assert [each.key for each in found] == [path for path, _ in planned]
    assert [each.value for each in found] == [Fraction(value) for value in values]
    assert [each.nominal for each in found] == [
        value for path, value in quantities(spec) if path[0] != "zones"
    ]


# --- faults


def faults(record: str, spec: str = DEMO, folder: Path | None = None) -> list[Finding]:
    with pytest.raises(SpecError) as caught:
        solve(read_spec(spec, "demo.yml", RecordText(record, "demo.record.yml", folder)))
    return list(caught.value.findings)


# fmt: off
FAULTY = (
    ("bad-date", "{date: 2026-02-30, note: x}", 10, "2026-02-30", ""),
    ("bad-date", "{date: 3.11.2026, note: x}", 10, "3.11.2026", ""),
    ("missing-key", "{note: x}", 3, "", ""),
    ("nothing-done", "{date: 2026-11-03, by: Mara}", 3, "", ""),
    ("unknown-key", "{date: 2026-11-03, note: x, instaled: A1}", 31, "instaled", "installed"),
    ("not-a-mapping", "5", 3, "5", ""),
    ("not-a-mapping", "{date: 2026-11-03, cut: C1}", 27, "C1", ""),
    ("missing-key", "{date: 2026-11-03, cut: {mark: C1}}", 22, "", ""),
    ("bad-length", "{date: 2026-11-03, cut: {mark: C1, size: 8oo}}", 44, "8oo", ""),
    ("bad-length", "{date: 2026-11-03, cut: {mark: C1, size: 8 x 8 x 8}}", 44, "8 x 8 x 8", ""),
    ("bad-length", "{date: 2026-11-03, cut: {mark: C1, size: -8}}", 44, "-8", ""),
    ("wrong-kind", "{date: 2026-11-03, note: [x]}", 28, "a list", ""),
    ("too-long", f"{{date: 2026-11-03, by: {'x' * 201}, note: x}}", 26, "201 characters", ""),
    ("not-measurable", "{date: 2026-11-03, measured: {path: materials.ply-12.thicknes, value: 1}}", 39,
     "materials.ply-12.thicknes", "thickness"),
    ("not-measurable", "{date: 2026-11-03, measured: {path: materials.ply-12.thickness, value: 12 kg}}", 74,
     "12 kg", ""),
    ("not-measurable", "{date: 2026-11-03, measured: {path: title, value: 12}}", 39, "title", ""),
    ("not-measurable", "{date: 2026-11-03, measured: {path: panels.tongue, value: 0}}", 61, "0", ""),
    ("not-measurable", "{date: 2026-11-03, measured: {path: 'panels.walls[2]', value: 1}}", 39,
     "panels.walls[2]", ""),
    ("not-measurable", "{date: 2026-11-03, measured: {path: 'zones[0].depth', value: 12}}", 39,
     "zones[0].depth", ""),
    ("not-measurable", "{date: 2026-11-03, measured: {path: bays.F1.widht, value: 12}}", 39, "bays.F1.widht",
     "width"),
    ("not-measurable", "{date: 2026-11-03, measured: {path: bays.F1.width, value: wide}}", 61, "wide", ""),
    ("unknown-bay", "{date: 2026-11-03, measured: {path: bays.F7.width, value: 500}}", 61, "F7", ""),
    ("bay-far-off", "{date: 2026-11-03, measured: {path: bays.F1.width, value: 400}}", 61, "400 mm", ""),
    ("unknown-mark", "{date: 2026-11-03, cut: {mark: C77, size: 818}}", 34, "C77", "C7"),
    ("unknown-mark", "{date: 2026-11-03, installed: [A1, Q1]}", 38, "Q1", ""),
    ("wrong-sizes", "{date: 2026-11-03, cut: {mark: PAN, size: 818}}", 45, "818 mm", ""),
    ("wrong-sizes", "{date: 2026-11-03, cut: {mark: A1, size: 725 x 40}}", 44, "725 mm x 40 mm", ""),
    ("outside-the-folder", "{date: 2026-11-03, photo: {file: ../a.jpg, alt: x}}", 36, "../a.jpg", ""),
    ("not-a-photo", "{date: 2026-11-03, photo: {file: a.gif, alt: x}}", 36, "a.gif", ""),
    ("no-file", "{date: 2026-11-03, photo: {file: a.jpg, alt: x}}", 36, "a.jpg", ""),
    ("missing-key", "{date: 2026-11-03, photo: {file: a.jpg}}", 22, "", ""),
)
# fmt: on


@pytest.mark.parametrize(("code", "entry", "column", "found", "near"), FAULTY)
def test_a_fault_is_one_message_with_its_place(
    code: str, entry: str, column: int, found: str, near: str, tmp_path: Path
) -> None:
    (finding,) = faults(f"# a record\n- {entry}\n", folder=tmp_path)
    where = finding.where
    assert where is not None
    told = (finding.code, where.file, where.line, where.column, finding.found, finding.nearest)
    assert told == (code, "demo.record.yml", 2, column, found, near)
    assert "[0]" in where.path


def test_faults_of_spec_and_record_are_told_at_once() -> None:
    spec = DEMO.replace("height: 880", "hieght: 880")
    found = faults("- {date: x, note: y}\n- {date: 2026-11-03, cut: 5}\n", spec)
    assert [(each.where.file, each.code) for each in found if each.where] == [
        ("demo.yml", "unknown-key"),
        ("demo.record.yml", "bad-date"),
        ("demo.record.yml", "not-a-mapping"),
    ]


def test_a_measured_value_that_makes_no_bench_is_placed_in_the_record() -> None:
    (finding,) = faults(measured("panels.groove_clearance", "8.2"))
    assert finding.where is not None
    assert (finding.where.file, finding.where.line) == ("demo.record.yml", 2)


def test_a_record_that_is_no_list_or_no_yaml_is_told() -> None:
    assert [each.code for each in faults("date: 2026-11-03\n")] == ["not-a-list"]
    assert [each.code for each in faults("- {date: 2026-11-03\n")] == ["yaml-syntax"]


def test_too_many_entries_are_refused() -> None:
    found = faults("- {date: 2026-11-03, note: x}\n" * 3001)
    assert [each.code for each in found] == ["too-many"]


def test_an_empty_record_changes_nothing(tmp_path: Path) -> None:
    (tmp_path / "demo.yml").write_text(DEMO, encoding="utf-8")
    (tmp_path / "demo.record.yml").write_text("# nothing yet\n", encoding="utf-8")
    spec = read_spec_file(tmp_path / "demo.yml")
    assert spec.record.entries == ()
    assert compute(solve(spec))[0] == figures()


def test_a_measured_length_smaller_than_an_atom_is_refused_in_its_place() -> None:
    """The volume of so thin a board is 0 in floating-point numbers, and its centre was a division by it."""
    with pytest.raises(SpecError) as caught:
        loaded(measured("materials.ply-18.thickness", f"0.{'0' * 40}1"))
    (finding,) = caught.value.findings
    assert finding.code == "not-measurable" and "too small" in finding.message and finding.where is not None
    assert finding.where.file.endswith("record.yml")
