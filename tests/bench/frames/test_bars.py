"""The bars of a frame: each where its place says, counted and added up by the worked bench."""

from __future__ import annotations

from collections import Counter

import pytest

from generator.bench.model import Bench
from generator.bench.role import Role
from tests.bench.benches import DEMO, WALL, changed, part, solved, span

THROUGH_RAILS = changed(
    DEMO, ("through: posts", "through: rails"), ("corner_posts: through-screw", "corner_posts: end-clip")
)
EXTRA = changed(
    DEMO,
    (
        "loads: {",
        "extra: {members: [{name: shelf bar, along: y, at: [300, 40, 600], length: 820}]}\nloads: {",
    ),
)


def bars(bench: Bench) -> list:
    return [each for each in bench.parts if each.kind == "profile"]


def test_the_worked_frame() -> None:
    """29 pieces, 25 905 mm; the front rails are B1 and B3, the upper cross-members C4 to C6."""
    bench = solved()
    assert (len(bars(bench)), sum(each.length for each in bars(bench))) == (29, 25_905)
    letters = Counter(each.mark[0] for each in bars(bench))
    assert letters == {"A": 4, "B": 4, "C": 12, "D": 7, "E": 2}
    lengths = {each.role: each.length for each in bars(bench)}
    assert lengths == {
        Role.CORNER_POST: 725, Role.LONG_RAIL: 1920, Role.BASE_CROSS_MEMBER: 820, Role.TOP_CROSS_MEMBER: 820,
        Role.BASE_END_MEMBER: 820, Role.TRAY_END_RAIL: 820, Role.TOP_END_MEMBER: 820, Role.INNER_POST: 645,
        Role.END_SPINE_POST: 485,
    }  # fmt: skip
    assert span(part(bench, "C9"), "z") == (525, 565)
    assert [span(part(bench, mark), "x")[0] for mark in ("C1", "C2", "C3")] == [540, 980, 1420]
    assert span(part(bench, "E1"), "y") == (540, 580)


@pytest.mark.parametrize("text", [DEMO, WALL, THROUGH_RAILS], ids=["demo", "wall", "rails"])
def test_every_bar_lies_where_its_place_says(text: str) -> None:
    bench = solved(text)
    size, levels, section = bench.layout, bench.layout.levels, bench.layout.section
    heights = {"base": (0, section), "tray": (levels.end_rail_bottom, levels.end_rail_bottom + section)}
    heights["top"] = (levels.frame_height - section, levels.frame_height)
    edges = (0, *size.lines, size.length - section)
    for each in bars(bench):
        box, place = each.box, each.place
        assert sorted(box.size)[:2] == [section, section]
        assert (box.x.low == 0) >= (place.end == "left")
        assert (box.x.high == size.length) >= (place.end == "right")
        assert (box.y.low == 0) >= (place.side == "front")
        assert (box.y.high == size.depth) >= (place.side == "back")
        if place.level:
            assert (box.z.low, box.z.high) == heights[place.level]
        for line in place.lines:
            assert box.x.low == edges[line - 1]
        if place.row is not None:
            assert box.y.low == size.rows[place.row]
        if each.role is Role.END_SPINE_POST:
            assert (box.z.low, box.z.high) == (section, levels.end_rail_bottom)


def test_with_rails_running_through_the_posts_stand_between_them() -> None:
    bench = solved(THROUGH_RAILS)
    assert {each.length for each in bench.of(Role.LONG_RAIL)} == {2000}
    assert {(each.box.z.low, each.box.z.high) for each in bench.of(Role.CORNER_POST)} == {(40, 685)}
    # the middle row of a bench of two faces is the spine: front posts at three lines, back at one, spine at all
    rows = Counter(each.place.row for each in bench.of(Role.INNER_POST))
    assert rows == {0: 3, 1: 3, 2: 1}


def test_a_bar_of_one_s_own_lies_where_it_was_put() -> None:
    bar = part(solved(EXTRA), "X1")
    assert (span(bar, "x"), span(bar, "y"), span(bar, "z")) == ((300, 340), (40, 860), (600, 640))
    assert (bar.along, bar.length, bar.name) == ("y", 820, "shelf bar")
