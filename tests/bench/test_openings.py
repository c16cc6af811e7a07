"""Openings in boards by mark or name: where they are cut, and what is in their way, by plane geometry of its own."""

from __future__ import annotations

from functools import cache

import pytest
import shapely

from generator.bench.model import Bench
from generator.bench.piece import Part
from generator.drawings.cut_paths import cut_paths
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.findings import Finding
from generator.spec.adapt import adapted
from tests.bench.benches import DEMO, changed, faults, part, solved

#: The worked bench with a plain top, which is quicker.
PLAIN = changed(DEMO, (", holes: {diameter: 20, pitch: 96, edge: 60, keep_clear: 3}", ""))
MINE = {"opening-edge", "opening-cut", "opening-blocked"}


@cache
def made(cutouts: str) -> tuple[Bench, Figures, tuple[Finding, ...]]:
    bench = solved(with_openings(cutouts))
    return bench, *compute(bench)


def with_openings(cutouts: str) -> str:
    return changed(PLAIN, ("panels: {", f"panels: {{cutouts: [{cutouts}], "))


def found(cutouts: str) -> list[tuple[str, str]]:
    return [(each.code, each.found) for each in made(cutouts)[2] if each.code in MINE]


FREE = "{in: FD2, at: [120, 254], diameter: 102, for: dust hose}, {in: tray, at: [350, 250], size: [80, 40]}"


def around(board: Part, others: list[Part]) -> shapely.Geometry:
    """All pieces that touch the board, seen on it from its datum corner."""
    thin = next(axis for axis in "xyz" if axis not in (board.along, board.across))

    def seen(piece: Part) -> shapely.Geometry:
        spans = [piece.box.span(axis) for axis in (board.along, board.across)]
        datum = [board.box.span(axis).low for axis in (board.along, board.across)]
        (a, b), (x, y) = spans, datum
        return shapely.box(*map(float, (a.low - x, b.low - y, a.high - x, b.high - y)))

    touching = [each for each in others if each.box.span(thin).overlap(board.box.span(thin)) >= 0]
    return shapely.union_all([seen(each) for each in touching])


def test_openings_that_are_free() -> None:
    bench, _, _ = made(FREE)
    assert found(FREE) == []
    wall, tray = part(bench, "FD2"), part(bench, "PAN")
    hose = next(op for op in wall.operations if op.purpose == "dust hose")
    assert (hose.op, hose.face, hose.at, hose.size, hose.depth) == ("cut-out", "right", (120, 254), 102, None)
    others = [each for each in bench.parts if each is not wall]
    circle = shapely.Point(120, 254).buffer(51, quad_segs=256)
    assert circle.distance(around(wall, others)) >= 3
    board = shapely.box(0, 0, float(wall.length), float(wall.width)).buffer(-10 - 10, join_style="mitre")
    assert board.contains(circle)  # a tongue of 10, and 10 of wood
    opening = next(op for op in tray.operations if op.at == (350, 250))
    assert opening.size == (80, 40) and opening.corner == 10 and opening.face == "top"


def test_what_covers_an_opening_is_named_with_a_free_place() -> None:
    cutouts = FREE.replace("[120, 254]", "[120, 300]")
    ((code, value),) = found(cutouts)
    assert (code, value) == ("opening-blocked", "-15 mm")
    (finding,) = [each for each in made(cutouts)[2] if each.code in MINE]
    assert "dust hose in FD2, TR" in finding.message
    mended = adapted(with_openings(cutouts), [(each.path, each.value) for each in finding.remedy])
    assert not [each for each in compute(solved(mended))[1] if each.code in MINE]


def test_wood_is_left_to_tongues_and_notches() -> None:
    assert ("opening-edge", "-41 mm") in found(FREE.replace("[120, 254]", "[20, 254]"))
    # the lower front corner of a divider is notched for a clip
    wall = part(solved(), "FD2")
    notch = next(each for each in wall.notches if each.corner == "front bottom")
    near = f"{{in: FD2, at: [{float(notch.along) + 12}, {float(notch.across) + 12}], diameter: 14}}"
    assert ("opening-cut", "5 mm") in found(near)


def test_a_name_means_all_boards_of_it() -> None:
    bench, figures, _ = made("{in: shelf, at: [100, 100], diameter: 50, for: cable}")
    shelves = [each for each in bench.parts if each.group == "shelf"]
    assert len(shelves) > 1
    assert all([op.purpose for op in each.operations] == ["cable"] for each in shelves)
    card = next(each for each in figures.setups if each.key == "opening-1")
    assert set(card.marks) == {each.mark for each in shelves}
    assert [row.count for row in figures.parts if row.group == "shelf"] == [len(shelves)]


def test_the_card_and_the_file_of_a_rectangle() -> None:
    _, figures, _ = made(FREE)
    keys = [card.key for card in figures.setups]
    assert "opening-1" in keys and "opening-2" in keys
    others = [card for card in figures.setups if card.key.startswith("cut-out")]
    assert not any("opening" in setting.name for card in others for setting in card.settings)
    row = next(row for row in figures.parts if row.mark == "PAN")
    paths = next(layer.paths for layer in cut_paths(row).layers if layer.name == "CUT_OUT_THROUGH")
    areas = [shapely.Polygon(path.points).area for path in paths]
    assert any(abs(area - (80 * 40 - (4 - 3.1416) * 100)) < 2 for area in areas)


@pytest.mark.parametrize(
    ("cutout", "code"),
    [
        ("{in: FD9, at: [20, 300], diameter: 102}", "unknown-board"),
        ("{in: TOP, at: [20, 300], diameter: 102}", "unknown-board"),
        ("{in: tray, at: [550, 250], size: [80, 40], corner: 30}", "feature-size"),
        ("{in: tray, at: [550, 250]}", "cutout-shape"),
        ("{at: [550, 250], diameter: 9}", "missing-key"),
    ],
)
def test_what_cannot_be_is_refused(cutout: str, code: str) -> None:
    assert [each.code for each in faults(with_openings(cutout))] == [code]
