"""Joints in timber against the worked examples of the trade: a bench of 90 mm posts, number by number."""

from __future__ import annotations

from fractions import Fraction
from math import pi

import pytest

from generator.calculators import wood_joints as rules

F = Fraction


def test_a_cross_member_between_posts_of_90() -> None:
    """Depth 700: 520 between the posts, tenons 60 long and 60 wide beside the post's end, mortise 62, cut to 640."""
    shoulders = F(700) - 2 * 90
    length = rules.in_post(F(60), F(90))
    assert (shoulders, length) == (520, 60)
    assert rules.haunch_of(F(90)) == 30
    assert rules.tenon_width(F(90), F(0), F(15), rules.haunch_of(F(90))) == 60
    assert rules.mortise_depth(length) == 62
    assert rules.cut_length(shoulders, (length, length)) == 640


def test_a_lower_cross_member_has_its_tenon_in_the_middle() -> None:
    """90 wide with shoulders of 15, on a stick from 100 to 190: the tenon is from 115 to 175."""
    width = rules.tenon_width(F(90), F(15), F(15), F(0))
    assert (100 + (90 - width) / 2, 100 + (90 + width) / 2) == (115, 175)


@pytest.mark.parametrize(("thickness", "width"), [(15, 75), (12, 60), (20, 90)])
def test_a_tenon_is_no_wider_than_five_times_its_thickness(thickness: int, width: int) -> None:
    assert rules.tenon_width(F(90), F(0), F(thickness), F(0)) == width


def test_a_tenon_takes_two_thirds_of_its_post_at_most() -> None:
    assert rules.in_post(F(60), F(70)) == F(140, 3)


def test_what_else_is_in_the_post_shortens_a_tenon() -> None:
    """Posts of 70, rails of 45: a bolt of 8 in a hole of 9 leaves 35, a tenon of 15 from the other side 38."""
    assert rules.beside_bolt(F(70), F("22.5"), F(9)) == 35
    assert rules.at_right_angles(F(70), F(45), F(15)) == 38
    assert rules.facing(F(70)) == 33


def test_the_window_of_a_bolt_with_a_barrel_nut() -> None:
    """Post 90 with a recess of 15, washer 2.5, nut of 16 at 65 from the end: 150.5 to 163.5."""
    window = rules.barrel_window(
        washer=F("2.5"), through=F(90), recess=F(15), from_end=F(65), barrel=F(16), beyond=F(15)
    )
    assert (window.shortest, window.longest) == (F("150.5"), F("163.5"))


def test_what_the_wood_bears_at_a_barrel_nut() -> None:
    """Plug 11.7 kN, nut 16 × 30 at 21 N/mm² 10.1 kN; washer of 30 with a hole of 11: 612 mm², 4.6 kN."""
    found = rules.bolt_limits(from_end=65, thickness=45, barrel=16, length=30, washer=30, hole=11)
    assert found.plug == pytest.approx(11_700)
    assert found.nut == pytest.approx(10_080)
    assert pi * (30**2 - 11**2) / 4 == pytest.approx(612, abs=1)
    assert found.washer == pytest.approx(4_600, abs=20)
    assert found.least == found.washer


def test_minutes_of_a_glue_up() -> None:
    """Eight tenons 12, six clamps 3, squaring 3."""
    assert rules.glue_minutes(F(8), F(6)) == 18


def test_clamps_for_a_top_of_three_laminations() -> None:
    """A line 90 × 1800 at 0.7 N/mm² needs 113 kN, as 25 clamps of 4.7 kN give: 24 are 0.6 kN short."""
    assert pytest.approx(113_400) == 0.7 * 90 * 1800
    assert rules.clamps_for(pressure=0.7, area=90 * 1800, force=4700) == 25


def test_a_frame_leans_by_what_its_diagonals_differ() -> None:
    """1.0 on 700 × 790 is a lean of 0.75."""
    assert rules.lean(difference=1.0, diagonal=(700**2 + 790**2) ** 0.5, width=700) == pytest.approx(
        0.754, abs=1e-3
    )


def test_a_glued_lap_of_two_members_of_90() -> None:
    """172 N m at 1 N/mm²."""
    assert rules.lap_moment(one=90, other=90, shear=1.0) == pytest.approx(172_000, rel=0.005)


def test_a_solid_panel_over_the_year() -> None:
    """White oak, opening 400, groove 12, made at 9 %, room 6 to 12 %: 417.4 wide, 6.4 in its groove when dry."""
    oak = F("0.00365")
    width = rules.solid_panel_width(F(400), F(12), oak, F(3))
    assert float(width) == pytest.approx(417.4, abs=0.05)
    assert float(rules.engagement_dry(width, F(400), oak, F(3))) == pytest.approx(6.4, abs=0.05)


def test_a_sheet_in_grooves_of_12() -> None:
    """12 mm sheet that measures 11.7 in an opening of 520 × 560: 540 × 580, two clear at each edge."""
    assert (rules.panel_size(F(520), F(12)), rules.panel_size(F(560), F(12))) == (540, 580)
