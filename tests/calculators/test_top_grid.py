"""The grid of dog holes: the worked top, the most that fit by trying, and holes that meet a bar by their outlines."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from generator.calculators.top_grid import clear_distance, hole_line


def test_the_worked_top() -> None:
    """2000 x 900, pitch 96, 60 from the edges: 20 and 9 holes in margins of 88 and 66; two columns over bars."""
    bars = [Fraction(x) for x in (20, 560, 1000, 1440, 1980)]
    clear = clear_distance(Fraction(40), Fraction(20), Fraction(3))
    assert clear == 33
    columns = hole_line(Fraction(2000), Fraction(60), Fraction(96), bars, clear)
    rows = hole_line(Fraction(900), Fraction(60), Fraction(96), [Fraction(20), Fraction(880)], clear)
    assert (columns.margin, rows.margin) == (88, 66)
    assert (len(columns.positions), len(rows.positions)) == (20, 9)
    assert columns.omitted == (568, 1432)
    assert len(columns.kept) * len(rows.kept) == 162


def test_a_top_that_is_too_short_has_no_holes() -> None:
    line = hole_line(Fraction(119), Fraction(60), Fraction(96), (), Fraction(33))
    assert (line.positions, line.omitted, line.kept) == ((), (), ())
    assert line.margin == Fraction(119, 2)
    assert hole_line(Fraction(120), Fraction(60), Fraction(96), (), Fraction(33)).positions == (60,)


@settings(max_examples=60)
@given(length=st.integers(120, 3000), edge=st.integers(10, 60), pitch=st.integers(20, 200))
def test_as_many_as_fit_in_equal_margins(length: int, edge: int, pitch: int) -> None:
    at = hole_line(Fraction(length), Fraction(edge), Fraction(pitch), (), Fraction(0)).positions
    fits = [n for n in range(1, 200) if 2 * edge + (n - 1) * pitch <= length]
    assert len(at) == max(fits)
    assert at[0] == length - at[-1]
    assert all(right - left == pitch for left, right in pairwise(at))


@settings(max_examples=60)
@given(
    section=st.integers(20, 60),
    diameter=st.integers(6, 30),
    keep=st.integers(0, 10),
    centre=st.fractions(0, 600, max_denominator=2),
)
def test_a_hole_is_left_out_when_its_rim_comes_too_near_to_a_bar(
    section: int, diameter: int, keep: int, centre: Fraction
) -> None:
    clear = clear_distance(Fraction(section), Fraction(diameter), Fraction(keep))
    line = hole_line(Fraction(600), Fraction(20), Fraction(37), [centre], clear)
    for at in line.positions:
        rim = (at - Fraction(diameter, 2), at + Fraction(diameter, 2))
        bar = (centre - Fraction(section, 2), centre + Fraction(section, 2))
        apart = max(bar[0] - rim[1], rim[0] - bar[1])
        assert (at in line.omitted) == (apart < keep)
        assert (at in line.kept) != (at in line.omitted)


def test_a_hole_at_the_limit_is_kept() -> None:
    """Clear of a bar from 33 on: holes at 60 and 156 beside bars whose centres are 33 and 32.9 away."""
    for centre, omitted in (
        ("93", ()),
        ("92.9", (60,)),
        ("123", ()),
        ("123.1", (156,)),
        ("27", ()),
        ("27.1", (60,)),
    ):
        line = hole_line(Fraction(216), Fraction(60), Fraction(96), [Fraction(centre)], Fraction(33))
        assert line.positions == (60, 156)
        assert line.omitted == omitted
