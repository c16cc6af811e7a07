"""Every drawing of every shipped bench: no two texts collide, none leaves the sheet."""

from itertools import combinations

import pytest

from generator.bench.solve import solve
from generator.drawings.canvas import Canvas
from generator.drawings.dimensions import Ruler
from generator.drawings.elevation import draw_views
from generator.drawings.extent import Extent
from generator.drawings.letter_sizes import SMALL_TEXT
from generator.drawings.lettering import LYING_HEIGHT, LYING_WIDTH, PAGE_WIDTH
from generator.drawings.panel import draw_panel
from generator.drawings.shapes import Line, Text
from generator.drawings.sheet_plan import draw_sheet_plan
from generator.drawings.tongue import draw_tongue
from generator.figures.compute import compute
from generator.pages.page import page_ruler
from generator.readings import other_reading, own_reading
from generator.resources import bundled
from generator.spec.load import read_spec
from tests.prints.bench import drawings_of, figures_of


@pytest.mark.parametrize("name", ["demo", "wall-bench", "starter"])
def test_texts_neither_collide_nor_leave_the_sheet(name: str) -> None:
    drawings = drawings_of(name)
    assert len({drawing.id for drawing in drawings}) == len(drawings)
    for drawing in drawings:
        sheet = Extent(0.0, 0.0, drawing.width, drawing.height)
        for reading in (own_reading, other_reading):
            boxes = drawing.text_boxes(reading)
            for text, box in boxes:
                assert sheet.contains(box), f"{drawing.id}: {text} leaves the sheet"
            for (first, a), (second, b) in combinations(boxes, 2):
                assert not a.overlaps(b), f"{drawing.id}: {first} collides with {second}"


def test_what_follows_a_size_follows_it_closely_in_both_units() -> None:
    """The names of heights beside the front view are in one column each time, right beyond the longest of the sizes."""
    front = next(each for each in drawings_of("demo") if each.id == "elevation-front")
    for reading in (own_reading, other_reading):
        boxes = dict(front.text_boxes(reading))
        named = [boxes[name].left for name in ("work surface", "top rail underside", "floor")]
        assert max(named) - min(named) < 0.01
        longest = max(boxes[reading(text.text)].right for text in front.texts() if "34 21/32" in text.text)
        assert 0.5 < named[0] - longest < 4.0


@pytest.mark.parametrize("name", ["demo", "wall-bench", "starter"])
def test_the_cutting_plane_of_a_tongue_strikes_no_lettering_out(name: str) -> None:
    found = 0
    for row in figures_of(name).parts:
        if not row.tongues:
            continue
        drawing = draw_panel(row, page_ruler(figures_of(name)))
        planes = [s.extent() for s in drawing.shapes if getattr(s, "style", "") == "centre"]
        found += len(planes)
        for text, box in drawing.text_boxes():
            assert not any(_thick(plane).overlaps(box) for plane in planes), f"{row.mark}: {text}"
    assert found


@pytest.mark.parametrize("name", ["demo", "wall-bench", "starter"])
def test_no_line_of_a_tongues_section_strikes_its_sizes_out(name: str) -> None:
    for row in figures_of(name).parts:
        if row.tongues:
            canvas = Canvas()
            draw_tongue(canvas, row, Ruler(figures_of(name).spec.units))
            shapes = canvas.shapes
            sizes = [shape for shape in shapes if isinstance(shape, Text) and shape.text[0].isdigit()]
            lines = [shape.extent() for shape in shapes if isinstance(shape, Line)]
            assert sizes
            for size in sizes:
                # a line that runs through, not one that ends at the number
                through = [
                    line
                    for line in lines
                    if _thick(line).overlaps(size.extent())
                    and line.left < size.extent().left
                    and line.right > size.extent().right
                ]
                assert through == [], f"{row.mark}: {size.text}"


def _thick(line: Extent) -> Extent:
    """A line has no area of its own."""
    return line.grown(0.1)


@pytest.mark.parametrize("name", ["demo", "wall-bench", "starter"])
def test_every_drawing_prints_at_its_own_size_with_lettering_that_can_be_read(name: str) -> None:
    """What is wider than a page lies on the long side of one; the heights are what a page leaves of Letter and A4."""
    for drawing in drawings_of(name):
        assert drawing.width <= LYING_WIDTH, drawing.id
        assert drawing.height <= (235.0 if drawing.width <= PAGE_WIDTH else LYING_HEIGHT), drawing.id
        assert min((text.height for text in drawing.texts()), default=SMALL_TEXT) >= SMALL_TEXT, drawing.id


@pytest.mark.parametrize("name", ["demo", "wall-bench", "starter"])
def test_every_cut_of_a_sheet_bears_its_number(name: str) -> None:
    figures = figures_of(name)
    for number, sheet in enumerate(figures.cutting.sheets, 1):
        drawing = draw_sheet_plan(sheet, number, page_ruler(figures), "")
        numbers = [text.text for text in drawing.texts() if text.style == "cut-number"]
        assert sorted(map(int, numbers)) == [cut.n for cut in sheet.cuts]


@pytest.mark.parametrize("height", ["2880", "99999"])
def test_a_bench_with_a_shelf_far_above_it_is_still_drawn_on_its_sheet(height: str) -> None:
    text = (
        (bundled("specs") / "demo.yml").read_text(encoding="utf-8").replace("shelf: 288", f"shelf: {height}")
    )
    loaded = read_spec(text, "demo.yml")
    for view in draw_views(compute(solve(loaded))[0], Ruler()):
        assert 0 < view.height <= LYING_HEIGHT
        assert view.width > 0
