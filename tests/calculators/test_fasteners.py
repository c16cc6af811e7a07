"""Bolts, clips and counts of the worked bench; counts and places by trying; a pocket by its outline."""

from __future__ import annotations

import math
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, box

from generator.calculators.fasteners import (
    CAP_KEYS,
    METRIC_LENGTHS,
    THREADS,
    WASHERS,
    bolt_window,
    box_corner_screws,
    end_clip_fit,
    evenly,
    pocket_count,
    pocket_footprint,
    pocket_places,
    spare,
    stock_lengths,
    through_screw_thread,
    trim_screws,
)

lengths = st.integers(1, 3000)


def fewest(free: int, apart: int, least: int = 2) -> int:
    """How many stand over a length, none further apart than this: tried one by one."""
    return next(n for n in range(least, 200) if free <= apart * (n - 1))


def test_the_worked_clip() -> None:
    """Lip 4.5, clip 3, head 4.4: 11.9 in a slot of 12.3. M8 x 25 leaves 17.5 of thread, 16 are needed; tap 22.5."""
    sizes = {"lip": "4.5", "clip": "3", "head": "4.4", "slot_depth": "12.3", "screw": "25", "diameter": "8"}
    worked = {name: Fraction(size) for name, size in sizes.items()}
    fit = end_clip_fit(**worked)
    assert (fit.stack, fit.thread, fit.thread_needed) == (Fraction("11.9"), Fraction("17.5"), 16)
    assert fit.ok
    # at the limits of stack and thread, and a tenth beyond
    for change, ok in (
        ({"head": "4.8"}, True), ({"head": "4.9"}, False), ({"screw": "23.5"}, True), ({"screw": "23.4"}, False),
    ):  # fmt: skip
        assert end_clip_fit(**worked | {name: Fraction(text) for name, text in change.items()}).ok is ok


def test_the_worked_through_screw() -> None:
    """M8 x 45 in a counterbore of 13.5 into a bar of 40: 18.5 of thread."""
    assert through_screw_thread(Fraction(40), Fraction("13.5"), Fraction(45)) == Fraction("18.5")


def test_the_worked_window() -> None:
    """Plate 10, lip 4.5, nut 5.5, slot 12.3: 20.0 to 21.3, so 20; with a nut of 6.0 nothing fits."""
    slot = {"lip": Fraction("4.5"), "slot_depth": Fraction("12.3"), "lengths": METRIC_LENGTHS}
    window = bolt_window(grip=Fraction(10), nut=Fraction("5.5"), **slot)
    assert (window.shortest, window.longest, window.length) == (20, Fraction("21.3"), 20)
    assert bolt_window(grip=Fraction(10), nut=Fraction(6), **slot).length is None
    # a bracket of 4 under a washer of 1.6
    bracket = bolt_window(grip=4 + WASHERS["M8"].thickness, nut=Fraction("5.5"), **slot)
    assert (bracket.shortest, bracket.longest, bracket.length) == (Fraction("15.6"), Fraction("16.9"), 16)
    # of two that fit the shorter
    wide = bolt_window(
        grip=Fraction(10), nut=Fraction(1), lip=Fraction(1), slot_depth=Fraction(16), lengths=METRIC_LENGTHS
    )
    assert wide.length == 12
    assert (
        bolt_window(
            grip=Fraction(10),
            nut=Fraction(1),
            lip=Fraction(4),
            slot_depth=Fraction(16),
            lengths=METRIC_LENGTHS,
        ).length
        == 16
    )


def test_lengths_go_by_the_thread() -> None:
    assert stock_lengths("M8")[0] == 8
    assert stock_lengths("5/16-18")[0] == Fraction("25.4") * 3 / 8


#: Plain washers, ISO 7089 and ASME B18.22.1 narrow (mm); keys of cap screws, ISO 4762 and ASME B18.3. From memory.
THICK = {"M4": "0.8", "M5": "1", "M6": "1.6", "M8": "1.6", "M10": "2", "M12": "2.5"}
KEYS = {"M4": 3, "M5": 4, "M6": 5, "M8": 6, "M10": 8, "M12": 10}
INCH_KEYS = {"10-24": "5/32", "10-32": "5/32", "1/4-20": "3/16", "5/16-18": "1/4", "3/8-16": "5/16"}


def test_washers_and_keys() -> None:
    assert {name: WASHERS[name].thickness for name in THICK} == {
        name: Fraction(text) for name, text in THICK.items()
    }
    assert {name: CAP_KEYS[name] for name in KEYS} == KEYS
    for name, text in INCH_KEYS.items():
        assert CAP_KEYS[name] / Fraction("25.4") == Fraction(text)
        # a narrow inch washer is about as thick as the metric one of that size
        nearest = min(THICK, key=lambda metric: abs(THREADS[metric].diameter - THREADS[name].diameter))
        assert abs(WASHERS[name].thickness - Fraction(THICK[nearest])) <= Fraction(1, 2)


@pytest.mark.parametrize("name", THREADS)
def test_a_tap_takes_its_window_of_bores(name: str) -> None:
    thread = THREADS[name]
    low, high = thread.minor
    assert [thread.takes(bore) for bore in (low, high, thread.tap_drill)] == [True] * 3
    assert not thread.takes(low - Fraction(1, 100))
    assert not thread.takes(high + Fraction(1, 100))


def test_counts_of_the_worked_bench() -> None:
    """Screws in its trim: 5 + 4 + 4 + 5 + 7 + 7 = 32; in its boxes' corners 80; spares a tenth, at least two."""
    assert sum(trim_screws(Fraction(n)) for n in (498, 398, 398, 498, 938, 938)) == 32
    assert 2 * 4 * sum(box_corner_screws(Fraction(n)) for n in (140, 105, 82, 55)) == 80
    assert [spare(count) for count in (0, 1, 20, 21, 35, 96)] == [0, 2, 2, 3, 4, 10]
    # 500 and 280 on P2 to P4: two pockets each
    assert [pocket_count(Fraction(n)) for n in (500, 280)] == [3, 2]


@settings(max_examples=80)
@given(length=lengths)
def test_screws_are_as_few_as_their_distance_lets_them(length: int) -> None:
    assert trim_screws(Fraction(length)) == fewest(length - 40, 150)
    assert box_corner_screws(Fraction(length)) == fewest(length - 40, 50)
    assert pocket_count(Fraction(length)) == fewest(length - 120, 220, least=1)


@settings(max_examples=80)
@given(length=lengths, count=st.integers(2, 12))
def test_screws_of_a_piece_reach_from_end_to_end(length: int, count: int) -> None:
    """Two ends and the gaps between make up the length; the ends of a short piece are a quarter of it."""
    first, apart = evenly(Fraction(length), count, 30)
    assert 2 * first + (count - 1) * apart == length
    assert first == min(30, Fraction(length, 4))
    assert evenly(Fraction(length), 1, 30) == (Fraction(length, 2), 0)


@settings(max_examples=60)
@given(length=lengths)
def test_pockets_stand_evenly_between_their_ends(length: int) -> None:
    places = pocket_places(Fraction(length))
    assert len(places) == pocket_count(Fraction(length))
    assert places[0] == length - places[-1]
    gaps = {right - left for left, right in pairwise(places)}
    assert len(gaps) <= 1
    assert max(gaps, default=0) <= 220
    if gaps:
        assert places[0] == 60


@settings(max_examples=20)
@given(thickness=st.integers(9, 25), hole=st.integers(6, 12))
def test_a_pocket_reaches_as_far_as_its_drill(thickness: int, hole: int) -> None:
    """The drill's outline, laid at 15 degrees through the middle of the edge, cut off by the board's face."""
    far = 400.0
    axis = LineString(
        [
            (-far, thickness / 2 - far * math.tan(math.pi / 12)),
            (far, thickness / 2 + far * math.tan(math.pi / 12)),
        ]
    )
    drill = axis.buffer(hole / 2, cap_style="flat")
    board = box(0, 0, 350, thickness)
    assert pocket_footprint(Fraction(thickness), Fraction(hole)) == pytest.approx(
        drill.intersection(board).bounds[2], abs=1e-3
    )
