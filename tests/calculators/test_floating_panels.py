"""Panels that float: an example worked by hand, and the room and hold that they promise in any season."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.calculators.floating_panels import HOLD, PLAY, dry_hold, floating_width, groove_to_hold

F = Fraction
#: White oak, flat-sawn, for each per cent of moisture: Wood Handbook (FPL-GTR-190), table 13-5.
OAK = F("0.00365")


def test_an_example_by_hand() -> None:
    """Opening 400, grooves of 12, cut at 9 %, the room between 6 and 12 %: 422 / 1.01095 = 417.4.

    Dry it is 417.43 less 417.43 x 0.01095, or 412.86: 6.4 in each groove.
    """
    width = floating_width(opening=F(400), groove=F(12), grooves=2, movement=OAK, made=F(9), dampest=F(12))
    assert float(width) == pytest.approx(422 / 1.01095)
    hold = dry_hold(width=width, opening=F(400), grooves=2, movement=OAK, made=F(9), driest=F(6))
    assert float(hold) == pytest.approx((412.858 - 400) / 2, abs=0.005)


SIZES = st.fractions(min_value=100, max_value=900, max_denominator=16)
PER_CENT = st.fractions(min_value=5, max_value=16, max_denominator=10)


@given(
    opening=SIZES, groove=st.fractions(min_value=6, max_value=25, max_denominator=4), grooves=st.integers(1, 2),
    air=st.tuples(PER_CENT, PER_CENT, PER_CENT),
)  # fmt: skip
def test_it_never_reaches_the_bottom_and_dries_from_where_it_was_cut(
    opening: F, groove: F, grooves: int, air: tuple[F, F, F]
) -> None:
    driest, made, dampest = sorted(air)
    width = floating_width(
        opening=opening, groove=groove, grooves=grooves, movement=OAK, made=made, dampest=dampest
    )
    damp = width * (1 + OAK * (dampest - made))
    assert opening + grooves * groove - damp == grooves * PLAY
    dry = width * (1 - OAK * (made - driest))
    hold = dry_hold(width=width, opening=opening, grooves=grooves, movement=OAK, made=made, driest=driest)
    assert opening + grooves * hold == dry


def test_damper_than_the_shop_it_does_not_grow() -> None:
    sizes = {"opening": F(400), "groove": F(10), "grooves": 2, "movement": OAK}
    assert floating_width(**sizes, made=F(15), dampest=F(12)) == 418  # type: ignore[arg-type]


@given(opening=SIZES, grooves=st.integers(1, 2), air=st.tuples(PER_CENT, PER_CENT, PER_CENT))
def test_the_advised_groove_holds_what_is_asked_whatever_the_rounding(
    opening: F, grooves: int, air: tuple[F, F, F]
) -> None:
    driest, made, dampest = sorted(air)
    groove = groove_to_hold(
        opening=opening, grooves=grooves, movement=OAK, made=(made, made), driest=driest, dampest=dampest
    )
    width = floating_width(
        opening=opening, groove=groove, grooves=grooves, movement=OAK, made=made, dampest=dampest
    )
    # the maker takes it to the half millimetre below, at each groove
    width -= grooves * F(1, 2)
    assert (
        dry_hold(width=width, opening=opening, grooves=grooves, movement=OAK, made=made, driest=driest)
        >= HOLD
    )
