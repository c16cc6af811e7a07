"""A plinth as a stand: boards that bear on the floor, inside the bolts of the plates that hold them to the frame."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations

import pytest

from generator.bench.assembly_proof import assembly_proof
from generator.bench.model import Bench
from generator.bench.role import Role
from generator.bench.stands.plinth import BOLT, CROSS, LONG, PLATE, SCREW, OnPlinth
from generator.figures.compute import figures_of
from generator.findings import Severity, SpecError
from generator.spec.load import read_spec
from tests.bench.benches import solved
from tests.test_every_key import PLINTH, TIMBER

TEXT = PLINTH.read_text()


@pytest.fixture(scope="module")
def bench() -> Bench:
    return solved(TEXT)


def test_boards_and_frame_make_up_the_height(bench: Bench) -> None:
    """A plinth of 90 below a frame and a top of 18: the long boards are 50 from all sides, the others between them."""
    assert bench.layout.levels.frame_height == 900 - 90 - 18
    boards = {part.mark: part for part in bench.stand.parts if part.name in (LONG, CROSS)}
    assert all((part.box.z.low, part.box.z.high) == (-90, -18) for part in boards.values())
    assert {(part.length, part.width) for part in boards.values()} == {(1500, 72), (700 - 100 - 36, 72)}


def test_every_plate_lies_on_two_boards_and_nothing_meets(bench: Bench) -> None:
    parts = bench.stand.parts
    assert not [(a.mark, b.mark) for a, b in combinations(parts, 2) if a.box.overlaps(b.box)]
    boards = [part for part in parts if part.name != PLATE]
    for plate in (part for part in parts if part.name == PLATE):
        over = [b for b in boards if b.box.x.overlap(plate.box.x) > 0 and b.box.y.overlap(plate.box.y) > 0]
        assert {b.name for b in over} == {LONG, CROSS}


def test_every_bolt_has_a_slot_above_and_no_board_over_its_washer(bench: Bench) -> None:
    """A washer of M8 is 16 across."""
    bars = {part.mark: part for part in bench.parts if part.is_bar}
    boards = [part.box for part in bench.stand.parts if part.name != PLATE]
    for bolt in bench.stand.bolts:
        bar = bars[bolt.member]
        at = dict(zip("xy", bolt.at, strict=True))
        assert bar.box.span("y" if bar.along == "x" else "x").middle == at["y" if bar.along == "x" else "x"]
        for box in boards:
            aside = max(box.x.low - at["x"], at["x"] - box.x.high, box.y.low - at["y"], at["y"] - box.y.high)
            assert aside >= 8


def test_what_is_bought_and_cut() -> None:
    """Two screws in each joint of boards and in each of two boards below a plate; washers fill up to a stock bolt."""
    figures, findings = figures_of(read_spec(TEXT, "plinth.yml"))
    assert [str(each) for each in findings if each.severity is Severity.ERROR] == []
    bought = {row.kind: (row.count, row.size) for row in figures.hardware}
    crossing, plates = 3, 6
    assert bought[BOLT] == (4 * plates, "M8x30")
    assert bought[SCREW] == (2 * 2 * (crossing + plates), "4x50")
    assert (
        sum(row.count for row in figures.parts if row.group in (LONG, CROSS, PLATE)) == 2 + crossing + plates
    )
    assert figures.stand.facts.points[0] == (Fraction(50), Fraction(50))
    (step,) = (step for step in figures.assembly.steps if step.key == "plinth")
    assert len(step.motions) == 2 + crossing + plates


@pytest.mark.parametrize(
    ("text", "code"),
    [
        (TEXT.replace("count: 6}", "casters: caster}"), "stand-two"),
        (TEXT.replace("stack: [{shelf: 60}]", "knee: true"), "knee-place"),
        (TEXT.replace("height: 90,", "height: 57,"), "no-size"),
        (TEXT.replace("setback: 50", "setback: 900"), "no-size"),
    ],
)  # fmt: skip
def test_what_is_refused(text: str, code: str) -> None:
    with pytest.raises(SpecError) as caught:
        solved(text)
    assert code in [finding.code for finding in caught.value.findings]


def test_coach_screws_hold_the_plates_below_timber() -> None:
    """Seven diameters of 8 in the wood, below 18 of plywood and a washer of 1.6: 80 is sold. A pilot hole for each."""
    text = TIMBER.read_text(encoding="utf-8")
    plinth = "plinth: {material: ply-18, height: 90, setback: 55}"
    text = text.replace("feet: foot, count: 4, plate: {size: [180, 180], thickness: 12}", plinth)
    on = solved(text.replace("  cleat: {use", "  ply-18: {use: plywood 18}\n  cleat: {use"))
    bolt = next(each for each in on.stand.fixings if each.item == "plinth bolt")
    assert (bolt.count, bolt.size, bolt.into) == (4 * 4, "8 x 80", "wood")
    pilots = [act.depth for part in on.parts for act in part.operations if act.op == "pilot hole"]
    assert pilots == [80 - 18 - Fraction(8, 5)] * 16
    assert assembly_proof(on).proof.ok
    assert all(verdict.ok for verdict in OnPlinth().judge(on.loaded, on.layout, on.stand, on.parts))
    assert {part.box.z.low for part in on.of(Role.STAND)} == {-90, -18}
