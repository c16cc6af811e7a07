"""Tolerances: published tables, worked stacks, statistics by an independent library, and laws."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.stats import norm

from generator.calculators.tolerances import (
    Deviation,
    general_tolerance,
    likely_range,
    mdf_thickness,
    nearest_general_tolerance,
    plywood_thickness,
    root_sum_of_squares,
    worst_case,
)

#: ISO 2768-1:1989, Table 1, mm. Four stored copies of the table agree.
ISO_2768 = {
    "f": {3: "0.05", 6: "0.05", 30: "0.1", 120: "0.15", 400: "0.2", 1000: "0.3", 2000: "0.5"},
    "m": {3: "0.1", 6: "0.1", 30: "0.2", 120: "0.3", 400: "0.5", 1000: "0.8", 2000: "1.2", 4000: "2"},
    "c": {3: "0.2", 6: "0.3", 30: "0.5", 120: "0.8", 400: "1.2", 1000: "2", 2000: "3", 4000: "4"},
}


@pytest.mark.parametrize("name", ISO_2768)
def test_general_tolerances(name: str) -> None:
    for upto, value in ISO_2768[name].items():
        assert general_tolerance(Fraction(upto), name) == Fraction(value)
        assert general_tolerance(Fraction(upto) - Fraction(1, 10), name) == Fraction(value)


def test_the_fine_class_ends_at_two_metres() -> None:
    with pytest.raises(ValueError, match="no general tolerance"):
        general_tolerance(Fraction(2001), "f")


#: Sanded plywood, EN 315: printed tables of sellers give these to a tenth, cut off.
PLYWOOD = {12: ("0.5", "0.7"), 15: ("0.6", "0.8"), 18: ("0.7", "0.9"), 21: ("0.8", "1.0"), 24: ("0.9", "1.1")}


@pytest.mark.parametrize("thickness", PLYWOOD)
def test_thickness_of_plywood(thickness: int) -> None:
    lower, upper = plywood_thickness(Fraction(thickness))
    above, below = (Fraction(text) for text in PLYWOOD[thickness])
    assert 0 <= upper - above < Fraction(1, 10)
    assert 0 <= -lower - below < Fraction(1, 10)


def test_thickness_of_mdf() -> None:
    """EN 622-1: 0.2 up to 19 mm, 0.3 above. From memory; a seller's sheet gives the first."""
    assert mdf_thickness(Fraction(18)) == (Fraction("-0.2"), Fraction("0.2"))
    assert mdf_thickness(Fraction(22)) == (Fraction("-0.3"), Fraction("0.3"))


#: Worked stacks: tolerances, worst case, root of the sum of squares. From pages on stacks; the sums prove themselves.
STACKS = (
    (("0.20", "0.10", "0.15"), "0.45", 0.26926),
    (("0.10", "0.05", "0.15", "0.10"), "0.40", 0.21213),
    (("0.10",) * 10, "1.0", 0.31623),
    # four parts of ISO 2768-m between 120 and 400
    (("0.5",) * 4, "2", 1.0),
)


@pytest.mark.parametrize(("tolerances", "worst", "likely"), STACKS)
def test_worked_stacks(tolerances: tuple[str, ...], worst: str, likely: float) -> None:
    deviations = [Deviation.either_way(Fraction(each)) for each in tolerances]
    nominal = Fraction(3)
    assert worst_case(nominal, deviations).high == 3 + Fraction(worst)
    assert worst_case(nominal, deviations).low == 3 - Fraction(worst)
    found = likely_range(nominal, deviations)
    assert float(found.high) - 3 == pytest.approx(likely, abs=1e-5)
    assert root_sum_of_squares(tolerances=[float(each) for each in tolerances]) == pytest.approx(
        likely, abs=1e-5
    )


def test_the_table_s_ends() -> None:
    """It begins at 0.5 mm and ends at 4000 (class m); beyond them the nearest size counts: common practice."""
    assert general_tolerance(Fraction(1, 2)) == Fraction("0.1")
    for size in ("0.4", "4001"):
        with pytest.raises(ValueError, match="no general tolerance"):
            general_tolerance(Fraction(size))
    found = [nearest_general_tolerance(Fraction(size)) for size in ("0.1", "100", "4000", "9000")]
    assert found == [Fraction(each) for each in ("0.1", "0.3", "2", "2")]


def test_mdf_of_19_mm_is_still_thin() -> None:
    assert mdf_thickness(Fraction(19))[1] == Fraction("0.2")
    assert mdf_thickness(Fraction("19.1"))[1] == Fraction("0.3")


def test_plywood_by_the_standard_s_formula() -> None:
    """EN 315, 18 mm sanded: 17.06 to 18.74."""
    lower, upper = plywood_thickness(Fraction(18))
    assert (18 + lower, 18 + upper) == (Fraction("17.06"), Fraction("18.74"))


tolerances = st.lists(
    st.fractions(Fraction(1, 100), Fraction(1), max_denominator=100), min_size=1, max_size=6
)


@settings(max_examples=20, deadline=None)
@given(widths=tolerances, shifts=st.lists(st.fractions(-1, 1, max_denominator=20), min_size=6, max_size=6))
def test_the_likely_range_holds_997_of_1000(widths: list[Fraction], shifts: list[Fraction]) -> None:
    """Sizes that stray normally, three sigma to a limit: the sum is normal, its variance the sum of variances."""
    deviations = [Deviation(s - w, s + w) for w, s in zip(widths, shifts, strict=False)]
    found = likely_range(Fraction(0), deviations)
    middle = float(sum(s for _, s in zip(widths, shifts, strict=False)))
    sigma = np.sqrt(sum((float(w) / 3) ** 2 for w in widths))
    inside = norm.cdf(float(found.high), middle, sigma) - norm.cdf(float(found.low), middle, sigma)
    assert inside == pytest.approx(norm.cdf(3) - norm.cdf(-3), abs=1e-9)
    assert inside == pytest.approx(0.9973, abs=1e-4)


@settings(max_examples=40)
@given(
    widths=tolerances,
    nominal=st.fractions(-1, 1, max_denominator=100),
    more=st.fractions(0, 1, max_denominator=50),
)
def test_chance_never_widens_and_more_tolerance_never_narrows(
    widths: list[Fraction], nominal: Fraction, more: Fraction
) -> None:
    deviations = [Deviation.either_way(width) for width in widths]
    wider = [*deviations, Deviation.either_way(more)]
    worst, likely = worst_case(nominal, deviations), likely_range(nominal, deviations)
    assert worst.low <= likely.low + 1e-12
    assert likely.high <= worst.high + 1e-12
    assert worst_case(nominal, wider).high >= worst.high
    assert likely_range(nominal, wider).high >= likely.high - 1e-12
