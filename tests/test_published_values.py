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
    INCH,
    pocket_footprint,
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


#: Specific gravity (oven-dry mass by volume at 12 %) and modulus (million psi) of clear wood. USDA Wood Handbook, Table
#: 5-3, as Oregon State University and others reprint it.
TIMBERS = {
    "American beech": (0.64, 1.72), "white ash": (0.60, 1.74), "yellow birch": (0.62, 2.01),
    "black cherry": (0.50, 1.49), "Douglas fir": (0.48, 1.95),
}  # fmt: skip


@pytest.mark.parametrize("card", cards("timber"))
def test_timbers(card: str) -> None:
    """With 12 % of water a timber weighs 1.12 of its specific gravity; spruce is that of EN 338, class C24."""
    species = typical_cards()["materials"][card]["species"]
    density = value("materials", card, "density", "density")
    modulus = value("materials", card, "modulus", "modulus")
    if species == "spruce":
        assert (density, modulus) == (420, 11_000)
        return
    gravity, psi = TIMBERS[species]
    assert density == round(gravity * 1120, -1)
    assert modulus == round(psi * 6894.757, -2)


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
    # of five, or of more than six, no more than three are sure to carry on a stiff frame: common practice, no source
    assert caster_load(300, 5).each == caster_load(300, 8).each == pytest.approx(100)


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
