"""Every fault that a spec can have: its code, its place, what was found and what was probably meant."""

from __future__ import annotations

import re
from pathlib import Path
from typing import NamedTuple

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator.bench.fillings import FILLINGS
from generator.bench.joints import JOINTS
from generator.bench.role import Role
from generator.bench.solve import solve
from generator.bench.stands import STANDS
from generator.codes import Code
from generator.figures.compute import compute
from generator.findings import Finding, Severity, SpecError
from generator.spec.load import LoadedSpec, read_spec, read_spec_file
from generator.spec.reader import read_document
from generator.spec.unreadable import MAX_SIZE
from generator.writers.figures_json import figures_json
from tests.test_codes import codes_in

ROOT = Path(__file__).resolve().parent.parent
DEMO = (ROOT / "specs" / "demo.yml").read_text(encoding="utf-8")

#: A bench of 1300 x 700 with a frame of 745: openings of 519, bays of 590, both shares. Lines are counted from 1.
BASE = """\
spec: 1
title: Trial
units: mm
bench: {length: 1300, depth: 700, height: 900}
zones:
  - name: front
    depth: share
    bays:
      - {name: left, width: share, stack: [{drawer: share}, {drawer: share}]}
      - {name: right, width: share, stack: [{shelf: 60}, {totes: bin}]}
totes: {bin: {use: tote 145}}
"""


class Case(NamedTuple):
    """A change of BASE (old text, new text; without an old text it is added) and the one fault that it makes."""

    code: str
    old: str
    new: str
    line: int
    column: int
    path: str
    found: str = ""
    nearest: str = ""

    def text(self) -> str:
        assert not self.old or BASE.count(self.old) == 1, f"{self.old!r} is not one place"
        return BASE.replace(self.old, self.new) if self.old else BASE + self.new


def faults(text: str) -> tuple[Finding, ...]:
    """All findings that refuse a spec, by reading or by solving it."""
    with pytest.raises(SpecError) as caught:
        solve(read_spec(text, "bench.yml"))
    return caught.value.findings


def told(finding: Finding) -> tuple[str, int, int, str, str, str]:
    where = finding.where
    assert where is not None
    assert where.file == "bench.yml"
    return (finding.code, where.line, where.column, where.path, finding.found, finding.nearest)


BEDS = "stack: [{drawer: share}, {drawer: share}]"
LOW = "stack: [{shelf: 60}, {totes: bin}]"

# fmt: off
READING = (
    # keys
    Case("unknown-key", "", "panles: {tongue: 10}\n", 12, 1, "panles", "panles", "panels"),
    Case("unknown-key", "", "panels: {tonge: 10}\n", 12, 10, "panels.tonge", "tonge", "tongue"),
    Case("unknown-key", "", "frame: {joints: {defualt: end-clip}}\n", 12, 18, "frame.joints.defualt",
         "defualt", "default"),
    Case("unknown-key", "", "materials: {ply-6: {use: plywood 6, thick: 6}}\n", 12, 37,
         "materials.ply-6.thick", "thick", "thickness"),
    Case("unknown-key", "", "zzz: 1\n", 12, 1, "zzz", "zzz"),
    Case("missing-key", "title: Trial\n", "", 1, 1, "title"),
    Case("missing-key", ", depth: 700", "", 4, 1, "bench.depth"),
    Case("missing-key", "", "materials: {a: {kind: sheet, thickness: 9}}\n", 12, 13, "materials.a.density"),
    # lengths
    Case("bad-length", "depth: 700", "depth: 7oo", 4, 30, "bench.depth", "7oo"),
    Case("bad-length", "depth: 700", "depth: 700 inn", 4, 30, "bench.depth", "700 inn"),
    Case("bad-length", "depth: 700", "depth: 1e3", 4, 30, "bench.depth", "1e3"),
    Case("bad-length", "depth: 700", "depth: '700,5'", 4, 30, "bench.depth", "700,5"),
    Case("bad-length", "depth: 700", "depth: 700 kg", 4, 30, "bench.depth", "700 kg"),
    Case("bad-length", "depth: 700", "depth: 23 58/8 in", 4, 30, "bench.depth", "23 58/8 in"),
    Case("bad-length", "depth: 700", "depth: 3 in 2 ft", 4, 30, "bench.depth", "3 in 2 ft"),
    Case("bad-length", "depth: 700", "depth: 3/0 in", 4, 30, "bench.depth", "3/0 in"),
    Case("bad-length", "depth: 700", "depth: nan", 4, 30, "bench.depth", "nan"),
    Case("bad-length", "depth: 700", "depth: .inf", 4, 30, "bench.depth", ".inf"),
    Case("bad-length", "depth: 700", "depth: 101 m", 4, 30, "bench.depth", "101 m"),
    Case("out-of-range", "depth: 700", "depth: -700", 4, 30, "bench.depth", "-700"),
    Case("out-of-range", "depth: 700", "depth: 0", 4, 30, "bench.depth", "0"),
    Case("out-of-range", "", "limits: {rail_sag: 0}\n", 12, 20, "limits.rail_sag", "0"),
    Case("out-of-range", "", "climate: {dampest: 101}\n", 12, 20, "climate.dampest", "101"),
    Case("out-of-range", "", "climate: {coldest: -80}\n", 12, 20, "climate.coldest", "-80"),
    Case("climate", "", "climate: {coldest: 31}\n", 12, 10, "climate", "31 and 30"),
    Case("out-of-range", "", "panels: {shoulder: -1}\n", 12, 20, "panels.shoulder", "-1"),
    Case("out-of-range", "", "loads: {drawer: -20 kg}\n", 12, 17, "loads.drawer", "-20 kg"),
    Case("wrong-kind", "depth: 700", "depth: [7]", 4, 30, "bench.depth", "a list"),
    Case("wrong-kind", "depth: 700", "depth: {a: 7}", 4, 30, "bench.depth", "a group of keys"),
    Case("wrong-kind", "title: Trial", "title:", 2, 7, "title", "nothing"),
    Case("too-long", "title: Trial", f"title: {'x' * 201}", 2, 8, "title", "201 characters"),
    # shares, numbers, counts, flags, quantities
    Case("bad-share", "depth: share", "depth: share x", 7, 12, "zones[0].depth", "share x"),
    Case("bad-share", "depth: share", "depth: share 0", 7, 12, "zones[0].depth", "share 0"),
    Case("bad-share", "depth: share", "depth: share -1", 7, 12, "zones[0].depth", "share -1"),
    Case("bad-share", "depth: share", "depth: share 1001", 7, 12, "zones[0].depth", "share 1001"),
    Case("bad-number", "", "materials: {a: {use: plywood 6, stock: [{length: 9, width: 9, price: cheap}]}}\n",
         12, 70, "materials.a.stock[0].price", "cheap"),
    Case("out-of-range", "", "materials: {a: {use: plywood 6, stock: [{length: 9, width: 9, price: -1}]}}\n",
         12, 70, "materials.a.stock[0].price", "-1"),
    Case("bad-flag", "", "materials: {a: {use: plywood 6, stock: [{length: 9, width: 9, on_hand: maybe}]}}\n",
         12, 72, "materials.a.stock[0].on_hand", "maybe"),
    Case("bad-count", "{totes: bin}", "{totes: bin, count: 1.5}", 10, 78, "zones[0].bays[1].stack[1].count",
         "1.5"),
    Case("bad-count", "{totes: bin}", "{totes: bin, count: 0}", 10, 78, "zones[0].bays[1].stack[1].count",
         "0"),
    Case("bad-count", "{totes: bin}", "{totes: bin, count: 501}", 10, 78, "zones[0].bays[1].stack[1].count",
         "501"),
    Case("bad-quantity", "", "loads: {drawer: 20}\n", 12, 17, "loads.drawer", "20"),
    Case("bad-quantity", "", "loads: {drawer: 20 mm}\n", 12, 17, "loads.drawer", "20 mm"),
    Case("bad-quantity", "", "loads: {push: 20 kg}\n", 12, 15, "loads.push", "20 kg"),
    Case("bad-screw", "", "hardware: {end-clip: {use: end clip M8, screw: M9x25}}\n", 12, 48,
         "hardware.end-clip.screw", "M9x25"),
    Case("bad-screw", "", "hardware: {end-clip: {use: end clip M8, screw: M8}}\n", 12, 48,
         "hardware.end-clip.screw", "M8"),
    Case("bad-screw", "", "hardware: {end-clip: {use: end clip M8, screw: M8x0}}\n", 12, 48,
         "hardware.end-clip.screw", "M8x0"),
    Case("bad-thread", "", "hardware: {slot-nut: {use: slot nut M8, thread: M9}}\n", 12, 49,
         "hardware.slot-nut.thread", "M9"),
    Case("bad-fraction", "", "display: {inch_fraction: 1/10}\n", 12, 26, "display.inch_fraction", "1/10"),
    # choices and kinds
    Case("not-a-choice", "units: mm", "units: cm", 3, 8, "units", "cm"),
    Case("not-a-choice", "spec: 1", "spec: 2", 1, 7, "spec", "2"),
    Case("not-a-choice", "", "frame: {through: post}\n", 12, 18, "frame.through", "post", "posts"),
    Case("not-a-choice", "", "base: {count: 5}\n", 12, 15, "base.count", "5"),
    Case("not-a-choice", "", "panels: {walls: [ends, spines]}\n", 12, 24, "panels.walls[1]", "spines",
         "spine"),
    Case("missing-kind", "", "materials: {a: {thickness: 9}}\n", 12, 16, "materials.a",
         "a group of keys: thickness"),
    Case("missing-kind", "", "hardware: {a: 5}\n", 12, 15, "hardware.a", "5"),
    Case("not-a-mapping", "", "panels: 5\n", 12, 9, "panels", "5"),
    Case("not-a-mapping", "", "panels: [5]\n", 12, 9, "panels", "a list of 1"),
    Case("not-a-mapping", "", "panels:\n", 12, 8, "panels", "nothing"),
    Case("not-a-mapping", "", "materials: 5\n", 12, 12, "materials", "5"),
    Case("not-a-list", "", "panels: {walls: ends}\n", 12, 17, "panels.walls", "ends"),
    Case("not-a-list", "", "base: {plate: {size: 170}}\n", 12, 22, "base.plate.size", "170"),
    Case("too-many", "", "base: {plate: {size: [1, 2, 3]}}\n", 12, 22, "base.plate.size", "a list of 3"),
    Case("too-few", "", "hardware: {slide: {use: slide 500, holes: []}}\n", 12, 43, "hardware.slide.holes",
         "a list of 0"),
    Case("too-many", BEDS, f"stack: [{', '.join(['{open: share}'] * 41)}]", 9, 43, "zones[0].bays[0].stack",
         "a list of 41"),
    # stacks
    Case("stack-item", "{shelf: 60}", "{shelf: 60, open: 20}", 10, 45, "zones[0].bays[1].stack[0]",
         "open, shelf"),
    Case("stack-item", "{shelf: 60}", "{shelf: 60, count: 2}", 10, 45, "zones[0].bays[1].stack[0]",
         "count, shelf"),
    Case("stack-item", "{shelf: 60}", "{}", 10, 45, "zones[0].bays[1].stack[0]", "nothing"),
    # names
    Case("unknown-card", "", "materials: {ply-12: {use: playwood 12}}\n", 12, 27, "materials.ply-12.use",
         "playwood 12", "plywood 12"),
    Case("unknown-name", "", "panels: {material: ply-21}\n", 12, 20, "panels.material", "ply-21", "ply-18"),
    Case("unknown-name", "", "panels: {material: poplar-15}\n", 12, 20, "panels.material", "poplar-15"),
    Case("unknown-name", "", "frame: {joints: {default: slide}}\n", 12, 27, "frame.joints.default", "slide"),
    Case("unknown-name", "{totes: bin}", "{totes: bim}", 10, 66, "zones[0].bays[1].stack[1].totes", "bim",
         "bin"),
    Case("name-twice", "name: right", "name: left", 10, 16, "zones[0].bays[1].name", "left"),
    # text
    Case("yaml-syntax", "bays:", "bays: [", 9, 7, ""),
    Case("yaml-syntax", "units: mm", "\tunits: mm", 3, 1, ""),
    Case("duplicate-key", "", "title: Again\n", 12, 1, "title"),
    Case("bad-key", "", "? [a]\n: b\n", 12, 3, ""),
    Case("merge-key", "", "panels: {<<: {tongue: 9}}\n", 12, 10, "panels"),
    Case("custom-tag", "title: Trial", "title: !mine Trial", 2, 8, "title"),
    Case("control-character", "title: Trial", "title: Tri\x07al", 2, 11, ""),
    Case("control-character", "title: Trial", 'title: "\\0"', 2, 8, "title"),
    Case("several-documents", "", "---\nspec: 1\n", 12, 1, ""),
    Case("too-large", "title: Trial", "title: " + "[" * 31 + "]" * 31, 2, 38, "title" + "[0]" * 30),
)
# fmt: on

# fmt: off
SOLVING = (
    Case("wall-without-place", "", "panels: {walls: [spine]}\n", 12, 17, "panels.walls", "spine"),
    Case("closing-joints", "", "frame: {through: rails}\n", 12, 1, "frame.joints.long_rails_to_corner_posts",
         "through-screw"),
    Case("name-twice", "name: right, ", "name: F1, ", 10, 9, "zones[0].bays[1]", "F1"),
    Case("tongue-too-long", "", "panels: {tongue: 12.3}\n", 12, 18, "panels.tongue", "12.3 mm"),
    Case("clearance-too-wide", "", "panels: {groove_clearance: 8.2}\n", 12, 28, "panels.groove_clearance",
         "8.2 mm"),
    Case("slot-too-large", "",
         "materials: {bar: {use: profile 40, slot: {opening: 8, depth: 20, lip: 4, undercut: 15}}}\n",
         12, 42, "materials.bar.slot", "opening 8 mm, depth 20 mm"),
    Case("missing-key", "", "materials: {ply-6: {use: plywood 6, stock: [{length: 2440}]}}\n", 12, 45,
         "materials.ply-6.stock[0]"),
    Case("too-many-holes", "", "top: {overhang: 20000, holes: {}}\n", 12, 24, "top.holes.pitch", "96 mm"),
    Case("too-many-holes", "", "top: {holes: {pitch: 2}}\n", 12, 22, "top.holes.pitch", "2 mm"),
    Case("height-sum", "", "tray: {end_rail_bottom: 30}\n", 12, 25, "tray.end_rail_bottom"),
    Case("height-sum", "", "tray: {end_rail_bottom: 700}\n", 12, 25, "tray.end_rail_bottom"),
    Case("height-sum", "height: 900", "height: 200", 4, 43, "bench.height"),
    Case("length-sum", "name: right, width: share", "name: right, width: 1200", 9, 7, "zones[0].bays"),
    Case("depth-sum", "depth: share", "depth: 600", 6, 3, "zones"),
    Case("no-remainder-bay", "height: 900", "height: 900, round_shares: {step: 1, remainder: mid}", 4, 83,
         "bench.round_shares.remainder", "mid"),
    Case("stack-sum", BEDS, "stack: [{drawer: 100}]", 9, 43, "zones[0].bays[0].stack"),
    Case("stack-sum", BEDS, "stack: [{drawer: 1000}]", 9, 43, "zones[0].bays[0].stack"),
    Case("stack-sum", BEDS, "stack: [{drawer: 1000}, {open: share}]", 9, 43, "zones[0].bays[0].stack"),
    Case("stack-sum", LOW, "stack: [{totes: bin, count: 4}]", 10, 44, "zones[0].bays[1].stack"),
    # pieces of no size
    Case("no-size", BEDS, "stack: [{drawer: share}, {drawer: 20}]", 9, 70, "zones[0].bays[0].stack[1].drawer",
         "20 mm"),
    Case("no-size", "name: left, width: share", "name: left, width: 40", 9, 29, "zones[0].bays[0].width", "40 mm"),
    Case("no-size", "height: 900", "height: 900, round_shares: {step: 800, remainder: right}", 4, 69,
         "bench.round_shares.step", "800 mm"),
    Case("no-size", "", "hardware: {end-clip: {use: end clip M8, clip: [1000, 14, 3]}}\n", 12, 47,
         "hardware.end-clip.clip", "a panel of 640 mm x 525 mm"),
    Case("no-size", "", "hardware: {through-screw: {use: through screw M8, hole: 2440}}\n", 12, 27,
         "hardware.through-screw", "2440 mm"),
    Case("no-size", "", "hardware: {end-clip: {use: end clip M8, access_hole: 40}}\n", 12, 22, "hardware.end-clip",
         "40 mm"),
    Case("no-size", "", "hardware: {slide: {use: slide 500, length: 20}}\n", 12, 44, "hardware.slide.length", "20 mm"),
    Case("panel-too-thick", "", "materials: {ply-12: {use: plywood 12, thickness: 40}}\n", 12, 50,
         "materials.ply-12.thickness", "40 mm"),
    Case("out-of-range", "", "materials: {bar: {use: profile 40, mass: 0 kg/m}}\n", 12, 42, "materials.bar.mass",
         "0 kg/m"),
)
# fmt: on


def ids(cases: tuple[Case, ...]) -> list[str]:
    return [f"{case.code} {(case.new or 'left out').strip()[:40]}" for case in cases]


@pytest.mark.parametrize("case", READING + SOLVING, ids=ids(READING + SOLVING))
def test_a_fault_is_told_once_and_in_its_place(case: Case) -> None:
    text = case.text()
    if case.code == "name-twice" and case.path.endswith("]"):
        text = text.replace("name: left, ", "")
    assert [told(finding) for finding in faults(text)] == [case[0:1] + case[3:]]


def test_every_fault_says_why_it_matters() -> None:
    assert not sorted({case.code for case in READING + SOLVING if not Code(case.code).why})


def with_second_zone(text: str) -> str:
    return text.replace("totes: {bin", "  - {name: back, bays: [{}]}\ntotes: {bin")


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


# --- files


def file_code(path: Path) -> tuple[str, str]:
    with pytest.raises(SpecError) as caught:
        read_spec_file(path)
    (finding,) = caught.value.findings
    return finding.code, finding.nearest


def test_files_that_cannot_be_read(tmp_path: Path) -> None:
    (tmp_path / "bench.yml").write_bytes(b"title: caf\xe9\n")
    (tmp_path / "large.yml").write_bytes(b"#" * (MAX_SIZE + 1))
    assert file_code(tmp_path) == ("is-a-folder", "")
    assert file_code(tmp_path / "bensh.yml") == ("no-file", "bench.yml")
    assert file_code(tmp_path / "none" / "bench.yml") == ("no-file", "")
    assert file_code(tmp_path / "bench.yml") == ("not-utf8", "")
    assert file_code(tmp_path / "large.yml") == ("too-large", "")
    assert file_code(tmp_path / ("x" * 5000)) == ("not-readable", "")


@pytest.mark.parametrize(
    ("text", "code"), [("", "not-a-mapping"), ("- a\n", "not-a-mapping"), ("just text", "not-a-mapping")]
)
def test_texts_that_are_no_spec(text: str, code: str) -> None:
    assert [finding.code for finding in faults(text)] == [code]


def test_a_record_must_be_a_list() -> None:
    with pytest.raises(SpecError) as caught:
        read_document("a: 1\n", "bench.record.yml", top="list")
    assert [finding.code for finding in caught.value.findings] == ["not-a-list"]


# --- no code is forgotten

#: Faults with a test of their own, above.
ELSEWHERE = {
    # the grain of single boards: tests/bench/test_grain.py
    "unknown-board",
    # the record and its photos: tests/spec/test_record.py and test_photo.py
    "bad-date",
    "bay-far-off",
    "broken-photo",
    "not-a-photo",
    "outside-the-folder",
    "not-measurable",
    "no-such-place",
    "nothing-done",
    "unknown-bay",
    "unknown-mark",
    "wrong-sizes",
    "end-in-the-air",
    # a foot whose heights are the wrong way round: tests/bench/stands/test_feet.py
    "foot-range",
    "is-a-folder",
    "lines-too-close",
    "no-file",
    "not-an-entry",
    "not-a-list",
    "not-a-mapping",
    "not-for-bars",
    "not-readable",
    "not-utf8",
    "order-blocked",
    "order-contradiction",
    "too-large-a-problem",
    "two-kinds",
    "unknown-kind",
}


def test_no_code_is_untested() -> None:
    rooms = [path for room in ("spec", "bench") for path in (ROOT / "generator" / room).rglob("*.py")]
    codes = {code for path in rooms for code in codes_in(path)}
    assert len(codes) > 40
    # laws of kinds, and the one that joints and nuts share, are provoked one by one in test_checks
    codes -= {law.code for kind in (*STANDS, *JOINTS, *FILLINGS) for law in kind.laws} | {Code.BOLT_MOUTH}
    tested = {case.code for case in READING + SOLVING} | ELSEWHERE
    assert codes - tested == set()
    assert tested - codes == set()


# --- all at once

EIGHT = """\
spec: 1
title: [Trial]
units: mm
bench: {length: 13oo, height: 900}
panles: {}
zones:
  - name: front
    bays:
      - {name: left, width: share 0, stack: [{drawer: share, shelf: 60}]}
  - name: back
    bays:
      - {name: right}
loads: {drawer: 20}
frame: {through: post}
"""


def test_eight_faults_are_eight_findings() -> None:
    found = faults(EIGHT.replace("      - {name: left", "      - {name: spare}\n      - {name: left"))
    assert [(finding.code, finding.where and finding.where.line) for finding in found] == [
        ("wrong-kind", 2),
        ("missing-key", 4),
        ("bad-length", 4),
        ("unknown-key", 5),
        ("bad-share", 10),
        ("stack-item", 10),
        ("bad-quantity", 14),
        ("not-a-choice", 15),
    ]


def test_sums_and_refusals_are_told_together() -> None:
    text = (
        with_second_zone(BASE)
        .replace("depth: share", "depth: 700")
        .replace("name: right, width: share", "name: right, width: 1200")
        .replace("name: back, bays: [{}]", "name: back, depth: 10, bays: [{width: 1230}]")
    )
    text += "tray: {end_rail_bottom: 30}\npanels: {walls: [back], tongue: 13, groove_clearance: 9}\n"
    assert sorted(finding.code for finding in faults(text)) == [
        "clearance-too-wide",
        "depth-sum",
        "height-sum",
        "length-sum",
        "length-sum",
        "tongue-too-long",
        "wall-without-place",
    ]


def test_all_stacks_that_do_not_fill_are_told() -> None:
    text = BASE.replace(BEDS, "stack: [{drawer: 100}]").replace(LOW, "stack: [{open: 500}, {drawer: 500}]")
    assert [(finding.code, finding.where and finding.where.line) for finding in faults(text)] == [
        ("stack-sum", 9),
        ("stack-sum", 10),
    ]


# --- sums say by how much

INCHES = BASE.replace("units: mm", "units: in").replace(
    "length: 1300, depth: 700, height: 900", "length: 50, depth: 2 ft 4 in, height: 36"
)
# The bar is 40 mm: three of it take 4.724 in, two 3.15 in.


@pytest.mark.parametrize(
    ("base", "left", "right", "amount"),
    [
        (BASE, "600", "600", "20 mm too much"),
        (BASE, "500", "500", "180 mm missing"),
        (BASE, "590.001", "590", "0.001 mm too much"),
        (BASE, "1180", "1/3", "0.333 mm too much"),
        (BASE, "1200", "share", "20 mm too much"),
        (INCHES, "22 1/2", "23", "0.224 in too much"),
        (INCHES, "22", "23 1/8", "0.151 in missing"),
        (INCHES, "1 ft 10 in", "1 ft 11 1/8 in", "0.151 in missing"),
        (INCHES, "46", "share 2", "0.724 in too much"),
    ],
)
def test_bays_that_do_not_sum_say_by_how_much(base: str, left: str, right: str, amount: str) -> None:
    text = base.replace("left, width: share", f"left, width: {left}")
    (finding,) = faults(text.replace("right, width: share", f"right, width: {right}"))
    assert finding.code == "length-sum"
    assert finding.message.endswith(amount)
    assert "3 posts" in finding.message


@pytest.mark.parametrize(
    ("base", "depth", "amount"),
    [
        (BASE, "600", "20 mm missing"),
        (BASE, "640", "20 mm too much"),
        (INCHES, "24", "0.85 in missing"),
        (INCHES, "2 ft 1 in", "0.15 in too much"),
    ],
)
def test_zones_that_do_not_sum_say_by_how_much(base: str, depth: str, amount: str) -> None:
    (finding,) = faults(base.replace("depth: share", f"depth: {depth}"))
    assert finding.code == "depth-sum"
    assert finding.message.endswith(amount)


@pytest.mark.parametrize(
    ("stack", "amount"),
    [
        ("[{drawer: 500}]", "13 mm missing"),
        ("[{drawer: 514}]", "1 mm too high"),
        ("[{drawer: 250}, {drawer: 250}]", "10 mm missing"),
        ("[{drawer: 10 in}, {drawer: 10 1/4 in}]", "4.35 mm too high"),
        ("[{totes: bin}, {drawer: 400}]", "47 mm too high"),
        ("[{totes: bin, count: 4}]", "97 mm more than the opening of 519 mm"),
    ],
)
def test_stacks_that_do_not_fill_say_by_how_much(stack: str, amount: str) -> None:
    (finding,) = faults(BASE.replace(BEDS, f"stack: {stack}"))
    assert finding.code == "stack-sum"
    assert finding.message.endswith(amount)


NOTHING_LEFT = {
    "length-sum": BASE.replace("left, width: share", "left, width: 1180"),
    "depth-sum": with_second_zone(BASE).replace(", {totes: bin}", "").replace("depth: share", "depth: 580"),
    "stack-sum": BASE.replace(BEDS, "stack: [{open: 510}, {drawer: share}]"),
}


@pytest.mark.parametrize("code", NOTHING_LEFT)
def test_a_share_of_nothing_is_refused(code: str) -> None:
    """Fixed sizes that fill the whole leave a bay, a zone or a front of 0 mm."""
    assert [finding.code for finding in faults(NOTHING_LEFT[code])] == [code]


@pytest.mark.parametrize("height", [400, 420, 440, 460, 480])
def test_the_front_that_a_refusal_asks_for_makes_a_box(height: int) -> None:
    """Low benches once reached the cutting plan with boxes of negative height."""
    text = (
        (ROOT / "specs" / "starter.yml")
        .read_text(encoding="utf-8")
        .replace("height: 900", f"height: {height}")
    )
    told = [each for each in faults(text) if each.code == "no-size"]
    assert told and all(each.allowed == "78 mm or more" for each in told)
    one = re.sub(r"stack: \[\{drawer: share 2\}.*", "stack: [{open: share}, {drawer: 78}]}", text)
    opening = solve(read_spec(one.replace(f"height: {height}", "height: 480"), "bench.yml")).storage.drawers
    assert [drawer.sizes.box_height for drawer in opening] == [53]


@pytest.mark.parametrize(
    ("change", "group"),
    [
        (("length: 1300", "length: 130"), "drawer"),
        (("depth: 700", "depth: 90"), "shelf cleat"),
        (
            ("width: share, stack: [{shelf: 60}, {shelf: 300}]", "width: 140, stack: [{totes: bin}]"),
            "tote runner",
        ),
    ],
)
def test_no_piece_of_no_size_leaves_the_solver(change: tuple[str, str], group: str) -> None:
    text = (ROOT / "specs" / "starter.yml").read_text(encoding="utf-8").replace(*change)
    told = [each for each in faults(text + "totes: {bin: {use: tote 145}}\n") if each.code == "no-size"]
    assert any(group in each.message for each in told)
    assert all(each.found and each.allowed and each.where for each in told)


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
    "entry",
    [
        pytest.param("materials: {bar: {use: plywood 12}}\n", id="bar is a sheet"),
        pytest.param("materials: {ply-12: {use: strip 50 x 15}}\n", id="ply-12 is a strip"),
        pytest.param("materials: {poplar-20: {use: plywood 12}}\n", id="poplar-20 is a sheet"),
        pytest.param("hardware: {end-clip: {use: slide 500}}\n", id="end-clip is a slide"),
        pytest.param("hardware: {caster: {use: slide 500}}\n", id="caster is a slide"),
        pytest.param("hardware: {slot-nut: {use: end clip M8}}\n", id="there is no slot nut"),
    ],
)
def test_a_standard_name_of_another_kind_is_told(entry: str) -> None:
    """The language's defaults refer to these names, so a spec that gives one to another kind of thing is wrong."""
    found = faults(BASE.replace(", {totes: bin}", "") + entry)
    assert found
    assert all(finding.where and finding.where.line for finding in found)


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


# --- any text

WORDS = (
    "", "0", "-1", "1", "2", "6", "1e3", "No", "[]", "{}", "share", "share 3", "5 in", "3 ft 2 in", "999999", "~",
    "0.001", "bar", "ply-12", "end-clip", "through-screw", "slide", "caster", "poplar-15", "[1, 2]", "{a: 1}",
    "20 kg", "100 m", "rails", "posts", "profile", "sheet", "strip", "x", "40", "500", "1/3", "M8x25", "tote-145",
    "plywood 12", "profile 40", "slide 500", "[dividers]", "[spine]", "[back, ends]", "true", "'", '"', "&a", "*a",
    "!!x", "1500",
)  # fmt: skip
VALUE = re.compile(r"(?<=[:\[,] )[^,\[\]{}\n#]+")
KEY = re.compile(r"[a-z_]+(?=:)")
KEYS = tuple(dict.fromkeys(match.group() for match in KEY.finditer(DEMO)))
#: Where a small number asks for more work than a test has time for.
HEAVY = ("pitch",)


@st.composite
def mutated(draw: st.DrawFn) -> str:
    """The demo with up to three changes: lines dropped, doubled, moved or indented, values or keys replaced."""
    text = DEMO
    for _ in range(draw(st.integers(1, 3))):
        act = draw(
            st.sampled_from(["value", "value", "value", "key", "slip", "drop", "double", "indent", "swap"])
        )
        if act in ("value", "key", "slip"):
            spots = list((VALUE if act == "value" else KEY).finditer(text))
            spots = [spot for spot in spots if not text[: spot.start()].rstrip(": ").endswith(HEAVY)]
            spot = draw(st.sampled_from(spots))
            words = {"value": WORDS, "key": KEYS, "slip": (spot.group()[1:], spot.group() + "s")}[act]
            text = text[: spot.start()] + draw(st.sampled_from(words)) + text[spot.end() :]
            continue
        lines = text.split("\n")
        at, other = (draw(st.integers(0, len(lines) - 1)) for _ in "ab")
        if act == "swap":
            lines[at], lines[other] = lines[other], lines[at]
        else:
            lines[at : at + 1] = {"drop": [], "double": [lines[at]] * 2, "indent": [f"  {lines[at]}"]}[act]
        text = "\n".join(lines)
    return text


def read_or_none(text: str) -> LoadedSpec | None:
    try:
        return read_spec(text, "bench.yml")
    except SpecError as error:
        assert error.findings
        assert all(finding.where and finding.where.line >= 1 and str(finding) for finding in error.findings)
        return None


@settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(mutated())
def test_any_change_of_the_demo_is_solved_or_refused(text: str) -> None:
    loaded = read_or_none(text)
    if loaded is None:
        return
    try:
        bench = solve(loaded)
    except SpecError as error:
        assert error.findings
        return
    figures_json(compute(bench)[0])


def test_a_wrong_key_that_is_named_like_its_kind_is_told() -> None:
    text = DEMO.replace("rating: 180 kg}", "caster}")
    assert text != DEMO
    with pytest.raises(SpecError) as caught:
        read_spec(text, "demo.yml")
    found = [(each.code, each.where.path) for each in caught.value.findings if each.where]
    assert ("unknown-key", "hardware.caster.caster") in found
