"""Edging: taken into the size of the top, cut from its strip, glued on before the slots are cut."""

from __future__ import annotations

from functools import cache
from itertools import combinations
from math import prod

import pytest

from generator.bench.model import Bench
from generator.bench.role import Role
from generator.bench.solids import part_bodies
from generator.figures.compute import compute
from generator.figures.model import Figures
from tests.bench.benches import DEMO, changed, codes, solved, span

PLAIN = changed(DEMO, (", holes: {diameter: 20, pitch: 96, edge: 60, keep_clear: 3}", ""))
SLOT = "slots: [{name: gauge, at: 130, width: 19, depth: 5}], cutouts: [{name: port, at: [250, 300], diameter: 60}]"


@cache
def made(sides: str) -> tuple[Bench, Figures]:
    edging = f"overhang: {{front: 20}}, edging: {{material: poplar-15{sides}}}, {SLOT}"
    bench = solved(changed(PLAIN, ("overhang: 0", edging)))
    return bench, compute(bench)[0]


@pytest.mark.parametrize(
    ("sides", "core", "strips"),
    [
        ("", (1970, 890), [2000, 2000, 890, 890]),
        (", sides: [left, front]", (1985, 905), [2000, 905]),
        (", sides: [right]", (1985, 920), [920]),
    ],
)
def test_it_is_taken_into_the_size(sides: str, core: tuple[int, int], strips: list[int]) -> None:
    """The finished top is 2000 by 920 by 18: board and strips of 15 fill it, and no two of them overlap."""
    bench, figures = made(sides)
    (board,), edging = bench.of(Role.TOP), bench.of(Role.TOP_EDGING)
    assert (board.length, board.width) == core
    assert [each.length for each in edging] == strips
    assert {(each.width, each.thickness) for each in edging} == {(18, 15)}
    pieces = [board, *edging]
    volume = sum(each.box.x.size * each.box.y.size * each.box.z.size for each in pieces)
    assert volume == 2000 * 920 * 18
    assert not any(one.box.overlaps(other.box) for one in pieces for other in pieces if one is not other)
    assert (min(span(each, "x")[0] for each in pieces), max(span(each, "y")[1] for each in pieces)) == (
        0,
        900,
    )
    assert (figures.top.length, figures.top.width) == (2000, 920)
    assert [each.length for each in figures.top.edging] == strips


@pytest.mark.parametrize(
    ("sides", "strips", "mitred"),
    [
        (
            "",
            [2000, 2000, 920, 920],
            [("left", "right"), ("left", "right"), ("front", "rear"), ("front", "rear")],
        ),
        (", sides: [left, front]", [2000, 920], [("left",), ("front",)]),
    ],
)
def test_mitred_strips_are_as_long_as_their_sides_and_share_no_wood(
    sides: str, strips: list[int], mitred: list[tuple[str, ...]]
) -> None:
    """The core, and strips whose corners are built of blocks, fill the finished top once."""
    bench, figures = made(f"{sides}, corners: mitred")
    edging = bench.of(Role.TOP_EDGING)
    assert [each.length for each in edging] == strips
    assert [each.mitred for each in figures.top.edging] == mitred
    bodies = part_bodies(bench.loaded, edging)
    blocks = [block for body in bodies for block in body.blocks]
    volume = sum(prod(block[axis + 3] - block[axis] for axis in range(3)) for block in blocks)
    (board,) = bench.of(Role.TOP)
    assert volume == pytest.approx(float(18 * (2000 * 920 - board.length * board.width)))
    shared = [
        min(min(a[axis + 3], b[axis + 3]) - max(a[axis], b[axis]) for axis in range(3))
        for a, b in combinations(blocks, 2)
    ]
    assert max(shared) < 1e-9
    assert any(card.key == "top-edging-mitre" for card in figures.setups)


def test_machining_is_measured_from_the_corner_of_the_board() -> None:
    """The port is at 250, 300 of the finished top, 15 less of a board with strips at the left and the front."""
    bench, figures = made("")
    port = next(op for op in bench.of(Role.TOP)[0].operations if op.purpose == "port")
    assert port.at == (235, 285)
    assert next(each for each in figures.top.features if each.name == "port").at == (250, 300)


def test_it_is_cut_from_its_strip_and_put_in_one_step() -> None:
    bench, figures = made("")
    row = next(row for row in figures.parts if row.mark == "TE1")
    assert (row.material, row.kind, row.count, row.length, row.width) == ("poplar-15", "strip", 2, 2000, 18)
    (step,) = [each for each in figures.assembly.steps if each.key == "top"]
    assert step.parts == ("TOP", "TE1", "TE2", "TE3", "TE4")
    notes = "\n".join(step.notes)
    assert notes.index("port") < notes.index("Glue the edging") < notes.index("gauge")
    assert not [check for check in figures.checks if check.code == "order-blocked" and not check.ok]
    assert {part.mark for part in bench.parts} <= {
        mark for each in figures.assembly.steps for mark in each.parts
    }


def test_a_narrow_strip_and_a_sheet_are_findings() -> None:
    edging = "overhang: 0, edging: {material: %s}"
    thick = changed(PLAIN, ("{use: mdf 18}", "{use: mdf 18, thickness: 60}"))
    bench = solved(changed(thick, ("overhang: 0", edging % "poplar-15")))
    (check,) = [each for each in compute(bench)[0].checks if each.code == "edging-narrow"]
    assert not check.ok and check.limit == 60.5
    assert codes(changed(PLAIN, ("overhang: 0", edging % "ply-12"))) == ["unknown-name"]
