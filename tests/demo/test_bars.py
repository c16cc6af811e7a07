"""The worked bench's layout, bars, holes and joints, number by number."""

from __future__ import annotations

from collections import Counter

import pytest

from generator.bench.model import Bench
from tests.demo.rows import MARKS, Data, rows

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
