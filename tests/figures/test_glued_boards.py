"""Boards glued up from strips: worked by hand, each strip on the plan once, and what the pages say of them."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from pathlib import Path

import pytest

from generator.bench.solve import solve
from generator.figures.compute import compute
from generator.figures.cut_demands import Demand, bench_demands
from generator.figures.model import Figures
from generator.manual import Manual
from generator.pages import PAGES
from generator.spec.load import LoadedSpec, read_spec
from tests.bench.benches import changed

JOINER = (Path(__file__).parents[2] / "specs" / "samples" / "joiner.yml").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def loaded() -> LoadedSpec:
    return read_spec(JOINER, "joiner.yml")


@pytest.fixture(scope="module")
def figures(loaded: LoadedSpec) -> Figures:
    return compute(solve(loaded))[0]


def test_strips_by_hand(figures: Figures) -> None:
    """An end panel of 640 x 444 with 30 and 10 on it is 670 x 454: five strips of 90.8, ripped 2 wider for both edges.

    Clamps 200 apart or less on 670, one at each end: five.
    """
    ends = next(row for row in figures.glued_boards if "EF1" in row.marks)
    assert (ends.marks, ends.strips, ends.clamps) == (("EF1", "EF2"), 5, 5)
    assert ends.finished == (640, 444)
    assert ends.glued == (670, 454)
    assert ends.strip == (670, Fraction(454, 5) + 2)


def test_each_board_has_its_strips_on_the_plan_and_they_make_it_up(figures: Figures) -> None:
    laid = Counter(
        piece.mark for row in figures.cutting.sheets if row.material == "beech-12" for piece in row.pieces
    )
    assert laid == {mark: row.strips for row in figures.glued_boards for mark in row.marks}
    for row in figures.glued_boards:
        assert row.strips * (row.strip[1] - 2) == row.glued[1]
        assert row.strip[1] - 2 <= 100
        part = next(part for part in figures.parts if row.marks[0] in part.marks)
        # the grain of the back is upright, that of the ends runs along them
        assert set(row.finished) == {part.length, part.width}
        assert row.glued[0] - row.finished[0] == 30 and row.glued[1] - row.finished[1] == 10


def test_strips_lie_along_the_grain_of_their_boards(figures: Figures) -> None:
    rows = {mark: row for row in figures.glued_boards for mark in row.marks}
    for sheet in figures.cutting.sheets:
        for piece in sheet.pieces if sheet.material == "beech-12" else ():
            assert (piece.l, piece.w) == rows[piece.mark].strip


def test_a_cutting_problem_asks_for_the_strips(loaded: LoadedSpec) -> None:
    demands = [each for each in bench_demands("joiner", solve(loaded)) if isinstance(each, Demand)]
    (beech,) = (each for each in demands if each.material is not None and each.material.name == "beech-12")
    sizes = Counter((piece.width, piece.height) for piece in beech.problem.sheet_pieces)
    assert sizes == {(670, Fraction(464, 5)): 10, (Fraction("506.65"), Fraction("93.8")): 15}


def test_pages_say_what_is_ripped_and_glued(loaded: LoadedSpec, figures: Figures) -> None:
    manual = Manual(loaded, figures, "joiner.yml")
    pages = {page.slug: manual.page(page) for page in PAGES if page.slug in ("cut-list", "set-up-cards")}
    assert "Boards glued up from strips" in pages["cut-list"]
    assert "Close the joints dry with one clamp" in pages["set-up-cards"]
    assert any(card.key == "glued-board-1" for card in figures.setups)


@pytest.mark.usefixtures("quick_plans")
@pytest.mark.parametrize(("strip", "strips"), [("454 mm", 1), ("227 mm", 2), ("226 mm", 3), ("60 mm", 8)])
def test_no_strip_is_wider_than_it_may_be(strip: str, strips: int) -> None:
    wide = (
        "stock: [{length: 2400, width: 220,",
        "stock: [{length: 2400, width: 1220}, {length: 2400, width: 220,",
    )
    text = changed(JOINER, ("strip: 100", f"strip: {strip}"), wide)
    found, _ = compute(solve(read_spec(text, "joiner.yml")))
    assert next(row.strips for row in found.glued_boards if "EF1" in row.marks) == strips


@pytest.mark.usefixtures("quick_plans")
def test_boards_too_narrow_for_their_strips_are_told() -> None:
    text = changed(JOINER, ("strip: 100", "strip: 300"))
    _, findings = compute(solve(read_spec(text, "joiner.yml")))
    assert "longer-than-stock" in {each.code for each in findings}
