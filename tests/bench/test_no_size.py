"""Pieces of no size: told with a value of the key that makes them pieces again, tried by giving that value."""

from __future__ import annotations

import pytest

from tests.bench.benches import DEMO, changed, codes, faults

ONE = """spec: 1
title: Small
bench: {length: 1240, depth: 600, height: 900}
materials: {bar: {use: profile 40}}
tray: {end_rail_bottom: 500, trim: angle-15}
zones:
  - {name: a, depth: 300, bays: [{name: A, width: 560}, {name: B, width: share}]}
  - {name: b, depth: share, bays: [{name: C}]}
"""


@pytest.mark.parametrize(
    ("change", "found", "allowed"),
    [
        # a trim piece is 2 mm shorter than its bay: of a bay of 1.5 nothing is left, and 20 is a piece
        (("name: A, width: 560", "name: A, width: 1.5"), "width 1.5 mm", "22 mm or more"),
    ],
)
def test_a_value_that_makes_it_a_piece(change: tuple[str, str], found: str, allowed: str) -> None:
    text = changed(ONE, change)
    told = [each for each in faults(text) if each.code == "no-size"]
    assert [(each.found, each.allowed) for each in told] == [(found, allowed)]
    cured = text.replace(change[1], change[1].replace(found.split()[1], allowed.split(maxsplit=1)[0]))
    assert "no-size" not in codes(cured)


def test_notches_that_meet_are_told() -> None:
    """Two notches of 12 at a panel's corners: they leave something of 25, nothing of 24."""
    wide = changed(DEMO, ("notch_clearance: 2", "notch_clearance: 250"))
    (fault,) = (each for each in faults(wide) if each.code == "no-size")
    assert "260 mm each and meet" in fault.message
    assert "no-size" not in codes(changed(DEMO, ("notch_clearance: 2", "notch_clearance: 20")))


def test_notches_that_meet_along_the_panel_only_are_told() -> None:
    """Of the divider of 300 by 509 two notches of 210 are 120 too many along it, and leave 89 the other way."""
    (fault,) = (each for each in faults(changed(DEMO, ("notch_clearance: 2", "notch_clearance: 200"))))
    assert fault.found == "a panel of 300 mm x 509 mm"
    assert fault.allowed == "notches 80 mm smaller, or a panel as much larger"


@pytest.mark.parametrize(("clearance", "told"), [("139.9", 0), ("140", 1)])
def test_notches_that_just_meet_leave_nothing(clearance: str, told: int) -> None:
    """Each is 10 more than the clearance: two of 150 are the whole of a divider of 300."""
    assert (
        codes(changed(DEMO, ("notch_clearance: 2", f"notch_clearance: {clearance}"))).count("no-size") == told
    )


def test_a_clip_that_is_longer_than_its_bar_is_the_cause_where_its_notch_is() -> None:
    long = changed(DEMO, ("clip: [36, 14, 3]", "clip: [600, 14, 3]"))
    (fault,) = (each for each in faults(long) if each.code == "no-size")
    assert fault.allowed == "a clip of 40 mm (the bar's width) or less"
