"""Each check is provoked by one change of the demo, and then names its code, its place and its severity."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache, reduce
from pathlib import Path
from typing import NamedTuple, TypeVar

import pytest

from generator.bench.solve import solve
from generator.figures.checks.judge import LAWS
from generator.figures.compute import compute
from generator.figures.rows.checks import Check
from generator.findings import Finding, Severity, SpecError
from generator.spec.load import read_spec, read_spec_file
from tests.effort import examples
from tests.test_mistakes import CODES_PROVOKED
from tests.test_timber import CODES_OF_TIMBER

T = TypeVar("T")

ROOT = Path(__file__).resolve().parent.parent
SPECS = ROOT / "specs"
DEMO = (SPECS / "demo.yml").read_text(encoding="utf-8")
#: The demo with a plain top: no check looks at its holes, and they take half the time.
BASE = DEMO.replace(", holes: {diameter: 20, pitch: 96, edge: 60, keep_clear: 3}", "")


class Case(NamedTuple):
    """A check's code, the change of the demo (old, new), and what the finding says."""

    code: str
    old: str
    new: str
    severity: str
    where: str
    path: str


ON_CASTERS = "base: {casters: caster, count: 6, plate: {size: [170, 170], thickness: 10}}"
LOADS = "\n\nloads: {drawer: 20 kg, shelf: 15 kg, top: 100 kg,"


def on_wide_pads() -> tuple[str, str]:
    """Text from the demo's goods to its base, as it is and on feet with pads of 120."""
    old = BASE[BASE.index("  caster: {kind: caster") : BASE.index(ON_CASTERS)] + ON_CASTERS
    return old, "  foot: {use: foot M10, pad: 120}\n" + old.replace(ON_CASTERS, on_feet())


def with_gussets(card: str) -> tuple[str, str]:
    """Text from the demo's goods to its frame, as it is and with brackets in the corners of the frame."""
    old = DEMO[DEMO.index("  caster: {kind: caster") : DEMO.index("  through: posts")]
    return old, f"  gusset: {{use: corner bracket 80, {card}}}\n{old}  gussets: {{at: [long corners]}}\n"


def thin_rack() -> tuple[str, str]:
    """Shelves of 6 mm, and a rack made of them."""
    old = DEMO[DEMO.index("stack: [{shelf: 60}, {shelf: 288}]") : DEMO.index("shelves: {material: ply-18")]
    old += "shelves: {material: ply-18"
    new = old.replace("[{shelf: 60}, {shelf: 288}]", "[{rack: share}]", 1)
    return old, new.replace("shelves: {material: ply-18", "shelves: {material: ply-6")


def pull_outs(stack: str, width: int = 400, rating: int = 45) -> tuple[str, str]:
    """Text of the demo from its slides to its front bays, as it is and with this stack in one of them alone."""
    old = BASE[BASE.index("rating: 45 kg") : BASE.index("  - name: back")]
    front = old[old.index("      - {name: F1") :]
    bays = f"      - {{name: F1}}\n      - {{name: F2, width: {width}, stack: [{stack}]}}\n      - {{name: F3}}\n"
    return old, old.replace(front, bays).replace("rating: 45 kg", f"rating: {rating} kg")


def thin_pull_out() -> tuple[str, str]:
    """Text of the demo from its front bays to its shelves, as it is and with a pull-out of 6 mm."""
    old = BASE[BASE.index("F2, width: 400") : BASE.index("shelves: {material: ply-18") + 26]
    new = old.replace("[{totes: tote-145, count: 3}]", "[{pull-out: 60}]", 1)
    return old, new.replace("shelves: {material: ply-18", "shelves: {material: ply-6")


def with_pull(card: str, more: str = "") -> tuple[str, str]:
    """Text of the demo from its goods to its drawers, as it is and with a pull."""
    old = DEMO[DEMO.index("  caster: {kind: caster") : DEMO.index("groove: 6}") + len("groove: 6}")]
    keys = ", ".join(filter(None, ("groove: 6, pull: grip", more)))
    return old, f"  grip: {{use: {card}}}\n" + old.removesuffix("groove: 6}") + keys + "}"


def with_door(
    hinge: str = "left", keys: str = "", goods: str = "", sheets: str = "", bay: str = "B1, width: share"
) -> tuple[str, str]:
    """Text of the demo from its materials to its shelves, as it is and with a door before a bay."""
    old = DEMO[DEMO.index("  poplar-15: {kind") : DEMO.index("shelves: {material")]
    new = old.replace(f"name: {bay},", f"name: {bay}, door: {{hinge: {hinge}}},")
    new = sheets + new.replace("  caster: {kind", f"{goods}  caster: {{kind")
    return old, new + f"doors: {{{keys or 'gap: 3'}}}\n"


def two_doors(hinges: tuple[str, str], goods: str = "", pulls: str = "") -> tuple[str, str]:
    """The two bays in the middle with a shelf each, behind doors with these hinges; none where it is empty."""
    old, new = with_door(goods=goods, bay="-")
    for bay, hinge in zip(("F2", "F3"), hinges, strict=True):
        door = f" door: {{hinge: {hinge}}}," if hinge else ""
        totes = f"name: {bay}, width: 400, stack: [{{totes: tote-145, count: 3}}]"
        assert totes in new
        new = new.replace(totes, f"name: {bay}, width: 400,{door} stack: [{{shelf: 200}}]")
    return old, new.replace("groove: 6}", f"groove: 6{pulls}}}")


def with_knee(
    width: int = 700, front: int = 500, depth: int = 900, rail: int = 525, more: str = ""
) -> tuple[str, str]:
    """Text of the demo from its size to its drawers, as it is and with leg room beside a front corner."""
    old = DEMO[DEMO.index("bench: {length: 2000") : DEMO.index("drawers: {slide")]
    zones = old[old.index("zones:") : old.index("panels: {material")]
    bays = f"[{{name: F1, width: {width}, knee: true}}, {{name: F2}}]"
    ours = f"zones:\n  - {{name: front, depth: {front}, bays: {bays}}}\n  - {{name: back, bays: [{{name: B1}}]}}\n"
    new = (
        old.replace(zones, ours)
        .replace("depth: 900", f"depth: {depth}")
        .replace("bottom: 525", f"bottom: {rail}")
    )
    return old, new + more


def wide_bay_below_dry_boards() -> tuple[str, str]:
    """Text of the demo from a bay to its top, as it is and with wide bays below boards that are not glued."""
    old = BASE[BASE.index("F2, width: 400") : BASE.index("overhang: 0") + len("overhang: 0")]
    narrow = "F2, width: 150, stack: []"
    new = old.replace("F2, width: 400, stack: [{totes: tote-145, count: 3}]", narrow)
    return old, new + ", boards: [share, share], joint: dry"


def narrow_edging() -> tuple[str, str]:
    """Text of the demo from its strip to its top, as it is and with an edging narrower than the top."""
    old = BASE[BASE.index("  poplar-15: {kind") : BASE.index("overhang: 0") + len("overhang: 0")]
    new = old.replace("width: 50", "width: 15", 1)
    assert new != old
    return old, new + ", edging: {material: poplar-15, sides: [front]}"


SOLID_TOP = "  mdf-18: {use: mdf 18}"


def solid_edging() -> tuple[str, str]:
    """Text of the demo from its top's sheet to its top, as it is and of solid wood with an edging at one end."""
    old = BASE[BASE.index(SOLID_TOP) : BASE.index("overhang: 0") + len("overhang: 0")]
    new = old.replace("mdf 18}", "mdf 18, species: red oak}")
    return old, new + ", edging: {material: poplar-15, sides: [front, left]}"


def on_feet(size: str = "[140, 140]", thickness: int = 10, count: int = 6) -> str:
    return f"base: {{feet: foot, count: {count}, plate: {{size: {size}, thickness: {thickness}}}}}"


def on_sleeves() -> tuple[str, str]:
    """Text from the demo's goods to its base, as it is and on feet whose stem is longer than its sleeve."""
    old, new = on_wide_pads()
    return old, new.replace("pad: 120", "drop: 49")


def lifted(card: str = "", size: int = 240) -> tuple[str, str]:
    """Text from the demo's goods to its base, as it is and with feet that lift it off its casters."""
    old, _ = on_wide_pads()
    base = f"base: {{casters: caster, feet: foot, lift: 6, count: 6, plate: {{size: [{size}, 170], thickness: 10}}}}"
    return old, f"  foot: {{use: foot M12 with sleeve{card}}}\n" + old.replace(ON_CASTERS, base)


def on_plinth(keys: str, load: str = "100 kg") -> tuple[str, str]:
    """Text of the demo from its stand to its loads, as it is and on a plinth."""
    return (
        ON_CASTERS + LOADS,
        f"base: {{plinth: {{{keys}}}, count: 6}}" + LOADS.replace("100 kg", load),
    )


MIDDLE_ZONE = "  - {name: middle, depth: 100, bays: [{name: M1, stack: [{drawer: share}]}]}\n  - name: back"

# fmt: off
CASES = (
    Case("bay-width", "F2, width: 400, stack: [{totes: tote-145, count: 3}]", "F2, width: 140, stack: []",
         "error", "bay F2", "zones[0].bays[1].width"),
    Case("uneven-share", "F1, width: share", "F1, width: share 2", "note", "bay F1",
         "zones[0].bays[0].width"),
    Case("clamp-gap", "height: 880", "height: 850", "warning", "between tray and top rail",
         "tray.end_rail_bottom"),
    Case("narrow-gap", "B1, width: share", "B1, width: 550", "warning", "P2 to P3", "zones"),
    Case("clip-stack", "head_height: 4.4", "head_height: 5", "error", "end-clip", "hardware.end-clip"),
    Case("clip-thread", "M8x25", "M8x20", "error", "end-clip", "hardware.end-clip.screw"),
    Case("through-thread", "M8x45", "M8x40", "error", "through-screw", "hardware.through-screw.screw"),
    Case("counterbore", "depth: 13.5", "depth: 12", "error", "through-screw",
         "hardware.through-screw.counterbore"),
    Case("key-crosses-screw", "", "", "note", "A1, A2, A3, A4, B3, B4", "frame.joints"),
    Case("bore-thread", "bore: 6.8", "bore: 8.5", "error", "M8 of through-screw",
         "materials.bar.bore"),
    Case("bore-thread", "bore: 6.8", "bore: 6.5", "warning", "M8 of through-screw",
         "materials.bar.bore"),
    Case("clip-mouth", "clip: [36, 14, 3]", "clip: [36, 10, 3]", "error", "end-clip",
         "hardware.end-clip.clip"),
    Case("clip-undercut", "clip: [36, 14, 3]", "clip: [36, 16, 3]", "error", "end-clip",
         "hardware.end-clip.clip"),
    Case("bolt-mouth", "opening: 8.2", "opening: 7.9", "error", "end-clip",
         "hardware.end-clip.screw"),
    Case("access-key", "access_hole: 8", "access_hole: 5.7", "error", "end-clip",
         "hardware.end-clip.access_hole"),
    Case("head-counterbore", "diameter: 14", "diameter: 12", "error", "through-screw, M8",
         "hardware.through-screw.counterbore.diameter"),
    Case("head-proud", "depth: 13.5", "depth: 7", "error", "through-screw, M8",
         "hardware.through-screw.counterbore.depth"),
    Case("counterbore-through", "depth: 13.5", "depth: 25", "error", "through-screw, M8",
         "hardware.through-screw.counterbore.depth"),
    Case("screw-hole", "hole: 9", "hole: 7.9", "error", "through-screw, M8",
         "hardware.through-screw.hole"),
    Case("screw-hole-wide", "hole: 9", "hole: 11", "error", "through-screw, M8",
         "hardware.through-screw.hole"),
    Case("thread-deep", "M8x45", "M8x65", "warning", "B1, through-screw",
         "hardware.through-screw.screw"),
    Case("threads-meet", "M8x25", "M8x500", "error", "C1",
         "hardware.end-clip.screw"),
    Case("bush-cutter", "guide_bush: 17", "guide_bush: 6", "error", "clamp relief",
         "frame.clamp_access.guide_bush"),
    Case("cutter-opening", "cutter: 6", "cutter: 16.5", "error", "clamp relief",
         "frame.clamp_access.cutter"),
    Case("relief-wide", "opening: [16,", "opening: [41,", "error", "clamp relief",
         "frame.clamp_access.opening"),
    Case("slide-rating", "rating: 45 kg", "rating: 15 kg", "error", "drawer F1/1, slide",
         "hardware.slide.rating"),
    Case("slide-hole", "261, 453]", "261, 510]", "error", "slide",
         "hardware.slide.holes"),
    Case("slide-space", "side_space: 13", "side_space: 12", "error", "slide",
         "hardware.slide.side_space"),
    Case("slide-axis", "slide_axis: 27", "slide_axis: 22", "error", "lower edge of slide",
         "drawers.slide_axis"),
    Case("groove-depth", "groove: 6}", "groove: 9}", "warning", "ply-12",
         "drawers.groove"),
    Case("groove-depth", "groove: 6}", "groove: 12}", "error", "ply-12",
         "drawers.groove"),
    Case("groove-place", "groove: 6}", "groove: 6, groove_up: 60}", "error", "the lowest box",
         "drawers.groove_up"),
    Case("tote-body", "body_width: 360", "body_width: 390", "error", "tote-145",
         "totes.tote-145.body_width"),
    Case("tote-rim-height", "rim_height: 8", "rim_height: 80", "error", "tote-145",
         "totes.tote-145.rim_height"),
    Case("wheel-height", "wheel: 100", "wheel: 125", "error", "caster",
         "hardware.caster.wheel"),
    Case("caster-holes", "plate: [105, 80]", "plate: [85, 80]", "error", "caster, X",
         "hardware.caster.holes"),
    Case("caster-on-plate", "plate: [105, 80]", "plate: [145, 80]", "error", "caster, X",
         "base.plate.size"),
    Case("plate-thread", "thickness: 10}", "thickness: 7}", "warning", "M8",
         "base.plate.thickness"),
    Case("holes-meet", "overhang: 0", "overhang: 0, holes: {diameter: 90, pitch: 96, edge: 60}", "error", "dog holes",
         "top.holes.pitch"),
    Case("hole-edge", "overhang: 0", "overhang: 0, holes: {edge: 15}", "warning", "dog holes",
         "top.holes.edge"),
    Case("joint-off-bar", "overhang: 0}", "overhang: 0, boards: [share, share, share], run: depth, joint: dry}",
         "error", "joint at 666.5 mm from the left, bar at 560 mm", "top.boards"),
    Case("boards-sag", *wide_bay_below_dry_boards(), "error", "below the top", "top.joint"),
    Case("board-held", "overhang: 0}", "overhang: 0, boards: [40, share, share], joint: dry}", "error", "TB2",
         "top.boards"),
    Case("top-moves", SOLID_TOP, SOLID_TOP.replace("18}", "18, species: red oak}"), "warning", "brackets of the top",
         "top.bracket"),
    Case("edging-grain", *solid_edging(), "warning", "left", "top.edging.sides"),
    Case("edging-narrow", *narrow_edging(), "error", "top edging", "materials.poplar-15.width"),
    Case("cut-over-bar", "overhang: 0}", "overhang: 0, cutouts: [{name: plate, at: [1000, 300], size: [306, 229]}]}",
         "error", "plate and C5", "top.cutouts[0].at"),
    Case("features-meet", "overhang: 0}", "overhang: 0, cutouts: [{name: plate, at: [1200, 300], size: [306, 229]}, "
         "{name: port, at: [1200, 440], diameter: 50}]}", "error", "plate and port", "top.cutouts[1].at"),
    Case("feature-edge", "overhang: 0}", "overhang: 60, cutouts: [{name: port, at: [400, 30], diameter: 54}]}",
         "error", "port", "top.cutouts[0].at"),
    Case("feature-rest", "top: {material", "top: {slots: [{name: gauge, at: 190, width: 19, depth: 7}], material",
         "warning", "gauge", "top.slots[0]"),
    Case("feature-bracket", "overhang: 0}", "overhang: 0, cutouts: [{name: port, at: [780, 90], diameter: 60}]}",
         "warning", "port, bracket at B3", "top.cutouts[0].at"),
    Case("vise-volume", "overhang: 0}", "overhang: 0, vise: [{at: left front, jaw: [480, 60], reach: 300}]}",
         "error", "left front vise and C4", "top.vise[0]"),
    Case("vise-drop", "overhang: 0}", "overhang: 0, vise: [{at: left front, jaw: [180, 60], reach: 300, drop: 50}]}",
         "error", "left front vise", "top.vise[0].drop"),
    Case("vise-bolts", "mdf-18, overhang",
         "mdf-18, vise: [{at: left front, jaw: [180, 60], reach: 220, drop: 140}], overhang",
         "warning", "left front vise", "top.vise[0]"),
    Case("vise-tips", "overhang: 0}", "overhang: {front: 170}, vise: [{at: left front, jaw: [180, 60], reach: 300}]}",
         "warning", "left front vise, front face", "top.vise[0].at"),
    Case("opening-edge", "panels: {material", "panels: {cutouts: [{in: tray, at: [40, 300], diameter: 60}], material",
         "error", "opening in PAN", "panels.cutouts[0].at"),
    Case("opening-cut", "panels: {material", "panels: {cutouts: [{in: tray, at: [530, 610], diameter: 50}], material",
         "error", "opening in PAN, cut-out spine post P2", "panels.cutouts[0].at"),
    Case("opening-blocked", "panels: {material",
         "panels: {cutouts: [{in: tray, at: [550, 250], diameter: 50, for: cable}], material",
         "error", "cable in PAN, FD1", "panels.cutouts[0].at"),
    Case("sag-overhang", "overhang: 0}", "overhang: {front: 160}}", "warning", "top, front", "top.material"),
    Case("tongue-bottoms", "tongue: 10", "tongue: 11", "error", "all captured panels", "panels.tongue"),
    Case("tongue-short", "tongue: 10", "tongue: 7", "warning", "all captured panels", "panels.tongue"),
    Case("loose-sheet", "groove_clearance: 0.2", "groove_clearance: 0.5", "warning", "panels",
         "panels.material"),
    Case("no-holes", "overhang: 0", "overhang: 0, holes: {edge: 600}", "warning", "dog holes", "top.holes"),
    Case("tight-sheet", "groove_clearance: 0.2", "groove_clearance: 0.05", "warning", "panels",
         "panels.groove_clearance"),
    Case("not-measured", "    measured: 2026-10-28\n    grain", "    grain", "note", "ply-12",
         "materials.ply-12"),
    Case("not-measured", "    measured: 2026-10-28\n    stock", "    stock", "note", "bar", "materials.bar"),
    Case("tray-span", "[dividers, ends, spine]", "[ends, spine]", "warning", "tray", "tray"),
    Case("slide-without-wall", "[dividers, ends, spine]", "[dividers, spine]", "error", "bay F1",
         "panels.walls"),
    Case("slide-without-wall", "[dividers, ends, spine]", "[ends, spine]", "error", "bay F4", "panels.walls"),
    Case("wide-drawer", "kind: slide, length: 500", "kind: slide, length: 300", "warning", "bay F1, drawer 1",
         "zones[0].bays[0].stack"),
    Case("wide-drawer", "kind: slide, length: 500", "kind: slide, length: 200", "error", "bay F4, drawer 4",
         "zones[0].bays[3].stack"),
    Case("box-height", "above: 15", "above: 20", "error", "bay F1, drawer 4", "zones[0].bays[0].stack"),
    Case("box-width", "F1, width: share", "F1, width: 60", "error", "bay F1, drawer 1",
         "zones[0].bays[0].stack"),
    Case("slide-depth", "depth: 500", "depth: 485", "warning", "bay F1", "zones[0].depth"),
    Case("slide-depth", "depth: 500", "depth: 470", "error", "bay F4", "zones[0].depth"),
    Case("closed-zone", "  - name: back", MIDDLE_ZONE, "error", "bay M1", "zones[1].bays[0].stack"),
    Case("packing-thin", "proud: 1", "proud: 2", "error", "poplar-15", "drawers.packing"),
    Case("packing-planed", "proud: 1", "proud: 0.5", "note", "poplar-15", "drawers.packing"),
    Case("top-brackets", "", "", "note", "B3, B4, a corner", "top.bracket"),
    Case("bracket-gap", "B1, width: share", "B1, width: 575", "warning", "580 mm to 615 mm from the left",
         "top.bracket"),
    Case("packing-edge", "holes: [37, 261, 453]", "holes: [30, 261, 453]", "warning", "zone front",
         "drawers.slide_setback"),
    Case("screw-thread", "proud: 1,", "proud: 1, face_screw: 4x16,", "warning", "drawer face, 4x16",
         "drawers.face_screw"),
    Case("screw-splits", "proud: 1,", "proud: 1, box_screw: 5x45,", "warning", "drawer box's corners, 5x45",
         "drawers.box_screw"),
    Case("packing-narrow", "thickness: 15, width: 50", "thickness: 15, width: 35", "warning", "poplar-15",
         "drawers.packing"),
    Case("strip-narrow", "thickness: 15, width: 50", "thickness: 15, width: 30", "error", "TR1, tote runner",
         "materials.poplar-15.width"),
    Case("tote-bearing", "runner_gap: 366", "runner_gap: 369", "error", "bay F2, tote-145",
         "totes.tote-145.runner_gap"),
    Case("tote-gap-low", "runner_gap: 366", "runner_gap: 363", "error", "bay F2, tote-145",
         "totes.tote-145.runner_gap"),
    Case("tote-gap-high", "runner_gap: 366", "runner_gap: 371", "error", "bay F3, tote-145",
         "totes.tote-145.runner_gap"),
    Case("tote-rim", "rim_width: 386", "rim_width: 396", "error", "bay F2, tote-145",
         "zones[0].bays[1].stack"),
    Case("tote-depth", "length: 520", "length: 541", "error", "bay F3, tote-145", "zones[0].depth"),
    Case("shelf-height", "{shelf: 288}", "{shelf: 500}", "error", "bay B1, shelf 2",
         "zones[1].bays[0].stack"),
    Case("shelf-meets", "{shelf: 288}", "{shelf: 70}", "error", "bay B1, shelf 2, shelf 1", "zones[1].bays[0].stack"),
    Case("shelf-low", "{shelf: 60}", "{shelf: 55}", "error", "bay B1, shelf 1", "zones[1].bays[0].stack"),
    Case("tips-by-pull", "push: 200 N", "push: 700 N", "error", "front face", "base"),
    Case("tips-under-load", "overhang: 0", "overhang: 300", "warning", "a person sits on the edge, front", "base"),
    Case("slips-away", "count: 6,", "count: 6, brakes: 2,", "warning", "empty bench, brakes on", "base"),
    Case("drawer-tips", "{drawer: 20 kg", "{drawer: 150 kg", "error", "front face", "base"),
    Case("drawers-open", "", "", "warning", "front face", "loads.push"),
    Case("caster-in-the-air", "", "", "warning", "6 casters", "base.casters"),
    Case("sag-top-bar", "9.5 cm^4", "6 cm^4", "warning", "top rail, rear", "materials.bar"),
    Case("sag-top-board", "{use: mdf 18}", "{use: mdf 18, modulus: 2.4 GPa}", "note", "top board", "top.material"),
    Case("sway", "", "", "note", "along the length", "frame.joints"),
    Case("gusset-room", *with_gussets("leg: 125"), "error", "gusset", "frame.gussets"),
    Case("gusset-width", *with_gussets("width: 45"), "error", "gusset", "hardware.gusset.width"),
    Case("sag-base", "9.5 cm^4", "7 cm^4", "note", "base rail, load in the middle", "base.count"),
    Case("sag-shelf", "shelf: 15 kg", "shelf: 50 kg", "warning", "shelf, the longest", "shelves.material"),
    Case("sag-drawer-bottom", "{drawer: 20 kg", "{drawer: 40 kg", "warning", "drawer bottom, the widest",
         "drawers.bottom"),
    Case("lift-weight", "", "", "warning", "the frame, onto its casters", "limits.lift_one"),
    Case("door-parts", "loads: {", "limits: {door: [700, 2000]}\nloads: {", "warning",
         "the frame, onto its casters", "limits.door"),
    Case("door-bench", "", "", "note", "the finished bench, empty", "limits.door"),
    Case("work-height", "elbow_height: 1010", "elbow_height: 1050", "note", "assembly", "bench.height"),
    Case("shelf-tilt", "{use: plywood 18}", "{use: plywood 18, thickness: 63}", "warning", "bay B2, shelf 2",
         "zones[1].bays[1].stack"),
    Case("shelf-lands", "{shelf: 288}", "{shelf: 150}", "warning", "bay B1, shelf 1", "zones[1].bays[0].stack"),
    Case("relief-clear", "from_end: 80", "from_end: 22", "error", "D1, inner post",
         "frame.clamp_access.from_end"),
    Case("bolt-window", "thickness: 10}", "thickness: 11}", "error", "caster plate bolt",
         "base.plate.thickness"),
    Case("bolt-window", "overhang: 0", "bracket_thickness: 6", "error", "top bracket bolt",
         "top.bracket_thickness"),
    Case("caster-rating", "rating: 180 kg", "rating: 170 kg", "error", "6 casters", "base.casters"),
    Case("plates-meet", "size: [170, 170]", "size: [1100, 170]", "error",
         "CP1 and CP2, CP1 and CP3, CP2 and CP3, CP4 and CP5, CP4 and CP6, CP5 and CP6",
         "base.plate.size"),
    Case("wheel-sweep", "wheel: 100", "wheel: 130", "warning", "corner casters", "base.casters"),
    Case("plate-edge", "size: [170, 170]", "size: [150, 150]", "error", "CP1", "base.plate.size"),
    Case("rack-slot", "F2, width: 400, stack: [{totes: tote-145, count: 3}]",
         "F2, width: 400, stack: [{rack: share, slots: 14}]", "warning", "bay F2, rack 1", "zones[0].bays[1].stack"),
    Case("rack-board", *thin_rack(), "error", "bay B1, rack 1", "shelves.material"),
    Case("sag-rack", *thin_rack(), "warning", "rack board, the longest", "shelves.material"),
    Case("pull-out-height", *pull_outs("{pull-out: 10}"), "error", "bay F2, pull-out 1",
         "zones[0].bays[1].stack[0].pull-out"),
    Case("pull-out-height", *pull_outs("{pull-out: 500}"), "error", "bay F2, pull-out 1",
         "zones[0].bays[1].stack[0].pull-out"),
    Case("pull-out-meets", *pull_outs("{pull-out: 100}, {pull-out: 120}"), "error", "bay F2, pull-out 2, pull-out 1",
         "zones[0].bays[1].stack[1].pull-out"),
    Case("pull-out-rating", *pull_outs("{pull-out: 60}", rating=15), "error", "pull-out F2/1, slide",
         "hardware.slide.rating"),
    Case("wide-pull-out", *pull_outs("{pull-out: 60}", width=800), "warning", "bay F2, pull-out 1",
         "zones[0].bays[1].stack"),
    Case("sag-pull-out", *thin_pull_out(), "warning", "pull-out board, the widest", "shelves.material"),
    Case("pull-missing", "", "", "note", "all drawers", "drawers.pull"),
    Case("pull-fits", *with_pull("pull 128", "pull_at: [0.95, 0.5]"), "error", "DF1, width", "drawers.pull"),
    Case("pull-on-edge", *with_pull("pull 128", "pull_at: [0.5, 0.06]"), "error", "DF1", "drawers.pull_at"),
    Case("pull-projection", *with_pull("pull 128, projection: 70"), "warning", "grip",
         "hardware.grip.projection"),
    Case("rack-cleats", "F2, width: 400, stack: [{totes: tote-145, count: 3}]",
         "F2, width: 400, stack: [{rack: share, slots: 2}, {rack: share, slots: 2}]", "error", "bay F2, rack 2",
         "zones[0].bays[1].stack"),
    Case("hinge-rating", *with_door(goods="  butt: {use: butt hinge 60 x 34, rating: 3 kg}\n"), "error",
         "bay B1, door 1", "hardware.butt.rating"),
    Case("door-width", *with_door(), "warning", "bay B1, door 1", "zones[1].bays[0].door"),
    Case("door-shape", *with_door(), "note", "bay B1, door 1", "zones[1].bays[0].door"),
    Case("hinge-leaf", *with_door(goods="  butt: {use: butt hinge 60 x 34, leaf: [60, 28]}\n"), "error", "butt",
         "hardware.butt.leaf"),
    Case("door-gap", *with_door(keys="gap: 2"), "error", "butt", "doors.gap"),
    Case("hinge-nut", *with_door(goods="  butt: {use: butt hinge 60 x 34, frame_screw: M6x12}\n"), "error",
         "butt, M6x12", "hardware.butt.frame_screw"),
    Case("door-behind", *with_door(sheets="  ply-38: {use: plywood 18, thickness: 38}\n", keys="material: ply-38"),
         "error", "bay B1", "zones[1].bays[0].door"),
    Case("room-floor", "loads: {", "room: {front: 1000}\nloads: {", "warning", "front: drawer F1/1, open, and a person",
         "room.front"),
    Case("budget", "units: mm", "units: mm\nbudget: 500", "warning", "all goods", "budget"),
    Case("finish-late", "loads: {", "finish: {panels: {coat: oil, when: after assembly}}\nloads: {", "warning",
         "panels", "finish.panels.when"),
    Case("finish-coverage", "loads: {", "finish: {top: {coat: oil, coverage: 40 m2/l}}\nloads: {", "note", "top",
         "finish.top.coverage"),
    Case("knee-width", *with_knee(width=590), "warning", "bay F1", "zones[0].bays[0].width"),
    Case("knee-height", *with_knee(rail=460), "warning", "bay F1", "tray.end_rail_bottom"),
    Case("knee-depth", *with_knee(front=400), "warning", "bay F1", "zones[0].depth"),
    Case("knee-feet", *with_knee(front=450, depth=630), "note", "bay F1", "zones[0].depth"),
    Case("knee-stands", *with_knee(width=640), "note", "bay F1", "zones[0].bays[0].width"),
    Case("knee-crossed", *with_knee(more="extra: {panels: [{name: stop, at: [100, 100, 60], size: [100, 12, 80]}]}\n"),
         "error", "bay F1, XP1", "zones[0].bays[0].knee"),
    Case("door-catch", *with_door(), "note", "all doors", "doors.catch"),
    Case("door-pull", *with_door(), "note", "all doors", "doors.pull"),
    Case("door-swing", *two_doors(("left", ""), "  butt: {use: butt hinge 60 x 34, opening: 180}\n"
                                  "  pull: {use: pull 128}\n", ", pull: pull"),
         "warning", "bay F2, door 1, a pull", "zones[0].bays[1].door.hinge"),
    Case("doors-meet", *two_doors(("right", "left")), "note", "bay F2, door 1 and bay F3, door 1",
         "zones[0].bays[2].door.hinge"),
    Case("pull-screw", *with_pull("pull 128, screw: M4x25"), "note", "M4x40", "hardware.grip.screw"),
    Case("foot-rating", ON_CASTERS + LOADS, on_feet() + LOADS.replace("100 kg", "1000 kg"), "error", "6 feet",
         "base.feet"),
    Case("foot-in-the-air", ON_CASTERS + LOADS, on_feet() + LOADS.replace("100 kg", "1000 kg"), "warning", "6 feet",
         "base.feet"),
    Case("foot-reach", ON_CASTERS, on_feet(), "warning", "foot", "hardware.foot.range"),
    Case("foot-hold", ON_CASTERS, on_feet(thickness=7), "error", "foot", "hardware.foot.thread"),
    Case("foot-pad", *on_wide_pads(), "warning", "foot", "hardware.foot.pad"),
    Case("foot-stem-top", ON_CASTERS, on_feet(thickness=8), "warning", "foot", "hardware.foot.thread"),
    Case("foot-sleeve", *on_sleeves(), "error", "foot", "hardware.foot.thread"),
    Case("lift-range", *lifted(card=", drop: 100"), "error", "foot, turned up", "hardware.foot.range"),
    Case("lift-plate", *lifted(size=200), "error", "caster plates", "base.plate.size"),
    Case("plinth-setback", *on_plinth("setback: 30"), "error", "boards beside the bolts", "base.plinth.setback"),
    Case("plinth-bears", *on_plinth("material: ply-6", "1000 kg"), "error", "6 places on the plinth", "base.plinth"),
    Case("plinth-hollow", *on_plinth("material: ply-6", "1000 kg"), "warning", "6 places on the plinth",
         "base.plinth"),
    Case("foot-plates-meet", ON_CASTERS, on_feet("[1100, 140]"), "error",
         "FP1 and FP2, FP1 and FP3, FP2 and FP3, FP4 and FP5, FP4 and FP6, FP5 and FP6", "base.plate.size"),
    Case("foot-plate-edge", ON_CASTERS, on_feet("[122, 122]"), "error", "FP1", "base.plate.size"),
    Case("longer-than-stock", "{length: 6000", "{length: 1900", "error", "B1, long rail",
         "materials.bar.stock"),
    Case("too-little-stock", "{length: 6000, price: 54}", "{length: 6000, price: 54, count: 3}", "error",
         "13 parts of bar, for example C1; buy 2 more", "materials.bar.stock"),
    Case("saw-rules", "edge_trim: 10}", "edge_trim: 10, least_feed: 3000}", "warning",
         "ply-12", "materials.ply-12.stock"),
    Case("longer-than-stock", "{length: 2440, width: 1220, price: 75}", "{length: 1220, width: 2440, price: 75}",
         "error", "PAN, along the grain", "materials.ply-12.stock"),
)
# fmt: on


@cache
def judged(text: str) -> tuple[tuple[Check, ...], tuple[Finding, ...]]:
    loaded = read_spec(text, "demo.yml")
    figures, findings = compute(solve(loaded))
    return figures.checks, findings


def codes(text: str) -> set[str]:
    return {finding.code for finding in judged(text)[1]}


#: So many cases are tried in one spec, for each spec takes its time; what another hides there is tried alone.
TOGETHER = examples(12, 1)


def batches(cases: Sequence[T]) -> list[list[T]]:
    """Each with cases that stand far from each other in the list: those of one code stand beside each other."""
    count = -(-len(cases) // TOGETHER)
    return [list(cases[start::count]) for start in range(count)]


def changed(changes: Iterable[tuple[str, str]]) -> str:
    """The demo with every change (old, new) that still finds its place."""
    return reduce(lambda text, change: text.replace(*change, 1), changes, BASE)


def untold(case: Case, text: str) -> list[str]:
    """What the checks of this spec fail to say of the case."""
    checks, findings = judged(text)
    failed = {(check.code, check.severity, check.where) for check in checks if not check.ok}
    told = [f for f in findings if f.code == case.code and f.where and f.where.path == case.path]
    severities = {finding.severity.name.lower() for finding in told}
    return [
        said
        for said, holds in (
            (f"no such check fails: {failed}", (case.code, case.severity, case.where) in failed),
            ("no finding at its place", bool(told)),
            (f"its findings are {severities}", severities == {case.severity}),
            ("no line or no advice", all(f.where and f.where.line > 1 and f.advice for f in told)),
        )
        if not holds
    ]


@pytest.mark.parametrize("cases", batches(CASES), ids=lambda cases: cases[0].code)
def test_a_check_is_provoked_by_one_change(cases: Sequence[Case]) -> None:
    assert [case for case in cases if case.old and case.old not in BASE] == []
    text = changed((case.old, case.new) for case in cases)
    try:
        alone = [case for case in cases if untold(case, text)]
    except SpecError:
        alone = list(cases)
    assert [(case, said) for case in alone if (said := untold(case, changed([(case.old, case.new)])))] == []


def test_failed_checks_come_first_and_say_what_they_measure() -> None:
    cases = [case for case in CASES if case.severity != "error"][::9]
    checks, _ = judged(changed((case.old, case.new) for case in cases))
    assert [check.code for check in checks if (check.value is None) is bool(check.quantity)] == []
    # the worst of the failed before the others
    ranks = [("error", "warning", "note").index(check.severity) for check in checks if not check.ok]
    assert len(ranks) > len(cases) / 2
    assert ranks == sorted(ranks)
    assert [check.ok for check in checks] == sorted(check.ok for check in checks)


def test_the_demo_passes_what_the_changes_provoke() -> None:
    checks, _ = judged(BASE)
    for case in CASES:
        ok = {check.ok for check in checks if check.code == case.code and check.where == case.where}
        assert ok <= ({False} if not case.old else {True}), case


def test_no_check_is_unprovoked() -> None:
    provoked = {case.code for case in CASES} | CODES_PROVOKED | CODES_OF_TIMBER
    assert {law.code for law in LAWS} - provoked == set()


#: What a warning says of every bench of this size: how many drawers may be open, what the wheels and people carry.
WARNED = ["drawers-open", "caster-in-the-air", "lift-weight"]


def test_the_demo_has_no_error_and_warns_of_what_can_hurt() -> None:
    assert BASE != DEMO
    _, findings = judged(DEMO)
    assert [finding.code for finding in findings if finding.severity > Severity.NOTE] == WARNED
    assert {finding.severity for finding in findings} == {Severity.NOTE, Severity.WARNING}
    assert [finding.code for finding in findings] == [
        "drawers-open",
        "caster-in-the-air",
        "lift-weight",
        "key-crosses-screw",
        "pull-missing",
        "sway",
        "sway",
        "door-bench",
        "pocket-footprint",
        "top-brackets",
        "nuts-preload",
    ]


@pytest.mark.parametrize(
    ("name", "warned"),
    [
        ("starter", [WARNED[0], "tips-under-load"]),
        ("wall-bench", [*WARNED[:2], "tips-under-load", WARNED[2], *3 * ["sag-top-bar"]]),
    ],
)
def test_no_shipped_spec_has_an_error(name: str, warned: list[str]) -> None:
    loaded = read_spec_file(SPECS / f"{name}.yml")
    _, findings = compute(solve(loaded))
    assert [finding.code for finding in findings if finding.severity > Severity.NOTE] == warned
    assert {finding.severity for finding in findings} == {Severity.NOTE, Severity.WARNING}


def test_without_screws_across_no_key_is_crossed() -> None:
    joints = "long_rails_to_corner_posts: end-clip, inner_post_tops: end-clip"
    text = BASE.replace("long_rails_to_corner_posts: through-screw, inner_post_tops: through-screw", joints)
    assert "key-crosses-screw" not in codes(text)
