from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.drawings.canvas import Canvas
from generator.drawings.dimensions import Row, Ruler, Stretch, Tick, chain, running, spread
from generator.drawings.elevation import remainder
from generator.drawings.extent import Extent
from generator.drawings.letter_sizes import text_width
from generator.drawings.shapes import Arc, Line, Text
from generator.writers.svg import number, to_svg


def test_extents_of_an_arc_reach_its_highest_point() -> None:
    arc = Arc((0, 0), 10, 180, 360, "thin").extent()
    assert (arc.left, arc.top, arc.right) == pytest.approx((-10, -10, 10))
    assert arc.bottom == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize(("anchor", "left"), [("start", 0), ("middle", -0.5), ("end", -1)])
def test_a_text_box_follows_its_anchor(anchor: str, left: float) -> None:
    text, width = "1920", text_width("1920", 3.5)
    assert Text((0, 0), text, 3.5, anchor).extent().left == pytest.approx(left * width)
    upward = Text((0, 0), text, 3.5, anchor, upward=True).extent()
    assert upward.bottom == pytest.approx(-left * width)
    assert upward.height == pytest.approx(width)


def test_widths_are_those_of_the_widest_named_typeface() -> None:
    # Digits are 0.636 em wide and capitals 0.729 em high in DejaVu Sans.
    assert text_width("0000", 7.29) == pytest.approx(4 * 6.36, rel=0.01)
    assert text_width("日本", 3.5) > text_width("MM", 3.5)


def test_a_finished_drawing_begins_at_its_margin() -> None:
    canvas = Canvas()
    canvas.rect(-30, 50, 20, 10)
    drawing = canvas.finish("d", "Title", "Description", margin=5)
    assert (drawing.width, drawing.height) == (30, 20)
    assert drawing.extents() == Extent(5, 5, 25, 15)


@given(st.lists(st.floats(0, 250), max_size=30), st.floats(1, 20))
def test_spread_keeps_order_and_clearance(wanted: list[float], size: float) -> None:
    wanted.sort()
    places = spread(wanted, [size] * len(wanted), 0.5)
    assert all(b - a >= size + 0.5 - 1e-6 for a, b in pairwise(places))
    assert sum(places) == pytest.approx(sum(wanted))


def test_spread_leaves_alone_what_does_not_collide() -> None:
    assert spread([0, 10, 20], [4, 4, 4]) == pytest.approx([0, 10, 20])


def boxes_collide(canvas: Canvas) -> bool:
    texts = [shape.extent() for shape in canvas.shapes if isinstance(shape, Text)]
    return any(a.overlaps(b) for n, a in enumerate(texts) for b in texts[n + 1 :])


@pytest.mark.parametrize("axis", ["x", "y"])
@pytest.mark.parametrize("outward", [-1, 1])
def test_texts_of_short_dimensions_go_to_a_tier(axis: str, outward: int) -> None:
    canvas = Canvas()
    spans = [Stretch(n * 3, n * 3 + 3, f"{n}23.5") for n in range(6)] + [Stretch(18, 80, "500")]
    reach = chain(canvas, Row(axis, 0, outward), spans, -5.0 * outward)
    assert not boxes_collide(canvas)
    extent = canvas.extents()
    depth = {("x", -1): -extent.top, ("x", 1): extent.bottom, ("y", -1): -extent.left, ("y", 1): extent.right}
    assert depth[axis, outward] <= reach + 0.6


@pytest.mark.parametrize("axis", ["x", "y"])
@pytest.mark.parametrize("outward", [-1, 1])
def test_running_labels_never_collide_and_stay_within_their_reach(axis: str, outward: int) -> None:
    canvas = Canvas()
    labels = [Tick(float(at), str(at), "a note") for at in (1, 1, 2, 30, 31, 32, 33, 90)]
    reach = running(canvas, Row(axis, 0, outward), 0.0, labels, -5.0 * outward)
    assert not boxes_collide(canvas)
    extent = canvas.extents()
    depth = {("x", -1): -extent.top, ("x", 1): extent.bottom, ("y", -1): -extent.left, ("y", 1): extent.right}
    assert depth[axis, outward] <= reach + 0.01


@pytest.mark.parametrize(
    ("ruler", "expected"),
    [(Ruler(), "600.1"), (Ruler("in", 32), "23 5/8"), (Ruler(decimals=0), "600")],
)
def test_a_ruler_writes_lengths(ruler: Ruler, expected: str) -> None:
    assert ruler.text(Fraction("600.075")) == expected


def test_what_is_covered_leaves_no_remainder() -> None:
    whole = Extent(0, 0, 10, 10)
    assert remainder(whole, [Extent(0, 0, 10, 5), Extent(0, 5, 10, 10)]) == []
    left = remainder(whole, [Extent(2, 2, 8, 8)])
    assert sum(part.width * part.height for part in left) == pytest.approx(64)


def test_numbers_are_rounded_to_a_hundredth_and_never_nan() -> None:
    assert (number(1 / 3), number(2.0), number(-0.001)) == (0.33, 2, 0)
    with pytest.raises(ValueError, match="nan"):
        number(float("nan"))


def test_texts_are_escaped_and_links_are_plain() -> None:
    canvas = Canvas()
    canvas.text((0, 0), "A<1>&", link="parts/a1/?x=1&y=2")
    svg = to_svg(canvas.finish("d", "T & t", "line\nbreak")).inline
    assert "A&lt;1&gt;&amp;" in svg
    assert 'href="parts/a1/?x=1&amp;y=2"' in svg
    assert "\n" not in svg


def test_what_is_left_for_later_is_drawn_once_in_its_place_and_group() -> None:
    drawn = []

    def square(canvas: Canvas) -> None:
        drawn.append(canvas)
        canvas.line((1.0, 1.0), (3.0, 1.0))
        canvas.line((3.0, 1.0), (3.0, 4.0))

    canvas = Canvas()
    canvas.circle((2.0, 2.0), 1.0)
    first = len(canvas.shapes)
    canvas.later(Extent(1.0, 1.0, 3.0, 4.0), square)
    canvas.circle((2.0, 2.0), 0.5)
    canvas.group("mine", first)
    assert not drawn
    room = canvas.extents()
    drawing = canvas.finish("d", "t", "", margin=0.0)
    assert len(drawn) == 1
    assert (drawing.width, drawing.height) == (room.width, room.height)
    kinds = [type(shape).__name__ for shape in drawing.shapes]
    assert kinds == ["Circle", "Line", "Line", "Circle"]
    assert drawing.groups == (("mine", 1, 4),)


def test_what_is_left_for_later_moves_with_its_canvas() -> None:
    small = Canvas()
    small.later(Extent(0.0, 0.0, 2.0, 1.0), lambda canvas: canvas.line((0.0, 0.0), (2.0, 1.0)))
    canvas = Canvas()
    canvas.place(small, 5.0, 7.0)
    assert canvas.extents() == Extent(5.0, 7.0, 7.0, 8.0)
    (line,) = canvas.finish("d", "t", "", margin=0.0).shapes
    assert isinstance(line, Line)
    assert line.extent() == Extent(0.0, 0.0, 2.0, 1.0)
