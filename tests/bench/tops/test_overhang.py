"""A top that reaches beyond its frame by side: where its edges and holes come, how far an edge sags, when it tips."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

import pytest

from generator.bench.role import Role
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.provenance import GivenValue, provenance_of
from generator.spec.load import read_spec
from tests.bench.benches import DEMO, changed, codes, solved, span

BY_SIDE = changed(DEMO, ("overhang: 0", "overhang: {front: 60, right: 25, left: 10}"))


@cache
def figures(text: str) -> Figures:
    return compute(solved(text))[0]


def test_each_side_has_its_own() -> None:
    """The frame is 2000 by 900; grid and bars stay 3 mm apart on both axes."""
    bench = solved(BY_SIDE)
    (top,) = bench.of(Role.TOP)
    assert (span(top, "x"), span(top, "y")) == ((-10, 2025), (-60, 900))
    bars = [each.box for each in bench.parts if each.is_bar and each.place.level == "top"]
    rims = [
        (top.box.x.low + x, top.box.y.low + y, size / 2)
        for (x, y), size in ((op.at, op.size) for op in top.operations if isinstance(op.size, Fraction))
    ]
    assert rims and all(
        max(bar.x.low - x, x - bar.x.high, bar.y.low - y, y - bar.y.high) >= half + 3
        for x, y, half in rims
        for bar in bars
    )
    assert figures(BY_SIDE).layout.outside_depth == 960
    assert figures(BY_SIDE).top.length == 2035 and figures(BY_SIDE).top.width == 960


def test_one_length_is_that_of_all_sides() -> None:
    every = "overhang: {front: 20, back: 20, left: 20, right: 20}"
    one, four = (solved(changed(DEMO, ("overhang: 0", each))) for each in ("overhang: 20", every))
    assert one.spec.top == four.spec.top and one.of(Role.TOP) == four.of(Role.TOP)


def test_its_numbers_know_their_line() -> None:
    """One length for all sides is the place of each; a side that is not written is a default."""
    one = read_spec(changed(DEMO, ("overhang: 0", "overhang: 20")), "bench.yml").spec.top.overhang
    assert _given(one.front).path == _given(one.left).path == ("top", "overhang")
    side = read_spec(BY_SIDE, "bench.yml").spec.top.overhang
    assert _given(side.front).path == ("top", "overhang", "front")
    assert (_given(side.front).origin, _given(side.back).origin) == ("spec", "default")


def _given(value: Fraction) -> GivenValue:
    how = provenance_of(value)
    assert isinstance(how, GivenValue)
    return how


@pytest.mark.parametrize(
    ("value", "code"),
    [("abc", "bad-length"), ("[1]", "wrong-kind"), ("-3", "out-of-range"), ("{font: 3}", "unknown-key")],
)
def test_what_is_no_overhang_is_one_fault(value: str, code: str) -> None:
    assert codes(changed(DEMO, ("overhang: 0", f"overhang: {value}"))) == [code]


def test_a_person_on_the_edge() -> None:
    """1000 N, 50 mm from the edge of the finished top, over the line on which the bench tips: farther out by 200."""
    out = {}
    for text in (DEMO, changed(DEMO, ("overhang: 0", "overhang: {front: 200}"))):
        cases = figures(text).loads.cases
        out[text] = {case.where: case.out for case in cases if case.name == "a person sits on the edge"}
    (plain, beyond) = out.values()
    assert beyond["front"] == pytest.approx(plain["front"] + 200) and beyond["rear"] == plain["rear"]
    assert not [each for each in figures(DEMO).checks if each.code == "sag-overhang"]


def test_the_edge_bends_as_a_cantilever() -> None:
    """500 N at 160 mm on a strip of 260 by 18 of 2.5 GPa: F a³ / 3 E I."""
    found = figures(changed(DEMO, ("overhang: 0", "overhang: {back: 160}")))
    (check,) = [each for each in found.checks if each.code == "sag-overhang"]
    assert check.where == "top, rear" and not check.ok
    assert check.value == pytest.approx(500 * 160**3 / (3 * 2500 * 260 * 18**3 / 12))
