"""Benches that cannot be, at their limits: one step further and there is a bench."""

from __future__ import annotations

import pytest

from tests.bench.benches import DEMO, WALL, changed, codes, faults, solved


@pytest.mark.parametrize(
    ("change", "code"),
    [
        (("walls: [dividers, ends, spine]", "walls: [dividers, back]"), "wall-without-place"),
        (("through: posts", "through: rails"), "closing-joints"),
        (("tongue: 10", "tongue: 12.3"), "tongue-too-long"),
        (("groove_clearance: 0.2", "groove_clearance: 8.2"), "clearance-too-wide"),
        (("depth: 12.3", "depth: 20"), "slot-too-large"),
        (("thickness: 12.0", "thickness: 40"), "panel-too-thick"),
        (("opening: 8.2", "opening: 40"), "slot-too-large"),
        (
            ("stock: [{length: 2440, width: 1220, price: 75}]", "stock: [{length: 2440, price: 75}]"),
            "missing-key",
        ),
        (("name: F2, ", "name: F1, "), "name-twice"),
        (("height: 880}", "height: 880, round_shares: {step: 1, remainder: F2}}"), "no-remainder-bay"),
    ],
)
def test_what_cannot_be(change: tuple[str, str], code: str) -> None:
    assert code in codes(changed(DEMO, change))


@pytest.mark.parametrize(
    ("change", "code"),
    [
        (("walls: [dividers, ends, spine]", "walls: [dividers, ends]"), "wall-without-place"),
        (("tongue: 10", "tongue: 12.2"), "tongue-too-long"),
        (("groove_clearance: 0.2", "groove_clearance: 8.1"), "clearance-too-wide"),
        (("depth: 12.3", "depth: 19.9"), "slot-too-large"),
        (("thickness: 12.0", "thickness: 39.9"), "panel-too-thick"),
        (("height: 880}", "height: 880, round_shares: {step: 1, remainder: F4}}"), "no-remainder-bay"),
    ],
)
def test_what_just_can_be(change: tuple[str, str], code: str) -> None:
    assert code not in codes(changed(DEMO, change))


def test_a_spine_needs_two_zones_and_a_back_one() -> None:
    one = changed(WALL, ("shoulder: 1/64}", "shoulder: 1/64, walls: [spine]}"))
    (fault,) = faults(one)
    assert (fault.code, fault.found, fault.allowed) == ("wall-without-place", "spine", "dividers, ends, back")
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
        assert "some 5550 holes" in found[0].message
        assert found[0].allowed == "a pitch that gives at most 5000 holes"
    wider = changed(DEMO, ("pitch: 96", "pitch: 19"), ("overhang: 0", "overhang: 100"))
    # 2200 x 1100 asks for 115 x 57 = 6555
    assert any("some 6555 holes" in each.message for each in faults(wider))


def test_names_that_were_left_out_meet_names_that_were_given() -> None:
    """The second bay of the front zone takes F2 by itself."""
    text = changed(DEMO, ("{name: F2, width: 400", "{width: 400"), ("{name: F3, ", "{name: F2, "))
    (fault,) = faults(text)
    assert (fault.code, fault.found) == ("name-twice", "F2")
    assert codes(changed(DEMO, ("{name: F2, width: 400", "{width: 400"))) == []


def test_joints_that_close_along_the_rail_are_named() -> None:
    (fault,) = faults(changed(DEMO, ("through: posts", "through: rails")))
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
