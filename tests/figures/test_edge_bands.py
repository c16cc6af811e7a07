"""Edge banding: cut sizes, bands and rolls by hand, what is seen, pages, labels and lists, and what is refused."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.bench.solve import solve
from generator.calculators.edge_bands import rolls
from generator.drawings.cut_paths import BEFORE_BANDING, cut_paths
from generator.drawings.dimensions import Ruler
from generator.drawings.shapes import Polyline
from generator.figures.compare import compare
from generator.figures.compute import figures_of
from generator.figures.model import Figures
from generator.figures.rows.buying import PIECES_FILE
from generator.findings import SpecError
from generator.manual import Manual
from generator.prints.labels import in_short, size
from generator.spec.load import read_spec
from generator.writers.plans_csv import plans_csv
from tests.bench.benches import DEMO
from tests.prints.bench import figures_of as shipped

CARD = "  band: {kind: edge banding, thickness: 2, width: 22, roll: 10 m, on_by: glue, price: 9}\n"


def banded(edges: str, card: str = CARD) -> str:
    return DEMO.replace("hardware:\n", f"edges: {{banding: band, {edges}}}\nhardware:\n{card}", 1)


LOADED = read_spec(banded("sides: visible, boards: {BD1: [top]}"), "bench.yml")


@pytest.fixture(scope="module")
def figures() -> Figures:
    return figures_of(LOADED)[0]


@pytest.fixture(scope="module")
def bare() -> Figures:
    return shipped("demo")


def test_boards_are_cut_smaller_by_their_bands_and_finished_as_before(
    figures: Figures, bare: Figures
) -> None:
    rows = {row.mark: (tuple(map(float, row.cut)), tuple(map(float, row.finished))) for row in figures.edges}
    # a face has four edges of 2, a shelf the one at its open face, and the divider its upper edge
    assert rows["DF1"] == ((490, 161), (494, 165))
    assert rows["SH1"] == ((966, 276), (966, 278))
    assert rows["BD1"] == ((300, 507), (300, 509))
    assert {row.mark: (row.length, row.width) for row in figures.parts} == {
        row.mark: (row.length, row.width) for row in bare.parts
    }
    assert {row.mark for row in figures.edges} == {"BD1", "DF1", "DF2", "DF3", "DF4", "SH1"}


def test_all_plans_and_lists_have_the_cut_size(figures: Figures) -> None:
    row = next(row for row in figures.parts if row.mark == "DF1")
    (piece,) = (piece for sheet in figures.cutting.sheets for piece in sheet.pieces if piece.mark == "DF1")
    assert (float(piece.l), float(piece.w)) == (490, 161)
    assert size(row, Ruler()) == "490 × 161"
    assert "banding left, right, bottom, top" in in_short(row, Ruler())
    service = plans_csv(figures)[PIECES_FILE].splitlines()
    assert any(",490,161," in line and line.endswith("left right bottom top") for line in service)
    section = next(each for each in figures.cut_sections if "SH1" in each.marks)
    by_hand = sum(
        float(each.cut_size[0] * each.cut_size[1]) * each.count
        for each in figures.parts
        if each.material == section.material
    )
    assert float(section.total_area) == by_hand


def test_bands_across_the_ends_come_first_and_the_long_ones_cover_them(figures: Figures) -> None:
    row = next(row for row in figures.edges if row.mark == "DF1")
    assert [(band.edge, float(band.length)) for band in row.bands] == [
        ("left", 161 + 40), ("right", 161 + 40), ("bottom", 494 + 40), ("top", 494 + 40),
    ]  # fmt: skip
    row = next(row for row in figures.edges if row.mark == "SH1")
    assert [(band.edge, float(band.length)) for band in row.bands] == [("rear", 966 + 40)]


def test_rolls_hold_whole_bands() -> None:
    assert rolls([Fraction(6000)] * 3, Fraction(10000)) == 3  # 18 m, but two never share a roll
    assert rolls([Fraction(6000), Fraction(4000), Fraction(9000)], Fraction(10000)) == 2
    assert rolls([], Fraction(10000)) == 0


def test_rolls_are_bought(figures: Figures) -> None:
    bands = sum(float(band.length) for row in figures.edges for band in row.bands for _ in row.marks)
    (line,) = (line for line in figures.purchases if line.item == "band")
    assert 10_000 < bands < 20_000
    assert (line.quantity, line.cost) == (2, 18)
    assert f"{bands / 1000:.4g} m in all" in line.detail


def test_bands_go_on_before_the_machining(figures: Figures) -> None:
    keys = [step.key for step in figures.assembly.steps]
    steps = {step.key: step for step in figures.assembly.steps}
    assert keys.index("bars") < keys.index("edges") < keys.index("boards")
    assert keys.index("lid") < keys.index("late-edges") < keys.index("drawers")
    assert set(steps["edges"].parts) == {"BD1", "SH1", "SH2", "SH3", "SH4"}
    assert steps["late-edges"].parts[0] == "DF1"
    assert any("Clamp a batten" in note for note in steps["edges"].notes)


def test_named_edges_alone_and_a_mark_before_its_group() -> None:
    edges = "sides: named, boards: {shelf: [back], SH2: []}"
    parts = {part.mark: part for part in solve(read_spec(banded(edges), "bench.yml")).parts}
    assert {mark for mark, part in parts.items() if part.bands} == {"SH1", "SH3", "SH4"}
    assert dict(parts["SH1"].bands) == {"rear": 2}


def test_pages_say_which_edges_and_that_they_come_first(figures: Figures) -> None:
    manual = Manual(LOADED, figures, "bench.yml")
    minutes = {row.operation: row.count for row in figures.shop.times} if figures.shop else {}
    assert minutes["banded edge"] == 8 * 4 + 4 + 1  # eight fronts, four shelves, a divider
    assert "Edge banding: thickness" in (manual.file("docs/order-lists.md") or b"").decode()
    cut_list, sheets = (
        (manual.file(f"docs/{name}.md") or b"").decode() for name in ("cut-list", "part-sheets")
    )
    assert "## Edge banding" in cut_list and "490 × 161" in cut_list
    own = sheets.split("DF1, DF5 · ", 1)[1].split("\n## ", 1)[0]
    assert "Edge banding: left, right, bottom" in own and "measured from the finished edges" in own
    assert "Banding, included in the outer size. Without it: 490 × 161." in own


def test_the_file_for_a_router_has_the_board_before_its_banding(figures: Figures) -> None:
    row = next(row for row in figures.parts if row.mark == "SH1")
    layers = {layer.name: layer.paths for layer in cut_paths(row).layers}
    (path,) = layers[BEFORE_BANDING]
    assert isinstance(path, Polyline)
    assert path.points == ((0, 0), (966, 0), (966, 276), (0, 276))


def test_a_new_banding_is_work_on_the_piece(bare: Figures, figures: Figures) -> None:
    changes = {each.mark: each for each in compare(bare, figures).parts}
    assert changes["SH1"].how == "trim"
    assert {field.what for field in changes["SH1"].fields} == {"width", "bands"}
    assert "EF1" not in changes


@pytest.mark.parametrize(
    ("edges", "card", "code", "says"),
    [
        ("boards: {shelv: [front]}", CARD, "unknown-board", "shelf"),
        ("boards: {SH1: [top]}", CARD, "not-an-edge", "one of left, right, front, back"),
        ("sides: named", CARD.replace("thickness: 2", "thickness: 40"), "no-size", "less than"),
        ("extra: 9000", CARD, "out-of-range", "500 mm or less"),
    ],
)
def test_what_no_board_has_is_refused(edges: str, card: str, code: str, says: str) -> None:
    with pytest.raises(SpecError) as caught:
        solve(read_spec(banded(edges, card), "bench.yml"))
    (fault,) = caught.value.findings
    assert fault.code == code
    assert says in fault.allowed or says == fault.nearest


def test_edges_without_banding_are_refused() -> None:
    with pytest.raises(SpecError) as caught:
        solve(read_spec(DEMO + "edges: {boards: {shelf: [front]}}\n", "bench.yml"))
    assert [fault.code for fault in caught.value.findings] == ["missing-key"]
