"""The grain of single boards: set by mark or group, followed by the sheet plan, the part sheets and the labels."""

from __future__ import annotations

import pytest

from generator.bench.solve import solve
from generator.drawings.dimensions import Ruler
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.findings import SpecError
from generator.manual import Manual
from generator.prints.labels import in_short
from generator.resources import bundled
from generator.spec.load import read_spec

DEMO = (bundled("specs") / "demo.yml").read_text(encoding="utf-8")


def figures_of(grain: str) -> Figures:
    loaded = read_spec(f"{DEMO}\ngrain: {grain}\n", "demo.yml")
    return compute(solve(loaded))[0]


def lying(figures: Figures, mark: str) -> tuple[float, float]:
    """A piece along its sheet, and across it (mm)."""
    (piece,) = (piece for sheet in figures.cutting.sheets for piece in sheet.pieces if piece.mark == mark)
    return float(piece.l), float(piece.w)


def test_a_group_lies_with_its_second_size_along_the_sheet() -> None:
    """A face of 494 x 165 with upright grain: its 165 runs along the sheet, whose grain runs along its length."""
    assert lying(figures_of("{}"), "DF1") == (494, 165)
    figures = figures_of("{drawer face: width}")
    for mark in ("DF1", "DF5"):
        assert lying(figures, mark) == (165, 494)
    assert lying(figures, "SH1") == (966, 278)


def test_a_mark_wins_over_its_group_and_is_a_part_of_its_own() -> None:
    figures = figures_of("{drawer face: width, DF1: length}")
    assert (lying(figures, "DF1"), lying(figures, "DF5")) == ((494, 165), (165, 494))
    rows = {mark: row for row in figures.parts for mark in row.marks}
    assert rows["DF1"] is not rows["DF5"]
    assert (rows["DF1"].grain, rows["DF5"].grain) == ("length", "width")


def test_pages_and_labels_name_the_size_that_the_grain_follows() -> None:
    loaded = read_spec(f"{DEMO}\ngrain: {{DF1: width}}\n", "demo.yml")
    manual = Manual(loaded, compute(solve(loaded))[0], "demo.yml")
    page = (manual.file("docs/part-sheets.md") or b"").decode()
    before, after = (page.split(f"## {mark} ", 1)[1].split("##", 1)[0] for mark in ("DF5", "DF1"))
    assert "Grain along the " in before and "Grain along the " in after
    rows = {mark: row for row in figures_of("{DF1: width}").parts for mark in row.marks}
    assert in_short(rows["DF1"], Ruler()).endswith("grain along 165")
    assert in_short(rows["DF5"], Ruler()).endswith("grain along 494")


@pytest.mark.parametrize(
    ("grain", "code", "path", "nearest"),
    [
        ("{DF77: width}", "unknown-board", "grain.DF77", "DF7"),
        ("{drawer faces: width}", "unknown-board", "grain.drawer faces", "drawer face"),
        ("{corner post: width}", "unknown-board", "grain.corner post", ""),
        ("{DF1: across}", "not-a-choice", "grain.DF1", ""),
    ],
)
def test_what_is_no_board_and_no_direction_is_told(grain: str, code: str, path: str, nearest: str) -> None:
    with pytest.raises(SpecError) as caught:
        figures_of(grain)
    (finding,) = caught.value.findings
    assert (finding.code, finding.where and finding.where.path) == (code, path)
    assert nearest in finding.nearest
    assert finding.where is not None and finding.where.line == len(DEMO.split("\n")) + 1
