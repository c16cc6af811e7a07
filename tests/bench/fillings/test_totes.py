"""Totes on their runners: the worked bay, and totes that float in theirs."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest

from generator.bench.fillings.totes import ToteFilling
from generator.bench.role import Role
from tests.bench.benches import STACK, WALL, codes, solved, span


def test_the_worked_totes() -> None:
    """Bottoms 59, 216, 373; runners' tops 196, 353, 510; tops 204, 361, 518; runners 31 wide."""
    totes = [each for each in solved().storage.totes if each.bay == "F2"]
    assert [each.bottom for each in totes] == [59, 216, 373]
    assert [each.runner_top for each in totes] == [196, 353, 510]
    assert [each.top for each in totes] == [204, 361, 518]
    assert {(each.runner_width, each.kind) for each in totes} == {(31, "tote-145")}
    assert [each.name for each in totes] == ["tote F2.1", "tote F2.2", "tote F2.3"]


def test_a_gap_is_assumed_for_what_hangs_and_says_none() -> None:
    """A body of 360 wants 364, a rim of 386 is carried up to 370: the middle of these."""
    spare = "totes: {bin: {use: tote 145}, other: {use: tote 145}}"
    assumed = list(
        ToteFilling().assumed(
            solved((STACK % "{totes: bin}").replace("totes: {bin: {use: tote 145}}", spare))
        )
    )
    assert [(path, value) for path, value, _ in assumed] == [("totes.bin.runner_gap", 367)]
    # the worked bench says its gap
    assert list(ToteFilling().assumed(solved())) == []


def test_totes_alone_float_in_their_opening() -> None:
    bench = solved(STACK % "{totes: bin, count: 2}, {totes: bin}")
    # clear from the base rail's 40 to the tray's underside: its rail's 525 + 40/2 - 12/2
    low, high = 40, 539
    totes = bench.storage.totes
    assert totes[0].bottom - low == high - totes[-1].top
    assert {upper.bottom - lower.top for lower, upper in pairwise(totes)} == {12}
    assert [each.number for each in totes] == [1, 2, 3]


def test_totes_that_just_fill_their_opening() -> None:
    """Three of 145 and two lifts are 459; an opening of 459 takes them, one of 458 does not."""
    text = STACK % "{totes: bin, count: 3}"
    assert codes(text.replace("end_rail_bottom: 525", "end_rail_bottom: 485")) == []
    assert codes(text.replace("end_rail_bottom: 525", "end_rail_bottom: 484")) == ["stack-sum"]


def test_a_runner_s_gap_that_is_left_open_is_in_the_middle_of_its_range() -> None:
    """The wall bench's bins: rim 15 1/4, body 14 1/4 in: 365.95 to 371.35, so 368.65 mm between the runners."""
    bench = solved(WALL)
    runners = bench.of(Role.TOTE_RUNNER)[:2]
    left, right = sorted(runners, key=lambda each: each.box.x.low)
    assert float(right.box.x.low - left.box.x.high) == pytest.approx((365.95 + 371.35) / 2)


def test_the_worked_runners() -> None:
    """Runners 31 x 15 x 498, twelve, 366 apart, 14 behind the bars' faces; 1 of play at each end."""
    runners = solved().of(Role.TOTE_RUNNER)
    assert len(runners) == 12
    assert {(each.length, each.width, each.thickness) for each in runners} == {(498, 31, 15)}
    assert {span(each, "x") for each in runners if each.place.bay == "F2"} == {(566, 597), (963, 994)}
    assert {span(each, "z") for each in runners} == {(181, 196), (338, 353), (495, 510)}
    assert {span(each, "y") for each in runners} == {(41, 539)}
    left, right = (each for each in runners[:2])
    assert (left.place.wall, right.place.wall) == ("left", "right")
    assert left.box.x.high + 366 == right.box.x.low


def test_a_runner_s_own_material() -> None:
    """A card may name its strip; else it is that of the packing."""
    bench = solved()
    assert {each.material for each in bench.of(Role.TOTE_RUNNER)} == {"poplar-15"}


def test_a_tote_hangs_on_two_runners() -> None:
    bench = solved()
    assert list(ToteFilling().hanging(bench)) == []
    runner = next(
        part for part in bench.of(Role.TOTE_RUNNER) if part.box.z.high == 353 and part.place.bay == "F2"
    )
    without = replace(bench, parts=tuple(part for part in bench.parts if part is not runner))
    assert list(ToteFilling().hanging(without)) == ["tote F2.2"]
