"""Brackets along a rail: worked counts, and the nearest clear place by trying."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.calculators.brackets import FURTHEST, NEAREST, along_rail, most_apart, nearest_clear
from generator.geometry import Span


@pytest.mark.parametrize(
    ("length", "apart", "count"),
    # worked examples of n = ceil((L - 2 end) / max) + 1: 1800 with 100 and 400 asks for 5
    [(1800, 400, 5), (1400, 400, 4), (1401, 400, 5), (700, 500, 2), (500, 400, 2), (2000, 600, 4)],
)
def test_brackets_along_a_free_rail(length: int, apart: int, count: int) -> None:
    places = along_rail(Fraction(length), Fraction(apart), Fraction(18), ())
    assert len(places) == count
    assert (places[0], places[-1]) == (100, length - 100)
    assert len({right - left for left, right in pairwise(places)}) == 1


def test_the_nearest_clear_place() -> None:
    taken, within = (Span(Fraction(90), Fraction(130)),), Span(Fraction(0), Fraction(500))
    assert nearest_clear(Fraction(100), Fraction(18), taken, within) == 72
    assert nearest_clear(Fraction(200), Fraction(18), taken, within) == 200
    # nowhere: it stays, and a check tells
    assert nearest_clear(Fraction(100), Fraction(18), taken, Span(Fraction(80), Fraction(120))) == 100


@pytest.mark.parametrize(("top", "apart"), [(18, 400), (20, 500), (25, 500), (36, 500), (37, 600)])
def test_a_thicker_top_is_held_less_often(top: int, apart: int) -> None:
    """Common practice: at most 400 apart for 18 mm, 500 for 25 to 36."""
    assert most_apart(Fraction(top)) == apart


spans = st.lists(st.tuples(st.integers(0, 400), st.integers(1, 60)), max_size=4)


@settings(max_examples=60)
@given(at=st.integers(0, 400), half=st.integers(1, 30), blocks=spans)
def test_no_clear_place_is_nearer(at: int, half: int, blocks: list[tuple[int, int]]) -> None:
    """Every millimetre of the rail tried."""
    taken = [Span(Fraction(low), Fraction(low + wide)) for low, wide in blocks]
    found = nearest_clear(Fraction(at), Fraction(half), taken, Span(Fraction(0), Fraction(400)))

    def clear(place: int) -> bool:
        return all(place + half <= low or place - half >= low + wide for low, wide in blocks)

    nearest = min((abs(place - at) for place in range(401) if clear(place)), default=0)
    assert abs(found - at) == nearest


@settings(max_examples=60)
@given(length=st.integers(300, 2500), apart=st.sampled_from([400, 500, 600]), post=st.integers(0, 2500))
def test_brackets_keep_clear_of_a_post_and_near_their_corners(length: int, apart: int, post: int) -> None:
    taken = [Span(Fraction(post), Fraction(post + 40))]
    places = along_rail(Fraction(length), Fraction(apart), Fraction(18), taken)
    assert list(places) == sorted(places)
    if 160 < post < length - 200:
        assert NEAREST <= places[0] <= FURTHEST
        assert NEAREST <= length - places[-1] <= FURTHEST
        assert all(at + 18 <= post or at - 18 >= post + 40 for at in places)
        # moved aside, one gap may grow by what the post takes; four more brackets close it again
        assert all(right - left <= apart for left, right in pairwise(places))


def test_a_bracket_that_is_moved_stays_near_its_corner() -> None:
    """60 to 120 from each corner; where something takes all of that, the nearest place that is clear: 53 or 947."""
    near, far = Span(Fraction(71), Fraction(129)), Span(Fraction(871), Fraction(929))
    for taken, end, usual in (([near], 0, 53), ([far], -1, 947)):
        assert along_rail(Fraction(1000), Fraction(400), Fraction(18), taken)[end] == usual
    # with room at 62 and 938 it goes there
    near, far = Span(Fraction(80), Fraction(160)), Span(Fraction(840), Fraction(920))
    places = along_rail(Fraction(1000), Fraction(400), Fraction(18), [near, far])
    assert (places[0], places[-1]) == (62, 938)
