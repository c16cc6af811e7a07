"""What was cut off its size: a panel pushed about between two slots, and the verdict at each limit."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from generator.calculators.as_built import (
    BAR_TOLERANCE,
    BOARD_TOLERANCE,
    Held,
    held_by_tongues,
    moved,
    outcome,
)

tenths = st.integers(1, 60)


@settings(max_examples=60)
@given(tongue=st.integers(70, 150), bottom=tenths, shoulder=tenths, captured=st.sampled_from([1, 2]))
def test_a_panel_between_its_slots(tongue: int, bottom: int, shoulder: int, captured: int) -> None:
    """Tried by tenths of a millimetre. Bars stand 5000 apart; a panel has a tongue at its left end, or at both.

    Longer, it goes in while its shoulders stay between the bars and its tongues off the slots' floors. Shorter, it
    may slide until its left tongue is at the floor, and 6 mm of the other must still be held; one that
    slots hold at one end alone keeps its plain end where it was, so its own tongue comes out.
    """
    gap, floor, held = 5000, tongue + bottom, held_by_tongues(
        captured, Fraction(tongue, 10), Fraction(bottom, 10), Fraction(shoulder, 10)
    )  # fmt: skip

    def goes_in(longer: int) -> bool:
        whole = gap + captured * tongue + longer
        body = whole - captured * (tongue + shoulder)
        return body <= gap and whole <= gap + captured * floor

    def stays(shorter: int) -> bool:
        left = -floor if captured == 2 else -tongue + shorter
        right = left + gap + 2 * tongue - shorter
        return right - gap >= 60 if captured == 2 else -left >= 60

    assert held.play * 10 == max(n for n in range(200) if goes_in(n))
    assert held.spare * 10 == max((n for n in range(200) if stays(n)), default=0)


@pytest.mark.parametrize(
    ("actual", "off", "left", "verdict"),
    [
        ("520", "0", "1", "as planned"),
        ("520.5", "0.5", "0.5", "as planned"),
        ("519.5", "-0.5", "1.2", "as planned"),
        ("520.6", "0.6", "0.4", "fits"),
        ("521", "1", "0", "fits"),
        ("521.1", "1.1", "-0.1", "trim"),
        ("518.3", "-1.7", "0", "fits"),
        ("518.2", "-1.8", "-0.1", "recut"),
    ],
)
def test_verdicts(actual: str, off: str, left: str, verdict: str) -> None:
    """A panel of 520 in two slots: tongues of 10 in slots of 12.3, shoulders of 0.5. Too long is trimmed."""
    held = held_by_tongues(2, Fraction(10), Fraction("2.3"), Fraction("0.5"))
    found = outcome(Fraction(520), Fraction(actual), held, BOARD_TOLERANCE)
    expected = Fraction(left) if off != "0" else held.spare
    assert (found.off, found.left, found.verdict) == (Fraction(off), expected, verdict)


def test_what_a_saw_repeats_is_as_planned_though_nothing_is_to_spare() -> None:
    """A bar is held by no slot: a fifth of a millimetre is what a stop repeats, common practice."""
    none = Held(Fraction(0), Fraction(0))
    assert outcome(Fraction(820), Fraction("820.2"), none, BAR_TOLERANCE).verdict == "as planned"
    assert outcome(Fraction(820), Fraction("820.2"), none, BAR_TOLERANCE).left == 0
    assert outcome(Fraction(820), Fraction("820.3"), none, BAR_TOLERANCE).verdict == "trim"
    assert outcome(Fraction(820), Fraction("819.7"), none, BAR_TOLERANCE).verdict == "recut"


@given(play=tenths, spare=tenths, shift=st.integers(-80, 80))
def test_bars_that_come_nearer_are_a_panel_that_is_too_long(play: int, spare: int, shift: int) -> None:
    held = Held(Fraction(play), Fraction(spare))
    same = outcome(Fraction(1000), Fraction(1000 - shift), held, Fraction(0))
    assert (moved(held, Fraction(shift)) >= 0) == (same.verdict in ("as planned", "fits"))
    if shift:
        assert moved(held, Fraction(shift)) == same.left
