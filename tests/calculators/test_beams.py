"""Sag of bars against handbook tables, against a frame solver on random beams, and by its laws."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from Pynite import FEModel3D

from generator.calculators.beams import (
    board_second_moment,
    line_load,
    sag_cantilever,
    sag_point_middle,
    sag_spread,
    weight,
)

# --- published values

#: AISC Steel Construction Manual, Table 3-23, cases 7 and 1 (numbers of the cases from memory), worked out for
#: L = 1000 mm, E = 70 000 MPa, I = 101 972 mm⁴ (a tube of 40 x 40 x 3), P = 1000 N, w = 1 N/mm.
TUBE = {"span": 1000.0, "modulus": 70_000.0, "second_moment": 101_972.0}


def test_simple_beams_of_the_table() -> None:
    assert sag_point_middle(force=1000, **TUBE) == pytest.approx(2.9186, rel=1e-4)
    assert sag_spread(line_load=1, **TUBE) == pytest.approx(1.8241, rel=1e-4)


def test_a_cantilever_is_half_of_a_beam_that_is_pressed_in_its_middle() -> None:
    """Half of a beam on two supports, seen from its middle: half the load on half the span, and the same sag."""
    bar = {"modulus": 70_000.0, "second_moment": 101_972.0}
    assert sag_cantilever(force=500, reach=500.0, **bar) == pytest.approx(
        sag_point_middle(force=1000, **TUBE)
    )


def test_section_of_a_board() -> None:
    """b h³ / 12: a board of 18 x 100 on its face and on its edge."""
    assert board_second_moment(width=100, thickness=18) == 48_600
    assert board_second_moment(width=18, thickness=100) == 1_500_000


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


@settings(deadline=None)
@given(bar=bars, span=lengths, force=st.floats(1, 3000), more=more)
def test_a_longer_or_softer_beam_never_sags_less(
    bar: dict[str, float], span: float, force: float, more: float
) -> None:
    sag = sag_point_middle(force=force, span=span, **bar)
    assert sag_point_middle(force=force, span=span * more, **bar) >= sag
    softer = bar | {"modulus": bar["modulus"] / more}
    assert sag_point_middle(force=force, span=span, **softer) >= sag
