"""What a part's drawing says by itself: which face one sees, how it lies, what is a thread, what counts from where."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from functools import cache
from itertools import product
from xml.etree import ElementTree

import pytest

from generator.bench.solve import solve
from generator.drawings.canvas import Drawing
from generator.drawings.dimensions import Ruler
from generator.drawings.part import draw_part
from generator.drawings.profile import draw_profile
from generator.drawings.shapes import Arc, Circle, Polyline, Rect
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.figures.rows.parts import OperationRow, PartRow
from generator.manual import begun
from generator.pages import openings, part_sheets, sticks
from generator.pages.page import Page
from generator.resources import bundled
from generator.spec.load import read_spec_file
from tests.drawings.parts_fixture import tapped

AXES = "xyz"
WAYS = {
    "left": (-1, 0, 0), "right": (1, 0, 0), "front": (0, -1, 0),
    "rear": (0, 1, 0), "bottom": (0, 0, -1), "top": (0, 0, 1),
}  # fmt: skip
ENDS = {"x": ("left", "right"), "y": ("front", "rear"), "z": ("bottom", "top")}
BENCHES = ("demo", "wall-bench", "samples/joiner", "samples/lumber")


@cache
def figures(name: str) -> Figures:
    return compute(solve(read_spec_file(bundled("specs") / f"{name}.yml")))[0]


def cross(a: tuple[int, ...], b: tuple[int, ...]) -> tuple[int, ...]:
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


@pytest.mark.parametrize(("along", "face"), [(a, f) for a, f in product(AXES, WAYS) if f not in ENDS[a]])
def test_a_face_is_drawn_as_who_looks_at_it_sees_it(along: str, face: str) -> None:
    """The way from the datum end, up the paper and the way to the reader are a right-handed system."""
    bar = next(row for row in figures("demo").parts if row.is_bar)
    across = next(axis for axis in AXES if axis != along and face not in ENDS[axis])
    near, far = Fraction(100), Fraction(10)
    hole = OperationRow("through hole", face, (near, far), Fraction(8), None, "")
    row = replace(
        bar, along=along, across=across, length=Fraction(300), width=Fraction(40), thickness=Fraction(40),
        operations=(hole,), horns={}, metal=False,
    )  # fmt: skip
    drawing = draw_profile(row, Ruler("mm"))
    (circle,) = [shape for shape in drawing.shapes if isinstance(shape, Circle) and shape.style == "hole"]
    strip = next(shape for shape in drawing.shapes if isinstance(shape, Rect)).extent()
    is_below = strip.bottom - circle.centre[1] < circle.centre[1] - strip.top
    low, high = ENDS[across]
    # the hole is near the left, front or lower edge
    up = WAYS[high if is_below else low]
    assert cross(WAYS[ENDS[along][1]], up) == WAYS[face]
    texts = [text.text for text in drawing.texts()]
    assert f"↑ {high if is_below else low}" in texts
    assert face in texts
    assert any(f"10 from {low}" in text for text in texts)


def black(drawing: Drawing) -> list[Polyline]:
    """Dark faces of the cubes: four corners."""
    return [
        shape
        for shape in drawing.shapes
        if isinstance(shape, Polyline) and shape.style == "arrow" and len(shape.points) == 4
    ]


@pytest.mark.parametrize("name", BENCHES)
def test_every_view_of_a_bar_and_of_a_board_has_its_cube(name: str) -> None:
    done = figures(name)
    for row in done.parts:
        drawing = draw_part(done, row, Ruler("mm"))
        if row.is_bar:
            worked = {op.face for op in row.operations} - set(ENDS[row.along])
            both = {text.text[4:] for text in drawing.texts() if text.text.startswith("and ")}
            assert len(black(drawing)) == max(1, len(worked - both)), row.mark
            assert not {"L", "R", "F", "B", "T", "U"} & {text.text for text in drawing.texts()}
        elif row.is_board and not drawing.id.startswith("top"):
            assert len(black(drawing)) == 1, row.mark


def test_a_thread_has_three_quarters_of_a_circle_around_its_core_and_a_plain_hole_has_none() -> None:
    done = figures("demo")
    plate = next(row for row in done.parts if row.mark == "CP1")
    drawing = draw_part(done, plate, Ruler("mm"), brief=True)
    tapped_holes = [op for op in plate.operations if op.thread]
    plain = [op for op in plate.operations if not op.thread and not isinstance(op.size, tuple)]
    arcs = [shape for shape in drawing.shapes if isinstance(shape, Arc)]
    circles = [shape for shape in drawing.shapes if isinstance(shape, Circle) and shape.style == "hole"]
    assert tapped_holes and plain
    assert len(arcs) == len(tapped_holes)
    assert len(circles) == len(tapped_holes) + len(plain)
    for arc in arcs:
        assert arc.end - arc.start == 270
        (core,) = [circle for circle in circles if circle.centre == arc.centre]
        assert core.radius < arc.radius
    assert {text.text for text in drawing.texts()} >= {"4× M8", "4× Ø9"}


def test_the_end_of_a_bar_names_its_thread() -> None:
    done = figures("demo")
    rail = next(row for row in done.parts if row.mark == "B1")
    assert any(op.face in ENDS[rail.along] for op in tapped("x"))
    words = [text.text for text in draw_part(done, rail, Ruler("mm"), brief=True).texts()]
    assert "tap M8" in words


def written(name: str, page: Page) -> str:
    """A page as it is written before it becomes a site."""
    return begun(read_spec_file(bundled("specs") / f"{name}.yml"), "bench.yml")[0].page(page)


SECTION = re.compile(r'<section class="bm-step.*?</section>', re.DOTALL)
HEADS = re.compile(r"From the (left|right|front|rear|bottom|top) (end|edge)")


def zeros(svg: str) -> set[str]:
    """What is written beside the noughts of a drawing."""
    root = ElementTree.fromstring(svg)
    words = ["".join(each.itertext()) for each in root.iter() if each.tag.endswith("text")]
    return {words[n + 1] for n, word in enumerate(words[:-1]) if word == "0"}


@pytest.mark.parametrize("name", ["demo", "wall-bench", "samples/joiner", "samples/lumber"])
def test_drawing_and_table_count_from_the_same_end_and_edge(name: str) -> None:
    """Read from the finished pages: the headings of a hole table are what the drawing beside it has at its 0."""
    page = written(name, part_sheets.PAGE)
    rows = {row.mark: row for row in figures(name).parts}
    checked = 0
    for section in SECTION.findall(page):
        if ": face |" not in section:
            continue
        mark = re.search(r"\| (\w+): face \|", section)
        assert mark
        row: PartRow = rows[mark[1]]
        found = set().union(*(zeros(svg) for svg in re.findall(r"<svg.*?</svg>", section)))
        heads = HEADS.findall(section)
        assert heads, mark[1]
        for side, what in heads:
            grooved = all(op.op == "groove" for op in row.operations)
            assert side in found or (grooved and what == "end"), (mark[1], side, found)
        checked += 1
    assert checked > 5


@pytest.mark.parametrize("name", ["demo", "samples/joiner"])
def test_stick_and_opening_count_from_what_their_tables_say(name: str) -> None:
    pages = written(name, sticks.PAGE), written(name, openings.PAGE)
    for stick in figures(name).sticks:
        assert f"| From the {stick.datum}, " in pages[0]
    for svg in re.findall(r"<svg.*?</svg>", pages[1]):
        found = zeros(svg)
        if found and "opening top" in svg:
            assert found <= {"base rail top", "floor"}
    assert "up from the top of the base rail" in pages[1]
    for bay in figures(name).layout.bays:
        if bay.opens == "rear":
            assert "From the wall's rear edge" in pages[1] or "from the wall's rear edge" in pages[1]
