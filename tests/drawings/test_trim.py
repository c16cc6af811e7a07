"""The section of the tray's trim, held against the solid bodies that the bench is proved with."""

from __future__ import annotations

import pytest
from shapely import Polygon, box, unary_union
from shapely.affinity import scale, translate

from generator.bench.model import Part
from generator.bench.solids import solid_bodies
from generator.bench.solve import solve
from generator.drawings.canvas import Drawing
from generator.drawings.part import draw_part
from generator.drawings.shapes import Polyline, Rect
from generator.pages.page import ruler_for
from generator.resources import bundled
from generator.spec.load import read_spec_file
from tests.prints.bench import figures_of


def at_corner(shape: Polygon, of: Polygon) -> Polygon:
    """A shape with the lower left corner of another at (0, 0)."""
    left, low, *_ = of.bounds
    return translate(shape, -left, -low)


def drawn(drawing: Drawing, leg: float) -> tuple[Polygon, Polygon]:
    """Trim and tray of a section, in mm, Z upwards."""
    (angle,) = (s for s in drawing.shapes if isinstance(s, Polyline) and s.style == "fill-dark")
    (tray,) = (s for s in drawing.shapes if isinstance(s, Rect) and s.style == "fill-wood")
    section = Polygon([(x, -y) for x, y in angle.points])
    x, y = tray.corner
    sheet = box(x, -y - tray.height, x + tray.width, -y)
    factor = leg / (section.bounds[3] - section.bounds[1])
    return tuple(  # type: ignore[return-value]
        scale(at_corner(shape, section), factor, factor, origin=(0, 0)) for shape in (section, sheet)
    )


@pytest.mark.parametrize("mark", ["T1", "T5"])
def test_the_section_shows_the_legs_as_they_are_proved(mark: str) -> None:
    """Front pieces and back pieces: what is outside stands at the left of the drawing."""
    loaded = read_spec_file(bundled("specs") / "demo.yml")
    bench, figures = solve(loaded), figures_of("demo")
    bodies = {body.name: body.blocks for body in solid_bodies(bench)}
    part: Part = next(part for part in bench.parts if part.mark == mark)
    outward = 1.0 if part.box.y.low == 0 else -1.0
    sides = [sorted((outward * block[1], outward * block[4])) for block in bodies[mark]]
    solid = unary_union(
        [box(y[0], block[2], y[1], block[5]) for y, block in zip(sides, bodies[mark], strict=True)]
    )
    row = next(row for row in figures.parts if mark in row.marks)
    section, sheet = drawn(draw_part(figures, row, ruler_for(figures)), float(part.width))
    assert section.symmetric_difference(at_corner(solid, solid)).area == pytest.approx(0, abs=1e-6)
    tray = next(part for part in bench.parts if part.group == "tray").box
    edge = min(outward * float(tray.y.low), outward * float(tray.y.high))
    left, low, *_ = solid.bounds
    assert sheet.bounds[:2] == pytest.approx((edge - left, float(tray.z.low) - low))
    assert sheet.bounds[3] == pytest.approx(float(tray.z.high) - low)
    assert "flush with the posts" in draw_part(figures, row, ruler_for(figures)).description
