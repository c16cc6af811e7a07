"""What fills the bays: the worked drawers, totes and shelves, and stacks piled up from below."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest

from generator.bench.model import Bench
from tests.bench.benches import DEMO, WALL, changed, codes, faults, solved

STACK = """spec: 1
title: One stack
bench: {length: 1100, depth: 700, height: 900}
materials: {bar: {use: profile 40}}
totes: {bin: {use: tote 145}}
tray: {end_rail_bottom: 525}
zones: [{depth: share, name: only, bays: [{name: A, width: 450, stack: [%s]}, {name: B, width: share}]}]
"""


def opening(bench: Bench) -> tuple[Fraction, Fraction]:
    levels = bench.layout.levels
    return levels.base_top, levels.base_top + levels.opening


def test_the_worked_drawers() -> None:
    """Fronts of 165, 130, 107 and 80 from Z 43, 211, 344 and 454; slides' lower edges from 57.5; blocks from 17.5."""
    drawers = [each for each in solved().storage.drawers if each.bay == "F1"]
    assert [each.number for each in drawers] == [1, 2, 3, 4]
    assert [each.sizes.front_bottom for each in drawers] == [43, 211, 344, 454]
    assert [float(each.sizes.slide_lower_edge) for each in drawers] == [57.5, 225.5, 358.5, 468.5]
    assert [float(each.spacer) for each in drawers] == [17.5, 123, 88, 65]
    # the slide begins 2 behind the face of 18; its holes are 37, 261 and 453 from there
    assert {each.slide_front for each in drawers} == {20}
    assert {each.stations for each in drawers} == {(57, 281, 473)}
    assert [each.name for each in drawers[:1]] == ["drawer F1.1"]
    assert drawers[0].slide_name("left") == "slide F1.1 left"


def test_the_worked_totes() -> None:
    """Bottoms 59, 216, 373; runners' tops 196, 353, 510; tops 204, 361, 518; runners 31 wide."""
    totes = [each for each in solved().storage.totes if each.bay == "F2"]
    assert [each.bottom for each in totes] == [59, 216, 373]
    assert [each.runner_top for each in totes] == [196, 353, 510]
    assert [each.top for each in totes] == [204, 361, 518]
    assert {(each.runner_width, each.kind) for each in totes} == {(31, "tote-145")}
    assert [each.name for each in totes] == ["tote F2.1", "tote F2.2", "tote F2.3"]


def test_the_worked_shelves() -> None:
    """966 x 278; tops at 100 and 328, on cleats at 82 and 310."""
    shelves = [each for each in solved().storage.shelves if each.bay == "B1"]
    assert [(each.number, each.top, each.cleat_top, each.length, each.depth) for each in shelves] == [
        (1, 100, 82, 966, 278),
        (2, 328, 310, 966, 278),
    ]


def test_shelves_are_counted_from_below_however_they_are_written() -> None:
    text = changed(
        DEMO,
        (
            "B1, width: share, stack: [{shelf: 60}, {shelf: 288}]",
            "B1, width: share, stack: [{shelf: 288}, {shelf: 60}]",
        ),
    )
    assert solved(text).storage.shelves == solved().storage.shelves


@pytest.mark.parametrize(
    ("stack", "kinds"),
    [
        ("{drawer: 150}, {open: 120}, {drawer: share}", "dod"),
        ("{totes: bin, count: 2}, {drawer: share}", "td"),
        ("{drawer: share}, {totes: bin, count: 2}", "dt"),
        ("{open: share}, {drawer: 100}, {open: share 2}", "odo"),
        ("{drawer: share}", "d"),
    ],
)
def test_a_stack_piled_up_with_its_gaps_fills_the_opening(stack: str, kinds: str) -> None:
    """3 mm below, between and above; totes with the lift of 12 over each."""
    bench = solved(STACK % stack)
    at, top = opening(bench)
    drawers, totes = iter(bench.storage.drawers), iter(bench.storage.totes)
    spaces = iter(bench.storage.open)
    for kind in kinds:
        at += 3
        if kind == "d":
            size = next(drawers).sizes
            assert size.front_bottom == at
            at += size.front_height
        elif kind == "o":
            space = next(spaces)
            assert space.bottom == at
            at += space.height
        else:
            for _ in range(2):
                tote = next(totes)
                assert tote.bottom == at
                at = tote.top + 12
    assert at + 3 == top
    assert [next(each, None) for each in (drawers, totes, spaces)] == [None] * 3


@pytest.mark.parametrize(
    ("stack", "says"),
    [
        # an opening of 499: 40 to 539
        ("{drawer: 200}, {drawer: 289}", "1 mm missing"),
        ("{drawer: 200}, {drawer: 292}", "2 mm too high"),
        ("{drawer: 493}, {drawer: share}", "3 mm too high"),
        ("{drawer: 490}, {drawer: share}", "nothing is left for the shares"),
        # four totes of 145 and three lifts of 12 are 616
        ("{totes: bin, count: 4}", "need 616 mm, 117 mm more"),
    ],
)
def test_a_stack_that_does_not_fill_says_by_how_much(stack: str, says: str) -> None:
    (fault,) = faults(STACK % stack)
    assert fault.code == "stack-sum"
    assert says in fault.message


def test_totes_alone_float_in_their_opening() -> None:
    bench = solved(STACK % "{totes: bin, count: 2}, {totes: bin}")
    low, high = opening(bench)
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
    runners = bench.in_group("tote runner")[:2]
    left, right = sorted(runners, key=lambda each: each.box.x.low)
    assert float(right.box.x.low - left.box.x.high) == pytest.approx((365.95 + 371.35) / 2)


@pytest.mark.parametrize(
    ("trim", "codes_found"), [("2.5", []), ("2.6", ["stack-sum"]), ("1.5", []), ("1.4", ["stack-sum"])]
)
def test_the_uppermost_gap_takes_half_a_millimetre_of_what_was_measured(
    trim: str, codes_found: list[str]
) -> None:
    """The trim is planned 2 thick; measured half a millimetre off, the gap below it takes that."""
    record = f"- {{date: 2026-11-05, measured: {{path: materials.angle-15.thickness, value: {trim}}}}}\n"
    assert sorted(set(codes(DEMO, record))) == codes_found
