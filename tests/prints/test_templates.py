"""Templates: every hole of a repeated pattern, every notch and the relief at true size."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.drawings.dimensions import Ruler
from generator.drawings.paper import A4, LETTER, Paper, Scale
from generator.drawings.shapes import Circle, Rect
from generator.drawings.templates import notch_block, relief_block
from generator.prints.templates import drilling_strips, top_strips
from tests.paper_reader import pages, strokes
from tests.prints.bench import figures_of, pdf, sheets


def test_a_strip_bears_the_holes_of_its_faces() -> None:
    figures = figures_of("demo")
    rows = {row.mark: row for row in figures.parts}
    strips = {strip.lies_on: strip for strip in drilling_strips(figures, Ruler())}
    (access,) = (s for name, s in strips.items() if "A1, A4: front" in name)
    expected = [op.at for op in rows["A1"].operations if op.face == "front"]
    assert sorted((hole.at, hole.across) for hole in access.holes) == sorted(expected)
    assert access.length == 705 + 15
    assert access.band == 40


def test_a_pattern_that_reaches_too_far_is_left_to_the_stick() -> None:
    assert all(strip.length <= 750 for strip in drilling_strips(figures_of("demo"), Ruler()))


def test_the_pitch_strips_start_with_the_margin() -> None:
    columns, rows = top_strips(figures_of("demo"))
    assert [float(p.at) for p in columns.positions] == [88, 184, 280, 376, 472]
    assert [float(p.at) for p in rows.positions] == [66, 162, 258, 354, 450]


@pytest.mark.parametrize("scale", [Scale(), Scale(1.003, 1.003), Scale(1.003, 0.998)])
def test_the_relief_is_drawn_as_large_as_its_template(scale: Scale) -> None:
    relief = figures_of("demo").relief
    assert relief is not None
    drawn = relief_block(relief, Fraction(40), Ruler(), scale).canvas
    wide, dashed = (shape for shape in drawn.shapes if isinstance(shape, Rect))
    assert (wide.width, wide.height, wide.radius) == pytest.approx(
        (51 * scale.x, 27 * scale.y, 8.5 * scale.mean)
    )
    assert (dashed.width, dashed.height, dashed.radius) == pytest.approx(
        (40 * scale.x, 16 * scale.y, 3 * scale.mean)
    )


def test_an_upright_sheet_is_corrected_the_other_way_round() -> None:
    """Bars along the long and the short side of the paper: on an upright sheet the short one runs along."""
    bars = (Fraction("99.7"), Fraction("100.2"))
    found = strokes(pages(pdf("starter", "templates", A4, bars))[0])
    assert [s for s in found if s.along == pytest.approx(10_000 / 100.2, abs=0.02) and s.across < 0.001]
    assert [s for s in found if s.across == pytest.approx(10_000 / 99.7, abs=0.02) and s.along < 0.001]


def test_a_notch_is_hatched_where_it_is_cut() -> None:
    block = notch_block(Fraction(12), Fraction(40), "PAN", Ruler(), Scale())
    hatch = [shape for shape in block.canvas.shapes if getattr(shape, "style", "") == "hatch"]
    xs = [x for line in hatch for x in (line.start[0], line.end[0])]  # type: ignore[union-attr]
    ys = [y for line in hatch for y in (line.start[1], line.end[1])]  # type: ignore[union-attr]
    assert (max(xs) - min(xs), max(ys) - min(ys)) == pytest.approx((12, 40), abs=0.01)


@pytest.mark.parametrize("paper", [A4, LETTER])
def test_a_caster_plate_is_drawn_whole(paper: Paper) -> None:
    """Centre distances of the first plate's holes, as they stand on the sheet."""
    (sheet,) = (
        s for s in sheets("demo", "templates", paper) if any("CP1, CP3" in t for t, _ in s.text_boxes())
    )
    plate = next(row for row in figures_of("demo").parts if row.mark == "CP1")
    circles = sorted(c.centre for c in sheet.shapes if isinstance(c, Circle))
    holes = sorted((float(op.at[0]), -float(op.at[1])) for op in plate.operations)
    offsets = {
        (round(cx - hx, 6), round(cy - hy, 6)) for (cx, cy), (hx, hy) in zip(circles, holes, strict=True)
    }
    assert len(offsets) == 1
    # a thread is never called by a diameter: its hole is drilled smaller
    written = [text for text, _ in sheet.text_boxes()]
    assert (written.count("M8"), written.count("Ø9")) == (4, 4)
    assert [text for text in written if text.startswith("Plate ")] == ["Plate 170 × 170: 4× Ø9, 4× M8"]
