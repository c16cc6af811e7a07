"""Boards with knots from file to page: `cuts` in millimetres and inches, a bench, the off-cuts, and every fault."""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from shapely import box

from generator.bench.solve import solve
from generator.calculators.cutting.core import budget_for
from generator.cli import main
from generator.figures.combined_cuts import shared_materials
from generator.figures.compute import compute
from generator.figures.cut_demands import problem_demand
from generator.figures.cut_solution import solve_problem
from generator.findings import SpecError
from generator.manual import Manual
from generator.pages import PAGES
from generator.spec.cut_problem import read_cut_problem
from generator.spec.load import read_spec
from tests.bench.benches import changed, faults

OAK = """name: oak
sheets:
- {width: 2400, height: 210, price: 30, defects: [[600, 40, 80, 60], [1700, 0, 300, 45]]}
- {width: 1800, height: 180, price: 22}
- [3000, 240, 48, 1, [[1450, 0, 60, 240]]]
kerf: 3.2
trim: 10
clear: 6
pieces: [[640, 70, 8, 0, stile], [430, 90, 6, 0, rail]]
"""
FIR = """units: in
sheets: [{width: 96, height: 7 1/4, defects: [[20, 1, 2 1/2, 1 1/2]]}, {width: 72, height: 5 1/2}]
kerf: 1/8
trim: 1/2
pieces: [[24, 2 1/4, 6], [14 5/8, 3, 3]]
"""


def rectangle(x: float, y: float, length: float, width: float) -> Any:
    return box(x, y, x + length, y + width)


@pytest.mark.parametrize(("text", "count", "clear"), [(OAK, 14, 6), (FIR, 9, 5 / 25.4)], ids=["mm", "in"])
def test_no_piece_has_any_of_a_knot(text: str, count: int, clear: float) -> None:
    problem = read_cut_problem(text, "boards.yml")
    data = solve_problem(problem, budget_for(0.2))
    pieces = 0
    for sheet in data["sheets"]:
        knots = [rectangle(*each) for each in sheet.get("defects", ())]
        for piece in sheet["pieces"]:
            pieces += 1
            own = rectangle(piece["x"], piece["y"], *piece["size"])
            assert all(own.intersection(knot).area < 1e-6 for knot in knots)
            assert rectangle(0, 0, *sheet["stock"]).covers(own)
    assert pieces == count
    # what is kept clear is the knot and its margin
    (first,) = (sheet["defects"][0] for sheet in data["sheets"][:1])
    assert first[2] > 2 * clear


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("sheets: [{width: 900, height: 200, defects: [[1, 2, 3]]}]\npieces: [[300, 100]]\n", ["not-an-entry"]),
        ("sheets: [{width: 900, height: 200, defects: 7}]\npieces: [[300, 100]]\n", ["not-an-entry"]),
        ("sheets: [{width: 900, height: 200, defects: [[0, 0, 0, 9]]}]\npieces: [[300, 100]]\n", ["bad-length"]),
        ("sheets: [{width: 900, height: 200, limit: 2, defects: [[0, 0, 9, 9]]}]\npieces: [[9, 9]]\n", ["too-many"]),
        ("sheets: [{width: 900, height: 200, defects: [[900, 0, 9, 9]]}]\npieces: [[9, 9]]\n", ["out-of-range"]),
        ("stock: [[900]]\nclear: 4\npieces: [[300]]\n", ["not-for-bars"]),
    ],
)  # fmt: skip
def test_each_fault_of_a_defect_is_told(text: str, found: list[str]) -> None:
    with pytest.raises(SpecError) as caught:
        read_cut_problem(text, "boards.yml")
    assert [each.code for each in caught.value.findings] == found
    assert all(each.where and each.where.line for each in caught.value.findings)


def test_an_off_cut_with_a_knot_is_not_kept(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """A board of 2400 x 400 with a knot in its far half: the half beside the piece goes to no store."""
    monkeypatch.chdir(tmp_path)
    text = "sheets: [{width: 2400, height: 400, defects: [[1800, 150, 100, 100]]}]\nkerf: 4\ntrim: 10\n"
    text += "material: {name: oak, thickness: 20}\npieces: [[1000, 380, 1]]\n"
    clear = text.replace("defects: [[1800, 150, 100, 100]]", "limit: 1")
    left = []
    for each in (text, clear):
        Path("oak.yml").write_text(each)
        assert main(["cuts", "oak.yml", "--store", "store.yml", "--json", "--seconds", "0.2"]) == 0
        left.append(json.loads(capsys.readouterr().out)["store"]["keep"])
    assert (left[0], [each["size"] for each in left[1]]) == ([], [[1376, 380]])


JOINER = (Path(__file__).parents[1] / "specs" / "samples" / "joiner.yml").read_text(encoding="utf-8")
STOCK = (
    "strip: 100, oversize: [30, 10], stock: [{length: 2400, width: 220, price: 30, "
    "defects: [{at: [1160, 60], size: [80, 60]}]}, {length: 2400, width: 220, price: 32}]"
)
KNOTTY = changed(
    JOINER,
    (STOCK, "stock: [{length: 1500, width: 700, price: 50, defects: [{at: [700, 0], size: [60, 700]}]}, "
     "{length: 2200, width: 560, price: 90, count: 2}, "
     "{length: 2000, width: 600, price: 60, defects: [{at: [700, 200], size: [40, 60]}]}]"),
    ("{clear: 6}", "{clear: 5}"),
)  # fmt: skip


@pytest.mark.usefixtures("quick_plans")
def test_a_bench_is_cut_around_the_knots_of_its_boards() -> None:
    loaded = read_spec(KNOTTY, "joiner.yml")
    figures, _ = compute(solve(loaded))
    rows = [row for row in figures.cutting.sheets if row.material == "beech-12"]
    wanted = sorted(mark for part in figures.parts if part.material == "beech-12" for mark in part.marks)
    assert sorted(piece.mark for row in rows for piece in row.pieces) == wanted
    assert any(row.defects for row in rows)
    sizes = {mark: {part.length, part.width} for part in figures.parts for mark in part.marks}
    for row in rows:
        knots = [rectangle(*map(float, each)).buffer(5 - 1e-6, join_style="mitre") for each in row.defects]
        for piece in row.pieces:
            own = rectangle(*map(float, (piece.x, piece.y, piece.l, piece.w)))
            assert all(own.intersection(knot).area == 0 for knot in knots), piece.mark
            assert {piece.l, piece.w} == sizes[piece.mark]
    for kept in figures.cutting.offcuts:
        if kept.material == "beech-12":
            areas = [each for row in rows for each in row.offcuts if each[2:] == (kept.length, kept.width)]
            assert areas
    manual = Manual(loaded, figures, "joiner.yml")
    page = manual.page(next(page for page in PAGES if page.slug == "sheet-plan"))
    assert "Crossed boxes are defects" in page
    assert "Defects that no piece has" in page


@pytest.mark.parametrize(
    ("old", "new", "code", "path"),
    [
        (STOCK, "stock: [{length: 2000, width: 600, count: 3, defects: [{at: [1, 1], size: [9, 9]}]}]",
         "too-many",
         "materials.beech-12.stock[0].count"),
        ("stock: [{length: 3000, price: 34}]", "stock: [{length: 3000, defects: [{at: [1, 1], size: [9, 9]}]}]",
         "not-for-bars", "materials.leg.stock[0].defects"),
        (STOCK, "stock: [{length: 99, width: 60, defects: [{at: [1, 1], size: [9, 9]}, {at: [1, 60], size: [9, 9]}]}]",
         "out-of-range", "materials.beech-12.stock[0].defects[1].at"),
    ],
)  # fmt: skip
def test_only_a_single_board_has_defects(old: str, new: str, code: str, path: str) -> None:
    found = faults(changed(JOINER, (old, new)))
    assert [(each.code, each.where and each.where.path) for each in found] == [(code, path)]


def test_two_files_with_other_knots_are_planned_apart() -> None:
    made = "material: {name: oak, thickness: 20}\n"
    one, other = OAK + made, OAK.replace("[600, 40", "[610, 40") + made
    demands = [
        problem_demand(name, read_cut_problem(text, name)) for name, text in (("a", one), ("b", other))
    ]
    _, apart = shared_materials(demands)
    assert apart
    _, together = shared_materials([problem_demand(n, read_cut_problem(one, n)) for n in "ab"])
    assert not together


def test_sizes_are_exact_in_sixteenths() -> None:
    data = solve_problem(read_cut_problem(FIR, "fir.yml"), budget_for(0.2))
    for sheet in data["sheets"]:
        for piece in sheet["pieces"]:
            assert (Fraction(str(piece["size"][1])) * 16).denominator == 1
