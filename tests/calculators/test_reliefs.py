"""The relief's template by a bush that is led round in it, and reliefs beside holes by their gap."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import box

from generator.calculators.reliefs import clear_of_holes, relief_template

lengths = st.integers(10, 60).map(Fraction)


def test_the_worked_template() -> None:
    """Opening 16 x 40, bush 17, cutter 6: template 27 x 51 with corners of 8.5, work with corners of 3."""
    card = relief_template((Fraction(16), Fraction(40)), Fraction(17), Fraction(6))
    assert (card.template, card.offset) == ((27, 51), Fraction("5.5"))
    assert (card.template_radius, card.work_radius) == (Fraction("8.5"), 3)
    assert card.opening == (16, 40)


@settings(max_examples=25)
@given(wide=lengths, long=lengths, cutter=st.integers(3, 9), more=st.integers(0, 20))
def test_a_bush_that_is_led_round_cuts_the_opening(
    wide: Fraction, long: Fraction, cutter: int, more: int
) -> None:
    """The bush keeps half its width from the template's sides; about its middle the cutter takes half its own."""
    bush = cutter + more
    card = relief_template((wide, long), Fraction(bush), Fraction(cutter))
    if min(wide, long) <= cutter:
        return
    middles = box(0, 0, *(float(size) for size in card.template)).buffer(-bush / 2)
    cut = middles.buffer(cutter / 2, quad_segs=32)
    x0, y0, x1, y1 = cut.bounds
    assert (x1 - x0, y1 - y0) == pytest.approx(tuple(float(size) for size in card.opening))
    corners = 4 - 3.14159265  # what four rounded corners of radius 1 lack of a square
    assert cut.area == pytest.approx((x1 - x0) * (y1 - y0) - corners * float(card.work_radius) ** 2, rel=1e-3)


def test_reliefs_of_the_worked_posts() -> None:
    """A corner post: relief of 40 at 645, holes of 8 at 545 and 705, a counterbore of 14 at 705; 6 must stay."""
    holes = tuple((Fraction(at), Fraction(size)) for at, size in ((20, 8), (545, 8), (705, 8), (705, 14)))
    # metal from 665 to 698, less 6
    assert clear_of_holes(Fraction(645), Fraction(40), holes, Fraction(6)) == 27
    # the counterbore's edge at 698 and the relief from 680 to 720 lie 18 into each other
    assert clear_of_holes(Fraction(700), Fraction(40), holes[3:], Fraction(6)) == -(20 + 7 - 5) - 6
    # on either side alike
    assert clear_of_holes(Fraction(765), Fraction(40), holes[3:], Fraction(6)) == 27


def test_a_face_without_holes_has_all_the_metal() -> None:
    assert clear_of_holes(Fraction(645), Fraction(40), (), Fraction(6)) > 1000
