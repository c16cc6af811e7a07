"""Sums that hold or fail by an amount, and the limits at which they begin to fail."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.bench.layout import bay_names, zone_letter
from generator.bench.role import Role
from tests.bench.benches import DEMO, WALL, changed, codes, faults, solved

ONE = """spec: 1
title: One zone
bench: {length: 1240, depth: 600, height: 900}
materials: {bar: {use: profile 40}}
zones: [{depth: share, name: only, bays: [%s]}]
%s
"""


def one(bays: str, more: str = "") -> str:
    return ONE % (bays, more)


def measured(bay: str, width: str) -> str:
    return f"- {{date: 2026-11-05, measured: {{path: bays.{bay}.width, value: {width}}}}}\n"


DRAWERS = one("{name: A, width: 500, stack: [{drawer: share}]}, {name: B}")


@pytest.mark.parametrize("width", ["490", "510", "509.9"])
def test_a_bay_is_cut_by_what_was_measured(width: str) -> None:
    """A is planned 500: the frame stays, what fills the bay follows the tape."""
    plain, bench = solved(DRAWERS), solved(DRAWERS, measured("A", width))
    bay = bench.layout.bays[0]
    assert (bay.width, bay.clear) == (500, Fraction(width))
    assert bench.layout.lines == plain.layout.lines
    (face,), (planned,) = (each.of(Role.DRAWER_FACE) for each in (bench, plain))
    assert face.length - planned.length == Fraction(width) - 500


@pytest.mark.parametrize("width", ["489.9", "510.1", "515", "480"])
def test_a_bay_more_than_10_mm_off_its_plan_is_another_bay(width: str) -> None:
    """A slip of the tape by a centimetre and more: common practice, no source."""
    (fault,) = faults(DRAWERS, measured("A", width))
    assert (fault.code, fault.found) == ("bay-far-off", f"{width} mm")


def test_a_bay_that_there_is_not() -> None:
    (fault,) = faults(DEMO, measured("F9", "500"))
    assert (fault.code, fault.found, fault.allowed) == ("unknown-bay", "F9", "one of F1, F2, F3, F4, B1, B2")


def test_the_worked_heights() -> None:
    """880 less caster 127, plate 10 and top 18: 725. Tray in the middle of its rail at 525, opening 497, gap 134."""
    levels = solved().layout.levels
    assert (levels.frame_height, levels.base_top, levels.top_rail_bottom) == (725, 40, 685)
    assert (levels.tray_bottom, levels.tray_top, levels.opening) == (539, 551, 497)
    assert (levels.clamp_gap, levels.floor_to_frame) == (134, 137)


@pytest.mark.parametrize(
    ("rail", "codes_found"), [("40", ["height-sum"]), ("646", ["height-sum"]), ("645", []), ("41", [])]
)
def test_the_tray_s_rail_lies_between_base_and_top(rail: str, codes_found: list[str]) -> None:
    """Above the base rail's 40; its own 40 end at the top rail's 685 at most."""
    bare = changed(one("{name: A}"), ("spec: 1", f"spec: 1\ntray: {{end_rail_bottom: {rail}}}"))
    # 900 less caster 127, plate 10 and a top of 18 is 745: the top rail begins at 705
    text = bare.replace("height: 900", "height: 880")
    assert [code for code in codes(text) if code == "height-sum"] == codes_found


def test_a_height_that_fails_says_by_how_much() -> None:
    (fault,) = faults(changed(DEMO, ("end_rail_bottom: 525", "end_rail_bottom: 650")))
    assert "at 650 mm is 5 mm too high" in fault.message
    assert "at 645 mm or lower" in fault.allowed


@pytest.mark.parametrize(("text", "step"), [(one("{name: A}"), Fraction(5)), (WALL, Fraction("6.35"))])
def test_a_rail_that_is_left_open_keeps_the_clamp_gap(text: str, step: Fraction) -> None:
    """The highest whole step (5 mm, a quarter inch) that leaves 130 mm for clamps: common practice, no source."""
    levels = solved(text).layout.levels
    assert (levels.end_rail_bottom / step).denominator == 1
    assert 130 <= levels.clamp_gap < 130 + step


def test_sums_that_fail_say_by_how_much() -> None:
    (long,) = faults(one("{width: 500}, {width: 630}"))
    assert (long.code, long.message.split(": ")[1]) == ("length-sum", "10 mm too much")
    (short,) = faults(one("{width: 500}, {width: 610}"))
    assert short.message.split(": ")[1] == "10 mm missing"
    (none,) = faults(one("{width: 1160}, {width: share}").replace("1240", "1280"))
    assert none.message.split(": ")[1] == "nothing is left for the shares"
    (deep,) = faults(one("{name: A}").replace("depth: share", "depth: 500"))
    assert (deep.code, deep.message.split(": ")[1]) == ("depth-sum", "20 mm missing")


def test_lines_and_their_names() -> None:
    """P1 is the left end frame at 0, P5 the right one at 1960; the back zone's line is P3."""
    layout = solved().layout
    assert layout.lines == (540, 980, 1420)
    assert [layout.line_name(Fraction(x)) for x in (0, 540, 980, 1420, 1960)] == [
        "P1",
        "P2",
        "P3",
        "P4",
        "P5",
    ]
    assert [zone.lines for zone in layout.zones] == [(540, 980, 1420), (980,)]
    assert layout.rows == (0, 540, 860)
    assert [zone.opens for zone in layout.zones] == ["front", "rear"]
    assert [bay.name for bay in layout.bays] == ["F1", "F2", "F3", "F4", "B1", "B2"]


def test_zones_have_letters_and_bays_their_numbers() -> None:
    assert [zone_letter(index, 4) for index in range(4)] == ["F", "M", "M2", "B"]
    assert zone_letter(0, 1) == "F"
    spec = solved(changed(DEMO, ("name: F2, ", ""))).spec
    assert bay_names(spec)[0] == ("F1", "F2", "F3", "F4")


@pytest.mark.parametrize(("second", "fails"), [("580", False), ("579", True), ("540", False), ("541", True)])
def test_two_lines_coincide_or_keep_a_bar_s_width(second: str, fails: bool) -> None:
    """The first zone's line has its left edge at 540; the other's at 540, or from 580 on."""
    zones = f"""zones:
  - {{name: a, depth: share, bays: [{{width: 500}}, {{width: share}}]}}
  - {{name: b, depth: share, bays: [{{width: {int(second) - 40}}}, {{width: share}}]}}
"""
    text = one("{name: A}").replace("600", "900").split("zones:")[0] + zones
    assert codes(text) == (["lines-too-close"] if fails else [])


def test_rounded_shares_leave_the_rest_in_the_named_bay() -> None:
    """1240 less four posts is 1080: shares of 3 : 2 : 2 are 462 6/7 and 308 4/7. On whole millimetres 308 twice."""
    bays = "{name: A, width: share 3}, {name: B, width: share 2}, {name: C, width: share 2}"
    text = one(bays).replace("height: 900", "height: 900, round_shares: {step: 1, remainder: A}")
    assert [bay.width for bay in solved(text).layout.bays] == [464, 308, 308]
    # a step that leaves a bay nothing
    assert "no-size" in codes(text.replace("step: 1,", "step: 400,"))
