"""Benches with hardly any room, which no drawn plan meets: what does not fit is refused or told."""

from __future__ import annotations

from itertools import combinations

import pytest

from generator.bench.model import Bench
from generator.bench.role import Role
from generator.bench.solve import solve
from generator.figures.compute import compute
from generator.findings import SpecError
from generator.spec.load import read_spec
from tests.test_solve_laws import ONE_ZONE, TWO_ZONES, bars_of, solved

# --- single cases that no drawn plan meets


def solved_or_refused(text: str, code: str) -> Bench | None:
    """A bench, or None when the spec is refused for this reason alone."""
    try:
        return solved(text)
    except SpecError as error:
        assert [finding.code for finding in error.findings] == [code]
        return None


@pytest.mark.parametrize("rail", [666, 670, 679])
def test_a_tray_rail_never_reaches_into_the_top_end_member(rail: int) -> None:
    """The frame is 745 high, its top members begin at 705: a rail 40 high must begin at 665 or below."""
    bench = solved_or_refused(ONE_ZONE + f"tray: {{end_rail_bottom: {rail}}}\n", "height-sum")
    bars = bars_of(bench) if bench else []
    overlapping = [
        (one.mark, other.mark) for one, other in combinations(bars, 2) if one.box.overlaps(other.box)
    ]
    assert overlapping == []


def test_no_bar_has_a_length_of_zero() -> None:
    """A tray rail right on the base end member leaves nothing for the end spine posts between them."""
    bench = solved_or_refused(TWO_ZONES + "tray: {end_rail_bottom: 40}\n", "height-sum")
    assert [bar.mark for bar in (bars_of(bench) if bench else ()) if bar.length <= 0] == []


def test_lines_one_bar_apart_leave_no_panel() -> None:
    text = TWO_ZONES.replace("back, bays: [{}, {}]", "back, bays: [{width: 630}, {}]")
    assert "630" in text
    bench = solved(text)
    first, second = bench.layout.lines
    assert second - first == bench.layout.section
    assert [part.mark for part in bench.of(Role.SPINE_PANEL) if part.length <= 20] == []


def test_tray_trim_and_back_panel_do_not_overlap() -> None:
    """The angle's lower leg reaches 15 mm in from the back, the panel's face lies 14 mm in: both end at the tray."""
    bench = solved(ONE_ZONE + "tray: {trim: angle-15}\n")
    trims = bench.of(Role.TRAY_TRIM, side="back")
    legs = [(part.box.x, part.box.y, part.box.z.low, part.box.z.low + part.thickness) for part in trims]
    assert legs
    for panel in bench.of(Role.BACK_PANEL):
        for x, y, low, high in legs:
            across = min(panel.box.z.high, high) - max(panel.box.z.low, low)
            together = min(panel.box.x.overlap(x), panel.box.y.overlap(y), across)
            assert together <= 0, f"{panel.mark} and the trim overlap by {float(together)} mm"


def test_no_packing_strip_stands_in_a_tote_runner() -> None:
    """In a bay with totes below and a drawer above, both want the wall behind the front post."""
    stack = "[{totes: bin}, {drawer: share}]"
    text = ONE_ZONE.replace("[{open: share}]", stack) + "totes: {bin: {use: tote 145}}\n"
    bench = solved(text)
    strips, runners = bench.of(Role.PACKING_STRIP), bench.of(Role.TOTE_RUNNER)
    assert strips
    assert runners
    clashes = [(a.mark, b.mark) for a in strips for b in runners if a.box.overlaps(b.box)]
    assert clashes == []


@pytest.mark.parametrize(
    "text",
    [
        pytest.param(ONE_ZONE.replace("depth: 700", "depth: 300"), id="two plates of 170 in a depth of 300"),
        pytest.param(
            ONE_ZONE.replace("name: left,", "name: left, width: 155,") + "base: {count: 6}\n",
            id="a middle caster on a line near the corner",
        ),
    ],
)
def test_caster_plates_that_overlap_are_told(text: str) -> None:
    loaded = read_spec(text, "bench.yml")
    try:
        bench = solve(loaded)
    except SpecError as error:
        assert error.findings
        return
    _, findings = compute(bench)
    plates = bench.of(Role.STAND)
    if any(one.box.overlaps(other.box) for one, other in combinations(plates, 2)):
        assert [f for f in findings if f.where and f.where.path.startswith("base")] != []
