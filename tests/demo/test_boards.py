"""The worked bench's panels, drawers, totes, sticks and top, number by number."""

from __future__ import annotations

import math
from collections import Counter
from fractions import Fraction

import pytest

from generator.bench.model import Bench
from generator.bench.role import Role
from generator.calculators.shelves import tilt_in
from tests.demo.rows import Data, rows

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
        "rear post P3": (1000, 878, 42, 40),
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
    "X-rear": (1920, [0, 500, 540, 940, 980, 1380, 1420, 1920], [520, 960, 1400]),
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
    (stick,) = (stick for stick in data["sticks"] if stick["name"] == "X-rear")
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
