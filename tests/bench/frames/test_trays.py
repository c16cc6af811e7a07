"""A tray in pieces, and a bench without one: by geometry of this test alone, on both frames and in both units."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from generator.bench.frames.trays import joint_middles
from generator.bench.model import Bench
from generator.bench.role import Role
from generator.bench.solids import solid_bodies
from generator.drawings.dimensions import Ruler
from generator.drawings.panel import draw_panel
from generator.figures.compute import compute
from generator.figures.tray_screws import tray_holes, tray_screws
from generator.spec.adapt import adapted
from generator.spec.load import read_spec
from tests.bench.benches import DEMO, changed, codes, faults, part, solved

TRAY = "tray: {material: ply-12, end_rail_bottom: 525, trim: angle-15}"
PIECES = changed(DEMO, (TRAY, TRAY.replace("}", ", boards: share}")))
#: 12 mm higher than the tray's own rail, so that the drawers of the worked bench fill their openings.
NONE = changed(DEMO, (TRAY, "tray: {boards: none, end_rail_bottom: 537}"))
DATA = Path(__file__).parents[2] / "data"
TIMBER = changed(
    (DATA / "timber.yml").read_text(encoding="utf-8"), ("drawers:", "tray: {boards: share}\ndrawers:")
)
INCHES = """spec: 1
title: In inches
units: in
bench: {length: 90, depth: 30, height: 36}
materials: {bar: {use: profile 1 1/2 in}, ply: {use: plywood 1/2 in}, strip: {use: strip 2 x 5/8 in}}
hardware: {clip: {use: end clip 5/16 in}, screw: {use: through screw 5/16 in}, nut: {use: slot nut 5/16 in}}
frame: {slot_nut: nut, joints: {default: clip, long_rails_to_corner_posts: screw, inner_post_tops: screw}}
panels: {material: ply}
tray: {material: ply, boards: share, longest: 40}
zones: [{name: front, bays: [{width: share}, {width: share}, {width: share}, {width: share}]}]
"""


def pieces_at(bench: Bench, x: float, y: float) -> list[tuple[str, float, float]]:
    """The wood of the tray at a place in plan: which piece, and from which height to which."""
    marks = {each.mark for each in bench.of(Role.TRAY)}
    wood: dict[str, list[tuple[float, float]]] = {}
    for body in solid_bodies(bench):
        for block in body.blocks if body.name in marks else ():
            if block[0] < x < block[3] and block[1] < y < block[4]:
                wood.setdefault(body.name, []).append((block[2], block[5]))
    return sorted(
        (mark, min(low for low, _ in spans), max(high for _, high in spans)) for mark, spans in wood.items()
    )


@pytest.mark.parametrize("text", [PIECES, TIMBER, INCHES], ids=["slotted", "timber", "inches"])
def test_both_lips_of_a_joint_are_on_the_whole_divider(text: str) -> None:
    bench = solved(text)
    trays = bench.of(Role.TRAY)
    assert len(trays) == len(joint_middles(bench.loaded, bench.layout)) + 1 > 1
    for left, right, middle in zip(trays, trays[1:], joint_middles(bench.loaded, bench.layout), strict=False):
        walls = [wall for wall in bench.of(Role.DIVIDER) if wall.box.x.middle == middle]
        assert len(walls) == len(bench.layout.zones)
        for wall in walls:
            y = float(wall.box.y.middle)
            thick = float(wall.box.x.size)
            for x in (wall.box.x.low + Fraction(1, 10), middle, wall.box.x.high - Fraction(1, 10)):
                (low_mark, low, seam), (high_mark, seam_too, high) = sorted(
                    pieces_at(bench, float(x), y), key=lambda each: each[1]
                )
                assert (low_mark, high_mark) == (left.mark, right.mark)
                assert low == pytest.approx(
                    float(wall.box.z.high), abs=0.5
                )  # a thin sheet settles on its wall
                assert seam == pytest.approx(seam_too) == pytest.approx((low + high) / 2)
            # beside the divider only one of them, at its full thickness, and a gap between shoulder and lip
            assert [mark for mark, *_ in pieces_at(bench, float(middle) - thick, y)] == [left.mark]
            assert [mark for mark, *_ in pieces_at(bench, float(middle) + thick, y)] == [right.mark]
            assert len(pieces_at(bench, float(wall.box.x.low) - 0.5, y)) == 1


@pytest.mark.parametrize("text", [PIECES, TIMBER, INCHES], ids=["slotted", "timber", "inches"])
def test_the_pieces_can_be_put_together(text: str) -> None:
    findings = compute(solved(text))[1]
    assert {each.code for each in findings if each.severity == "error"} == set()
    assert {"edge-unsupported", "support-missing"} & {each.code for each in findings} == set()


def test_pieces_are_as_few_and_as_long_as_is_allowed() -> None:
    for longest, count in ((None, 2), (1300, 2), (976, 2), (975, 3), (900, 3), (560, 4), (550, 4)):
        text = (
            PIECES
            if longest is None
            else changed(PIECES, ("boards: share", f"boards: share, longest: {longest}"))
        )
        if codes(text):
            assert longest is not None and longest < 976
            continue
        trays = solved(text).of(Role.TRAY)
        assert len(trays) == count
        assert longest is None or max(each.length for each in trays) <= longest
        assert trays[0].box.x.low == 30 and trays[-1].box.x.high == 1970


def test_a_drill_at_a_joint_meets_both_pieces_and_the_divider() -> None:
    bench = solved(PIECES)
    pockets, above = tray_screws(bench)
    (middle,) = joint_middles(bench.loaded, bench.layout)
    at_joint = {row.part for row in above} & {
        wall.mark for wall in bench.of(Role.DIVIDER) if wall.box.x.middle == middle
    }
    assert at_joint == {wall.mark for wall in bench.of(Role.DIVIDER) if wall.box.x.middle == middle}
    assert not at_joint & {row.part for row in pockets}
    for row in tray_holes(bench, tuple(row for row in above if row.part in at_joint)):
        tray = part(bench, row.part)
        x = float(tray.box.x.low + (row.across or 0))
        assert x == float(middle)
        for at in row.at:
            assert len(pieces_at(bench, x, float(tray.box.y.low + at))) == 2


def test_posts_at_a_joint_are_clear_of_both_pieces() -> None:
    bench = solved(PIECES)
    marks = {each.mark for each in bench.of(Role.TRAY)}
    clearance = float(bench.spec.panels.notch_clearance) / 2
    for body in solid_bodies(bench):
        for block in body.blocks if body.name in marks else ():
            for post in bench.of(Role.INNER_POST, Role.CORNER_POST):
                apart = [
                    max(
                        float(post.box.span(axis).low) - block[n + 3],
                        block[n] - float(post.box.span(axis).high),
                    )
                    for n, axis in enumerate("xy")
                ]
                assert max(apart) >= clearance - 1e-6, (body.name, post.mark)


def test_joints_are_on_sticks_cards_and_part_sheets() -> None:
    figures = compute(solved(PIECES))[0]
    labels = [mark.label for stick in figures.sticks if stick.name == "X-front" for mark in stick.marks]
    assert {"PAN2 begins", "PAN1 ends"} <= set(labels)
    card = next(card for card in figures.setups if card.key == "half-lap")
    assert card.marks == ("PAN1", "PAN2")
    rows = {row.mark: row for row in figures.parts}
    assert [(op.face, op.depth) for op in rows["PAN1"].operations if op.op == "half lap"] == [("top", 6)]
    assert [(op.face, op.depth) for op in rows["PAN2"].operations if op.op == "half lap"] == [("bottom", 6)]
    written = " ".join(text for text, _ in draw_panel(rows["PAN1"], Ruler()).text_boxes())
    assert "Half lap at the right edge, in the top face: 13 wide, 6 deep" in written


def test_what_no_sheet_holds_is_offered_in_pieces() -> None:
    small = changed(
        DEMO, ("stock: [{length: 2440, width: 1220, price: 75}]", "stock: [{length: 1500, width: 1220}]")
    )
    finding = next(each for each in compute(solved(small))[1] if each.code == "longer-than-stock")
    assert [(each.path, each.value) for each in finding.remedy] == [("tray.boards", "share")]
    cured = adapted(small, [(each.path, each.value) for each in finding.remedy])
    assert "longer-than-stock" not in {each.code for each in compute(solved(cured))[1]}


def test_a_bench_without_a_tray() -> None:
    bench = solved(NONE)
    assert not bench.of(Role.TRAY, Role.TRAY_TRIM)
    rail, walls = part(bench, "C9"), bench.of(Role.DIVIDER)
    assert {wall.box.z.high for wall in walls} == {rail.box.z.low}
    assert bench.layout.levels.opening == rail.box.z.low - 40 == 497
    figures, findings = compute(bench)
    assert {each.code for each in findings if each.severity == "error"} == set()
    assert {step.key for step in figures.assembly.steps} & {"tray", "tray-fix"} == set()
    assert not [
        row.item for row in figures.hardware if row.item in ("tray screw", "trim screw", "pocket screw")
    ]
    said = " ".join(note for step in figures.assembly.steps for note in (*step.notes, *step.hold, step.title))
    assert "tray" not in said and "Take off the batten." in said and "Put a strap" in said
    labels = {mark.label for stick in figures.sticks for mark in stick.marks}
    assert not [label for label in labels if "tray" in label]
    assert rail.group == "middle end rail"


def test_timber_without_a_tray() -> None:
    figures, findings = compute(solved(changed(TIMBER, ("tray: {boards: share}", "tray: none"))))
    assert {each.code for each in findings if each.severity == "error"} == set()
    assert "tray" not in {row.group for row in figures.parts}


@pytest.mark.parametrize(
    ("key", "code", "path"),
    [
        ("tray: {boards: none, trim: angle-15}", "tray-keys", "tray"),
        ("tray: {longest: 900}", "tray-keys", "tray"),
        ("tray: {boards: none, longest: 900}", "tray-keys", "tray"),
        (
            "tray: {material: ply-12, end_rail_bottom: 525, trim: angle-15, boards: share, longest: 500}",
            "tray-joint",
            "tray.longest",
        ),
        ("tray: {boards: share, longest: 0}", "out-of-range", "tray.longest"),
        ("tray: 9000", "not-a-mapping", "tray"),
        ("tray: some", "not-a-mapping", "tray"),
        ("tray: {boards: 9000}", "not-a-choice", "tray.boards"),
        ("tray: {boards: 0}", "not-a-choice", "tray.boards"),
    ],
)
def test_trays_that_cannot_be(key: str, code: str, path: str) -> None:
    (found,) = faults(changed(DEMO, (TRAY, key)))
    assert (found.code, found.where.path if found.where else "") == (code, path)
    assert found.allowed


def test_a_joint_needs_dividers_in_all_zones() -> None:
    without = changed(PIECES, ("walls: [dividers, ends, spine]", "walls: [ends, spine]"))
    (found,) = faults(without)
    assert found.code == "tray-joint" and "dividers" in found.allowed
    read = read_spec(TIMBER, "timber.yml")
    assert read.spec.tray.there
