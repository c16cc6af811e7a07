"""How high the work surface is, by what ergonomics papers print."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.calculators.work_height import HeightRange, work_height


def test_heights() -> None:
    """Grandjean (by way of an ergonomics paper): light work 100 to 150 below the elbow, heavy work 150 to 400."""
    elbow = Fraction(1010)
    assembly, planing = (work_height(work, elbow, None) for work in ("assembly", "planing"))
    assert assembly is not None
    assert planing is not None
    assert (assembly.low, assembly.high) == (860, 910)
    assert elbow - 400 <= planing.low < planing.high <= elbow - 150
    assert work_height("outfeed", elbow, None) is None
    outfeed = work_height("outfeed", None, Fraction(860))
    assert outfeed is not None
    assert outfeed.high < 860
    assert not outfeed.contains(Fraction(860))


@pytest.mark.parametrize(
    ("work", "elbow", "saw", "low", "high"),
    [
        # common practice: 100 to 150 below the elbow, 200 to 250 for a plane, 1 to 3 below a saw's table
        ("assembly", 1010, None, 860, 910),
        ("planing", 1000, None, 750, 800),
        ("outfeed", None, 870, 867, 869),
    ],
)
def test_ranges(work: str, elbow: int | None, saw: int | None, low: int, high: int) -> None:
    found = work_height(work, *(None if each is None else Fraction(each) for each in (elbow, saw)))
    assert found == HeightRange(Fraction(low), Fraction(high))
    inside = [height for height in range(low - 2, high + 3) if found.contains(Fraction(height))]
    assert inside == list(range(low, high + 1))


def test_what_was_not_measured_has_no_range() -> None:
    assert work_height("assembly", None, Fraction(870)) is None
    assert work_height("outfeed", Fraction(1010), None) is None
