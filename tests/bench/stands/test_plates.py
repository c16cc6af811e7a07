"""Plates under the frame: the worked places of plates, bolts and holes, and nuts that clear the rails."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.bench.frames.seats import key_hole
from generator.bench.frames.slot_nuts import slot_nuts
from generator.bench.law import Law, Verdict
from generator.bench.role import Role
from generator.bench.stands import stand_kind
from generator.bench.stands.casters import EDGE, MEET
from generator.findings import Change
from tests.bench.benches import DEMO, WALL, changed, part, solved, span

#: A caster of small holes stands nearer to the rail: there is less room for the nuts of the middle plates.
NEAR = changed(DEMO, ("plate: [105, 80], holes: [80, 60]", "plate: [70, 60], holes: [40, 40]"))
FOUR = changed(DEMO, ("count: 6, plate", "count: 4, plate"))


def bolts(text: str, plate: str) -> list[tuple[str, float, float]]:
    return [(each.member, *map(float, each.at)) for each in solved(text).stand.bolts if each.plate == plate]


def test_the_worked_plates() -> None:
    """Corners 170 x 170 flush outside, bolts at 70 and 130; the middle ones about X 1000, bolts at Y 50 and 150."""
    bench = solved()
    plates = bench.of(Role.STAND)
    assert [each.mark for each in plates] == [f"CP{n}" for n in range(1, 7)]
    assert [span(each, "x") for each in plates] == [(0, 170), (915, 1085), (1830, 2000)] * 2
    assert [span(each, "y") for each in plates] == [(0, 170)] * 3 + [(730, 900)] * 3
    assert {span(each, "z") for each in plates} == {(-10, 0)}
    assert bolts(DEMO, "CP1") == [("B1", 70, 20), ("B1", 130, 20), ("C7", 20, 70), ("C7", 20, 130)]
    assert bolts(DEMO, "CP2") == [("B1", 950, 20), ("B1", 1050, 20), ("C2", 1000, 50), ("C2", 1000, 150)]
    assert bolts(DEMO, "CP6") == [("B2", 1870, 880), ("B2", 1930, 880), ("C8", 1980, 770), ("C8", 1980, 830)]
    assert bench.stand.points == tuple((x, y) for y in (100, 800) for x in (100, 1000, 1900))


def test_the_worked_holes() -> None:
    """Four bolts of 9 and four M8 at 80 x 60 about the caster; a middle plate has a port of 12 over B1's key hole."""
    corner, middle = (part(solved(), mark).operations for mark in ("CP1", "CP2"))
    assert [op.at for op in corner if op.op == "tapped hole"] == [(60, 70), (60, 130), (140, 70), (140, 130)]
    assert [op.at for op in corner if op.op == "through hole"] == [(70, 20), (130, 20), (20, 70), (20, 130)]
    assert {op.size for op in corner if op.op == "through hole"} == {9}
    assert {op.size for op in corner if op.op == "tapped hole"} == {8}
    assert not [op for op in corner if op.op == "port"]
    ports = [(op.at, op.size) for op in middle if op.op == "port"]
    # at X 1000, Y 20 from the outer face: the foot of P3's post
    assert ports == [((85, 20), 12)]
    assert key_hole(solved().loaded) == 8


@pytest.mark.parametrize("text", [DEMO, NEAR, WALL], ids=["demo", "near", "wall"])
def test_every_nut_of_a_plate_lies_clear_of_the_rail_that_its_slot_ends_on(text: str) -> None:
    """A nut is two and a half threads long; in a cross-member it lies between the two long rails, whole."""
    bench = solved(text)
    across = [nut for nut in slot_nuts(bench) if nut.face == "bottom" and nut.bar.along == "y"]
    assert across
    for nut in across:
        (block,) = nut.body.blocks
        assert bench.layout.section <= Fraction(block[1]).limit_denominator(10**6)
        assert Fraction(block[4]).limit_denominator(10**6) <= bench.layout.depth - bench.layout.section


def test_a_near_caster_draws_its_bolts_together() -> None:
    """Its axis at 40 + 20 + 20 = 80: the nut's half length of 10 from the rail leaves 30 either way."""
    assert bolts(NEAR, "CP2")[2:] == [("C2", 1000, 50), ("C2", 1000, 110)]
    # with more room than 50 it stays at 50
    wide = changed(DEMO, ("plate: [105, 80], holes: [80, 60]", "plate: [125, 80], holes: [100, 60]"))
    assert bolts(wide, "CP2")[2:] == [("C2", 1000, 60), ("C2", 1000, 160)]


def test_four_stand_at_the_corners() -> None:
    bench = solved(FOUR)
    assert bench.stand.points == ((100, 100), (1900, 100), (100, 800), (1900, 800))
    assert [each.place.end for each in bench.of(Role.STAND)] == ["left", "right", "left", "right"]


def judged(text: str) -> dict[Law, list[Verdict]]:
    """What the stand says of its own plates."""
    bench = solved(text)
    found: dict[Law, list[Verdict]] = {}
    for each in stand_kind(bench.spec).judge(bench.loaded, bench.layout, bench.stand, bench.stand.parts):
        found.setdefault(each.law, []).append(each)
    return found


def test_plates_that_overlap_and_holes_near_an_edge_are_told() -> None:
    verdicts = judged(DEMO)
    assert [each.ok for each in verdicts[MEET]] == [True]
    # the hole nearest to an edge is that of a bolt, 20; one and a half of its 9 are needed, and of a port of 12
    assert [(each.value, each.limit) for each in verdicts[EDGE]] == [
        (20, Fraction("13.5")), (20, 18), (20, Fraction("13.5")),
    ] * 2  # fmt: skip
    large = judged(changed(DEMO, ("size: [170, 170]", "size: [170, 460]")))
    assert [(each.ok, each.where) for each in large[MEET]] == [
        (False, "CP1 and CP4, CP2 and CP5, CP3 and CP6")
    ]
    # touching plates do not overlap
    assert judged(changed(DEMO, ("size: [170, 170]", "size: [170, 450]")))[MEET][0].ok
    # 168 deep, the middle plates' last bolt at 150 is 18 from the edge; 167.9 is a tenth too little
    for depth, ok in (("168", True), ("167.9", False)):
        edges = judged(changed(DEMO, ("size: [170, 170]", f"size: [170, {depth}]")))[EDGE]
        assert [each.ok for each in edges] == [True, ok, True] * 2


def test_a_bolt_that_would_be_under_the_end_of_a_post_moves_to_where_a_slot_holds_it() -> None:
    """Holes 10 apart put the axis at 65 and a bolt at 35: the post ends at 40, and half a nut of M8 is 10."""
    bench = solved(changed(DEMO, ("holes: [80, 60]", "holes: [10, 10]")))
    rail = [bolt.at for bolt in bench.stand.bolts if bolt.plate == "CP1" and bolt.member == "B1"]
    assert rail == [(50, 20), (110, 20)]


@pytest.mark.parametrize(("first", "second"), [("900", "share"), ("share", "900")])
def test_smaller_plates_fit_on_the_narrower_side_of_a_middle_line(first: str, second: str) -> None:
    """The middle pair stands at 960 of 2000, or at 1040: two thirds of 960 are 640, on either side."""
    text = f"""spec: 1
title: A line beside the middle
bench: {{length: 2000, depth: 700, height: 900}}
materials: {{bar: {{use: profile 40}}}}
base: {{count: 6, plate: {{size: [700, 180]}}}}
zones: [{{depth: share, name: only, bays: [{{name: A, width: {first}}}, {{name: B, width: {second}}}]}}]
"""
    (verdict,) = judged(text)[MEET]
    assert not verdict.ok
    assert verdict.remedy == (Change("base.plate.size", "[640 mm, 180 mm]"),)
