"""Leg room: no bar in it, posts that reach down beside it, stands at those posts, joints that count for the sway."""

from __future__ import annotations

from collections import Counter

import pytest

from generator.bench.assembly_proof import assembly_proof
from generator.bench.model import Bench
from generator.bench.role import Role
from generator.bench.solids import solid_bodies
from generator.bench.stands.facts import Stand
from generator.figures.balance import masses
from generator.figures.compute import compute
from generator.figures.hardware import hardware
from generator.figures.parts import part_rows
from generator.figures.stability import stability
from generator.figures.working_loads import working_loads
from tests.bench.benches import DEMO, changed, faults, part, solved

DESK = """spec: 1
title: Desk
bench: {length: 2000, depth: 700, height: 900}
zones: [{name: all, depth: share, bays: [%s]}]
base: {%s}
"""
MIDDLE = "{name: L, width: 520}, {name: legs, width: 800, knee: true}, {name: R}"
AT_THE_LEFT = "{name: legs, width: 800, knee: true}, {name: R, width: 520}, {name: R2}"
AT_THE_RIGHT = "{name: L}, {name: legs, width: 900, knee: true}"
TWO = "{name: legs, width: 600, knee: true}, {name: M}, {name: legs2, width: 600, knee: true}"
REAR = changed(
    DEMO,
    (
        "- {name: B1, width: share, stack: [{shelf: 60}, {shelf: 288}]}",
        "- {name: B0, width: 500}\n      - {name: B1, width: 840, knee: true}",
    ),
    (
        """- {name: F2, width: 400, stack: [{totes: tote-145, count: 3}]}
      - {name: F3, width: 400, stack: [{totes: tote-145, count: 3}]}""",
        "- {name: F2, width: 840}",
    ),
    ("{name: F1, width: share,", "{name: F1, width: 500,"),
)


def desk(bays: str, base: str = "count: 4") -> Bench:
    return solved(DESK % (bays, base))


#: Bench, and its leg rooms worked by hand: x of the clear bay, y from the face to the posts behind (bars of 40).
ROOMS = {
    "middle": (DESK % (MIDDLE, "count: 4"), [((600, 1400), (0, 660))]),
    "left": (DESK % (AT_THE_LEFT, "count: 4"), [((40, 840), (0, 660))]),
    "right": (DESK % (AT_THE_RIGHT, "count: 4"), [((1060, 1960), (0, 660))]),
    "two": (DESK % (TWO, "count: 4"), [((40, 640), (0, 660)), ((1360, 1960), (0, 660))]),
    "rear": (REAR, [((580, 1420), (580, 900))]),
}


@pytest.mark.parametrize("name", ROOMS)
def test_no_solid_of_the_bench_is_in_the_leg_room(name: str) -> None:
    text, rooms = ROOMS[name]
    bench = solved(text)
    top = float(bench.layout.levels.tray_bottom) - 2
    stands = {plate.mark for plate in bench.stand.parts}
    for (x0, x1), (y0, y1) in rooms:
        inside = [
            body.name
            for body in solid_bodies(bench)
            if body.name not in stands
            for low_x, low_y, low_z, high_x, high_y, _ in body.blocks
            if low_x < x1 and x0 < high_x and low_y < y1 and y0 < high_y and low_z < top
        ]
        assert inside == []


@pytest.mark.parametrize("name", ROOMS)
def test_a_bench_with_leg_room_goes_together(name: str) -> None:
    assert assembly_proof(solved(ROOMS[name][0])).proof.ok


def test_rail_pieces_posts_and_bays_fill_the_length() -> None:
    bench = desk(MIDDLE)
    pieces = [rail for rail in bench.of(Role.LONG_RAIL, level="base") if rail.place.side == "front"]
    assert [(rail.box.x.low, rail.box.x.high) for rail in pieces] == [(40, 560), (1440, 1960)]
    assert [post.box.z.low for post in bench.of(Role.KNEE_POST)] == [0, 0]
    # corner posts, pieces, knee posts and the leg room
    assert 2 * 40 + sum(rail.length for rail in pieces) + 2 * 40 + 800 == 2000


def test_feet_of_posts_become_ends_of_rails() -> None:
    without = desk(MIDDLE.replace(", knee: true", ""))
    ends = Counter(joint.kind for joint in without.joints)
    # two posts stand no longer on the rail, and the rail has two ends more: S6
    assert Counter(joint.kind for joint in desk(MIDDLE).joints) == ends
    assert sum(j.crossing.startswith("K") for j in desk(MIDDLE).joints) == 4
    taps = [op for bar in desk(MIDDLE).parts for op in bar.operations if op.op == "tap"]
    assert len(taps) == sum(op.op == "tap" for bar in without.parts for op in bar.operations)


def test_joints_that_sway_along_the_length_are_counted_by_hand() -> None:
    # front pieces 4 ends, knee posts 2 heads; rear rail 2, rear posts 2 × 2; two top rails 4
    long = [joint for joint in desk(MIDDLE).sway.joints if joint.direction == "long"]
    assert len(long) == 4 + 2 + 2 + 4 + 4
    assert {span for joint in long if joint.member == "B1" for span in joint.spans} == {560}
    # a whole front rail has 2 ends and 2 posts with 2 joints each
    whole = desk(MIDDLE.replace(", knee: true", "")).sway.joints
    assert len([joint for joint in whole if joint.direction == "long"]) == 2 + 4 + 2 + 4 + 4


@pytest.mark.parametrize(
    ("bays", "base", "front", "rear"),
    [
        (MIDDLE, "count: 4", 4, 2),
        # the two of the leg room stand for the middle one of their side
        (MIDDLE, "count: 6", 4, 3),
        (AT_THE_LEFT, "count: 4", 3, 2),
        (TWO, "count: 4", 4, 2),
    ],
)
def test_a_stand_is_at_each_post_beside_leg_room(bays: str, base: str, front: int, rear: int) -> None:
    bench = desk(bays, base)
    stand: Stand = bench.stand
    at_front = [point for point in stand.points if point[1] < 350]
    assert (len(at_front), len(stand.points) - len(at_front)) == (front, rear)
    assert list(at_front) == sorted(at_front)
    assert all(bolt.member for bolt in stand.bolts)
    assert len(bench.of(Role.BASE_CROSS_MEMBER)) == len(bench.layout.lines)


def test_a_stand_beside_leg_room_is_as_far_from_it_as_a_corner_is_from_the_end() -> None:
    stand = desk(MIDDLE).stand
    inset = stand.points[0][0]
    assert [x for x, y in stand.points if y < 350] == [inset, 600 - inset, 1400 + inset, 2000 - inset]
    plates = [plate.box.x for plate in stand.parts if plate.place.lines]
    assert [(span.low, span.high) for span in plates] == [(430, 600), (1400, 1570)]


def test_a_divider_beside_leg_room_clears_the_clip_in_the_post() -> None:
    # tongue of 10, clip of 36 in the middle of 40: its rim of 2 and the clearance of 2 are less than the rule of 12
    notches = {(n.corner, n.along, n.across) for n in part(desk(MIDDLE), "FD1").notches}
    assert notches == {("front bottom", 12, 12), ("rear bottom", 12, 12)}
    reasons = {notch.corner: notch.reason for notch in part(desk(MIDDLE), "FD1").notches}
    assert "cross-member" in reasons["front bottom"] and "rail" in reasons["rear bottom"]


@pytest.mark.parametrize(
    ("text", "path", "words"),
    [
        (DESK % (MIDDLE, "count: 4}\nframe: {through: rails, joints: {long_rails_to_corner_posts: end-clip}"),
         "frame.through", "cannot be cut"),
        (DESK % (MIDDLE.replace("knee: true", "knee: true, stack: [{shelf: 200}]"), "count: 4"),
         "zones[0].bays[1].stack", "nothing can be in it"),
        (DESK % (MIDDLE.replace("knee: true", "knee: true, door: {hinge: left}"), "count: 4"),
         "zones[0].bays[1].door", "nothing can be in it"),
        (DESK % (MIDDLE.replace("{name: R}", "{name: R, knee: true}"), "count: 4"),
         "zones[0].bays[2].knee", "in the middle of their leg room"),
        (changed(DEMO, ("{name: B1, width: share, stack: [{shelf: 60}, {shelf: 288}]}",
                        "{name: B1, width: 840, knee: true}")),
         "zones[1].bays[0].knee", "zone front has a post line at 540 mm"),
        (changed(DEMO, ("  - name: back\n", "  - {name: mid, depth: 100, bays: [{knee: true}]}\n  - name: back\n")),
         "zones[1].bays[0].knee", "opens to no face"),
    ],
)  # fmt: skip
def test_leg_room_that_cannot_be_is_refused(text: str, path: str, words: str) -> None:
    found = [each for each in faults(text) if each.code == "knee-place"]
    assert any(each.where.path == path and words in each.message for each in found)


def advised(bays: str, base: str) -> set[str]:
    """Keys that findings on sagging rails name; no plate may meet another."""
    _, findings = compute(desk(bays, base))
    assert not {each.code for each in findings} & {"plates-meet", "overlap"}
    rails = [each for each in findings if each.code in ("sag-base", "sag-top-bar")]
    return {change.path for each in rails for change in each.remedy}


def test_more_stands_are_advised_beside_leg_room_only_where_there_is_place_for_them() -> None:
    """Six set one more in the middle of a side, unless leg room is there or a plate beside it."""
    assert advised(MIDDLE, "count: 4") == {"base.count"}
    assert advised(MIDDLE, "count: 6") == set()
    assert "base.count" not in advised(AT_THE_LEFT, "count: 4")


def test_a_plate_at_a_corner_of_leg_room_hangs_on_two_bolts() -> None:
    """By hand: a third of the loaded bench comes up 60 beyond the end member's edge, its bolts are 20 behind it."""
    for bays, alone in ((AT_THE_LEFT, True), (MIDDLE, False)):
        bench = desk(bays)
        whole = masses(bench, part_rows(bench), hardware(bench))
        found = working_loads(bench, whole, stability(bench, whole)).corner_plates
        assert (found is not None) == alone
        if found is not None:
            assert found.load == pytest.approx(whole.loaded.mass * 9.80665 / 3 * 60 / 20 / 2)
            assert found.load < found.bears
