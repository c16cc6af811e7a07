"""Racks: equal slots, grooves that meet the uprights, boards that lie on something, a way in for each."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest

from generator.bench.assembly_proof import assembly_proof
from generator.bench.fillings.racks import BOARD, SLOT, PlacedRack, RackFilling
from generator.bench.model import Bench, Part
from generator.bench.role import Role
from generator.bench.solids import solid_bodies
from generator.calculators.bodies import Body
from generator.findings import SpecError
from tests.bench.benches import solved

SPEC = """spec: 1
title: Racks
bench: {{length: 1900, depth: 700, height: 900}}
materials: {{bar: {{use: profile 40}}}}
zones:
  - name: front
    depth: share
    bays:
      - {{name: A, width: share, stack: [{{rack: share, slots: {slots}}}]}}
      - {{name: B, width: 600, stack: [{{drawer: share}}, {{rack: {height}, slots: 3}}]}}
      - {{name: C, width: share, stack: [{{shelf: 300}}]}}
"""


def bench(slots: int = 5, height: str = "260") -> Bench:
    return solved(SPEC.format(slots=slots, height=height))


def pieces(on: Bench, bay: str, group: str) -> list[Part]:
    own = [part for part in on.of(Role.FILLING) if part.place.bay == bay and part.own_group == group]
    return sorted(own, key=lambda part: (part.box.x.low, part.box.z.low))


@pytest.mark.parametrize(("bay", "slots", "clear"), [("A", 5, 570), ("B", 3, 600), ("A", 4, 570)])
def test_the_slots_are_equal_and_fill_the_bay(bay: str, slots: int, clear: int) -> None:
    """From post to post: slots and boards of 18 add up to the bay's width."""
    on = bench(slots if bay == "A" else 5)
    uprights = pieces(on, bay, "rack upright")
    assert len(uprights) == slots - 1
    (rack,) = (each for each in on.storage.of(PlacedRack) if each.bay == bay)
    gaps = {other.box.x.low - one.box.x.high for one, other in pairwise(uprights)}
    assert gaps == {rack.slot}
    assert slots * rack.slot + (slots - 1) * 18 == clear


@pytest.mark.parametrize("bay", ["A", "B"])
def test_each_upright_stands_in_a_groove_of_both_boards(bay: str) -> None:
    on = bench()
    lower, upper = sorted(pieces(on, bay, "rack board"), key=lambda part: part.box.z.low)
    for upright in pieces(on, bay, "rack upright"):
        for board in (lower, upper):
            grooves = [
                (board.box.x.low + act.at[0] - act.size[0] / 2, board.box.x.low + act.at[0] + act.size[0] / 2)
                for act in board.operations
                if act.op == "groove" and isinstance(act.size, tuple)
            ]
            assert (upright.box.x.low, upright.box.x.high) in grooves
        # 6 deep in each, with 1 in all for play
        assert lower.box.z.high - upright.box.z.low == upright.box.z.high - upper.box.z.low == Fraction(11, 2)


def test_no_two_bodies_overlap_and_the_order_is_proved() -> None:
    on = bench()
    assert assembly_proof(on).faults == ()
    named = {body.name for body in solid_bodies(on)}
    assert {part.mark for part in on.of(Role.FILLING)} <= named


def under(body: Body, others: list[Body]) -> set[str]:
    """What touches it from below."""
    found = set()
    for other in others:
        for one in body.blocks:
            for two in other.blocks:
                beside = one[0] < two[3] and two[0] < one[3] and one[1] < two[4] and two[1] < one[4]
                if beside and abs(one[2] - two[5]) < 1e-6:
                    found.add(other.name)
    return found


def test_every_board_lies_on_cleats_or_on_the_base() -> None:
    on = bench()
    bodies = {body.name: body for body in solid_bodies(on)}
    for bay in "AB":
        for board in pieces(on, bay, "rack board"):
            others = [body for name, body in bodies.items() if name != board.mark]
            carrier = "C" if board.box.z.low == on.layout.levels.base_top else "SC"
            held = {name for name in under(bodies[board.mark], others) if name.startswith(carrier)}
            assert len(held) == 2, board.mark


def test_in_a_bay_at_an_end_the_upper_board_is_below_the_tray_s_rail() -> None:
    on = bench()
    _, upper = sorted(pieces(on, "A", "rack board"), key=lambda part: part.box.z.low)
    assert upper.box.z.high == on.layout.levels.end_rail_bottom


def failed(on: Bench) -> set[str]:
    return {each.law.code for each in RackFilling().judge(on) if not each.ok}


def test_limits() -> None:
    """570 less n - 1 boards of 18: fifteen slots are 21.2 wide, sixteen 18.75."""
    assert failed(bench()) == set()
    assert SLOT.code not in failed(bench(slots=15))
    assert SLOT.code in failed(bench(slots=16))
    thin = SPEC.format(slots=5, height=260) + "shelves: {material: ply-6}\n"
    assert BOARD.code in failed(solved(thin))


@pytest.mark.parametrize(
    ("slots", "height", "words"), [(40, "260", "slots of the rack"), (5, "60", "no space")]
)
def test_a_rack_without_space_is_refused(slots: int, height: str, words: str) -> None:
    with pytest.raises(SpecError, match=words) as caught:
        bench(slots, height)
    assert {finding.code for finding in caught.value.findings} == {"no-size"}


def test_slots_go_with_a_rack_alone() -> None:
    with pytest.raises(SpecError) as caught:
        solved(SPEC.format(slots=5, height=260).replace("{shelf: 300}", "{shelf: 300, slots: 3}"))
    assert {finding.code for finding in caught.value.findings} == {"stack-item"}
