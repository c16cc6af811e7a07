"""Every fault that a spec can have: its code, its place, what was found and what was probably meant."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

import pytest

from generator.bench.fillings import FILLINGS
from generator.bench.frames import FRAMES
from generator.bench.joints import JOINTS
from generator.bench.solve import solve
from generator.bench.stands import STANDS
from generator.codes import Code
from generator.findings import Finding, SpecError
from generator.spec.load import read_spec
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


def with_second_zone(text: str) -> str:
    return text.replace("totes: {bin", "  - {name: back, bays: [{}]}\ntotes: {bin")


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
    Case("out-of-range", "", "materials: {oak: {kind: strip, thickness: 20, width: 60, density: 9000 kg/m^3}}\n",
         12, 67,
         "materials.oak.density", "9000 kg/m^3"),
    Case("out-of-range", "", "materials: {oak: {kind: timber, section: [40, 60], density: 6.8 kg/m^3}}\n", 12, 61,
         "materials.oak.density", "6.8 kg/m^3"),
    Case("out-of-range", "", "materials: {oak: {kind: sheet, thickness: 20, density: 9000 kg/m^3}}\n", 12, 56,
         "materials.oak.density", "9000 kg/m^3"),
    Case("out-of-range", "",
         "materials: {oak: {kind: sheet, thickness: 20, density: 680 kg/m^3, planing: 9000}}\n", 12, 77,
         "materials.oak.planing", "9000 mm"),
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
    Case("bad-date", "", "revision: {date: yesterday}\n", 12, 18, "revision.date", "yesterday"),
    Case("bad-date", "", "history: [{date: 2026-02-30}]\n", 12, 18, "history[0].date", "2026-02-30"),
    Case("bad-date", "", "materials: {a: {use: plywood 6, measured: May}}\n", 12, 43, "materials.a.measured", "May"),
    Case("bad-address", "", "site: {url: example.org}\n", 12, 13, "site.url", "example.org"),
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
    Case("name-twice", "", "top: {cutouts: [{name: a, at: [300, 300], diameter: 9}], "
         "slots: [{name: a, at: 99, width: 9, depth: 3}]}\n", 12, 73, "top.slots[0].name", "a"),
    Case("feature-size", "", "top: {cutouts: [{name: a, at: [300, 300], size: [20, 30], ledge: 12, corner: 0}]}\n",
         12, 66, "top.cutouts[0].ledge", "12 mm"),
    Case("top-sum", "", "top: {boards: [300, 200]}\n", 12, 15, "top.boards", "500 mm"),
    Case("feature-size", "", "top: {slots: [{name: a, at: 99, width: 9, depth: 30}]}\n", 12, 50,
         "top.slots[0].depth", "30 mm"),
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
    Case("no-size", "", "hardware: {corner: {use: bracket 40, slot: 60}}\n", 12, 20, "hardware.corner",
         "`holes` and `slot` in a leg of 40 mm"),
    Case("out-of-range", "", "saws: {sheet: {break_down: {max_length: 1000, allowance: 900}}}\n", 12, 28,
         "saws.sheet.break_down", "900 mm"),
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


# --- no code is forgotten

#: Faults with a test of their own, above.
ELSEWHERE = {
    # two benches at one side: tests/bench/test_beside.py
    "join-twice",
    # the grain of single boards: tests/bench/test_grain.py
    "unknown-board",
    # the record and its photos: tests/spec/test_record.py and test_photo.py
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
    # banding on an edge that a board does not have: tests/figures/test_edge_bands.py
    "not-an-edge",
    # keys of two trays at once, and a joint without a divider: tests/bench/frames/test_trays.py
    "tray-keys",
    "tray-joint",
    # a foot whose heights are the wrong way round: tests/bench/stands/test_feet.py
    "foot-range",
    # casters and feet without a lift, and a lift without them: tests/bench/stands/test_lifted.py
    "stand-lift",
    # a plinth with casters, or under timber: tests/bench/stands/test_plinth.py
    "stand-two",
    # leg room that something crosses: tests/bench/test_leg_room.py
    "knee-place",
    # a cut-out that is no rectangle and not round: tests/bench/tops/test_features.py
    "cutout-shape",
    # a hinge that is of no kind, or of one that a door has no place for: tests/bench/fillings/test_doors.py
    "hinge-kind",
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
    # laws of kinds, and those that several share, are provoked one by one in test_checks
    codes -= {law.code for kind in (*STANDS, *FRAMES, *JOINTS, *FILLINGS) for law in kind.laws}
    codes -= {Code.BOLT_MOUTH, Code.DRAWER_TIPS, Code.DRAWERS_OPEN}
    tested = {case.code for case in READING + SOLVING} | ELSEWHERE
    assert codes - tested == set()
    assert tested - codes == set()
