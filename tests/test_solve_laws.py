"""What holds for every bench: sums, faces that meet, one result in both units, and what a longer bench changes."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction
from itertools import combinations, pairwise
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator.bench.model import Bench, Part
from generator.bench.role import Role
from generator.bench.solve import solve
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.geometry import AXES
from generator.spec.load import read_spec
from generator.writers.figures_json import figures_data, figures_json
from tests.effort import examples
from tests.strategies import GAP, LIFT, STEP, TOTE, Plan, opening_of, plans, spec_text

pytestmark = pytest.mark.usefixtures("quick_plans")

ROOT = Path(__file__).resolve().parent.parent
# the same benches each time: more of them cost every run and find nothing new in it
some = settings(max_examples=examples(20, 60), deadline=None, suppress_health_check=[HealthCheck.too_slow])
fewer = settings(some, max_examples=examples(10, 40))
few = settings(some, max_examples=examples(4, 12))

ONE_ZONE = """\
spec: 1
title: One zone
bench: {length: 1300, depth: 700, height: 900}
zones:
  - name: front
    bays:
      - {name: left, stack: [{open: share}]}
      - {name: right}
"""
TWO_ZONES = """\
spec: 1
title: Two zones
bench: {length: 1300, depth: 900, height: 900}
zones:
  - {name: front, bays: [{}, {}]}
  - {name: back, bays: [{}, {}]}
"""


def solved(text: str) -> Bench:
    return solve(read_spec(text, "bench.yml"))


def bars_of(bench: Bench) -> list[Part]:
    return [part for part in bench.parts if part.kind == "profile"]


def figures_of(text: str) -> dict[str, Any]:
    loaded = read_spec(text, "bench.yml")
    return figures_data(compute(solve(loaded))[0])


# --- sums


def bays_and_posts_are_the_length_and_zones_and_bars_the_depth(plan: Plan, bench: Bench) -> None:
    layout, section = bench.layout, plan.section
    assert sum(zone.y.size for zone in layout.zones) + (len(layout.zones) + 1) * section == plan.depth
    assert [zone.y.size for zone in layout.zones] == [zone.depth for zone in plan.zones]
    for zone, drawn in zip(layout.zones, plan.zones, strict=True):
        assert [bay.width for bay in zone.bays] == [bay.width for bay in drawn.bays]
        assert sum(bay.width for bay in zone.bays) + (len(zone.bays) + 1) * section == plan.length
        # left edges are absolute, and each bay lies between two of them
        assert zone.post_edges[0] == 0
        assert zone.post_edges[-1] == plan.length - section
        edges = pairwise(zone.post_edges)
        assert [(bay.x.low, bay.x.high) for bay in zone.bays] == [(a + section, b) for a, b in edges]


@some
@given(st.integers(8000, 30_000), st.integers(1, 3), st.sampled_from(["0.5", "1", "0.1", "2.5", "1/3"]))
def test_rounded_shares_keep_the_sum(tenths: int, weight: int, step: str) -> None:
    length = Fraction(tenths, 10)
    bays = "{name: a}, {name: b, width: 200.3}, {name: c}, {name: d, width: share " + f"{weight}}}"
    text = ONE_ZONE[: ONE_ZONE.index("zones:")] + f"zones: [{{name: front, bays: [{bays}]}}]\n"
    size = f"length: {tenths / 10}, round_shares: {{step: {step}, remainder: c}}"
    a, b, c, d = (bay.width for bay in solved(text.replace("length: 1300", size)).layout.bays)
    rest = length - 5 * 40 - Fraction("200.3")
    assert a + b + c + d == length - 5 * 40
    assert a % Fraction(step) == d % Fraction(step) == 0
    assert b == Fraction("200.3")
    for width, share in ((a, 1), (d, weight)):
        assert 0 <= rest * share / (2 + weight) - width < Fraction(step)


def the_heights_are_the_sum_of_their_parts(plan: Plan, bench: Bench) -> None:
    levels = bench.layout.levels
    assert levels.frame_height + 127 + 10 + 18 == plan.height
    assert levels.tray_top + levels.clamp_gap + plan.section == levels.frame_height
    assert levels.opening == opening_of(plan.end_rail, plan.section, plan.trim)
    # the sheet lies in the middle of the bar whose slot holds it
    assert levels.tray_bottom + levels.tray_top == 2 * plan.end_rail + plan.section


def fronts_and_gaps_fill_the_opening(plan: Plan, bench: Bench) -> None:
    bottom, opening = bench.layout.levels.base_top, bench.layout.levels.opening
    for zone, drawn in zip(bench.layout.zones, plan.zones, strict=True):
        for bay, bay_plan in zip(zone.bays, drawn.bays, strict=True):
            filling = [item for item in bay_plan.stack if item.kind in ("drawer", "open")]
            fronts = [d.sizes for d in bench.storage.drawers if d.bay == bay.name]
            spaces = [space for space in bench.storage.open if space.bay == bay.name]
            placed = [(d.front_bottom, d.front_height) for d in fronts] + [
                (s.bottom, s.height) for s in spaces
            ]
            totes = [tote for tote in bench.storage.totes if tote.bay == bay.name]
            if filling:
                placed += [(tote.bottom, TOTE + LIFT) for tote in totes]
                placed.sort()
                assert sum(height for _, height in placed) + (len(placed) + 1) * GAP == opening
                edges = [(bottom, bottom), *((low, low + high) for low, high in placed)]
                edges.append((bottom + opening, bottom + opening))
                assert all(above[0] - below[1] == GAP for below, above in pairwise(edges))
                assert [size for _, size in placed if size != TOTE + LIFT or not totes] == [
                    i.size for i in filling
                ]
            elif totes:
                # what is left is shared equally below and above
                assert totes[0].bottom - bottom == bottom + opening - totes[-1].top >= 0
                assert all(above.bottom - below.top == LIFT for below, above in pairwise(totes))


# --- bars


def ends(bar: Part) -> Iterator[tuple[int, Fraction]]:
    span = bar.box.span(bar.along)
    yield 0, span.low
    yield 1, span.high


def lies_on(bar: Part, end: int, at: Fraction, other: Part) -> bool:
    """The end's whole section lies on a side of the other bar, with no gap; not on its end."""
    if other.along == bar.along:
        return False
    face = other.box.span(bar.along).high if end == 0 else other.box.span(bar.along).low
    return face == at and all(
        other.box.span(axis).low <= bar.box.span(axis).low
        and bar.box.span(axis).high <= other.box.span(axis).high
        for axis in AXES
        if axis != bar.along
    )


def every_butt_end_lies_on_the_face_of_another_bar(plan: Plan, bench: Bench) -> None:
    bars, through = bars_of(bench), "long rail" if plan.rails_through else "corner post"
    limits = {"x": plan.length, "z": bench.layout.levels.frame_height}
    found = set()
    for bar in bars:
        for end, at in ends(bar):
            on = [other for other in bars if other is not bar and lies_on(bar, end, at, other)]
            if bar.group == through:
                assert on == []
                assert at == (0 if end == 0 else limits[bar.along])
            else:
                assert len(on) == 1, f"the end {end} of {bar.mark} lies on {[other.mark for other in on]}"
                found.add((bar.mark, on[0].mark))
    assert {(joint.member, joint.crossing) for joint in bench.joints} == found
    assert len(bench.joints) == 2 * (len(bars) - 4)
    assert bench.findings == ()


def no_two_bars_overlap(plan: Plan, bench: Bench) -> None:
    for one, other in combinations(bars_of(bench), 2):
        assert not one.box.overlaps(other.box), f"{one.mark} and {other.mark}"


def every_bar_has_its_section_and_its_length_between_faces(plan: Plan, bench: Bench) -> None:
    s, frame = plan.section, bench.layout.levels.frame_height
    rails, posts = (plan.length, frame - 2 * s) if plan.rails_through else (plan.length - 2 * s, frame)
    lengths = {
        "corner post": posts,
        "long rail": rails,
        "inner post": frame - 2 * s,
        "end spine post": plan.end_rail - s,
    }
    for bar in bars_of(bench):
        assert bar.length == lengths.get(bar.group, plan.depth - 2 * s)
        assert [bar.box.span(axis).size for axis in AXES if axis != bar.along] == [s, s]


def tapped_ends_are_clips_and_screws(plan: Plan, done: Figures) -> None:
    figures = figures_data(done)
    joints, bars = figures["joints"], [part for part in figures["parts"] if part["kind"] == "profile"]
    assert joints["tapped_ends"] == joints["end_clips"] + joints["through_screws"]
    assert joints["tapped_ends"] == 2 * (sum(bar["count"] for bar in bars) - 4) == len(figures["joint_rows"])
    assert joints["access_holes"] == joints["end_clips"]
    counts = {row["item"]: row["count"] for row in figures["hardware"]}
    assert counts["end-clip"] == joints["end_clips"]
    assert counts.get("through-screw", 0) == joints["through_screws"]
    assert counts["slot-nut"] >= len(figures["casters"]["bolts"]) == 4 * plan.casters


# --- figures


def every_part_is_there(bench: Bench, figures: Figures) -> None:
    for part in bench.parts:
        assert min(part.box.size) > 0, f"{part.mark} {part.group}"
    assert len({part.mark for part in bench.parts}) == len(bench.parts)
    assert sorted(mark for row in figures.parts for mark in row.marks) == sorted(
        part.mark for part in bench.parts
    )
    for row in figures.parts:
        assert row.mass > 0
        assert min(row.length, row.width, row.thickness) > 0
        assert row.count == len(row.marks) == len(row.pieces)


#: Benches are drawn and solved once for all of these.
LAWS: tuple[Callable[[Plan, Bench], None], ...] = (
    bays_and_posts_are_the_length_and_zones_and_bars_the_depth,
    the_heights_are_the_sum_of_their_parts,
    fronts_and_gaps_fill_the_opening,
    every_butt_end_lies_on_the_face_of_another_bar,
    no_two_bars_overlap,
    every_bar_has_its_section_and_its_length_between_faces,
)


@fewer
@given(plans())
def test_the_laws_of_sums_bars_and_parts_hold(plan: Plan) -> None:
    bench = solved(spec_text(plan))
    for law in LAWS:
        law(plan, bench)
    figures, _ = compute(bench)
    tapped_ends_are_clips_and_screws(plan, figures)
    every_part_is_there(bench, figures)
    is_finite_json(figures)


def scalars(value: Any) -> Iterator[Any]:
    if isinstance(value, dict):
        assert all(isinstance(key, str) for key in value)
        value = list(value.values())
    if isinstance(value, list):
        for item in value:
            yield from scalars(item)
    else:
        yield value


def is_finite_json(figures: Figures) -> None:
    data = json.loads(
        figures_json(figures), parse_constant=lambda word: pytest.fail(f"{word} in figures.json")
    )
    assert all(value is None or isinstance(value, str | bool | int | float) for value in scalars(data))


def test_another_hash_seed_gives_the_same_bytes() -> None:
    program = (
        "import pathlib; from generator.spec.load import read_spec_file; from generator.bench.solve import solve; "
        "from generator.figures.compute import compute; from generator.writers.figures_json import figures_json; "
        "loaded = read_spec_file(pathlib.Path('specs/demo.yml')); "
        "print(figures_json(compute(solve(loaded))[0]))"
    )
    outputs = {
        subprocess.run(
            [sys.executable, "-c", program],
            cwd=ROOT,
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }
    assert len(outputs) == 1


def numbers(value: Any) -> Any:
    """The figures without their texts: what must not depend on the unit in which the spec was written."""
    if isinstance(value, dict):
        return {key: numbers(item) for key, item in value.items() if key not in ("spec", "detail")}
    if isinstance(value, list):
        return [numbers(item) for item in value]
    return "" if isinstance(value, str) else value


@few
@given(plans())
def test_the_same_spec_and_the_same_lengths_in_inches_give_equal_figures(plan: Plan) -> None:
    metric, again, imperial = (figures_of(spec_text(plan, unit)) for unit in ("mm", "mm", "in"))
    assert again == metric
    assert metric["spec"]["units"] == "mm"
    assert imperial["spec"]["units"] == "in"
    # wood screws are bought by the system of the spec, so their own sizes, holes and checks differ
    for figures in (metric, imperial):
        figures["shop"] = figures["shop"] | {"screw_holes": []}
        figures["checks"] = [check for check in figures["checks"] if not check["code"].startswith("screw-")]
        for rows in ("hardware", "purchases"):
            figures[rows] = [row for row in figures[rows] if "screw" not in row["item"]]
        del figures["purchase_total"]
        figures["loads"]["lifted_by_top"] = [
            row | {"bears": None} if "screw" in row["name"] else row
            for row in figures["loads"]["lifted_by_top"]
        ]
        # brackets are advised at round distances of the spec's own unit
        figures["sway"] = [row | {"then": None} for row in figures["sway"]]
    assert numbers(metric) == numbers(imperial)
    for key in ("mark", "group", "material", "tongues"):
        assert [part[key] for part in metric["parts"]] == [part[key] for part in imperial["parts"]]
    assert [check["code"] for check in metric["checks"]] == [check["code"] for check in imperial["checks"]]


# --- a change of length

#: What a part's sizes grow by when its bay (or the gap between lines) grows by `bay` and the bench by `whole`.
Growth = Callable[[Fraction, Fraction], tuple[Fraction, Fraction]]
NOTHING = Fraction(0)
GROWTH: dict[str, Growth] = {
    "long rail": lambda bay, whole: (whole, NOTHING),
    "tray": lambda bay, whole: (whole, NOTHING),
    "top": lambda bay, whole: (whole, NOTHING),
    "spine panel": lambda bay, whole: (bay, NOTHING),
    "back panel": lambda bay, whole: (bay, NOTHING),
    "tray trim": lambda bay, whole: (bay, NOTHING),
    "shelf": lambda bay, whole: (bay, NOTHING),
    "drawer front and back": lambda bay, whole: (bay, NOTHING),
    "drawer bottom": lambda bay, whole: (bay, NOTHING),
    "drawer face": lambda bay, whole: (bay, NOTHING),
    "tote runner": lambda bay, whole: (NOTHING, bay / 2),
}


@fewer
@given(
    # a middle pair of stands may bring a cross-member of its own; tests/bench/test_middle_stands.py has its law
    plans(alike=True).map(lambda plan: replace(plan, casters=4)),
    st.integers(-60, 400).filter(bool).map(lambda n: n * STEP),
)
def test_another_length_changes_all_that_depends_on_it_and_nothing_else(plan: Plan, change: Fraction) -> None:
    before, after = solved(spec_text(plan)), solved(spec_text(plan, length=plan.length + change))
    widths = [bay.width for bay in plan.zones[0].bays]
    grown = [change * width / sum(widths) for width in widths]
    lines = before.layout.lines
    moved = tuple(line + sum(grown[: index + 1]) for index, line in enumerate(lines))
    assert after.layout.lines == moved
    for old, new in zip(before.parts, after.parts, strict=True):
        assert (old.mark, old.group) == (new.mark, new.group)
        bay = sum(line + plan.section / 2 <= old.box.x.middle for line in lines)
        growth = GROWTH[old.group](grown[bay], change) if old.group in GROWTH else (NOTHING, NOTHING)
        assert (new.length - old.length, new.width - old.width) == growth, f"{old.mark} {old.group}"
        assert new.thickness == old.thickness
    last = plan.length - plan.section
    places = {NOTHING: NOTHING, last: last + change} | dict(zip(lines, moved, strict=True))
    for old, new in zip(before.of(Role.LONG_RAIL), after.of(Role.LONG_RAIL), strict=True):
        assert holes(new) == [places[edge] for edge in holes(old)]


def holes(rail: Part) -> list[Fraction]:
    """Left edges of the members whose keys and screws go through the rail."""
    to_edge = rail.box.x.low - rail.thickness / 2
    return [op.at[0] + to_edge for op in rail.operations if op.op in ("access hole", "through hole")]


@few
@given(plans(alike=True), st.integers(1, 200).map(lambda n: n * STEP))
def test_a_longer_bench_has_other_sticks_and_diagonals(plan: Plan, change: Fraction) -> None:
    before = figures_of(spec_text(plan))
    after = figures_of(spec_text(plan, length=plan.length + change))
    for old, new in zip(before["sticks"], after["sticks"], strict=True):
        same = [mark["at"] for mark in old["marks"]] == [mark["at"] for mark in new["marks"]]
        assert same == (old["along"] != "x"), old["name"]
    for old, new in zip(before["diagonals"], after["diagonals"], strict=True):
        assert (old["value"] == new["value"]) == (old["name"] == "end frame"), old["name"]
    assert before["spec"]["checksum"] != after["spec"]["checksum"]
    assert before["mass"]["empty"] < after["mass"]["empty"]
