"""The worked bench as a golden test: `specs/demo.yml` gives every number that was worked out for it by hand.

Lengths in mm, masses in kg. Marks are A corner posts, B long rails, C cross and end members, D inner posts,
E end spine posts; P1 to P5 are the lines from left to right. Where a table has one row for several bars, the
others are turned copies: the faces are those of the first.
"""

from __future__ import annotations

import math
import re
from collections import Counter
from dataclasses import replace
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from generator.bench.model import Bench, Operation
from generator.bench.role import Role
from generator.bench.solve import solve
from generator.calculators.shelves import tilt_in
from generator.figures.compute import compute
from generator.figures.hardware import bracket_window, nut_window
from generator.figures.saw_setups import planned_fence
from generator.resources import bundled
from generator.spec.load import LoadedSpec, read_spec, read_spec_file
from generator.writers.figures_json import figures_data

DEMO = Path(__file__).resolve().parent.parent / "specs" / "demo.yml"
Data = dict[str, Any]


@pytest.fixture(scope="module")
def loaded() -> LoadedSpec:
    return read_spec_file(DEMO)


@pytest.fixture(scope="module")
def bench(loaded: LoadedSpec) -> Bench:
    return solve(loaded)


@pytest.fixture(scope="module")
def data(bench: Bench) -> Data:
    return figures_data(compute(bench)[0])


def rows(data: Data, *groups: str) -> list[Data]:
    return [part for part in data["parts"] if part["group"] in groups]


# --- layout


def test_zones_bays_and_posts(data: Data) -> None:
    layout = data["layout"]
    assert [(zone["name"], zone["front_edge"], zone["depth"]) for zone in layout["zones"]] == [
        ("front", 40, 500),
        ("back", 580, 280),
    ]
    assert [(bay["name"], bay["zone"], bay["left"], bay["width"]) for bay in layout["bays"]] == [
        ("F1", "front", 40, 500),
        ("F2", "front", 580, 400),
        ("F3", "front", 1020, 400),
        ("F4", "front", 1460, 500),
        ("B1", "back", 40, 940),
        ("B2", "back", 1020, 940),
    ]
    assert layout["post_edges"] == {"front": [0, 540, 980, 1420, 1960], "back": [0, 980, 1960]}
    assert 5 * 40 + 500 + 400 + 400 + 500 == 3 * 40 + 2 * 940 == layout["length"] == 2000
    assert 40 + 500 + 40 + 280 + 40 == layout["depth"] == 900


def test_heights(data: Data, bench: Bench) -> None:
    layout, levels = data["layout"], bench.layout.levels
    assert layout["frame_height"] == 880 - 127 - 10 - 18 == 725
    assert layout["floor_to_frame"] == 137
    assert [float(z) for z in (levels.base_top, levels.end_rail_bottom, levels.top_rail_bottom)] == [
        40,
        525,
        685,
    ]
    assert [float(z) for z in (levels.tray_bottom, levels.tray_top)] == [539, 551]
    assert layout["clamp_gap"] == 134
    assert {(bay["bottom"], bay["height"]) for bay in layout["bays"]} == {(40, 497)}


# --- bars

BARS = {
    ("corner post", 725): 4,
    ("long rail", 1920): 4,
    ("base cross-member", 820): 3,
    ("top cross-member", 820): 3,
    ("base end member", 820): 2,
    ("tray end rail", 820): 2,
    ("top end member", 820): 2,
    ("inner post", 645): 7,
    ("end spine post", 485): 2,
}
MARKS = {
    "corner post": ["A1", "A2", "A3", "A4"],
    "long rail": ["B1", "B2", "B3", "B4"],
    "base cross-member": ["C1", "C2", "C3"],
    "top cross-member": ["C4", "C5", "C6"],
    "base end member": ["C7", "C8"],
    "tray end rail": ["C9", "C10"],
    "top end member": ["C11", "C12"],
    "inner post": ["D1", "D2", "D3", "D4", "D5", "D6", "D7"],
    "end spine post": ["E1", "E2"],
}


def test_29_bars_of_25_905_mm(data: Data) -> None:
    bars = [part for part in data["parts"] if part["kind"] == "profile"]
    counts: Counter[tuple[str, float]] = Counter()
    for bar in bars:
        counts[bar["group"], bar["length"]] += bar["count"]
    assert counts == BARS
    assert sum(bar["count"] for bar in bars) == 29
    assert sum(bar["count"] * bar["length"] for bar in bars) == 25_905
    assert {bar["width"] for bar in bars} == {bar["thickness"] for bar in bars} == {40}


def test_marks_of_the_bars(data: Data) -> None:
    for group, marks in MARKS.items():
        found = [mark for bar in rows(data, group) for mark in bar["marks"]]
        assert sorted(found, key=lambda mark: int(mark[1:])) == marks


def test_handed_bars_are_rows_of_their_own(data: Data) -> None:
    alike = {tuple(bar["marks"]) for bar in data["parts"] if bar["kind"] == "profile"}
    assert alike == {
        ("A1", "A4"),  # turned half round; the other two are their mirror images
        ("A2", "A3"),
        ("B1",),
        ("B2",),
        ("B3",),
        ("B4",),
        ("C1", "C2", "C3"),
        ("C4", "C5", "C6"),
        ("C7", "C8"),
        ("C9", "C10"),
        ("C11", "C12"),
        ("D1", "D2", "D3", "D7"),
        ("D4", "D5", "D6"),
        ("E1", "E2"),
    }


#: Local distance from the left, front or bottom end, on the slot's centre line.
ACCESS = {
    "A1": {"front": [20, 545, 705]},
    "A2": {"front": [20, 545, 705]},
    "A3": {"rear": [20, 545, 705]},
    "A4": {"rear": [20, 545, 705]},
    "B1": {"bottom": [520, 960, 1400], "front": [520, 960, 1400]},
    "B2": {"bottom": [960], "rear": [520, 960, 1400]},
    "B3": {"front": [520, 960, 1400]},
    "B4": {"rear": [520, 960, 1400]},
    "C1": {"bottom": [520]},
    "C2": {"bottom": [520]},
    "C3": {"bottom": [520]},
    "C7": {"bottom": [520]},
    "C8": {"bottom": [520]},
    "C9": {"top": [520]},
    "C10": {"top": [520]},
}
THROUGH = {
    "A1": {"left": [20, 705]},
    "A2": {"right": [20, 705]},
    "A3": {"left": [20, 705]},
    "A4": {"right": [20, 705]},
    "B3": {"top": [520, 960, 1400]},
    "B4": {"top": [960]},
    "C4": {"top": [520]},
    "C5": {"top": [520]},
    "C6": {"top": [520]},
}
RELIEFS = {
    "A1": {"left": [645], "front": [645]},
    "A2": {"right": [645], "front": [645]},
    "A3": {"left": [645], "rear": [645]},
    "A4": {"right": [645], "rear": [645]},
    "B3": {"front": [80, 1840]},
    "B4": {"rear": [80, 1840]},
    "C11": {"left": [80, 740]},
    "C12": {"right": [80, 740]},
    "D1": {"front": [565]},
    "D2": {"front": [565]},
    "D3": {"front": [565]},
    "D7": {"rear": [565]},
}
SCHEDULES = {
    "access hole": (ACCESS, 8, None),
    "through hole": (THROUGH, 9, None),
    "counterbore": (THROUGH, 14, 13.5),
    "relief": (RELIEFS, (40, 16), 4.5),
}


@pytest.mark.parametrize("op", SCHEDULES)
def test_hole_schedule_of_every_bar(bench: Bench, op: str) -> None:
    expected, size, depth = SCHEDULES[op]
    found: dict[str, dict[str, list[float]]] = {}
    for bar in (part for part in bench.parts if part.kind == "profile"):
        for hole in (each for each in bar.operations if each.op == op):
            assert [hole.at[1], hole.size, hole.depth] == [20, size, depth]
            found.setdefault(bar.mark, {}).setdefault(hole.face, []).append(float(hole.at[0]))
    assert {
        mark: {face: sorted(at) for face, at in faces.items()} for mark, faces in found.items()
    } == expected


def test_the_first_bar_of_each_row_carries_its_own_schedule(data: Data) -> None:
    for bar in (part for part in data["parts"] if part["kind"] == "profile"):
        for op, (expected, _, _) in SCHEDULES.items():
            holes = [(hole["face"], hole["at"][0]) for hole in bar["operations"] if hole["op"] == op]
            wanted = [(face, at) for face, ats in expected.get(bar["mark"], {}).items() for at in ats]
            assert sorted(holes) == sorted(wanted), f"{bar['mark']}, {op}"


def test_joints_and_checks_of_their_sums(data: Data) -> None:
    assert data["joints"] == {
        "end_clips": 35,
        "through_screws": 15,
        "tapped_ends": 50,
        "access_holes": 35,
        "reliefs": 20,
    }
    assert 12 + 6 + 4 + 3 + 3 + 3 + 4 == 35
    assert 8 + 3 + 1 + 3 == 15
    assert 8 + 24 + 14 + 4 == 50 == 35 + 15


@pytest.mark.parametrize(
    ("kind", "faces", "count", "depth"),
    [
        ("end clip", "left right front rear bottom top", 35, 22.5),
        ("through screw", "left right top", 15, 23.5),
    ],
)
def test_tapped_ends(bench: Bench, kind: str, faces: str, count: int, depth: float) -> None:
    taps = [op for part in bench.parts for op in part.operations if op.op == "tap" and kind in op.purpose]
    assert len(taps) == count
    assert {op.face for op in taps} <= set(faces.split())
    # thread 17.5 (25 - 4.5 - 3) and 18.5 (45 - 26.5), and 5 more for the tap's run-out
    assert {op.depth for op in taps} == {depth}
    assert {op.size for op in taps} == {8}


CHECKED = {
    ("clip-stack", "end-clip"): (11.9, 12.3),
    ("clip-thread", "end-clip"): (17.5, 16),
    ("through-thread", "through-screw"): (18.5, 16),
    ("tongue-bottoms", "all captured panels"): (2.3, 2),
    ("bolt-window", "caster plate bolt"): (20, 20),
    ("bolt-window", "top bracket bolt"): (15.6, 16),
    ("tote-bearing", "bay F2, tote-145"): (7, 6),
    ("tote-rim", "bay F3, tote-145"): (14, 6),
    ("tote-depth", "bay F2, tote-145"): (20, 0),
    ("wide-drawer", "bay F1, drawer 1"): (0.944, 1.5),
    ("slide-depth", "bay F4"): (20, 10),
    ("clamp-gap", "between tray and top rail"): (134, 110),
    ("wheel-sweep", "corner casters"): (90, 100),
}


def test_values_of_the_checks(data: Data) -> None:
    found = {(check["code"], check["where"]): (check["value"], check["limit"]) for check in data["checks"]}
    assert {key: found[key] for key in CHECKED} == CHECKED


def test_template_of_the_clamp_relief(data: Data) -> None:
    relief = data["relief"]
    assert (relief["opening"], relief["template"], relief["offset"]) == ([40, 16], [51, 27], 5.5)
    assert (relief["guide_bush"], relief["cutter"]) == (17, 6)
    assert (relief["template_radius"], relief["work_radius"]) == (8.5, 3)


# --- panels

ALL_FOUR = {"front": 10, "rear": 10, "bottom": 10, "top": 10}
THREE = {"front": 10, "rear": 10, "bottom": 10}
BOTH_SIDES = {"left": 10, "right": 10}
FOUR_CORNERS = {f"{side} {end}": (12, 12) for side in ("front", "rear") for end in ("bottom", "top")}
BOTH_BOTTOM = {"front bottom": (12, 12), "rear bottom": (12, 12)}
#: First mark: pieces, first and second size, tongues, notches (along the first size, along the second).
PANELS = {
    "FD1": (3, 520, 509, THREE, BOTH_BOTTOM),
    "BD1": (1, 300, 509, THREE, BOTH_BOTTOM),
    "EF1": (2, 520, 505, ALL_FOUR, FOUR_CORNERS),
    "EB1": (2, 300, 505, ALL_FOUR, FOUR_CORNERS),
    "SP1": (2, 520, 498, BOTH_SIDES, {"left top": (12, 15)}),
    "SP2": (2, 420, 498, BOTH_SIDES, {}),
    "PAN": (1, 1940, 896, BOTH_SIDES, {f"{x} {y}": (12, 40) for x in ("left", "right") for y in ("front", "rear")}),
}  # fmt: skip


def test_panels_with_tongues_and_notches(data: Data) -> None:
    panels = [part for part in data["parts"] if part["material"] == "ply-12" and part["tongues"]]
    assert {
        part["mark"]: (
            part["count"],
            part["length"],
            part["width"],
            part["tongues"],
            {notch["corner"]: (notch["along"], notch["across"]) for notch in part["notches"]},
        )
        for part in panels
    } == PANELS
    assert sum(part["count"] for part in panels) == 13
    assert {part["thickness"] for part in panels} == {12}
    assert {(part["tongue_thickness"], part["rabbet_depth"], part["rabbet_length"]) for part in panels} == {
        (8, 2, 10.5)
    }


PLACES = {
    "FD1": ([554, 30, 30], "front P2"),
    "FD2": ([994, 30, 30], "front P3"),
    "FD3": ([1434, 30, 30], "front P4"),
    "BD1": ([994, 570, 30], "back P3"),
    "EF1": ([14, 30, 30], "front zone, left end"),
    "EF2": ([1974, 30, 30], "front zone, right end"),
    "EB1": ([14, 570, 30], "back zone, left end"),
    "EB2": ([1974, 570, 30], "back zone, right end"),
    "SP1": ([30, 554, 40], "spine, P1 to P2"),
    "SP2": ([570, 554, 40], "spine, P2 to P3"),
    "SP3": ([1010, 554, 40], "spine, P3 to P4"),
    "SP4": ([1450, 554, 40], "spine, P4 to P5"),
    "PAN": ([30, 2, 539], "on the end rails and all walls"),
}


def test_where_the_panels_sit(data: Data) -> None:
    panels = [part for part in data["parts"] if part["material"] == "ply-12" and part["tongues"]]
    found = {piece["mark"]: (piece["corner"], piece["where"]) for part in panels for piece in part["pieces"]}
    assert found == PLACES


def test_reasons_of_the_notches(bench: Bench) -> None:
    reasons = {
        (part.mark, notch.corner): notch.reason
        for part in bench.of(Role.DIVIDER, Role.SPINE_PANEL, Role.TRAY)
        for notch in part.notches
    }
    assert "solid corner" in reasons["FD1", "front bottom"]
    assert "clip" in reasons["FD1", "rear bottom"]
    assert "clip" in reasons["BD1", "front bottom"]
    assert "solid corner" in reasons["BD1", "rear bottom"]
    assert ("SP1", "left top") in reasons
    assert ("SP4", "right top") in reasons
    assert "tray end rail" in reasons["SP4", "right top"]


def test_tray_cut_outs(data: Data) -> None:
    (tray,) = rows(data, "tray")
    low_x, low_y, _ = tray["pieces"][0]["corner"]
    found = {
        op["purpose"]: (op["at"][0] + low_x, op["at"][1] + low_y, *op["size"]) for op in tray["operations"]
    }
    assert {op["op"] for op in tray["operations"]} == {"cut-out"}
    assert found == {
        "front post P2": (560, 22, 42, 40),
        "front post P3": (1000, 22, 42, 40),
        "front post P4": (1440, 22, 42, 40),
        "spine post P2": (560, 560, 42, 42),
        "spine post P3": (1000, 560, 42, 42),
        "spine post P4": (1440, 560, 42, 42),
        "back post P3": (1000, 878, 42, 40),
    }


def test_fits(data: Data) -> None:
    assert len(data["fits"]) == 4
    for fit in data["fits"]:
        assert (fit["groove"], fit["thickness"], fit["tongue_thickness"]) == (8.2, 12, 8)
        assert (fit["rabbet_depth"], fit["tongue"], fit["rabbet_length"]) == (2, 10, 10.5)
        assert (fit["bottom_clearance"], fit["offset"], fit["packing"]) == (2.3, 14, 15)
        assert fit["clearance_min"] <= 8.2 - 8 <= fit["clearance_max"]


def test_tray_trim(data: Data) -> None:
    trims = {part["mark"]: (part["count"], part["length"]) for part in rows(data, "tray trim")}
    assert trims == {"T1": (2, 498), "T2": (2, 398), "T5": (2, 938)}
    places = {piece["mark"]: piece["corner"] for part in rows(data, "tray trim") for piece in part["pieces"]}
    # the outer face is flush with the posts, the leg lies under the sheet
    assert places == {
        "T1": [41, 0, 537],
        "T2": [581, 0, 537],
        "T3": [1021, 0, 537],
        "T4": [1461, 0, 537],
        "T5": [41, 885, 537],
        "T6": [1021, 885, 537],
    }
    assert sum(count * length for count, length in trims.values()) == 3668


def test_shelves_and_cleats(data: Data) -> None:
    (shelf,), (cleat,) = rows(data, "shelf"), rows(data, "shelf cleat")
    assert (shelf["count"], shelf["length"], shelf["width"], shelf["thickness"]) == (4, 966, 278, 18)
    assert (cleat["count"], cleat["length"], cleat["width"], cleat["thickness"]) == (8, 260, 40, 15)
    assert [(row["bay"], row["number"], row["cleat_top"], row["top"]) for row in data["shelves"]] == [
        ("B1", 1, 82, 100),
        ("B1", 2, 310, 328),
        ("B2", 1, 82, 100),
        ("B2", 2, 310, 328),
    ]
    assert {(row["length"], row["depth"]) for row in data["shelves"]} == {(966, 278)}


def test_a_shelf_tilts_in(data: Data) -> None:
    """A hand table gives 15.5 degrees and 275, found in half degrees; the flattest angle is a little less."""
    (needed,) = {check["value"] for check in data["checks"] if check["code"] == "shelf-tilt"}
    assert needed == pytest.approx(274.25, abs=0.01)
    tilt = tilt_in(*(Fraction(size) for size in (966, 18, 940, 968, 485)))
    assert tilt.possible
    assert tilt.angle_degrees == pytest.approx(15.42, abs=0.01)
    assert 966 * math.cos(math.radians(15.42)) + 18 * math.sin(math.radians(15.42)) == pytest.approx(
        936, abs=0.1
    )
    assert tilt.diagonal == pytest.approx(966.2, abs=0.05)


# --- drawers

#: Front height, front bottom and top, box height, box bottom and top, slide axis, slide lower edge, spacer.
DRAWERS = {
    1: (165, 43, 208, 140, 53, 193, 80, 57.5, 17.5),
    2: (130, 211, 341, 105, 221, 326, 248, 225.5, 123),
    3: (107, 344, 451, 82, 354, 436, 381, 358.5, 88),
    4: (80, 454, 534, 55, 464, 519, 491, 468.5, 65),
}


def test_drawers(data: Data) -> None:
    assert 165 + 130 + 107 + 80 == 482 == 497 - 5 * 3
    assert [(row["bay"], row["number"]) for row in data["drawers"]] == [
        (bay, number) for bay in ("F1", "F4") for number in DRAWERS
    ]
    for row in data["drawers"]:
        assert (
            row["front_height"],
            row["front_bottom"],
            row["front_bottom"] + row["front_height"],
            row["box_height"],
            row["box_bottom"],
            row["box_bottom"] + row["box_height"],
            row["slide_axis"],
            row["slide_lower_edge"],
            row["spacer"],
        ) == DRAWERS[row["number"]]
        assert (row["front_width"], row["box_width"], row["box_depth"]) == (494, 472, 500)
        assert row["bottom_panel"] == [459, 487]
        assert (row["slide_front"], row["hole_stations"]) == (20, [57, 281, 473])


def test_parts_of_the_drawers(data: Data) -> None:
    def sizes(group: str) -> list[tuple[int, float, float, float]]:
        return [
            (part["count"], part["length"], part["width"], part["thickness"]) for part in rows(data, group)
        ]

    heights = (140, 105, 82, 55)
    assert sizes("drawer side") == [(4, 500, height, 12) for height in heights]
    assert sizes("drawer front and back") == [(4, 448, height, 12) for height in heights]
    assert sizes("drawer bottom") == [(8, 459, 487, 6)]
    assert sizes("drawer face") == [(2, 494, height, 18) for height in (165, 130, 107, 80)]
    grooves = {op["depth"] for part in rows(data, "drawer side") for op in part["operations"]}
    assert grooves == {6}


def test_strips_are_set_out_on_the_flat_from_the_edge_of_their_own_wall(data: Data) -> None:
    """A front divider begins at Y 30, a tongue of 10 before the post's rear face at 40; the back ones end at 870."""
    edges = [row["from_edge"] for row in data["strips"] if row["bay"] == "F1"]
    assert edges == [41 - 30, 256 - 30, 448 - 30]
    assert {row["runner_from_edge"] for row in data["totes"]} == {41 - 30}
    # cleats of 260 in the middle of 280 between the posts
    assert {row["cleat_from_edge"] for row in data["shelves"]} == {870 - 850}


def test_packing_strips_and_where_they_stand(data: Data) -> None:
    (strip,) = rows(data, "packing strip")
    assert (strip["count"], strip["length"], strip["width"], strip["thickness"]) == (12, 480, 50, 15)
    stations: Counter[tuple[float, float]] = Counter()
    for piece in strip["pieces"]:
        (_, y, z), (thick, wide, long) = piece["corner"], piece["size"]
        assert (thick, wide, z, z + long) == (15, 50, 42, 522)
        stations[y, y + wide] += 1
    assert stations == {(41, 91): 4, (256, 306): 4, (448, 498): 4}
    assert {piece["corner"][0] for piece in strip["pieces"]} == {26, 539, 1446, 1959}


# --- totes


def test_totes(data: Data) -> None:
    assert 497 - 3 * 145 - 2 * 12 == 38 == 2 * 19
    assert [
        (row["bay"], row["number"], row["bottom"], row["runner_top"], row["top"]) for row in data["totes"]
    ] == [
        (bay, number, *heights)
        for bay in ("F2", "F3")
        for number, heights in ((1, (59, 196, 204)), (2, (216, 353, 361)), (3, (373, 510, 518)))
    ]


def test_runners(data: Data) -> None:
    (runner,) = rows(data, "tote runner")
    assert (runner["count"], runner["length"], runner["width"], runner["thickness"]) == (12, 498, 31, 15)
    assert {row["runner_width"] for row in data["totes"]} == {31}
    edges = {(piece["corner"][0], piece["corner"][0] + piece["size"][0]) for piece in runner["pieces"]}
    assert edges == {(566, 597), (963, 994), (1006, 1037), (1403, 1434)}
    assert 963 - 597 == 1403 - 1037 == 366


def test_openings(data: Data) -> None:
    clear = [(row["bay"], row["item"], row["width"], row["bottom"], row["top"]) for row in data["openings"]]
    drawers = ((43, 208), (211, 341), (344, 451), (454, 534))
    totes = ((59, 204), (216, 361), (373, 518))
    expected = [("F1", f"drawer {n}", 500, *at) for n, at in enumerate(drawers, 1)]
    expected += [(bay, f"tote {n}", 400, *at) for bay in ("F2", "F3") for n, at in enumerate(totes, 1)]
    expected += [("F4", f"drawer {n}", 500, *at) for n, at in enumerate(drawers, 1)]
    expected += [
        (bay, f"above shelf {n}", 940, *at)
        for bay in ("B1", "B2")
        for n, at in ((1, (100, 310)), (2, (328, 537)))
    ]
    assert clear == expected


# --- story sticks and spacers

#: Stick: its length and datum, edges, centres.
STICKS = {
    "X-front": (1920, [0, 500, 540, 940, 980, 1380, 1420, 1920], [520, 960, 1400]),
    "X-back": (1920, [0, 500, 540, 940, 980, 1380, 1420, 1920], [520, 960, 1400]),
    "Y-cross-members": (820, [0, 500, 540, 820], [520]),
    "Z-corner post": (725, [0, 40, 525, 565, 685, 725], [645]),
    "Z-inner post": (645, [0, 499, 511, 645], [565]),
    "Z-drawer F1, F4": (
        499,
        [0, 3, 17.5, 168, 171, 185.5, 301, 304, 318.5, 411, 414, 428.5, 494, 497, 499],
        [40, 208, 341, 451],
    ),
    "Z-tote F2, F3": (499, [0, 156, 313, 470, 497, 499], []),
    "Z-shelf B1, B2": (499, [0, 42, 270, 497, 499], []),
}


def test_story_sticks(data: Data) -> None:
    found = {
        stick["name"]: (
            stick["length"],
            [mark["at"] for mark in stick["marks"] if mark["kind"] == "edge"],
            [mark["at"] for mark in stick["marks"] if mark["kind"] == "centre"],
        )
        for stick in data["sticks"]
    }
    assert found == STICKS


def test_what_lies_on_the_back_rails(data: Data) -> None:
    """Only the middle line has a back post; on the others cross-members end."""
    (stick,) = (stick for stick in data["sticks"] if stick["name"] == "X-back")
    labels = {mark["at"]: mark["label"].split()[0] for mark in stick["marks"] if mark["kind"] == "centre"}
    assert labels == {520: "cross-member", 960: "post", 1400: "cross-member"}


SPACERS = {
    (17.5, "slide"): 2,
    (123, "slide"): 2,
    (88, "slide"): 2,
    (65, "slide"): 2,
    (500, "bay"): 2,
    (400, "bay"): 2,
    (940, "bay"): 2,
}


def test_spacers(data: Data) -> None:
    assert {(row["length"], row["label"].split()[0]): row["count"] for row in data["spacers"]} == SPACERS


# --- top


def test_perforated_top(data: Data) -> None:
    top = data["top"]
    assert (top["length"], top["width"], top["thickness"]) == (2000, 900, 18)
    assert (top["columns"], top["margin_x"]) == (1880 // 96 + 1, 88)
    assert (top["rows"], top["margin_y"]) == (780 // 96 + 1, 66)
    assert (top["omitted_columns"], top["omitted_rows"]) == ([568, 1432], [])
    assert top["holes"] == 18 * 9 == 162
    (board,) = rows(data, "top")
    columns = sorted({op["at"][0] for op in board["operations"]})
    assert columns == [88 + 96 * i for i in range(20) if i not in (5, 14)]
    assert sorted({op["at"][1] for op in board["operations"]}) == [66 + 96 * j for j in range(9)]
    assert len(board["operations"]) == 162


# --- hardware

HARDWARE = {
    "end-clip": (35, 4),
    "M8x25 button-head screw": (35, 4),
    "through-screw": (15, 2),
    "slot-nut": (40, 4),
    "caster": (6, 0),
    "caster plate": (6, 0),
    "caster plate bolt": (24, 3),
    "caster screw": (24, 3),
    "top bracket": (8, 0),
    "top bracket bolt": (8, 2),
    "washer": (8, 2),
    "top bracket wood screw": (16, 2),
    "slide": (8, 0),
    "slide screw": (96, 10),
    "drawer box screw": (80, 8),
    "drawer front screw": (32, 4),
    "strip screw": (48 + 24 + 48, 8 + 5),
    "trim screw": (5 + 4 + 4 + 5 + 7 + 7, 4),
    "pocket screw": (6, 2),
    "tray screw": (3, 2),
}
SIZES = {
    "M8x25 button-head screw": "M8x25",
    "through-screw": "M8x45 cap screw",
    "slot-nut": "M8, slide-in",
    "caster plate bolt": "M8x20",
    "caster screw": "M8x16",
    "top bracket bolt": "M8x16",
    "top bracket wood screw": "5x16",
    # 4x16 through the side of a box of 12 would come out inside; 4x25 through a runner of 31 reach no wall
    "slide screw": "48 4x16 into the packing, 48 4x10 into the boxes",
    "strip screw": "72 4x25, 48 4x40",
    "tray screw": "4x40",
}


def test_hardware(data: Data) -> None:
    assert {row["item"]: (row["count"], row["spare"]) for row in data["hardware"]} == HARDWARE
    sizes = {row["item"]: row["size"] for row in data["hardware"]}
    assert {item: sizes[item] for item in SIZES} == SIZES
    (nuts,) = (row["for"] for row in data["hardware"] if row["item"] == "slot-nut")
    assert nuts.startswith("24 caster plates, 8 top brackets, 8 spare")


def test_bolt_windows(loaded: LoadedSpec) -> None:
    plate, bracket = nut_window(loaded.goods, loaded.spec.base.plate.thickness), bracket_window(loaded.goods)
    assert [float(value) for value in (plate.shortest, plate.longest, plate.length or 0)] == [20, 21.3, 20]
    assert [float(value) for value in (bracket.shortest, bracket.longest, bracket.length or 0)] == [
        15.6,
        16.9,
        16,
    ]


PLATE_BOLTS = {
    "CP1": {("B1", 70, 20), ("B1", 130, 20), ("C7", 20, 70), ("C7", 20, 130)},
    "CP2": {("B1", 950, 20), ("B1", 1050, 20), ("C2", 1000, 50), ("C2", 1000, 150)},
    "CP3": {("B1", 1870, 20), ("B1", 1930, 20), ("C8", 1980, 70), ("C8", 1980, 130)},
    "CP4": {("B2", 70, 880), ("B2", 130, 880), ("C7", 20, 770), ("C7", 20, 830)},
    "CP5": {("B2", 950, 880), ("B2", 1050, 880), ("C2", 1000, 750), ("C2", 1000, 850)},
    "CP6": {("B2", 1870, 880), ("B2", 1930, 880), ("C8", 1980, 770), ("C8", 1980, 830)},
}


def test_casters_and_plate_bolts(data: Data) -> None:
    casters = data["casters"]
    assert casters["positions"] == [
        [100, 100],
        [1000, 100],
        [1900, 100],
        [100, 800],
        [1000, 800],
        [1900, 800],
    ]
    found: dict[str, set[tuple[str, float, float]]] = {}
    for bolt in casters["bolts"]:
        found.setdefault(bolt["plate"], set()).add((bolt["member"], *bolt["at"]))
    assert found == PLATE_BOLTS
    nuts = Counter(bolt["member"] for bolt in casters["bolts"])
    assert nuts == {"B1": 6, "B2": 6, "C7": 4, "C8": 4, "C2": 4}


def test_caster_plates(bench: Bench) -> None:
    plates = {part.mark: part for part in bench.of(Role.STAND)}
    assert {plate.length for plate in plates.values()} == {plate.width for plate in plates.values()} == {170}
    assert {plate.thickness for plate in plates.values()} == {10}

    def at(mark: str, op: str) -> set[tuple[float, float]]:
        x, y = plates[mark].box.x.low, plates[mark].box.y.low
        return {(float(o.at[0] + x), float(o.at[1] + y)) for o in plates[mark].operations if o.op == op}

    assert at("CP1", "tapped hole") == {(60, 70), (140, 70), (60, 130), (140, 130)}
    # a port in both middle plates, over the key to the middle inner posts
    assert {mark: at(mark, "port") for mark in plates} == {
        **{mark: set() for mark in ("CP1", "CP3", "CP4", "CP6")},
        "CP2": {(1000, 20)},
        "CP5": {(1000, 880)},
    }
    ports: list[Operation] = [op for op in plates["CP2"].operations if op.op == "port"]
    assert [op.size for op in ports] == [12]


# --- mass, casters, diagonals

HOLE = math.pi / 4


def expected_masses() -> dict[str, float]:
    """Each item by hand, from the tables above (kg). Notches, cut-outs and holes through sheets are taken off."""
    captured = (
        3 * (520 * 509 - 2 * 12 * 12)  # front dividers
        + (300 * 509 - 2 * 12 * 12)  # back divider
        + 2 * (520 * 505 - 4 * 12 * 12)  # ends of the front zone
        + 2 * (300 * 505 - 4 * 12 * 12)  # ends of the back zone
        + 2 * (520 * 498 - 12 * 15)  # outer spine panels
        + 2 * 420 * 498  # inner spine panels
        + (1940 * 896 - 4 * 12 * 40 - 4 * 42 * 40 - 3 * 42 * 42)  # tray
    )
    boxes = 2 * 2 * (500 + 448) * (140 + 105 + 82 + 55) * 12 + 8 * 459 * 487 * 6
    strips = 12 * 480 * 50 * 15 + 12 * 498 * 31 * 15 + 8 * 260 * 40 * 15
    plates = 6 * 170 * 170 - HOLE * (24 * 9**2 + 24 * 8**2 + 2 * 12**2)
    screws = 16 + 96 + 80 + 32 + 120 + 32 + 6 + 3
    return {
        "bars": 25.905 * 1.7,
        "panels and tray": captured * 12 * 680e-9,
        "drawer boxes": boxes * 680e-9,
        "drawer faces": 2 * 494 * 482 * 18 * 680e-9,
        "shelves": 4 * 966 * 278 * 18 * 680e-9,
        "top": (2000 * 900 - 162 * HOLE * 20**2) * 18 * 750e-9,
        "strips": strips * 450e-9,
        "trim": 3668 * (15 + 15 - 2) * 2 * 2700e-9,
        "plates": plates * 10 * 2700e-9,
        "slides and casters": 8 * 1.3 + 6 * 1.1,
        "joints and nuts": 35 * 0.035 + 15 * 0.025 + 40 * 0.012,
        "bolts": 24 * 0.012 + 24 * 0.010 + 8 * 0.050 + 8 * 0.011,
        "wood screws": screws * 0.002,
    }


GROUPS = {
    "bars": tuple(MARKS),
    "panels and tray": ("divider", "end panel", "spine panel", "tray"),
    "drawer boxes": ("drawer side", "drawer front and back", "drawer bottom"),
    "drawer faces": ("drawer face",),
    "shelves": ("shelf",),
    "top": ("top",),
    "strips": ("packing strip", "tote runner", "shelf cleat"),
    "trim": ("tray trim",),
    "plates": ("caster plate",),
    "slides and casters": ("slide", "caster"),
    "joints and nuts": ("end clip", "through screw", "slot nut"),
}


def test_mass(data: Data) -> None:
    """171.7 kg. The worked bench says 172.8: it took strips at 550 kg/m³ (the spec says 450: 0.8 kg less) and
    did not take notches, cut-outs and plate holes off (0.2 kg)."""
    items, groups = expected_masses(), data["mass"]["by_group"]
    for item, names in GROUPS.items():
        assert sum(groups[name] for name in names) == pytest.approx(items[item], abs=1e-6), item
    assert groups["screws and bolts"] == pytest.approx(items["bolts"] + items["wood screws"], abs=1e-6)
    assert sum(groups.values()) == pytest.approx(data["mass"]["empty"], abs=1e-6)
    assert data["mass"]["empty"] == pytest.approx(sum(items.values()), abs=1e-6)
    assert data["mass"]["empty"] == pytest.approx(171.7, abs=0.05)
    at_550 = sum(items.values()) + items["strips"] * (550 / 450 - 1)
    assert at_550 == pytest.approx(172.8, abs=0.3)


def test_load_and_casters(data: Data) -> None:
    assert 8 * 20 + 6 * 10 + 4 * 15 + 100 == 380
    assert data["mass"]["loaded"] - data["mass"]["empty"] == pytest.approx(380)
    # four of six wheels carry, and a quarter more for rolling over joints: 172.4, so the 180 kg class will do
    assert data["casters"]["load_each"] == pytest.approx(data["mass"]["loaded"] / 4)
    assert data["casters"]["required"] == pytest.approx(172.4, abs=0.05)
    assert (data["casters"]["count"], data["casters"]["rating"]) == (6, 180)


def test_diagonals(data: Data) -> None:
    found = {row["name"]: round(row["value"], 1) for row in data["diagonals"]}
    assert found["outer"] == 2193.2
    assert found["base inner"] == 2087.8
    assert found["end frame"] == 1155.7


# --- the bar plan


def test_bar_plan(data: Data) -> None:
    bars = [bar for bar in data["cutting"]["bars"] if bar["material"] == "bar"]
    assert len(bars) == 5
    assert sorted(mark for bar in bars for mark in bar["pieces"]) == sorted(
        mark for row in data["parts"] if row["kind"] == "profile" for mark in row["marks"]
    )
    assert max(bar["offcut"] for bar in bars) == 3843
    assert data["cutting"]["bar_bound"]["bar"] == {"cost": 270, "count": 5}
    for bar in bars:
        assert bar["offcut"] == bar["stock_length"] - 2 * 10 - sum(length + 4 for length in bar["lengths"])
        assert bar["running"][-1] == sum(bar["lengths"]) + 4 * (len(bar["lengths"]) - 1)


def test_bars_of_3000_take_ten() -> None:
    text = (bundled("specs") / "demo.yml").read_text(encoding="utf-8")
    text = text.replace("{length: 6000, price: 54}", "{length: 3000, price: 30}")
    loaded = read_spec(text, "demo.yml")
    plans = compute(solve(loaded))[0].cutting
    (summary,) = [each for each in plans.summaries if each.material == "bar"]
    assert (summary.bars, summary.proved, plans.bar_bound["bar"].count) == (10, True, 10)


def test_sheet_plan(data: Data) -> None:
    sheets = Counter(sheet["material"] for sheet in data["cutting"]["sheets"])
    assert sheets == {"ply-12": 3, "ply-18": 1, "ply-6": 1, "mdf-18": 1}
    assert data["cutting"]["sheet_bound"] == {"ply-12": 3, "ply-18": 1, "ply-6": 1, "mdf-18": 1}
    laid = Counter(piece["mark"] for sheet in data["cutting"]["sheets"] for piece in sheet["pieces"])
    boards = [row for row in data["parts"] if row["kind"] == "sheet" and row["group"] != "caster plate"]
    assert laid == Counter(mark for row in boards for mark in row["marks"])
    sizes = {mark: (row["length"], row["width"]) for row in boards for mark in row["marks"]}
    for sheet in data["cutting"]["sheets"]:
        for piece in sheet["pieces"]:
            lying = (piece["l"], piece["w"])
            assert lying == (sizes[piece["mark"]][::-1] if piece["turned"] else sizes[piece["mark"]])
            assert piece["x"] >= 10 and piece["x"] + piece["l"] <= sheet["stock"][0] - 10
            assert piece["y"] >= 10 and piece["y"] + piece["w"] <= sheet["stock"][1] - 10


def test_fence_settings_cover_every_cut_of_all_sheets(data: Data) -> None:
    cutting = data["cutting"]
    for summary in cutting["sheet_summaries"]:
        fences = [each for each in cutting["fences"] if each["material"] == summary["material"]]
        sheets = [each for each in cutting["sheets"] if each["material"] == summary["material"]]
        assert len(fences) == summary["setups"] <= summary["setups_sheet_by_sheet"]
        assert len({each["setting"] for each in fences}) == summary["settings"]
        made = [(sheet, n) for each in fences for sheet, n in each["cuts"]]
        assert sorted(made) == [(s, cut["n"]) for s, sheet in enumerate(sheets, 1) for cut in sheet["cuts"]]
        settings = {(s, n): each["setting"] for each in fences for s, n in each["cuts"]}
        for number, sheet in enumerate(sheets, 1):
            for cut in sheet["cuts"]:
                assert cut["parent"] < cut["n"]
                assert cut["setting"] == settings[number, cut["n"]]
    plies = {each["material"]: each for each in cutting["sheet_summaries"]}
    assert plies["ply-12"]["setups"] * 2 < plies["ply-12"]["setups_sheet_by_sheet"]


def test_the_set_up_cards_take_their_fences_from_the_sheet_plan(data: Data) -> None:
    for fences in by_material(data["cutting"]["fences"]).values():
        material = fences[0]["material"]
        cards = [each for each in data["setups"] if each["key"].endswith(f"fence-{material}")]
        settings = [setting["values"] for card in cards for setting in card["settings"]]
        assert settings == [[each["setting"]] for each in fences]


def test_a_card_says_what_it_cuts_before_the_bays_are_measured() -> None:
    loaded = read_spec((bundled("specs") / "wall-bench.yml").read_text(encoding="utf-8"), "wall-bench.yml")
    figures = compute(solve(loaded))[0]
    waiting = [fence for fence in figures.cutting.fences if fence.waits and fence.marks]
    why = " to the planned size now, because a part beside needs the cut"
    early = [planned_fence(replace(fence, too_early=fence.marks), figures.parts).text for fence in waiting]
    assert early and all("; this cuts D" in text and text.endswith(why) for text in early)


def by_material(fences: list[Data]) -> dict[str, list[Data]]:
    return {
        name: [each for each in fences if each["material"] == name]
        for name in {f["material"] for f in fences}
    }


@pytest.mark.parametrize("name", ["demo", "wall-bench", "starter"])
def test_drawer_parts_wait_on_the_cards_and_in_the_plan(name: str) -> None:
    """Drawer boxes, bottoms and faces wait for the measured bays, says the cut list: all else must come free first."""
    loaded = read_spec((bundled("specs") / f"{name}.yml").read_text(encoding="utf-8"), f"{name}.yml")
    figures = compute(solve(loaded))[0]
    drawer = {mark for row in figures.parts for mark in row.marks if re.match("D[SEBF][0-9]", mark)}
    for card in figures.setups:
        if "fence" in card.key or card.key.startswith("groove"):
            assert set(card.marks) <= drawer or not set(card.marks) & drawer, card.title
    waiting = [bool(set(card.marks) & drawer) for card in figures.setups]
    assert any(waiting) and waiting == sorted(waiting)
    for number, sheet in enumerate(figures.cutting.sheets):
        own = [each for each in figures.cutting.sheets[:number] if each.material == sheet.material]
        made = {
            cut for fence in figures.cutting.fences if fence.material == sheet.material and not fence.waits
            for place, cut in fence.cuts if place == len(own) + 1
        }  # fmt: skip
        for piece in sheet.pieces:
            around = [
                cut.n for cut in sheet.cuts
                if cut.x <= piece.x < cut.x + cut.l and cut.y <= piece.y < cut.y + cut.w
            ]  # fmt: skip
            assert piece.mark in drawer or set(around) <= made, piece.mark
        assert made == set(range(1, len(made) + 1))


def test_a_fence_is_set_to_the_parts_own_size_where_the_plan_is_made_to_a_tenth() -> None:
    """The front zone half a tenth deeper: its dividers come to 520.05 mm, which is planned as 520.1."""
    text = (bundled("specs") / "demo.yml").read_text(encoding="utf-8")
    text = text.replace("depth: 500\n", "depth: 500.05\n")
    loaded = read_spec(text, "demo.yml")
    figures = compute(solve(loaded))[0]
    sizes = {mark: {row.length, row.width} for row in figures.parts for mark in row.marks}
    sized = [(each.setting, mark) for each in figures.cutting.fences for mark in each.marks]
    assert Fraction("520.05") in {setting for setting, _ in sized}
    assert all(setting in sizes[mark] for setting, mark in sized)


def test_a_panel_saw_and_a_track_saw_have_their_say_in_the_sheet_plan() -> None:
    """Whole sheets are broken down at 1300 mm, three runs of cuts: as many sheets, and the tray by track saw alone."""
    text = (bundled("specs") / "demo.yml").read_text(encoding="utf-8")
    text = text.replace("edge_trim: 10}", "edge_trim: 10, stages: 3, break_down: {max_length: 1300}}")
    loaded = read_spec(text, "demo.yml")
    plans = compute(solve(loaded))[0].cutting
    assert (plans.longest_part, plans.allowance) == (1300, 5)
    counted = {each.material: each.sheets for each in plans.sheet_summaries}
    assert counted == {"ply-12": 3, "ply-6": 1, "ply-18": 1, "mdf-18": 1}
    assert max(each.stages for each in plans.sheet_summaries) <= 3
    assert len([cut for sheet in plans.sheets for cut in sheet.cuts if cut.by_track]) == sum(
        each.track_cuts for each in plans.sheet_summaries
    )
    for sheet in plans.sheets:
        for cut in sheet.cuts:
            assert cut.by_track == (max(cut.l, cut.w) > 1300)
    fenced = {(f.material, sheet, n) for f in plans.fences for sheet, n in f.cuts}
    assert len(fenced) == sum(not cut.by_track for sheet in plans.sheets for cut in sheet.cuts)
    tray = [cut for sheet in plans.sheets for cut in sheet.cuts if "PAN" in cut.marks]
    assert tray and all(cut.by_track for cut in tray)
