"""Pull-outs: boards and lips by the settled rules, strips at every hole of their slides, a way in for each."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.bench.assembly_proof import assembly_proof
from generator.bench.fillings.on_slides import OnSlides, loose_slides
from generator.bench.fillings.pull_out_boards import PlacedPullOut
from generator.bench.model import Bench, Part
from generator.bench.role import Role
from generator.findings import SpecError
from generator.geometry import AXES
from tests.bench.benches import changed, solved

SPEC = """spec: 1
title: Pull-outs
bench: {length: 2120, depth: 700, height: 900}
materials: {bar: {use: profile 40}, deep: {use: strip 50 x 20, thickness: 45}}
hardware: {hinge: {use: butt hinge 60 x 34}}
doors: {packing: deep}
zones:
  - name: front
    depth: share
    bays:
      - {name: A, width: share, stack: [{pull-out: 60}, {open: share}]}
      - {name: B, width: 600, stack: [{drawer: 150}, {pull-out: 250}, {open: share}]}
      - {name: C, width: share, stack: [{pull-out: 60}, {shelf: 300}]}
      - {name: D, width: 400, door: {hinge: left}, stack: [{pull-out: 200}]}
"""


def pieces(bench: Bench, bay: str) -> list[Part]:
    return [part for part in bench.of(Role.FILLING) if part.place.bay == bay and part.own_group != "door"]


@pytest.mark.parametrize(
    ("bay", "width", "front"),
    # between two packings 1 proud and two slides that need 13; behind a door also clear of the open leaf: 18 + 3 + 3
    [("A", 460 - 28, 0), ("B", 600 - 28, 0), ("C", 460 - 28, 0), ("D", 400 - 28 - 24, 18 + 5)],
)
def test_board_and_lips(bay: str, width: int, front: int) -> None:
    bench = solved(SPEC)
    (placed,) = (each for each in bench.storage.of(PlacedPullOut) if each.bay == bay)
    board, left, right, rear = pieces(bench, bay)
    assert (board.box.x.size, board.box.y.size, board.box.z.size) == (width, 500, 18)
    assert (board.box.y.low, placed.depth) == (front, 500)
    height = {"A": 60, "B": 250, "C": 60, "D": 200}[bay]
    assert board.box.z.high == bench.layout.levels.base_top + height
    # 45 - 18 + 5
    assert {lip.box.z.size for lip in (left, right, rear)} == {32}
    assert {lip.box.z.low for lip in (left, right, rear)} == {board.box.z.high}
    assert (left.box.x.low, right.box.x.high, rear.box.y.high) == (
        board.box.x.low, board.box.x.high, board.box.y.high,
    )  # fmt: skip
    assert placed.slide_axis == board.box.z.low + Fraction(45, 2)


def test_what_is_beside_each_other_in_a_bay_overlaps_nowhere_and_goes_in() -> None:
    """Strips end below a shelf, so that it lies on its cleats: as boxes, without the solids of the program."""
    bench = solved(SPEC)
    for bay in "ABCD":
        # the bottom of a drawer is in its grooves
        boxes = [
            part.box for part in bench.parts if part.place.bay == bay and part.role is not Role.DRAWER_BOTTOM
        ]
        for index, one in enumerate(boxes):
            for two in boxes[index + 1 :]:
                assert any(one.span(axis).overlap(two.span(axis)) <= 0 for axis in AXES)
    assert assembly_proof(bench).faults == ()
    assert list(loose_slides(bench)) == []


def test_a_block_stands_on_the_slide_below_whatever_that_carries() -> None:
    """Drawer: front from 3, box from 13, its slide's axis 27 above and half of 45 below; the board begins at 232."""
    drawer, pull_out = (each for each in solved(SPEC).storage.of(OnSlides) if each.bay == "B")
    assert drawer.spacer == 3 + 10 + 27 - Fraction(45, 2)
    assert pull_out.spacer == 250 - 18 - drawer.spacer - 45


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("name: B, width: 600", "name: B, width: 60", "too narrow for a pull-out"),
        (
            "deep: {use: strip 50 x 20, thickness: 45}",
            "ply-18: {use: plywood 18, thickness: 31}",
            "too thick",
        ),
    ],
)
def test_a_pull_out_of_no_size_is_refused(old: str, new: str, words: str) -> None:
    text = changed(SPEC.replace("{drawer: 150}, ", "").replace("doors: {packing: deep}\n", ""), (old, new))
    with pytest.raises(SpecError, match=words) as caught:
        solved(text)
    assert {finding.code for finding in caught.value.findings} == {"no-size"}
