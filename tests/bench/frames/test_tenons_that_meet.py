"""Tenons that meet in one post: shortened in one line and at a right angle, as they are at different heights; exact."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest

from generator.bench.frames import frame_kind
from generator.bench.model import Bench
from generator.bench.piece import Part
from generator.bench.solve import solve
from generator.spec.load import read_spec
from tests.benchmarks.timbers import faults

F = Fraction
#: The bench of timber with empty bays of 430, 430 and 430: its front posts are from 500 to 570 and from 1000 to 1070.
TIMBER = re.sub(
    r"stack: \[.*\]}|^panels:.*$",
    lambda found: "panels: {walls: [ends]}" if found[0].startswith("panels") else "stack: []}",
    (Path(__file__).parents[2] / "data" / "timber.yml").read_text(encoding="utf-8"),
    flags=re.MULTILINE,
)
#: Between the posts: from the left and the right into the middle of one, and from behind at the same height.
LEFT = "{name: left stay, along: x, at: [70, 0, 300], length: 430}"
RIGHT = "{name: right stay, along: x, at: [570, 0, 300], length: 430}"
HIGHER = "{name: right stay, along: x, at: [570, 0, 402], length: 430}"
BEHIND = "{name: deep stay, along: y, at: [500, 70, 300], length: 620}"


@cache
def bench(*stays: str) -> Bench:
    members = ", ".join(stays)
    text = f"{TIMBER}extra: {{members: [{members}]}}\n"
    return solve(read_spec(text, "bench.yml"))


def stay(found: Bench, along: str, at: int) -> Part:
    return next(
        part
        for part in found.parts
        if part.role.value == "extra member" and part.along == along and part.shoulders.span(along).low == at
    )


def test_alone_it_is_as_long_as_its_card_asks() -> None:
    """45 of 70: two thirds would be 46 2/3. Into the corner post too: its bolts are at other heights."""
    assert stay(bench(LEFT), "x", 70).tenons == {"left": 45, "right": 45}


def test_two_in_one_line_share_their_post() -> None:
    """(70 - 2)/2 - 1 = 33 each: their ends are 4 apart, and each mortise of 35 is half of the post."""
    found = bench(LEFT, RIGHT)
    assert stay(found, "x", 70).tenons == {"left": 45, "right": 33}
    assert stay(found, "x", 570).tenons == {"left": 33, "right": 45}
    assert stay(found, "x", 70).length == 430 + 45 + 33
    post = next(part for part in found.parts if part.mark == "D1")
    assert {op.depth for op in post.operations if op.op == "mortise" and op.face in ("left", "right")} == {35}


def test_at_a_right_angle_each_ends_before_the_side_of_the_other() -> None:
    """Rails as thick as their posts, tenons of 23 in their middle: 70 - (70 + 23)/2 - 2 = 21.5 each, square ends."""
    found = bench(LEFT, BEHIND)
    assert stay(found, "x", 70).tenons["right"] == F("21.5")
    assert stay(found, "y", 70).tenons["front"] == F("21.5")
    # a tenon ends where the other's side is, and 2 before it: 35 - 23/2 - 2 = 21.5
    assert 35 - F(23, 2) - 2 == F("21.5")


def test_at_different_heights_each_has_its_full_length() -> None:
    """A rail of 95 from 300: the other begins at 402, its tenon 17 above the first one's upper edge."""
    found = bench(LEFT, HIGHER)
    assert stay(found, "x", 70).tenons["right"] == 45
    assert stay(found, "x", 570).tenons["left"] == 45


@pytest.mark.parametrize("stays", [(LEFT, RIGHT), (LEFT, BEHIND), (LEFT, RIGHT, BEHIND), (LEFT, HIGHER)])
def test_tenons_that_meet_are_sound_by_geometry_of_another_sort(stays: tuple[str, ...]) -> None:
    assert list(faults(bench(*stays))) == []


def test_tenons_that_leave_each_other_too_little_are_told() -> None:
    """Posts of 60 with tenons of 23: 60 - (60 + 23)/2 - 2 = 16.5 at a right angle, 20 at least."""
    text = TIMBER.replace("[70, 70]", "[60, 60]").replace("[70, 95]", "[60, 95]").replace("M8x130", "M8x120")
    line = (1570 - 60) - 2 * 430 - 3 * 60
    assert line > 0
    stays = "{name: a, along: x, at: [60, 0, 300], length: 430}, {name: b, along: y, at: [490, 60, 300], length: 640}"
    found = solve(read_spec(f"{text}extra: {{members: [{stays}]}}\n", "bench.yml"))
    told = {each.law.code: each for each in frame_kind(found.spec).judge(found)}["tenon-short"]
    assert not told.ok and (told.value, told.limit) == (F("16.5"), 20)
