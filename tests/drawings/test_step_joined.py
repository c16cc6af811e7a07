"""The picture of the step that bolts benches together: every bench, every bolt, an arrow from each other bench."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import combinations, product

import pytest
import shapely

from generator.bench.solve import solve
from generator.drawings.canvas import Drawing
from generator.drawings.dimensions import Ruler
from generator.drawings.extent import Extent
from generator.drawings.lettering import PAGE_WIDTH
from generator.drawings.shapes import Circle, Line, Polyline
from generator.drawings.step import draw_step, draw_step_twice
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.figures.rows.assembly import Step
from generator.resources import bundled
from generator.spec.load import read_spec, read_spec_file
from tests.drawings.step_pictures import arrows, corners_of, leaders

ROW = bundled("specs") / "samples" / "row.yml"


@cache
def done(sides: str) -> tuple[Figures, Step, Drawing]:
    text = ROW.read_text(encoding="utf-8")
    lines = [
        line for line in text.splitlines() if "side:" not in line or any(s in line for s in sides.split())
    ]
    loaded = read_spec_file(ROW) if sides == "right left" else read_spec("\n".join(lines) + "\n", "row.yml")
    figures = compute(solve(loaded))[0]
    step = next(step for step in figures.assembly.steps if step.title == "Join the benches")
    drawing = draw_step(figures, step, Ruler(both=True))
    assert drawing is not None
    return figures, step, drawing


def tinted(drawing: Drawing, tint: str) -> float:
    faces = [
        shapely.Polygon(shape.points)
        for shape in drawing.shapes
        if isinstance(shape, Polyline) and shape.style.startswith(f"iso-{tint}-")
    ]
    return sum(face.area for face in faces)


@pytest.mark.parametrize("sides", ["right left", "right", "left"])
def test_each_other_bench_has_a_label_an_arrow_and_all_its_bolts(sides: str) -> None:
    figures, _, drawing = done(sides)
    words = [text.text for text in drawing.texts()]
    assert len(figures.joins) == len(sides.split())
    for row in figures.joins:
        assert any(word.startswith(f"{row.side}:") for word in words)
        assert any(f"{len(row.bolts)} × {row.thread}" in word for word in words)
    ways = [s for s in drawing.shapes if isinstance(s, Line) and s.style == "break-down"]
    assert len(ways) == sum(len(row.bolts) for row in figures.joins)
    assert len(arrows(drawing)) == len(figures.joins)
    # bolts are all drawn along one way, each as long as the others, from one frame to the next
    runs = {(round(s.end[0] - s.start[0], 3), round(s.end[1] - s.start[1], 3)) for s in ways}
    assert len(runs) == len(figures.joins)
    assert tinted(drawing, "new") > 0
    assert tinted(drawing, "bar") + tinted(drawing, "wood") > 0


@pytest.mark.parametrize("sides", ["right left", "right"])
def test_nothing_collides_and_each_arrow_can_be_seen(sides: str) -> None:
    _, _, drawing = done(sides)
    sheet, boxes = Extent(0.0, 0.0, drawing.width, drawing.height), drawing.text_boxes()
    assert drawing.width <= PAGE_WIDTH
    assert all(sheet.contains(box) for _, box in boxes)
    for (first, a), (second, b) in combinations(boxes, 2):
        assert not a.overlaps(b), (first, second)
    letters = [shapely.box(*corners_of(box)) for text, box in boxes if not text.isdigit()]
    dots = [shapely.Point(s.centre) for s in drawing.shapes if isinstance(s, Circle) and s.style == "arrow"]
    assert len(dots) == len(leaders(drawing)) == len(sides.split())
    for line, room in product((*leaders(drawing), *arrows(drawing)), letters):
        assert not line.intersects(room)
    for arrow in arrows(drawing):
        left, top, right, bottom = arrow.bounds
        assert max(right - left, bottom - top) * 820 / drawing.width >= 24


def test_the_phone_has_it_too() -> None:
    figures, step, _ = done("right left")
    both = draw_step_twice(figures, step, Ruler())
    assert both is not None
    assert both[1].width <= 118.01


def test_another_spec_beside_it_is_drawn_by_its_outline() -> None:
    figures = compute(solve(read_spec_file(bundled("specs") / "samples" / "row.yml")))[0]
    row = figures.joins[0]
    other = replace(row, same_spec=False, other="Wing", outline=(*row.outline[:3], row.outline[3] / 2))
    changed = replace(figures, joins=(other,))
    step = next(step for step in changed.assembly.steps if step.title == "Join the benches")
    drawing = draw_step(changed, step, Ruler())
    assert drawing is not None
    assert any("Wing" in text.text for text in drawing.texts())
    assert tinted(drawing, "new") > 0
