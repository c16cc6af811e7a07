"""The worked panels, and every tongue in a slot, by the bars that stand round each board."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.bench.frames.panels import panel_rules, tongue_of, tray_heights, wall_names
from generator.bench.model import Bench, Part
from generator.bench.role import Role
from generator.geometry import FACES
from tests.bench.benches import DEMO, WALL, changed, part, solved, span

RAILS = changed(
    DEMO, ("through: posts", "through: rails"), ("corner_posts: through-screw", "corner_posts: end-clip")
)
PANELS = (Role.DIVIDER, Role.END_PANEL, Role.SPINE_PANEL, Role.BACK_PANEL, Role.TRAY)


def notches(bench: Bench, mark: str) -> dict[str, tuple[Fraction, Fraction]]:
    return {each.corner: (each.along, each.across) for each in part(bench, mark).notches}


def test_the_worked_panels() -> None:
    """Sizes and corner notches of the table; a spine panel is notched only where the tray's end rail stands."""
    bench = solved()
    sizes = {
        "FD1": (520, 509), "BD1": (300, 509), "EF1": (520, 505), "EB1": (300, 505), "SP1": (520, 498),
        "SP2": (420, 498), "SP3": (420, 498), "SP4": (520, 498), "PAN": (1940, 896),
    }  # fmt: skip
    assert {mark: (part(bench, mark).length, part(bench, mark).width) for mark in sizes} == sizes
    assert sum(len(bench.of(role)) for role in PANELS) == 13
    assert notches(bench, "FD1") == {"front bottom": (12, 12), "rear bottom": (12, 12)}
    assert notches(bench, "EF1") == {
        f"{side} {level}": (12, 12) for side in ("front", "rear") for level in ("bottom", "top")
    }
    assert notches(bench, "SP1") == {"left top": (12, 15)}
    assert notches(bench, "SP4") == {"right top": (12, 15)}
    assert notches(bench, "SP2") == {}
    assert notches(bench, "PAN") == {
        f"{end} {side}": (12, 40) for end in ("left", "right") for side in ("front", "rear")
    }
    assert span(part(bench, "FD1"), "x") == (554, 566)
    assert span(part(bench, "PAN"), "z") == (539, 551)
    assert part(bench, "FD1").tongues == {"front": 10, "rear": 10, "bottom": 10}


def test_the_worked_tray() -> None:
    """42 x 40 at three front posts and one back post, 42 x 42 at three spine posts: X 560, 1000, 1440, Y 560."""
    bench = solved()
    tray = part(bench, "PAN")
    cuts = [op for op in tray.operations if op.op == "cut-out"]
    places = [(op.at[0] + 30, op.at[1] + 2, op.size) for op in cuts]
    front = [(560, 22, (42, 40)), (1000, 22, (42, 40)), (1440, 22, (42, 40))]
    spine = [(560, 560, (42, 42)), (1000, 560, (42, 42)), (1440, 560, (42, 42))]
    assert places == [*front, *spine, (1000, 878, (42, 40))]
    assert [op.purpose for op in cuts][:4] == [
        "front post P2",
        "front post P3",
        "front post P4",
        "spine post P2",
    ]


def test_the_worked_trim() -> None:
    """498, 398, 398, 498 in front and 938 twice at the back; its leg lies under the tray, flush with the posts."""
    bench = solved()
    trim = bench.of(Role.TRAY_TRIM)
    assert [each.length for each in trim] == [498, 398, 398, 498, 938, 938]
    assert {span(each, "z") for each in trim} == {(537, 552)}
    assert {span(each, "y") for each in trim} == {(0, 15), (885, 900)}
    assert span(trim[0], "x") == (41, 539)
    assert [each.place.side for each in trim] == ["front"] * 4 + ["back"] * 2


@pytest.mark.parametrize("text", [DEMO, WALL, RAILS], ids=["demo", "wall", "rails"])
def test_every_tongue_lies_in_the_middle_of_a_bar_s_slot(text: str) -> None:
    """As deep as the tongue is long, along a bar that stands or lies at that edge; a plain edge lies in no bar."""
    bench = solved(text)
    tongue = tongue_of(bench.loaded)
    bars = [each for each in bench.parts if each.kind == "profile"]
    for panel in (each for each in bench.parts if each.role in PANELS):
        thin = next(axis for axis in "xyz" if axis not in (panel.along, panel.across))
        for axis, faces in FACES.items():
            for end, face in enumerate(faces):
                if axis == thin:
                    continue
                along = next(each for each in "xyz" if each not in (axis, thin))
                holding = [
                    bar for bar in bars if bar.along == along and _depth(panel, bar, axis, end, thin) > 0
                ]
                if face in panel.tongues:
                    assert holding, (panel.mark, face)
                    for bar in holding:
                        assert _depth(panel, bar, axis, end, thin) == panel.tongues[face] == tongue
                        assert bar.box.span(thin).middle == panel.box.span(thin).middle
                else:
                    assert not holding, (panel.mark, face)


def _depth(panel: Part, bar: Part, axis: str, end: int, thin: str) -> Fraction:
    """How far a panel's edge reaches into a bar that runs along it."""
    along = bar.along
    if (
        panel.box.span(along).overlap(bar.box.span(along)) <= 20
        or panel.box.span(thin).overlap(bar.box.span(thin)) <= 0
    ):
        return Fraction(0)
    mine, theirs = panel.box.span(axis), bar.box.span(axis)
    depth = mine.high - theirs.low if end else theirs.high - mine.low
    return depth if 0 < depth < theirs.size / 2 else Fraction(0)


def test_walls_that_are_left_open() -> None:
    """A spine between two zones, a back behind one."""
    assert wall_names(solved().spec) == ("dividers", "ends", "spine")
    assert wall_names(solved(WALL).spec) == ("dividers", "ends", "back")
    bare = changed(DEMO, ("walls: [dividers, ends, spine]", "walls: [ends]"))
    assert {each.role for each in solved(bare).parts if each.role in PANELS} == {Role.END_PANEL, Role.TRAY}


def test_a_sheet_that_measures_otherwise_keeps_every_board_s_place() -> None:
    """12.6 instead of 12: the tray's middle stays at 545, and walls end lower, at its underside of 538.7."""
    record = "- {date: 2026-11-05, measured: {path: materials.ply-12.thickness, value: %s}}\n"
    thick, thin = solved(DEMO, record % "12.6"), solved(DEMO, record % "11.6")
    assert (tray_heights(thick.loaded, thick.layout).low, tray_heights(thick.loaded, thick.layout).high) == (
        Fraction("538.7"), Fraction("551.3"),
    )  # fmt: skip
    assert part(thick, "FD1").box.z.high == Fraction("538.7")
    assert part(thin, "FD1").box.z.high == 539
    assert part(thin, "PAN").box.z.low == Fraction("539.2")
    # rabbets follow the sheet: (12.6 - 8) / 2 and (11.6 - 8) / 2
    assert [panel_rules(each.loaded).fit.rabbet_depth for each in (thick, thin)] == [
        Fraction("2.3"),
        Fraction("1.8"),
    ]


def test_a_back_panel_stays_out_of_the_trim_s_leg() -> None:
    """Walls stand 14 behind the bars' faces: a leg of 15 would meet the back panel, one of 10 would not."""
    text = """spec: 1
title: One zone
bench: {length: 1100, depth: 600, height: 900}
materials: {bar: {use: profile 40}, edge: {kind: angle, leg: %d, thickness: 2}}
tray: {trim: edge}
zones: [{name: only, depth: share, bays: [{name: A}, {name: B}]}]
"""
    for leg, lower in ((15, 2), (10, 0)):
        bench = solved(text % leg)
        back = bench.of(Role.BACK_PANEL)
        assert len(back) == 2
        assert {bench.layout.levels.tray_bottom - each.box.z.high for each in back} == {lower}
        trims = bench.of(Role.TRAY_TRIM)
        assert not [each for each in back for trim in trims if each.box.overlaps(trim.box) and lower]
