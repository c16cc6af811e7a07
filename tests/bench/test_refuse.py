"""Benches that cannot be, at their limits: one step further and there is a bench."""

from __future__ import annotations

import pytest

from tests.bench.benches import DEMO, WALL, changed, codes, faults, solved

#: Two zones; the standard bar of 40 has slots of 8.2 x 12.3.
SMALL = """spec: 1
title: Two zones
bench: {length: 1240, depth: 700, height: 880}
materials: {%s}
zones:
  - {name: a, depth: 300, bays: [{name: A, width: 560}, {width: share}]}
  - {name: b, depth: share, bays: [{name: C}]}
%s
"""


#: The standard bar with another slot, and a sheet to buy.
BAR = "bar: {use: profile 40, slot: {opening: %s, depth: %s, lip: 4.5, undercut: 15}}"
BOARD = "ply-6: {use: plywood 6, stock: [{length: 2440%s}]}"


def small(more: str = "", goods: str = "bar: {use: profile 40}") -> str:
    return SMALL % (goods, more)


@pytest.mark.parametrize(
    ("bad", "good", "code"),
    [
        ("panels: {walls: [dividers, back]}", "panels: {walls: [dividers, ends]}", "wall-without-place"),
        ("frame: {through: rails}", "frame: {through: posts}", "closing-joints"),
        ("panels: {tongue: 12.3}", "panels: {tongue: 12.2}", "tongue-too-long"),
        ("panels: {groove_clearance: 8.2}", "panels: {groove_clearance: 8.1}", "clearance-too-wide"),
    ],
)
def test_what_cannot_be_and_what_just_can(bad: str, good: str, code: str) -> None:
    assert codes(small(bad)) == [code]
    assert code not in codes(small(good))


@pytest.mark.parametrize(
    ("bad", "good", "code"),
    [
        (BAR % ("8.2", "20"), BAR % ("8.2", "19.9"), "slot-too-large"),
        (BAR % ("40", "12.3"), BAR % ("8.2", "12.3"), "slot-too-large"),
        (
            "ply-12: {use: plywood 12, thickness: 40}",
            "ply-12: {use: plywood 12, thickness: 39.9}",
            "panel-too-thick",
        ),
        (BOARD % "", BOARD % ", width: 1220", "missing-key"),
    ],
)
def test_goods_that_cannot_be_and_that_just_can(bad: str, good: str, code: str) -> None:
    bar = "" if "bar:" in bad else "bar: {use: profile 40}, "
    assert code in codes(small(goods=bar + bad))
    assert code not in codes(small(goods=bar + good))


@pytest.mark.parametrize(("taker", "found"), [("A", ["no-remainder-bay"]), ("F2", []), ("C", [])])
def test_the_remainder_falls_in_a_bay_that_is_a_share(taker: str, found: list[str]) -> None:
    rounded = f"height: 880, round_shares: {{step: 1, remainder: {taker}}}"
    assert codes(changed(small(), ("height: 880", rounded))) == found


def test_a_spine_needs_two_zones_and_a_back_one() -> None:
    one = changed(WALL, ("shoulder: 1/64}", "shoulder: 1/64, walls: [spine]}"))
    (fault,) = faults(one)
    assert (fault.code, fault.found, fault.allowed) == (
        "wall-without-place",
        "spine",
        "any of dividers, ends, back",
    )
    assert codes(one.replace("walls: [spine]", "walls: [back]")) == []


@pytest.mark.parametrize(("pitch", "fails"), [("19", False), ("18", True)])
def test_five_thousand_holes(pitch: str, fails: bool) -> None:
    """2000 / 19 x 900 / 19 is 105 x 47 = 4935; by 18 it is 111 x 50 = 5550."""
    found = [
        each
        for each in faults(changed(DEMO, ("pitch: 96", f"pitch: {pitch}")))
        if each.code == "too-many-holes"
    ]
    assert bool(found) is fails
    if fails:
        assert "about 5550 holes" in found[0].message
        assert found[0].allowed == "a larger pitch, for 5000 holes or fewer"
    wider = changed(DEMO, ("pitch: 96", "pitch: 19"), ("overhang: 0", "overhang: 100"))
    # 2200 x 1100 asks for 115 x 57 = 6555
    assert any("about 6555 holes" in each.message for each in faults(wider))


def test_names_that_were_left_out_meet_names_that_were_given() -> None:
    """The second bay of the front zone takes F2 by itself."""
    (fault,) = faults(changed(small(), ("name: C", "name: F2")))
    assert (fault.code, fault.found) == ("name-twice", "F2")


def test_joints_that_close_along_the_rail_are_named() -> None:
    (fault,) = faults(small("frame: {through: rails}"))
    assert fault.found == "through-screw"
    assert "end-clip" in fault.allowed
    assert "through-screw" not in fault.allowed


def test_ends_in_the_air_are_told_but_not_refused() -> None:
    # from P3's spine post to its back post, and one that ends before and behind in the air
    members = (
        "{name: a, along: y, at: [980, 580, 300], length: 280}",
        "{name: b, along: y, at: [300, 100, 300], length: 200}",
    )
    bench = solved(changed(DEMO, ("loads: {", f"extra: {{members: [{', '.join(members)}]}}\nloads: {{")))
    assert [finding.message for finding in bench.findings] == [
        "the front end of X2 (b) meets no bar",
        "the rear end of X2 (b) meets no bar",
    ]
