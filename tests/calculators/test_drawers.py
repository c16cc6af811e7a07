"""Drawers stacked up in their bay, piece by piece, and the strips behind them by trying every place."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.calculators.drawers import DrawerRules, drawer_sizes, spacers, strip_span

#: The worked bench: 12 mm boxes on slides of 500 x 45, bays of 500, fronts 3 mm apart.
WORKED = DrawerRules(
    proud=Fraction(1),
    side_space=Fraction(13),
    gap=Fraction(3),
    below=Fraction(10),
    above=Fraction(15),
    slide_axis=Fraction(27),
    slide_length=Fraction(500),
    slide_height=Fraction(45),
    box_thickness=Fraction(12),
    groove=Fraction(6),
)
#: Its drawers from below: front's height and bottom; box height and bottom, slide's axis, slide's lower edge, block.
TABLE = (
    (165, 43, 140, 53, 80, "57.5", "17.5"),
    (130, 211, 105, 221, 248, "225.5", "123"),
    (107, 344, 82, 354, 381, "358.5", "88"),
    (80, 454, 55, 464, 491, "468.5", "65"),
)

small = st.integers(1, 40).map(Fraction)


@pytest.mark.parametrize("row", TABLE)
def test_the_worked_drawers(row: tuple[int, int, int, int, int, str, str]) -> None:
    front, bottom, *expected, lower, _ = row
    found = drawer_sizes(WORKED, Fraction(500), Fraction(front), Fraction(bottom))
    assert [found.box_height, found.box_bottom, found.slide_axis] == expected
    assert found.slide_lower_edge == Fraction(lower)
    assert (found.box_width, found.box_depth, found.ends_length, found.front_width) == (472, 500, 448, 494)
    assert (found.front_height, found.front_bottom) == (front, bottom)
    # in its grooves, 6 deep all round, the bottom could grow by one millimetre each way
    assert found.bottom_panel == (459, 487)
    assert float(found.width_to_depth) == pytest.approx(0.94, abs=0.005)


def test_the_worked_blocks() -> None:
    edges = [Fraction(row[-2]) for row in TABLE]
    assert spacers(edges, Fraction(45), Fraction(40)) == tuple(Fraction(row[-1]) for row in TABLE)


@given(proud=small, side=small, gap=small, thick=small, groove=small, bay=st.integers(300, 900).map(Fraction))
def test_across_its_bay_everything_touches(
    proud: Fraction, side: Fraction, gap: Fraction, thick: Fraction, groove: Fraction, bay: Fraction
) -> None:
    """Laid side by side: packing, slide, side, end, side, slide and packing fill the bay; so do gap, face and gap."""
    rules = DrawerRules(
        proud, side, gap, Fraction(10), Fraction(15), Fraction(27), Fraction(500), Fraction(45), thick, groove
    )
    found = drawer_sizes(rules, bay, Fraction(165), Fraction(43))
    assert sum([proud, side, thick, found.ends_length, thick, side, proud]) == bay
    assert sum([gap, found.front_width, gap]) == bay
    # from one groove's floor to the other's the bottom has one millimetre of play
    floors = found.box_width - 2 * (thick - groove), found.box_depth - 2 * (thick - groove)
    assert [room - size for room, size in zip(floors, found.bottom_panel, strict=True)] == [1, 1]


@given(datum=small, height=small, heights=st.lists(small, min_size=1, max_size=6))
def test_blocks_and_slides_piled_up_reach_the_slides(
    datum: Fraction, height: Fraction, heights: list[Fraction]
) -> None:
    at, edges = datum, []
    for block in heights:
        edges.append(at + block)
        at = edges[-1] + height
    assert spacers(edges, height, datum) == tuple(heights)


@settings(max_examples=60)
@given(
    station=st.integers(0, 300),
    half=st.integers(10, 30),
    front=st.integers(20, 60),
    room=st.integers(70, 250),
    play=st.integers(0, 5),
)
def test_a_strip_stands_as_near_to_its_hole_as_the_posts_let_it(
    station: int, half: int, front: int, room: int, play: int
) -> None:
    """Against every millimetre between the posts where the strip could stand."""
    clear = (Fraction(front), Fraction(front + room))
    begin, end = strip_span(Fraction(station), Fraction(2 * half), clear, Fraction(play))
    places = range(front + play, front + room - play - 2 * half + 1)
    assert begin == min(places, key=lambda at: abs(at + half - station))
    assert end - begin == 2 * half
