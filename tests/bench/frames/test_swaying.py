"""Which joints turn when a frame sways, and between which posts their members bend."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

from generator.bench.frames.facts import SwayFacts
from tests.bench.benches import solved

THROUGH_RAILS = """spec: 1
title: Rails run through
bench: {length: 1500, depth: 800, height: 900}
materials: {bar: {use: profile 40}}
frame: {through: rails, joints: {long_rails_to_corner_posts: end-clip, inner_post_tops: end-clip}}
panels: {walls: []}
zones: [{name: only, depth: share, bays: [{width: 600}, {width: share}]}]
"""


def spans(facts: SwayFacts, direction: str) -> Counter[tuple[int, ...]]:
    return Counter(tuple(map(int, joint.spans)) for joint in facts.joints if joint.direction == direction)


def test_joints_of_the_worked_bench() -> None:
    """Posts of 40 beside bays of 500, 400, 400, 500 in front and 940 twice behind; zones of 500 and 280."""
    facts = solved().sway
    assert spans(facts, "long") == {
        (540,): 4, (980,): 4, (540, 440): 2, (440, 440): 2, (440, 540): 2, (980, 980): 2,
    }  # fmt: skip
    # three end members at each end; the spine post stands between the lower two
    assert spans(facts, "cross") == {(540,): 4, (320,): 4, (860,): 4, (540, 320): 4}
    assert {each.fasteners for each in facts.joints} == {("end-clip",), ("through-screw",)}
    assert (facts.height, facts.axes) == (725, 685)


def test_loose_panels_of_the_worked_bench() -> None:
    """End panels alone: a divider or a spine stands in no row that sways."""
    panels = solved().sway.panels
    assert [(each.mark, each.direction) for each in panels] == [
        ("EF1", "cross"), ("EF2", "cross"), ("EB1", "cross"), ("EB2", "cross"),
    ]  # fmt: skip
    assert {(each.height, each.width, each.gap) for each in panels} == {
        (485, 500, Fraction(1, 2)),
        (485, 280, Fraction(1, 2)),
    }


def test_where_rails_run_through_end_member_and_post_turn_one_after_the_other() -> None:
    facts = solved(THROUGH_RAILS).sway
    assert spans(facts, "long") == {(640,): 4, (820,): 4, (640, 820): 4}
    assert spans(facts, "cross") == {(760,): 12}
    in_series = Counter(len(each.fasteners) for each in facts.joints if each.direction == "cross")
    # base and top end members lie on the rails, the tray's on the posts
    assert in_series == {2: 8, 1: 4}
    assert facts.panels == ()
