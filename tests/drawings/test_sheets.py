"""Every kind of drawing: nothing collides or leaves the paper, every size is written, the SVG is sound."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from itertools import combinations
from xml.etree import ElementTree

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.bench.fillings.facts import Swing
from generator.calculators.swing import Turning, rectangle
from generator.drawings.canvas import Drawing
from generator.drawings.dimensions import Ruler
from generator.drawings.elevation import draw_views
from generator.drawings.extent import Extent
from generator.drawings.lettering import LYING_WIDTH, PAGE_WIDTH
from generator.drawings.opening import draw_opening
from generator.drawings.panel import draw_panel
from generator.drawings.part_marks import marks_of
from generator.drawings.profile import draw_profile
from generator.drawings.shapes import Rect
from generator.drawings.stick import draw_stick, members
from generator.drawings.styles import STYLES
from generator.drawings.swings import draw_swings
from generator.drawings.top_grid import draw_top_grid
from generator.figures.rows.parts import OperationRow
from generator.figures.rows.setting_out import Mark, Stick
from generator.figures.rows.storage import Shown
from generator.geometry import Span
from generator.readings import other_reading, own_reading
from generator.writers.svg import LOOKS, drawing_css, to_svg
from tests.drawings.figures_fixture import figures, part
from tests.drawings.parts_fixture import placed

FIGURES = figures()
FIRST = Span(Fraction(43), Fraction(534))
LINKS = {mark: f"parts/{row.mark}/" for row in FIGURES.parts for mark in row.marks}
RULERS = (Ruler(), Ruler("in", 32), Ruler("in", 64))

#: Doors before the bays at both ends: they reach beyond the bench when they are open.
SWINGS = (
    Swing(
        "DO1",
        "bay F1, door 1",
        Turning(rectangle((43, 537), (0, 18)), (41.5, 0), -1, 180),
        FIRST,
        Fraction(499),
        (),
    ),
    Swing(
        "DO2",
        "bay F4, door 1",
        Turning(rectangle((1463, 1957), (0, 18)), (1958.5, 0), 1, 110),
        FIRST,
        Fraction(499),
        (),
    ),
)

DRAWERS: dict[str, Callable[[Ruler], Drawing]] = {
    "front": lambda ruler: draw_views(FIGURES, ruler, LINKS)[0],
    "side": lambda ruler: draw_views(FIGURES, ruler, LINKS)[1],
    "plan": lambda ruler: draw_views(FIGURES, ruler, LINKS)[2],
    "top": lambda ruler: draw_top_grid(FIGURES, ruler),
    "doors": lambda ruler: draw_swings(replace(FIGURES, fillings=Shown(swings=SWINGS)), ruler),
}
for row in FIGURES.parts:
    draw = draw_profile if row.kind == "profile" else draw_panel
    DRAWERS[f"part {row.mark}"] = lambda ruler, row=row, draw=draw: draw(row, ruler)  # type: ignore[misc]
for bay in FIGURES.layout.bays:
    DRAWERS[f"opening {bay.name}"] = lambda ruler, name=bay.name: draw_opening(FIGURES, name, ruler)  # type: ignore[misc]
for stick in FIGURES.sticks:
    DRAWERS[f"stick {stick.name}"] = lambda ruler, stick=stick: draw_stick(stick, ruler)  # type: ignore[misc]

ALL = [
    pytest.param(draw(ruler), id=f"{name} {ruler.units}")
    for name, draw in DRAWERS.items()
    for ruler in RULERS
]

SIZES = {
    "part A1": "20 545 645 705 725",
    "part B1": "520 960 1400 1920",
    "part B3": "80 520 960 1400 1840 1920",
    "part C1": "520 820",
    "part E1": "485",
    "part FD1": "520 509 12 10 10.5 8 2",
    "part SP1": "520 498 12 10 10.5 8 2",
    "part PAN": "530 970 1410 20 558 876 1940 896 10 10.5 8 2",
    "part TT1": "498 15",
    "top": "88 184 280 1912 66 162 834 2000 900",
    "front": "2000 0 40 540 580 980 1020 1420 1460 1960 137 177 676 688 822 862 880",
    "side": "900 40 540 580 860 137 880",
    "doors": "2000",
    "plan": "2000 980 1020 900 540 580 860",
    "opening F1": "500 494 3 40 168 171 208 301 304 341 411 414 451 497 165 130 107 80",
    "opening F2": "400 19 156 164 176 313 321 333 470 478 497",
    "opening B1": "940 42 60 270 288 497",
    "stick X front": "0 500 520 540 940 960 980 1380 1400 1420 1920",
    "stick Z corner post": "0 20 40 525 545 565 645 685 705 725",
}


def collisions(drawing: Drawing) -> list[tuple[str, str]]:
    return [
        (a, b)
        for reading in (own_reading, other_reading)
        for (a, one), (b, two) in combinations(drawing.text_boxes(reading), 2)
        if one.overlaps(two)
    ]


def strays(drawing: Drawing) -> list[str]:
    sheet = Extent(0, 0, drawing.width, drawing.height)
    return [text for text, box in drawing.text_boxes() if not sheet.contains(box)]


@pytest.mark.parametrize("drawing", ALL)
def test_no_two_texts_overlap_and_none_leaves_the_sheet(drawing: Drawing) -> None:
    assert collisions(drawing) == []
    assert strays(drawing) == []


@pytest.mark.parametrize("drawing", ALL)
def test_a_drawing_fills_its_sheet_but_for_the_margin(drawing: Drawing) -> None:
    extent = drawing.extents()
    assert (extent.left, extent.top) == pytest.approx((4, 4))
    assert (extent.right, extent.bottom) == pytest.approx((drawing.width - 4, drawing.height - 4))
    assert drawing.width <= (LYING_WIDTH if drawing.id.startswith("elevation") else PAGE_WIDTH)
    assert drawing.title
    assert drawing.description


@pytest.mark.parametrize("drawing", ALL)
def test_every_style_has_a_look(drawing: Drawing) -> None:
    used = {style for shape in drawing.shapes if (style := getattr(shape, "style", ""))}
    assert used <= STYLES == set(LOOKS)


@pytest.mark.parametrize(("name", "sizes"), SIZES.items())
def test_every_size_is_written(name: str, sizes: str) -> None:
    written = {text for text, _ in DRAWERS[name](Ruler()).text_boxes()}
    assert set(sizes.split()) - written == set()


def test_inches_are_written_as_fractions() -> None:
    written = {text for text, _ in draw_profile(part("B1"), Ruler("in", 32)).text_boxes()}
    assert "75 19/32" in written


@pytest.mark.parametrize("drawing", ALL)
def test_svg_is_well_formed_and_repeatable(drawing: Drawing) -> None:
    svg = to_svg(drawing)
    inline, alone = svg.inline, svg.alone
    root = ElementTree.fromstring(inline)
    assert ElementTree.fromstring(alone).get("width", "").endswith("mm")
    assert "\n" not in inline
    assert "nan" not in inline.lower().replace("inan", "")
    assert root.get("width") is root.get("height") is None
    assert root.get("role") == ("group" if "<a " in inline else "img")
    assert root[0].text == drawing.title
    assert all(c.startswith("bm-") for e in root.iter() for c in (e.get("class") or "").split())
    assert svg == to_svg(drawing)


def test_marks_of_the_main_members_lead_to_their_sheets() -> None:
    inline = to_svg(DRAWERS["front"](Ruler())).inline
    for mark in ("A1", "B1", "B3", "D1", "DF1a"):
        assert f'href="{LINKS[mark]}"' in inline


def test_what_is_hidden_is_not_drawn() -> None:
    texts = {text for text, _ in DRAWERS["front"](Ruler()).text_boxes()}
    assert not texts & {"A3", "B2", "B4", "PAN", "SP1", "FD1"}


def test_the_style_sheet_has_a_dark_scheme_and_only_our_classes() -> None:
    css = drawing_css()
    assert "slate" in css
    assert "currentColor" in css
    assert all(".bm-drawing" in line for line in css.splitlines())


def spaced(gaps: list[Fraction]) -> list[Fraction]:
    return [sum(gaps[: n + 1], Fraction(0)) for n in range(len(gaps))]


gap = st.one_of(
    st.fractions(Fraction(1, 2), Fraction(5), max_denominator=16),
    st.fractions(Fraction(1, 2), Fraction(600), max_denominator=16),
)


@settings(max_examples=150, deadline=None)
@given(st.lists(gap, min_size=1, max_size=25), st.sampled_from(RULERS), st.data())
def test_marks_on_a_stick_never_collide(gaps: list[Fraction], ruler: Ruler, data: st.DataObject) -> None:
    places = spaced(gaps)
    marks = tuple(
        Mark(at, data.draw(st.sampled_from(("P2 left", "P2 right", "tray end rail underside", ""))), kind)
        for at in places
        for kind in data.draw(st.sampled_from((("edge",), ("centre",), ("edge", "centre"))))
    )
    drawing = draw_stick(Stick("random", "x", "left end", places[-1] + 1, marks, "B1"), ruler)
    assert collisions(drawing) == []
    assert strays(drawing) == []
    written = [text for text, _ in drawing.text_boxes()]
    assert all(ruler.text(mark.at) in written for mark in marks)
    ElementTree.fromstring(to_svg(drawing).inline)


@pytest.mark.parametrize(
    ("marks", "expected"),
    [
        (("A1", "A4"), "A1, A4"),
        (("C1", "C2", "C3"), "C1 to C3"),
        (("DS1", "DS2", "DS9", "DS10", "DS11"), "DS1, DS2, DS9 to DS11"),
        (("PAN",), "PAN"),
    ],
)
def test_marks_of_a_row_are_written_in_short(marks: tuple[str, ...], expected: str) -> None:
    assert marks_of(replace(part("A1"), marks=marks)) == expected


def test_a_groove_is_named_by_its_width_in_its_row() -> None:
    groove = OperationRow(
        "groove", "inside", (Fraction(250), Fraction(11)), (Fraction(500), Fraction(6)), Fraction(6), ""
    )
    side = replace(part("TT1"), kind="sheet", length=Fraction(500), width=Fraction(140), operations=(groove,))
    written = {text for text, _ in draw_panel(side, Ruler()).text_boxes()}
    assert {"11", "groove 6 wide, 6 deep"} <= written
    assert "250" not in written


@pytest.mark.parametrize(
    ("labels", "crosses"),
    [
        (("post P2", "post P2"), [(100, 120)]),
        (("front 1 bottom", "front 1 top"), [(100, 120)]),
        (("slide lower edge", "runner top"), [(100, 105), (115, 120)]),
        (("cleat", "trim"), []),
    ],
)
def test_the_cross_lies_on_the_members_side(
    labels: tuple[str, str], crosses: list[tuple[float, float]]
) -> None:
    marks = tuple(Mark(Fraction(at), label, "edge") for at, label in zip((100, 120), labels, strict=True))
    stick = Stick("s", "z", "foot", Fraction(230), marks)
    assert sorted(members(stick, 1.0)) == crosses


def test_a_member_at_the_sticks_end_is_bounded_by_the_end() -> None:
    edges = (
        (0, "foot"),
        (40, "rail"),
        (525, "tray end rail"),
        (565, "tray end rail"),
        (685, "rail"),
        (725, "head"),
    )
    marks = tuple(Mark(Fraction(at), label, "edge") for at, label in edges)
    found = members(Stick("s", "z", "foot", Fraction(725), marks), 230 / 725)
    assert len(found) == 3
    assert min(found)[0] == 0
    assert max(found)[1] == pytest.approx(230)


def test_a_tray_flush_with_the_posts_lies_behind_them() -> None:
    parts = tuple(
        replace(row, pieces=(placed("PAN", (30, 0, 539), (1940, 900, 12)),)) if row.group == "tray" else row
        for row in FIGURES.parts
        if row.group != "tray trim"
    )
    drawing = draw_views(replace(FIGURES, parts=parts), Ruler())[0]
    fills = [shape for shape in drawing.shapes if isinstance(shape, Rect)]
    scale = max(rect.width for rect in fills) / 2000  # the top is as long as the bench
    tray = next(n for n, rect in enumerate(fills) if rect.width == pytest.approx(1940 * scale))
    posts = [n for n, rect in enumerate(fills) if rect.height == pytest.approx(645 * scale)]
    assert posts
    assert tray < min(posts[-3:])
