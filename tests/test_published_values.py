"""Calculators and data cards against published values; each source is named beside its table.

"From memory" means that the standard was not at hand when the value was written down: check it before citing a
clause. "Common practice, no source" means just that.
"""

from __future__ import annotations

import math
from fractions import Fraction

import pytest

from generator.calculators.casters import CARRYING, ROLLING_FACTOR, caster_load
from generator.calculators.drawers import DrawerRules, drawer_sizes
from generator.calculators.fasteners import (
    CAP_HEADS,
    ENGAGEMENT,
    INCH,
    METRIC_LENGTHS,
    THREADS,
    BoltWindow,
    bolt_window,
    pocket_footprint,
    through_screw_thread,
)
from generator.calculators.mass import angle_section, bar_mass, solid_mass
from generator.calculators.reliefs import relief_template
from generator.calculators.shelves import tilt_in
from generator.calculators.squaring import diagonal
from generator.calculators.tolerances import CLASS_M, general_tolerance
from generator.spec.cards import typical_cards
from generator.units.parse import parse_length, parse_quantity


def mm(text: str) -> Fraction:
    return Fraction(text)


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


# --- tolerances

#: ISO 2768-1:1989, Table 1, class m: over, up to, permissible deviation (mm). Four stored copies agree.
LINEAR_M = (
    ("0.5", "3", "0.1"),
    ("3", "6", "0.1"),
    ("6", "30", "0.2"),
    ("30", "120", "0.3"),
    ("120", "400", "0.5"),
    ("400", "1000", "0.8"),
    ("1000", "2000", "1.2"),
    ("2000", "4000", "2"),
)


@pytest.mark.parametrize(("over", "upto", "deviation"), LINEAR_M)
def test_general_tolerance(over: str, upto: str, deviation: str) -> None:
    just_over = mm(over) + (0 if over == "0.5" else Fraction(1, 1000))
    middle = (mm(over) + mm(upto)) / 2
    assert [general_tolerance(length) for length in (just_over, middle, mm(upto))] == [mm(deviation)] * 3


@pytest.mark.parametrize("length", ["0.499", "0", "-5", "4000.001", "100000"])
def test_no_general_tolerance_outside_the_table(length: str) -> None:
    assert len(CLASS_M) == len(LINEAR_M)
    with pytest.raises(ValueError, match="2768"):
        general_tolerance(mm(length))


# --- materials


def value(section: str, card: str, key: str, kind: str) -> float:
    return float(parse_quantity(typical_cards()[section][card][key], kind))


def cards(kind: str) -> list[str]:
    return [name for name, card in typical_cards()["materials"].items() if card["kind"] == kind]


#: Words in a card's name: density and modulus it may have (kg/m³, MPa).
#: Plywood 650 to 700 and MDF 740 to 760 kg/m³: common practice, no source.
#: Modulus of plywood: 6000 across to 10 700 along the grain of birch, low confidence, from memory; of MDF: at least
#: 2200 to 2500, EN 622-5:2009, from memory.
SHEETS = {"plywood": ((650, 700), (6000, 10_700)), "mdf": ((740, 760), (2200, 3000))}


@pytest.mark.parametrize("card", cards("sheet"))
def test_sheets(card: str) -> None:
    (low, high), (soft, stiff) = SHEETS[card.split(maxsplit=1)[0]]
    assert low <= value("materials", card, "density", "density") <= high
    assert soft <= value("materials", card, "modulus", "modulus") <= stiff


def test_strips_are_of_wood() -> None:
    """USDA Wood Handbook, Table 5-3: oven-dry mass by volume at 12 %, 0.42 yellow-poplar to 0.68 white oak.

    With 12 % of water that is 470 to 760 kg/m³; lighter softwoods go down to about 400 (from memory).
    """
    assert [round(gravity * 1120, -1) for gravity in (0.42, 0.68)] == [470, 760]
    for card in cards("strip"):
        assert 400 <= value("materials", card, "density", "density") <= 760


def test_aluminium() -> None:
    """EN 1999-1-1 cl. 3.2.5: 70 000 MPa, 2700 kg/m³ (from memory); alloy sheets for 6060 and 6063: 69 000."""
    for card in cards("profile"):
        assert 68_900 <= value("materials", card, "modulus", "modulus") <= 70_000
    for card in cards("angle"):
        assert value("materials", card, "density", "density") == 2700


def test_a_bar_weighs_less_than_a_solid_one() -> None:
    """No source: slots and bore leave 30 to 60 per cent of the square."""
    for card in cards("profile"):
        section = float(parse_length(typical_cards()["materials"][card]["section"]))
        solid = solid_mass(section**2 * 1000, Fraction(2700))
        assert 0.3 * solid < value("materials", card, "mass", "mass per length") < 0.6 * solid
        # AISC and any textbook: a square of side a has I = a^4 / 12
        square = section**4 / 12
        assert 0.3 * square < value("materials", card, "second_moment", "second moment") < 0.6 * square


def test_sheet_sizes() -> None:
    """1220 x 2440: common panel lists. In inches 48 x 96; MDF is sold one inch over (from memory)."""
    for card in cards("sheet"):
        for stock in typical_cards()["materials"][card]["stock"]:
            size = (parse_length(stock["width"]), parse_length(stock["length"]))
            assert size in ((1220, 2440), (48 * INCH, 96 * INCH), (49 * INCH, 97 * INCH))


def test_masses() -> None:
    """A litre of water weighs a kilogram; an angle 15 x 15 x 2 has 56 mm², by geometry."""
    assert solid_mass(Fraction(1_000_000), Fraction(1000)) == pytest.approx(1)
    assert solid_mass(Fraction(1220 * 2440 * 18), Fraction(750)) == pytest.approx(40.2, abs=0.05)
    assert bar_mass(Fraction(6000), mm("1.7")) == pytest.approx(10.2)
    assert angle_section(Fraction(15), Fraction(2)) == 15 * 2 + 13 * 2 == 56


# --- machining


def test_pocket_footprint() -> None:
    """A pocket at 15 degrees whose axis leaves at half the thickness: geometry. Holes of 9.5 mm: common practice."""
    assert pocket_footprint(Fraction(12)) == pytest.approx(41, abs=0.3)
    assert pocket_footprint(Fraction(18)) - pocket_footprint(Fraction(12)) == pytest.approx(
        3 / math.tan(math.pi / 12)
    )
    assert pocket_footprint(Fraction(12), Fraction(0)) == pytest.approx(6 * (2 + math.sqrt(3)))


@pytest.mark.parametrize(
    ("bush", "cutter", "offset"),
    [
        (Fraction(5, 8) * INCH, Fraction(1, 2) * INCH, Fraction("1.5875")),  # a how-to page: 1/16 in
        (Fraction(30), Fraction(8), Fraction(11)),  # a how-to page
        (Fraction(17), Fraction(6), Fraction("5.5")),  # the worked bench
        (Fraction(8), Fraction(8), Fraction(0)),  # geometry
    ],
)
def test_guide_bush_offset(bush: Fraction, cutter: Fraction, offset: Fraction) -> None:
    """Offset (bush - cutter)/2; an inside cut needs a template larger by twice that; its corner is the cutter's."""
    card = relief_template((Fraction(16), Fraction(40)), bush, cutter)
    assert card.offset == offset
    assert card.template == (16 + 2 * offset, 40 + 2 * offset)
    assert card.work_radius == cutter / 2
    assert card.template_radius == bush / 2


# --- casters


def test_three_of_four_casters_carry() -> None:
    """Three trade pages: 300 kg on four casters are 100 kg each, not 75. Practice, found in no standard."""
    assert caster_load(300, 4).each == pytest.approx(100)
    assert CARRYING == {4: 3, 6: 4}
    # sources differ: 1.0 to 1.5 indoors by hand
    assert 1.0 <= ROLLING_FACTOR <= 1.5
    assert caster_load(300, 4).required == pytest.approx(100 * ROLLING_FACTOR)
    assert caster_load(552.8, 6).required == pytest.approx(172.75)
    with pytest.raises(KeyError):
        caster_load(300, 5)


# --- drawers


def rules(side_space: str, proud: str = "0") -> DrawerRules:
    return DrawerRules(
        proud=mm(proud),
        side_space=mm(side_space),
        gap=mm("3"),
        below=mm("10"),
        above=mm("15"),
        slide_axis=mm("27"),
        slide_length=mm("500"),
        slide_height=mm("45"),
        box_thickness=mm("12"),
        groove=mm("6"),
    )


@pytest.mark.parametrize(
    ("opening", "side_space", "proud", "box"),
    [
        ("500", "12.7", "0", "474.6"),  # side-mounted slides take 1/2 in each: several how-to pages
        ("500", "13", "0", "474"),  # with 0.3 mm of slack a side
        ("500", "13", "1", "472"),  # the worked bench
        ("400", "12.7", "0", "374.6"),
    ],
)
def test_drawer_box_width(opening: str, side_space: str, proud: str, box: str) -> None:
    size = drawer_sizes(rules(side_space, proud), mm(opening), mm("165"), mm("43"))
    assert size.box_width == mm(box)
    assert size.ends_length == mm(box) - 24


def test_slide_cards() -> None:
    """1/2 in thick, with up to 1/32 in of slack a side (how-to pages; the slack from memory).

    Lengths in steps of 2 in or 50 mm; first hole 37 mm behind the front: 32 mm system, common practice.
    """
    for name, card in typical_cards()["hardware"].items():
        if card["kind"] != "slide":
            continue
        thickness, space = (parse_length(card[key]) for key in ("thickness", "side_space"))
        assert thickness == mm("12.7")
        assert 0 <= space - thickness <= Fraction(1, 32) * INCH
        length, holes = parse_length(card["length"]), [parse_length(hole) for hole in card["holes"]]
        assert length % 50 == 0 or length % (2 * INCH) == 0
        assert float(holes[0]) == pytest.approx(37, abs=1.2)
        assert holes == sorted(holes)
        assert holes[-1] < length, name


# --- geometry


@pytest.mark.parametrize(
    ("a", "b", "value"),
    [
        (3, 4, 5),
        (5, 12, 13),
        (2000, 900, 2193.2),
        (1920, 820, 2087.8),
        (900, 725, 1155.7),
        (1000, 1000, 1414.2),
    ],
)
def test_diagonals(a: int, b: int, value: float) -> None:
    assert diagonal(Fraction(a), Fraction(b)) == pytest.approx(value, abs=0.05)


@pytest.mark.parametrize(
    ("length", "thickness", "opening", "recess", "height", "possible"),
    [
        (966, 18, 940, 968, 485, True),
        (930, 18, 940, 968, 20, True),  # shorter than the opening: it goes in level
        (966, 18, 940, 968, 200, False),  # too low to tilt
        (966, 90, 940, 968, 485, False),  # its diagonal is longer than the recess
    ],
)
def test_tilting_in(
    length: int, thickness: int, opening: int, recess: int, height: int, possible: bool
) -> None:
    """Mathematics: len cos a + t sin a = opening less play, height len sin a + t cos a."""
    tilt = tilt_in(*(Fraction(size) for size in (length, thickness, opening, recess, height)))
    assert tilt.possible is possible
    angle = math.radians(tilt.angle_degrees)
    if angle:
        assert length * math.cos(angle) + thickness * math.sin(angle) == pytest.approx(opening - 4)
        assert tilt.needed_height == pytest.approx(length * math.sin(angle) + thickness * math.cos(angle))
