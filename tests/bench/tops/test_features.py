"""What is let into a top, against plane geometry made by another library: holes, bars, brackets and cut paths."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from math import pi

import pytest
import shapely

from generator.bench.model import Bench
from generator.bench.role import Role
from generator.bench.solids import part_bodies
from generator.drawings.cut_paths import cut_paths
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.findings import Finding
from generator.spec.adapt import adapted
from tests.bench.benches import DEMO, changed, codes, solved

LET_IN = (
    "overhang: {front: 20, left: 10}, cutouts: [{name: plate, at: [1210, 320], size: [306, 229], ledge: 6, depth: 6}, "
    "{name: port, at: [250, 700], diameter: 80}], slots: [{name: gauge, at: 130, width: 19, depth: 6}, "
    "{name: track, along: y, at: 1700, width: 19, depth: 5}]"
)
TOP = changed(DEMO, ("overhang: 0", LET_IN))
CARD = changed(
    TOP,
    ("  slot-nut:", "  angle: {use: bracket 40}\n  slot-nut:"),
    ("top: {material: mdf-18,", "top: {material: mdf-18, bracket: angle,"),
)


@cache
def made(text: str) -> tuple[Bench, Figures, tuple[Finding, ...]]:
    bench = solved(text)
    return bench, *compute(bench)


def cuts(figures: Figures) -> Iterator[shapely.Geometry]:
    """The things in the top from the figures, each as the plane figure that it is."""
    for each in figures.top.features:
        x, y = map(float, each.at)
        if each.diameter is not None:
            yield shapely.Point(x, y).buffer(float(each.diameter) / 2, quad_segs=256)
        else:
            a, b = (float(side) / 2 for side in each.size)
            yield shapely.box(x - a, y - b, x + a, y + b)


@pytest.mark.parametrize("text", [TOP, changed(TOP, ("keep_clear: 3", "keep_clear: 11"))])
def test_no_hole_comes_near_and_none_is_left_out_in_vain(text: str) -> None:
    bench, figures, _ = made(text)
    assert bench.grid is not None
    holes, clear = bench.spec.top.holes, None
    assert holes is not None
    clear = float(holes.diameter / 2 + holes.keep_clear)
    shapes = list(cuts(figures))

    def apart(at: tuple[Fraction, Fraction]) -> float:
        return min(each.distance(shapely.Point(*map(float, at))) for each in shapes)

    assert bench.grid.left_out
    assert all(apart(at) >= clear - 1e-9 for at in bench.grid.holes)
    assert all(apart(at) < clear for at in bench.grid.left_out)
    bored = [op for op in bench.of(Role.TOP)[0].operations if op.op == "hole"]
    assert len(bored) == figures.top.holes == len(bench.grid.holes)


def test_openings_miss_the_bars_below() -> None:
    """The opening within the ledge and the port keep 3 mm off every upper bar; nothing else is said of them."""
    bench, figures, findings = made(TOP)
    bars = [
        shapely.box(*map(float, (part.box.x.low, part.box.y.low, part.box.x.high, part.box.y.high)))
        for part in bench.parts
        if part.is_bar and part.box.z.high == bench.layout.levels.frame_height
    ]
    plate, port = figures.top.features[:2]
    assert plate.opening == (294, 217) and port.opening is None
    x, y = float(plate.at[0]) - 10, float(plate.at[1]) - 20
    opening = shapely.box(x - 147, y - 108.5, x + 147, y + 108.5)
    assert min(opening.distance(bar) for bar in bars) >= 3
    mine = {"cut-over-bar", "features-meet", "feature-edge", "feature-rest", "feature-bracket"}
    assert not [each for each in findings if each.code in mine]
    assert mine <= {check.code for check in figures.checks}


def test_an_opening_over_a_bar_names_it_and_a_place_that_is_clear() -> None:
    text = changed(TOP, ("at: [1210, 320]", "at: [1012, 150]"))
    (found,) = [each for each in made(text)[2] if each.code == "cut-over-bar"]
    assert "plate and C5" in found.message and found.found == "-40 mm"
    after = made(adapted(text, [(each.path, each.value) for each in found.remedy]))[2]
    assert not [each for each in after if each.code in ("cut-over-bar", "features-meet", "feature-edge")]


def test_brackets_of_a_card_keep_clear() -> None:
    """The leg of each bracket, 36 by 40, in plane geometry: the one at 460 from the left makes way."""
    bench, figures, findings = made(changed(CARD, ("at: [250, 700]", "at: [450, 90]")))
    port = list(cuts(figures))[1]
    front = [each for each in bench.brackets if each.face == "rear"]
    assert len(front) >= 4
    for each in front:
        x, y = float(each.at[0]) + 10, float(each.at[1]) + 20
        assert not shapely.box(x - 18, y, x + 18, y + 40).overlaps(port.envelope)
    assert not [each for each in findings if each.code == "feature-bracket"]


def test_the_cut_paths_have_round_corners() -> None:
    """Recess and opening as closed paths on layers of their own: areas less what the corners leave."""
    row = next(row for row in made(TOP)[1].parts if row.group == "top")
    layers = {layer.name: layer.paths for layer in cut_paths(row).layers}
    (recess,), (slot, _) = layers["RECESS_6_DEEP"], [*layers["SLOT_6_DEEP"], *layers["SLOT_5_DEEP"]]
    area = shapely.Polygon(recess.points).area
    assert area == pytest.approx(306 * 229 - (4 - pi) * 10**2, abs=2)
    assert shapely.Polygon(slot.points).bounds == (0, 120.5, 2010, 139.5)
    opening = next(path for path in layers["CUT_OUT_THROUGH"] if hasattr(path, "points"))
    assert shapely.Polygon(opening.points).area == pytest.approx(294 * 217 - (4 - pi) * 4**2, abs=1)
    assert "CUT_OUT_80_THROUGH" in layers


def test_each_has_its_card_and_its_line_in_the_step() -> None:
    figures = made(TOP)[1]
    titles = [card.title for card in figures.setups if card.key.startswith("top-")]
    assert titles == [
        "Recess and opening for plate",
        "Opening for port",
        "Slot for gauge",
        "Slot for track",
    ]
    (step,) = [each for each in figures.assembly.steps if each.key == "top"]
    assert any("plate, port, gauge, track" in note for note in step.notes)


def test_the_board_is_lighter_by_its_openings() -> None:
    mass = {text: next(row.mass for row in made(text)[1].parts if row.group == "top") for text in (DEMO, TOP)}
    plain = changed(DEMO, ("overhang: 0", "overhang: {front: 20, left: 10}"))
    holes = made(plain)[1].top.holes - made(TOP)[1].top.holes
    whole = next(row.mass for row in made(plain)[1].parts if row.group == "top")
    gone = (294 * 217 + pi * 40**2 - holes * pi * 10**2) * 18e-9
    density = float(made(TOP)[0].goods.top.density)
    assert whole - mass[TOP] == pytest.approx(gone * density, rel=1e-6)


@pytest.mark.parametrize(
    ("cutout", "found"),
    [
        ("{name: a, at: [300, 300]}", ["cutout-shape"]),
        ("{name: a, at: [300, 300], size: [9, 9], diameter: 9}", ["cutout-shape"]),
        ("{name: a, at: [300, 300], size: [90, 90], corner: 46}", ["feature-size"]),
        ("{name: a, at: [300, 300], size: [90, 90], ledge: 6, depth: 18}", ["feature-size"]),
        (
            "{name: a, at: [300, 300], size: [90, 90], ledge: 6, depth: 18.1, corner: 60}",
            ["feature-size"] * 2,
        ),
    ],
)
def test_what_cannot_be_cut_is_refused(cutout: str, found: list[str]) -> None:
    assert codes(changed(DEMO, ("overhang: 0", f"overhang: 0, cutouts: [{cutout}]"))) == found


def test_the_body_of_the_top_is_without_what_is_let_in() -> None:
    """By volumes: the recess with its opening, the port as its square, both slots with their crossing counted once."""
    bench = made(TOP)[0]
    (body,) = part_bodies(bench.loaded, bench.of(Role.TOP))
    volume = sum(
        (high_x - x) * (high_y - y) * (high_z - z) for x, y, z, high_x, high_y, high_z in body.blocks
    )
    length, depth, thick = 2010, 920, 18
    opening = (306 - 12) * (229 - 12)
    recess = 306 * 229 * 6 + opening * (thick - 6)
    slots = length * 19 * 6 + depth * 19 * 5 - 19 * 19 * 5
    assert volume == pytest.approx(length * depth * thick - recess - 80 * 80 * thick - slots)
