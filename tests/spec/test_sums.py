"""Sums that fail: all at once, each by how much."""

from __future__ import annotations

import re

import pytest

from generator.bench.solve import solve
from generator.spec.load import read_spec
from tests.test_spec_faults import BASE, BEDS, LOW, ROOT, faults, with_second_zone

# --- all at once

EIGHT = """\
spec: 1
title: [Trial]
units: mm
bench: {length: 13oo, height: 900}
panles: {}
zones:
  - name: front
    bays:
      - {name: left, width: share 0, stack: [{drawer: share, shelf: 60}]}
  - name: back
    bays:
      - {name: right}
loads: {drawer: 20}
frame: {through: post}
"""


def test_eight_faults_are_eight_findings() -> None:
    found = faults(EIGHT.replace("      - {name: left", "      - {name: spare}\n      - {name: left"))
    assert [(finding.code, finding.where and finding.where.line) for finding in found] == [
        ("wrong-kind", 2),
        ("missing-key", 4),
        ("bad-length", 4),
        ("unknown-key", 5),
        ("bad-share", 10),
        ("stack-item", 10),
        ("bad-quantity", 14),
        ("not-a-choice", 15),
    ]


def test_sums_and_refusals_are_told_together() -> None:
    text = (
        with_second_zone(BASE)
        .replace("depth: share", "depth: 700")
        .replace("name: right, width: share", "name: right, width: 1200")
        .replace("name: back, bays: [{}]", "name: back, depth: 10, bays: [{width: 1230}]")
    )
    text += "tray: {end_rail_bottom: 30}\npanels: {walls: [back], tongue: 13, groove_clearance: 9}\n"
    assert sorted(finding.code for finding in faults(text)) == [
        "clearance-too-wide",
        "depth-sum",
        "height-sum",
        "length-sum",
        "length-sum",
        "tongue-too-long",
        "wall-without-place",
    ]


def test_all_stacks_that_do_not_fill_are_told() -> None:
    text = BASE.replace(BEDS, "stack: [{drawer: 100}]").replace(LOW, "stack: [{open: 500}, {drawer: 500}]")
    assert [(finding.code, finding.where and finding.where.line) for finding in faults(text)] == [
        ("stack-sum", 9),
        ("stack-sum", 10),
    ]


# --- sums say by how much

INCHES = BASE.replace("units: mm", "units: in").replace(
    "length: 1300, depth: 700, height: 900", "length: 50, depth: 2 ft 4 in, height: 36"
)


# The bar is 40 mm: three of it take 4.724 in, two 3.15 in.


@pytest.mark.parametrize(
    ("base", "left", "right", "amount"),
    [
        (BASE, "600", "600", "20 mm too much"),
        (BASE, "500", "500", "180 mm missing"),
        (BASE, "590.001", "590", "0.001 mm too much"),
        (BASE, "1180", "1/3", "0.333 mm too much"),
        (BASE, "1200", "share", "20 mm too much"),
        (INCHES, "22 1/2", "23", "0.224 in too much"),
        (INCHES, "22", "23 1/8", "0.151 in missing"),
        (INCHES, "1 ft 10 in", "1 ft 11 1/8 in", "0.151 in missing"),
        (INCHES, "46", "share 2", "0.724 in too much"),
    ],
)
def test_bays_that_do_not_sum_say_by_how_much(base: str, left: str, right: str, amount: str) -> None:
    text = base.replace("left, width: share", f"left, width: {left}")
    (finding,) = faults(text.replace("right, width: share", f"right, width: {right}"))
    assert finding.code == "length-sum"
    assert finding.message.endswith(amount)
    assert "3 posts" in finding.message


@pytest.mark.parametrize(
    ("base", "depth", "amount"),
    [
        (BASE, "600", "20 mm missing"),
        (BASE, "640", "20 mm too much"),
        (INCHES, "24", "0.85 in missing"),
        (INCHES, "2 ft 1 in", "0.15 in too much"),
    ],
)
def test_zones_that_do_not_sum_say_by_how_much(base: str, depth: str, amount: str) -> None:
    (finding,) = faults(base.replace("depth: share", f"depth: {depth}"))
    assert finding.code == "depth-sum"
    assert finding.message.endswith(amount)


@pytest.mark.parametrize(
    ("stack", "amount"),
    [
        ("[{drawer: 500}]", "13 mm missing"),
        ("[{drawer: 514}]", "1 mm too high"),
        ("[{drawer: 250}, {drawer: 250}]", "10 mm missing"),
        ("[{drawer: 10 in}, {drawer: 10 1/4 in}]", "4.35 mm too high"),
        ("[{totes: bin}, {drawer: 400}]", "47 mm too high"),
        ("[{totes: bin, count: 4}]", "97 mm more than the opening of 519 mm"),
    ],
)
def test_stacks_that_do_not_fill_say_by_how_much(stack: str, amount: str) -> None:
    (finding,) = faults(BASE.replace(BEDS, f"stack: {stack}"))
    assert finding.code == "stack-sum"
    assert finding.message.endswith(amount)


NOTHING_LEFT = {
    "length-sum": BASE.replace("left, width: share", "left, width: 1180"),
    "depth-sum": with_second_zone(BASE).replace(", {totes: bin}", "").replace("depth: share", "depth: 580"),
    "stack-sum": BASE.replace(BEDS, "stack: [{open: 510}, {drawer: share}]"),
}


@pytest.mark.parametrize("code", NOTHING_LEFT)
def test_a_share_of_nothing_is_refused(code: str) -> None:
    """Fixed sizes that fill the whole leave a bay, a zone or a front of 0 mm."""
    assert [finding.code for finding in faults(NOTHING_LEFT[code])] == [code]


@pytest.mark.parametrize("height", [400, 420, 440, 460, 480])
def test_the_front_that_a_refusal_asks_for_makes_a_box(height: int) -> None:
    """Low benches once reached the cutting plan with boxes of negative height."""
    text = (
        (ROOT / "specs" / "starter.yml")
        .read_text(encoding="utf-8")
        .replace("height: 900", f"height: {height}")
    )
    told = [each for each in faults(text) if each.code == "no-size"]
    assert told and all(each.allowed == "78 mm or more" for each in told)
    one = re.sub(r"stack: \[\{drawer: share 2\}.*", "stack: [{open: share}, {drawer: 78}]}", text)
    opening = solve(read_spec(one.replace(f"height: {height}", "height: 480"), "bench.yml")).storage.drawers
    assert [drawer.sizes.box_height for drawer in opening] == [53]


@pytest.mark.parametrize(
    ("change", "group"),
    [
        (("length: 1300", "length: 130"), "drawer"),
        (("depth: 700", "depth: 90"), "shelf cleat"),
        (
            ("width: share, stack: [{shelf: 60}, {shelf: 300}]", "width: 140, stack: [{totes: bin}]"),
            "tote runner",
        ),
    ],
)
def test_no_piece_of_no_size_leaves_the_solver(change: tuple[str, str], group: str) -> None:
    text = (ROOT / "specs" / "starter.yml").read_text(encoding="utf-8").replace(*change)
    told = [each for each in faults(text + "totes: {bin: {use: tote 145}}\n") if each.code == "no-size"]
    assert any(group in each.message for each in told)
    assert all(each.found and each.allowed and each.where for each in told)
