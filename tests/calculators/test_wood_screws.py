"""Wood screws: the standard's shanks, the shelf searched screw by screw, and the holes of the Wood Handbook."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.calculators.wood_screws import (
    HARD,
    INCH_LENGTHS,
    METRIC_LENGTHS,
    SHANKS,
    SOFT,
    edge_for,
    fitting,
    into_edge,
    least_thread,
    next_drill,
    pilot_hole,
    room,
    shank_hole,
    stock,
    thread_left,
)

#: ASME B18.6.1, basic diameters of numbered wood screws (in), as printed in handbooks.
NUMBERS = {"#4": "0.112", "#6": "0.138", "#8": "0.164", "#10": "0.190", "#12": "0.216"}
#: Lengths that shops list (mm): metric chipboard screws, and inch screws by eighths and quarters. From memory.
METRIC = [10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80]
INCH = ["3/8", "1/2", "5/8", "3/4", "7/8", "1", "5/4", "3/2", "7/4", "2", "9/4", "5/2", "3"]


def test_wood_screws() -> None:
    """Wood Handbook, chapter 8: 70 % and 90 % of a root that is two thirds of the shank. From memory."""
    assert pilot_hole(shank=4, part_of_root=SOFT) == pytest.approx(1.87, abs=0.01)
    assert pilot_hole(shank=4, part_of_root=HARD) == pytest.approx(2.4)
    assert [next_drill(d) for d in (1.87, 2.4, 4.5)] == [2.0, 2.5, 4.5]
    assert shank_hole(shank=5) == 5.5


@pytest.mark.parametrize("number", NUMBERS)
def test_numbered_screws(number: str) -> None:
    assert SHANKS[number] == Fraction(NUMBERS[number]) * Fraction("25.4")


def test_the_shelf() -> None:
    assert list(METRIC_LENGTHS) == METRIC
    assert [length / Fraction("25.4") for length in INCH_LENGTHS] == [Fraction(text) for text in INCH]
    assert {screw.size for screw in stock("4", "mm")} == {"4"}
    # a bench in inches takes the numbered screw of about that shank
    for size in ("3", "3.5", "4", "5"):
        (instead,) = {screw.size for screw in stock(size, "in")}
        assert instead.startswith("#")
        assert abs(SHANKS[instead] - SHANKS[size]) < Fraction("0.6")
    assert {screw.size for screw in stock("#8", "mm")} == {"#8"}


def test_screws_of_the_worked_bench() -> None:
    """A slide of 1.2 on 27 of wood: 25 is on the shelf, 30 is too long. 15 on 12: 25. 12 on 27, up to 30: 30."""
    shelf = stock("4", "mm")
    assert fitting(shelf, Fraction("1.2"), Fraction(27)).length == 25
    assert fitting(shelf, Fraction(15), Fraction(12)).length == 25
    assert fitting(shelf, Fraction(12), Fraction(27), Fraction(30)).length == 30


thin = st.integers(1, 60).map(lambda n: Fraction(n, 2))


@settings(max_examples=60)
@given(through=thin, into=thin, size=st.sampled_from(sorted(SHANKS)))
def test_the_longest_screw_that_stays_inside(through: Fraction, into: Fraction, size: str) -> None:
    """Every screw of the shelf tried by its point: 2 mm of wood beyond it, or 1 where its thread is too short."""
    shelf = stock(size, "mm")
    found = fitting(shelf, through, into)
    inside = {screw.length: through + into - screw.length for screw in shelf}
    well = [n for n, left in inside.items() if left >= 2]
    just = [n for n, left in inside.items() if left >= 1]
    holds = [n for n in well if n - through >= found.shank * Fraction(3, 2)]
    assert found.length == max(holds or just or well or [shelf[0].length])
    limited = fitting(shelf, through, into, Fraction(20))
    assert limited.length <= max(Fraction(20), shelf[0].length)


def test_thread_and_room() -> None:
    """4 x 25 through 15 has 10 mm of thread; into 8 there are but 8; a lead of 2 mm stays beyond its point."""
    assert thread_left(Fraction(25), Fraction(15), Fraction(12)) == 10
    assert thread_left(Fraction(25), Fraction(15), Fraction(8)) == 8
    assert room(Fraction(15), Fraction(12)) == 25
    assert least_thread(Fraction(4)) == 6


def test_screws_into_an_edge() -> None:
    """Common practice: an edge takes a screw of two fifths of its thickness; it holds by seven shanks of thread."""
    assert [edge_for(Fraction(shank)) for shank in (4, 5)] == [10, Fraction("12.5")]
    # 12 mm takes 4 mm, not 5; through 12 it needs 12 + 28 = 40
    found = into_edge(("5", "4", "3"), "mm", Fraction(12), Fraction(12))
    assert (found.size, found.length) == ("4", 40)
    # exactly at the limit of the thicker
    assert into_edge(("5", "4"), "mm", Fraction(12), Fraction("12.5")).size == "5"
    # nothing is thin enough: the thinnest; nothing long enough: the longest
    assert into_edge(("5", "4"), "mm", Fraction(12), Fraction(6)).size == "4"
    assert into_edge(("6",), "mm", Fraction(70), Fraction(40)).length == 80
