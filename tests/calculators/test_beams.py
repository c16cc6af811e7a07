"""Sag of bars against handbook tables, against a frame solver on random beams, and by its laws."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from Pynite import FEModel3D

from generator.calculators.beams import (
    board_second_moment,
    line_load,
    moments_over_supports,
    sag_continuous,
    sag_point_middle,
    sag_spread,
    weight,
)
from generator.provenance import Named, constant, inexact, provenance_of

# --- published values

#: AISC Steel Construction Manual, Table 3-23, cases 7 and 1 (numbers of the cases from memory), worked out for
#: L = 1000 mm, E = 70 000 MPa, I = 101 972 mm⁴ (a tube of 40 x 40 x 3), P = 1000 N, w = 1 N/mm.
TUBE = {"span": 1000.0, "modulus": 70_000.0, "second_moment": 101_972.0}


def test_simple_beams_of_the_table() -> None:
    assert sag_point_middle(force=1000, **TUBE) == pytest.approx(2.9186, rel=1e-4)
    assert sag_spread(line_load=1, **TUBE) == pytest.approx(1.8241, rel=1e-4)


def test_section_of_a_board() -> None:
    """b h³ / 12: a board of 18 x 100 on its face and on its edge."""
    assert board_second_moment(width=100, thickness=18) == 48_600
    assert board_second_moment(width=18, thickness=100) == 1_500_000


def test_two_equal_spans() -> None:
    """w a⁴ / 185 E I and, with a load in the middle of both spans, a moment of 3 F a / 16 over the support.

    AISC Table 3-23, the beam fixed at one end and supported at the other, which is half of two equal spans.
    """
    bar = {"modulus": 70_000.0, "second_moment": 95_000.0}
    sag = sag_continuous(spans=(900.0, 900.0), line_load=1.5, force=0, **bar)
    assert sag == pytest.approx((1.5 * 900**4 / (185 * 70_000 * 95_000),) * 2, rel=2e-3)
    _, over, _ = moments_over_supports(spans=(900.0, 900.0), line_load=0, force=1000)
    assert over == pytest.approx(-3 * 1000 * 900 / 16)
    sag = sag_continuous(spans=(900.0, 900.0), line_load=0, force=1000, **bar)
    # greatest sag: F a³ / (48 √5 E I)
    assert sag == pytest.approx((1000 * 900**3 / (48 * math.sqrt(5) * 70_000 * 95_000),) * 2, rel=1e-3)


def test_four_equal_spans() -> None:
    """Moments over the supports of four equal spans under w: -0.1071, -0.0714, -0.1071 w a². Table of continuous
    beams in the AISC manual, from memory; the same numbers are 3/28, 2/28 and 3/28."""
    found = moments_over_supports(spans=(1.0,) * 4, line_load=1.0, force=0)
    assert found == pytest.approx((0, -3 / 28, -2 / 28, -3 / 28, 0))


def test_a_weight_is_a_mass_times_free_fall() -> None:
    assert weight(mass=20) == pytest.approx(196.133)
    assert line_load(mass=20, length=100) == pytest.approx(1.96133)


# --- an independent library: a frame solver

bars = st.fixed_dictionaries({"modulus": st.floats(2000, 210_000), "second_moment": st.floats(1e4, 1e6)})
lengths = st.floats(200, 1500)


def solved(
    spans: list[float], line: float, force: float, modulus: float, second_moment: float
) -> tuple[list[float], list[float]]:
    """Sags of the spans and moments over the supports by the stiffness method of a general frame solver."""
    model = FEModel3D()
    model.add_material("bar", modulus, modulus / 2.6, 0.3, 1e-9)
    model.add_section("section", 1000.0, second_moment, second_moment, second_moment)
    at = 0.0
    for i in range(len(spans) + 1):
        model.add_node(f"N{i}", at, 0, 0)
        model.def_support(f"N{i}", i == 0, True, True, i == 0, False, False)
        at += spans[i] if i < len(spans) else 0
    for i, span in enumerate(spans):
        model.add_member(f"M{i}", f"N{i}", f"N{i + 1}", "bar", "section")
        model.add_member_dist_load(f"M{i}", "FY", -line, -line)
        model.add_member_pt_load(f"M{i}", "FY", -force, span / 2)
    model.analyze_linear(check_statics=False)
    members = [model.members[f"M{i}"] for i in range(len(spans))]
    sags = [-float(member.min_deflection("dy")) for member in members]
    moments = [float(member.moment("Mz", 0)) for member in members[1:]]
    return sags, moments


@settings(max_examples=8, deadline=None)
@given(
    bar=bars,
    spans=st.lists(lengths, min_size=1, max_size=5),
    line=st.floats(0.1, 5),
    force=st.floats(0, 3000),
)
def test_a_frame_solver_finds_the_same(
    bar: dict[str, float], spans: list[float], line: float, force: float
) -> None:
    sags, moments = solved(spans, line, force, **bar)
    mine = sag_continuous(spans=spans, line_load=line, force=force, **bar)
    scale = max(sags)
    for own, other in zip(mine, sags, strict=True):
        assert own == pytest.approx(other, rel=2e-3, abs=2e-3 * scale)
    over = moments_over_supports(spans=spans, line_load=line, force=force)[1:-1]
    assert [abs(each) for each in over] == pytest.approx([abs(each) for each in moments], rel=1e-6, abs=1e-3)


@settings(max_examples=5, deadline=None)
@given(bar=bars, span=lengths, force=st.floats(1, 3000), line=st.floats(0.01, 5))
def test_a_frame_solver_finds_the_same_simple_beams(
    bar: dict[str, float], span: float, force: float, line: float
) -> None:
    assert sag_point_middle(force=force, span=span, **bar) == pytest.approx(
        solved([span], 0, force, **bar)[0][0], rel=1e-3
    )
    assert sag_spread(line_load=line, span=span, **bar) == pytest.approx(
        solved([span], line, 0, **bar)[0][0], rel=1e-3
    )


# --- laws

more = st.floats(1.0, 3.0)


@given(
    bar=bars,
    spans=st.lists(lengths, min_size=1, max_size=5),
    line=st.floats(0, 5),
    force=st.floats(0, 3000),
    more=more,
)
def test_more_load_never_sags_less(
    bar: dict[str, float], spans: list[float], line: float, force: float, more: float
) -> None:
    before = max(sag_continuous(spans=spans, line_load=line, force=force, **bar))
    behind = max(sag_continuous(spans=spans, line_load=line * more, force=force * more, **bar))
    assert behind >= before * (1 - 1e-12)


@settings(deadline=None)
@given(bar=bars, span=lengths, force=st.floats(1, 3000), more=more)
def test_a_longer_or_softer_beam_never_sags_less(
    bar: dict[str, float], span: float, force: float, more: float
) -> None:
    sag = sag_point_middle(force=force, span=span, **bar)
    assert sag_point_middle(force=force, span=span * more, **bar) >= sag
    softer = bar | {"modulus": bar["modulus"] / more}
    assert sag_point_middle(force=force, span=span, **softer) >= sag


@settings(max_examples=15, deadline=None)
@given(bar=bars, span=lengths, line=st.floats(0.01, 5))
def test_an_inner_support_never_lets_it_sag_more(bar: dict[str, float], span: float, line: float) -> None:
    whole = sag_spread(line_load=line, span=span, **bar)
    assert max(sag_continuous(spans=[span / 2, span / 2], line_load=line, force=0, **bar)) < whole


@pytest.mark.parametrize(("line", "force", "words"), [(1, 0, "load spread"), (0, 100, "loads in the middle")])
def test_moments_are_named_by_the_load_that_makes_them(line: int, force: int, words: str) -> None:
    span, spread, middle = (inexact(constant(each, "trial")) for each in (1000, line, force))
    (moment,) = moments_over_supports(spans=[span, span], line_load=spread, force=middle)[1:-1]
    how = provenance_of(moment)
    assert isinstance(how, Named)
    assert how.name == f"moment over support 2, {words}"
