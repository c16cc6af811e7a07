"""Paths of drawings, read back by another library: every corner where it was, every line there once."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest
from fontTools.pens.recordingPen import RecordingPen
from fontTools.svgLib.path import parse_path
from hypothesis import given
from hypothesis import strategies as st

from generator.drawings.shapes import Line
from generator.writers.svg_path import outline, strokes

DIGITS = st.sampled_from((0, 1, 2))
PLACES = st.floats(-2000, 2000, allow_nan=False).map(lambda value: round(value, 3))
#: Few places near each other, so that ends meet, lines are upright, and corners fall onto one another.
POINTS = st.tuples(PLACES, PLACES) | st.tuples(st.integers(0, 3), st.integers(0, 3)).map(
    lambda point: (point[0] * 0.4, point[1] * 0.4)
)


def runs(path: str) -> list[list[tuple[float, float]]]:
    """The runs of a path from corner to corner, closed ones back to their first."""
    pen = RecordingPen()
    parse_path(path, pen)
    found: list[list[tuple[float, float]]] = []
    for name, places in pen.value:
        if name == "moveTo":
            found.append([places[0]])
        elif name == "lineTo":
            found[-1].append(places[0])
        elif name == "closePath" and found[-1][0] != found[-1][-1]:
            found[-1].append(found[-1][0])
    return found


def near(point: tuple[float, float], digits: int) -> tuple[int, int]:
    """A point in whole steps."""
    return round(point[0] * 10**digits), round(point[1] * 10**digits)


@given(st.lists(POINTS, min_size=2, max_size=12), DIGITS, st.booleans())
def test_an_outline_has_all_corners_in_their_order(points: list[Any], digits: int, closed: bool) -> None:
    (run,) = runs(outline(points, digits, closed=closed))
    asked = [near(point, digits) for point in points]
    if closed:
        asked.append(asked[0])
    # a corner that falls onto the one before it needs no line
    corners = asked[:1] + [b for a, b in pairwise(asked) if a != b]
    found = [near(point, digits) for point in run]
    assert found[:1] + [b for a, b in pairwise(found) if a != b] == corners


@given(st.lists(st.tuples(POINTS, POINTS), min_size=1, max_size=25), DIGITS, st.booleans())
def test_each_line_is_there_once(ends: list[Any], digits: int, joined: bool) -> None:
    lines = [Line(start, end, "thin") for start, end in ends]
    read = [pair for run in runs(strokes(lines, digits, joined=joined)) for pair in pairwise(run)]
    found = [sorted((near(a, digits), near(b, digits))) for a, b in read]
    asked = [sorted((near(a, digits), near(b, digits))) for a, b in ends]
    assert sorted(each for each in found if each[0] != each[1]) == sorted(
        each for each in asked if each[0] != each[1]
    )


def test_equal_shapes_have_equal_words_wherever_they_are() -> None:
    square = [(0.04, 0.0), (10.0, 0.0), (10.0, 7.5), (0.0, 7.5)]
    moved = [(x + 33.3, y + 4.1) for x, y in square]
    assert outline(square, 1, closed=True) == "M0 0h10v7.5h-10z"
    assert outline(moved, 1, closed=True) == "M33.3 4.1h10v7.5h-10z"


def test_dashes_begin_anew_with_each_line_and_others_are_one_run() -> None:
    lines = [Line((0, 0), (2, 0), "thin"), Line((0, 1), (0, 0), "thin"), Line((2, 0), (2, 1), "thin")]
    assert strokes(lines, 2, joined=True).count("m") == 1
    assert strokes(lines, 2, joined=False).count("m") == 2


def test_what_is_nowhere_has_no_place() -> None:
    with pytest.raises(ValueError, match="no place"):
        outline([(0.0, 0.0), (float("nan"), 1.0)], 2, closed=True)
