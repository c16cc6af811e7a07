"""Tongues in their slots: the worked bench, outlines by a geometry library, and laws."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.calculators.fits import (
    TongueFit,
    corner_notch,
    packing_thickness,
    tongue_fit,
    tongue_length,
)


def fit(thickness: str, tongue: str = "10", clearance: str = "0.2") -> TongueFit:
    return tongue_fit(
        section=Fraction(40),
        slot_opening=Fraction("8.2"),
        slot_depth=Fraction("12.3"),
        thickness=Fraction(thickness),
        clearance=Fraction(clearance),
        tongue=Fraction(tongue),
        shoulder=Fraction("0.5"),
    )


def test_the_worked_tongue() -> None:
    """12 mm into a slot of 8.2 x 12.3: tongue 8.0, rabbet 2.0 each face and 10.5 long, 2.3 below, face 14 behind."""
    found = fit("12")
    assert (found.tongue_thickness, found.rabbet_depth, found.rabbet_length) == (8, 2, Fraction("10.5"))
    assert (found.bottom_clearance, found.offset) == (Fraction("2.3"), 14)
    # each rabbet is right to 0.05 and there are two: 0.1 either way
    assert (found.clearance_min, found.clearance_max) == (Fraction("0.1"), Fraction("0.3"))
    assert found.needs_rabbet
    assert not found.bottoms
    assert packing_thickness(found.offset, Fraction(1)) == 15


def test_a_thin_sheet_goes_in_as_it_is() -> None:
    found = fit("6")
    assert not found.needs_rabbet
    assert (found.tongue_thickness, found.clearance_min, found.clearance_max) == (
        6, Fraction("2.2"), Fraction("2.2"),
    )  # fmt: skip


@pytest.mark.parametrize(("tongue", "bottoms"), [("10.3", False), ("10.4", True)])
def test_a_tongue_that_bottoms(tongue: str, bottoms: bool) -> None:
    """Common practice: 2 to 2.5 mm stay below it."""
    assert fit("12", tongue).bottoms is bottoms


def test_lengths_of_tongues() -> None:
    """12.3 deep leaves 10.3: 10 in half millimetres, 10.25 in quarters."""
    assert tongue_length(Fraction("12.3")) == 10
    assert tongue_length(Fraction("12.5")) == Fraction("10.5")
    assert tongue_length(Fraction("12.3"), Fraction(1, 4)) == Fraction("10.25")


@settings(max_examples=60)
@given(
    tongue=st.integers(6, 14),
    section=st.integers(20, 60),
    clip=st.one_of(st.none(), st.integers(10, 80)),
    solid=st.booleans(),
    clearance=st.integers(0, 4),
)
def test_a_notch_is_the_least_square_that_clears_what_stands_there(
    tongue: int, section: int, clip: int | None, solid: bool, clearance: int
) -> None:
    """Half millimetres tried. The crossing bar's face is at 0; its slot is filled from where the clip begins."""
    found = corner_notch(
        tongue=Fraction(tongue),
        section=Fraction(section),
        clip_length=None if clip is None else Fraction(clip),
        solid_corner=solid,
        clearance=Fraction(clearance),
    )

    def clears(side: Fraction) -> bool:
        # the panel's edge lies a tongue's length inside the bar; its corner square is taken away
        reach = Fraction(-tongue) + side
        # a clip lies in the middle of the bar's section: where it begins, seen from the panel's side
        ends = [] if clip is None else [Fraction(0), -Fraction(section - clip, 2)]
        ends += [Fraction(0)] if solid else []
        return all(reach - clearance >= end for end in ends)

    tried = (Fraction(n, 2) for n in range(200))
    assert found == next(side for side in tried if clears(side))


thicknesses = st.fractions(Fraction(3), Fraction(25), max_denominator=40)


@settings(max_examples=40)
@given(one=thicknesses, other=thicknesses, slot=st.fractions(5, 11, max_denominator=20))
def test_a_thinner_sheet_never_needs_a_deeper_rabbet(one: Fraction, other: Fraction, slot: Fraction) -> None:
    thin, thick = (
        tongue_fit(
            section=Fraction(40),
            slot_opening=slot,
            slot_depth=Fraction(12),
            thickness=thickness,
            clearance=Fraction(1, 5),
            tongue=Fraction(10),
            shoulder=Fraction(1, 2),
        )
        for thickness in sorted((one, other))
    )
    assert thin.rabbet_depth <= thick.rabbet_depth
    assert thin.tongue_thickness <= thick.tongue_thickness
