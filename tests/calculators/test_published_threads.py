"""Threads, screws and bolts against published values; each source is named beside its table."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.calculators.fasteners import (
    CAP_HEADS,
    ENGAGEMENT,
    INCH,
    METRIC_LENGTHS,
    THREADS,
    BoltWindow,
    bolt_window,
    through_screw_thread,
)
from tests.test_published_values import mm

# --- threads

#: ISO 261 pitch; ISO 2306 drill; ISO 273:1979 medium (H13) clearance hole. Stored reference pages agree.
METRIC = {
    "M4": ("0.7", "3.3", "4.5"),
    "M5": ("0.8", "4.2", "5.5"),
    "M6": ("1", "5.0", "6.6"),
    "M8": ("1.25", "6.8", "9"),
    "M10": ("1.5", "8.5", "11"),
    "M12": ("1.75", "10.2", "13.5"),
}


@pytest.mark.parametrize("name", METRIC)
def test_metric_threads(name: str) -> None:
    thread, (pitch, drill, clearance) = THREADS[name], METRIC[name]
    assert (thread.diameter, thread.pitch) == (mm(name[1:]), mm(pitch))
    assert thread.tap_drill == mm(drill)
    assert thread.clearance == mm(clearance)


#: ISO 273:1979 fine (H12) and coarse (H14): the medium hole lies between.
FINE_AND_COARSE = {
    "M4": ("4.3", "4.8"),
    "M5": ("5.3", "5.8"),
    "M6": ("6.4", "7.0"),
    "M8": ("8.4", "10"),
    "M10": ("10.5", "12"),
    "M12": ("13", "14.5"),
}


@pytest.mark.parametrize("name", FINE_AND_COARSE)
def test_medium_clearance_lies_between_fine_and_coarse(name: str) -> None:
    fine, coarse = FINE_AND_COARSE[name]
    assert mm(fine) < THREADS[name].clearance < mm(coarse)


#: ISO 965-1, minor diameter of the nut thread, tolerance 6H. From memory.
MINOR_6H = {
    "M4": ("3.242", "3.422"),
    "M5": ("4.134", "4.334"),
    "M6": ("4.917", "5.153"),
    "M8": ("6.647", "6.912"),
    "M10": ("8.376", "8.676"),
    "M12": ("10.106", "10.441"),
}


@pytest.mark.parametrize("name", MINOR_6H)
def test_tap_drill_lies_in_the_minor_diameter(name: str) -> None:
    low, high = MINOR_6H[name]
    thread = THREADS[name]
    assert mm(low) <= thread.tap_drill <= mm(high)
    # ISO 68-1: D1 = D - 1.082532 P
    assert float(thread.diameter - Fraction("1.082532") * thread.pitch) == pytest.approx(
        float(low), abs=0.001
    )


#: Per cent of thread on the 1.299 P basis that workshops use; computed, agrees with printed charts.
PERCENT = {"M4": 77.0, "M5": 77.0, "M6": 77.0, "M8": 73.9, "M10": 77.0, "M12": 79.2, "10-24": 74.8, "10-32": 76.4,
           "1/4-20": 75.4, "5/16-18": 76.9, "3/8-16": 77.0}  # fmt: skip


@pytest.mark.parametrize("name", PERCENT)
def test_per_cent_of_thread(name: str) -> None:
    thread = THREADS[name]
    percent = float((thread.diameter - thread.tap_drill) / (Fraction("1.299") * thread.pitch) * 100)
    assert percent == pytest.approx(PERCENT[name], abs=0.1)


#: ASME B1.1 basic major diameter and threads an inch; drill in the tap-drill table of Machinery's Handbook (in).
UNIFIED = {
    "10-24": ("0.1900", 24, "0.1495"),  # No. 25
    "10-32": ("0.1900", 32, "0.1590"),  # No. 21
    "1/4-20": ("0.2500", 20, "0.2010"),  # No. 7
    "5/16-18": ("0.3125", 18, "0.2570"),  # F
    "3/8-16": ("0.3750", 16, "0.3125"),  # 5/16
}


@pytest.mark.parametrize("name", UNIFIED)
def test_unified_threads(name: str) -> None:
    thread, (major, per_inch, drill) = THREADS[name], UNIFIED[name]
    assert thread.diameter == Fraction(major) * INCH
    assert thread.pitch == INCH / per_inch
    assert thread.tap_drill == Fraction(drill) * INCH
    # common practice, no source: a clearance hole 1/64 to 1/16 in over the screw
    assert Fraction(1, 64) * INCH <= thread.clearance - thread.diameter <= Fraction(1, 16) * INCH


@pytest.mark.parametrize("name", THREADS)
def test_minor_diameters_follow_from_the_standards_formulas(name: str) -> None:
    """ISO 68-1: D1 = D - 1.082532 P, the lower limit of 6H and 2B alike. The upper by the formulas behind the tables:

    ISO 965-1 grade 6: 433 P - 190 P^1.22 below 1 mm, 230 P^0.7 from there (micrometres); ASME B1.1 class 2B:
    0.25 P - 0.4 P^2 from 1/4 in, 0.05 P^(2/3) + 0.03 P/D - 0.002 below (inches). From memory. Tables are rounded.
    """
    thread = THREADS[name]
    metric = name.startswith("M")
    unit = 1.0 if metric else 25.4
    pitch, diameter = float(thread.pitch) / unit, float(thread.diameter) / unit
    if metric:
        wide = (433 * pitch - 190 * pitch**1.22 if pitch < 1 else 230 * pitch**0.7) / 1000
    elif diameter >= 0.25:
        wide = 0.25 * pitch - 0.4 * pitch**2
    else:
        wide = 0.05 * pitch ** (2 / 3) + 0.03 * pitch / diameter - 0.002
    low = diameter - 1.082532 * pitch
    assert float(thread.minor[0]) / unit == pytest.approx(low, abs=0.001)
    assert float(thread.minor[1]) / unit == pytest.approx(low + wide, abs=0.007 if metric else 0.001)
    assert thread.takes(thread.tap_drill)


#: Heads of socket head cap screws, dk max without knurls (mm): ISO 4762:2004 table 1; A max (in): ASME B18.3 table 1A.
CAP_SCREWS = {
    "M3": "5.5",
    "M4": "7",
    "M5": "8.5",
    "M6": "10",
    "M8": "13",
    "M10": "16",
    "M12": "18",
    "M16": "24",
}


CAP_SCREWS_IN = {"10-24": "0.312", "10-32": "0.312", "1/4-20": "0.375", "5/16-18": "0.469", "3/8-16": "0.562"}


def test_heads_of_cap_screws() -> None:
    for name, across in CAP_SCREWS.items():
        assert CAP_HEADS[name] == Fraction(across)
    for name, across in CAP_SCREWS_IN.items():
        assert CAP_HEADS[name] == Fraction(across) * INCH
    assert set(THREADS) <= set(CAP_HEADS)


def test_every_thread_is_in_a_table() -> None:
    assert set(THREADS) == set(METRIC) | set(UNIFIED) == set(PERCENT)


def test_screw_lengths_are_of_the_standard_series() -> None:
    """ISO 888, nominal lengths to 80 mm. From memory."""
    series = {6, 8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80}
    assert {int(length) for length in METRIC_LENGTHS} <= series
    assert list(METRIC_LENGTHS) == sorted(METRIC_LENGTHS)


def test_thread_engagement_in_aluminium() -> None:
    """At least 1.5 diameters in soft metals (a workmanship guide), two are preferred (one page; from memory)."""
    assert ENGAGEMENT == 2
    assert ENGAGEMENT * THREADS["M8"].diameter == 16 >= 1.5 * 8


@pytest.mark.parametrize(
    ("section", "counterbore", "screw", "thread"),
    [("40", "13.5", "45", "18.5"), ("30", "10.5", "35", "15.5")],
)
def test_through_screw(section: str, counterbore: str, screw: str, thread: str) -> None:
    assert through_screw_thread(mm(section), mm(counterbore), mm(screw)) == mm(thread)


def test_bolt_window() -> None:
    """Arithmetic of the worked bench: plate 10 and lip 4.5 and nut 5.5; 1 mm off the floor of a slot 12.3 deep."""

    def window(grip: str, nut: str) -> BoltWindow:
        return bolt_window(
            grip=mm(grip), lip=mm("4.5"), nut=mm(nut), slot_depth=mm("12.3"), lengths=METRIC_LENGTHS
        )

    assert window("10", "5.5") == BoltWindow(mm("20"), mm("21.3"), mm("20"))
    assert window("10", "6").length is None
    assert window("5.6", "5.5").length == 16
