"""Vises: the place that each takes below the top, what it meets there, its bolts, its mass and tipping."""

from __future__ import annotations

from functools import cache

import pytest

from generator.bench.model import Bench
from generator.bench.role import Role
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.figures.rows.checks import Check
from tests.bench.benches import DEMO, changed, codes, solved

VISE = "overhang: {front: 0, left: 20}, vise: [{at: left front, jaw: [180, 60], reach: 300}]"


@cache
def made(vise: str) -> tuple[Bench, Figures]:
    bench = solved(changed(DEMO, ("overhang: 0", vise)))
    return bench, compute(bench)[0]


def checks(vise: str) -> dict[str, Check]:
    return {each.code: each for each in made(vise)[1].checks if each.code.startswith("vise-")}


def test_its_place_begins_at_the_corner_post() -> None:
    """From the finished top's corner: 20 of overhang and a post of 40, then jaw and hands; 300 in from the edge."""
    (feature,) = made(VISE)[1].top.features
    assert (feature.name, feature.kind) == ("left front vise", "vise")
    assert (feature.at, feature.size) == ((60 + 115, 150), (230, 300))
    other = made(VISE.replace("left front", "right back"))[1].top.features[0]
    assert other.name == "right rear vise" and other.at == (2020 - 40 - 115, 900 - 150)


def test_no_hole_is_drilled_into_it() -> None:
    bench, figures = made(VISE)
    assert bench.grid is not None and figures.top.left_out
    for x, y in bench.grid.holes:
        assert max(60 - x, x - 290, y - 300) >= 10 + 3 or (x > 290 and y > 300)
    assert len(bench.of(Role.TOP)[0].operations) == len(bench.grid.holes)


def test_all_is_well_with_a_small_one() -> None:
    assert {code for code, each in checks(VISE).items() if each.ok} == {
        "vise-volume",
        "vise-drop",
        "vise-bolts",
        "vise-tips",
    }


def test_what_reaches_into_its_place_is_named() -> None:
    """Jaw and hands take 40 to 570 of the frame: the bar from 540 to 580 is in their place by 30."""
    check = checks(VISE.replace("180, 60", "480, 60"))["vise-volume"]
    assert not check.ok and check.severity == "error"
    assert "left front vise and C" in check.where and check.value == 30


def test_the_bars_pass_below_the_rail() -> None:
    """The top is 18 and its bar 40: 58 at least."""
    check = checks(VISE.replace("reach: 300", "reach: 300, drop: 57"))["vise-drop"]
    assert (check.ok, check.value, check.limit) == (False, 57, 58)


@pytest.mark.parametrize(("bolts", "pull"), [(2, 3253.3), (4, 1626.7), (6, 1084.4)])
def test_the_pull_on_a_bolt(bolts: int, pull: float) -> None:
    """4 kN at 122 below the top, rows 150 apart: 4000 × 122 / 150 / (bolts in a row)."""
    vise = VISE.replace("reach: 300", f"reach: 220, drop: 140, bolts: {bolts}")
    check = checks(vise)["vise-bolts"]
    assert check.value == pytest.approx(pull, abs=0.1) and check.ok is (pull <= 1600)


def test_it_weighs_and_tips_where_it_is() -> None:
    """The front holds less by a vise in front of the tip line, the rear more; 100 kg lean out 100 before the edge."""
    faces = {row.face: row for row in made(VISE.replace("300", "160"))[1].stability}
    held = {
        face: next(each for each in row.holds if each.group == "left front vise")
        for face, row in faces.items()
    }
    assert held["front"].behind == pytest.approx(80 - faces["front"].tip_line)
    assert held["rear"].behind == pytest.approx(900 - 80 - faces["rear"].tip_line)
    check = checks(VISE.replace("300", "160"))["vise-tips"]
    assert check.value == pytest.approx(100 * (faces["front"].tip_line + 100) / 1000)
    assert check.limit == pytest.approx(faces["front"].margins_alone[0] / 1.5)


def test_it_is_bought_with_its_bolts_and_has_lines_in_the_step() -> None:
    figures = made(VISE)[1]
    rows = {row.kind: row for row in figures.hardware}
    assert (rows["vise"].count, rows["vise"].spare) == (1, 0) and rows["vise bolt"].count == 4
    (step,) = [each for each in figures.assembly.steps if each.key == "top"]
    assert sum("left front vise" in note for note in step.notes) == 2
    assert {"vise", "vise bolt"} <= {fixing.item for fixing in step.fixings}
    assert not [card for card in figures.setups if card.key.startswith("top-")]


def test_two_at_one_corner_are_refused() -> None:
    two = "vise: [{at: left front, jaw: [180, 60], reach: 300}, {at: left front, jaw: [9, 9], reach: 9}]"
    assert codes(changed(DEMO, ("overhang: 0", two))) == ["name-twice"]
