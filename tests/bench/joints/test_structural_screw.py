"""Structural screws and half laps: their laws by hand with their cures, where they are cut, what is bought."""

from __future__ import annotations

from fractions import Fraction
from functools import cache

import pytest

from generator.bench.joints import holds, suits
from generator.bench.law import Case, Verdict
from generator.bench.model import Bench
from generator.bench.solve import solve
from generator.figures.hardware import hardware
from generator.figures.parts import part_rows
from generator.spec.adapt import adapted
from generator.spec.load import LoadedSpec, read_spec
from generator.spec.samples import sample_text

TEXT = sample_text("lumber")
INCH = Fraction(254, 10)
F = Fraction

#: Code, what is changed in the sample, value and limit in inches.
CASES = (
    # 6 less what is left of a post of 3 1/2 under a recess of 1/2; eleven diameters of 5/16
    ("screw-in-end", "length: 7", "length: 6", F(3), F(55, 16)),
    # five diameters along the grain
    ("screws-apart", "apart: 2", "apart: 1", F(1), F(25, 16)),
    ("screw-head-recess", "recess: {diameter: 3/4", "recess: {diameter: 1/2", F(1, 2), F(5, 8)),
    ("screw-head-sunk", "depth: 1/2}, count", "depth: 1/8}, count", F(1, 8), F(1, 4)),
    ("screw-shank-hole", "hole: 11/32", "hole: 1/4", F(1, 4), F(5, 16)),
    # 0.85 of the thread
    ("screw-pilot", "pilot: 7/32", "pilot: 9/32", F(9, 32), F(5, 16) * F("0.85")),
)
CODES_OF_SCREWS = {code for code, *_ in CASES}
CURED_AT_SCREWS = CODES_OF_SCREWS - {"screw-in-end"}


def judged(loaded: LoadedSpec) -> dict[str, Verdict]:
    return {each.law.code.value: each for how in (holds, suits) for each in how(loaded.goods, "corner")}


@cache
def bench() -> Bench:
    return solve(read_spec(TEXT, "lumber.yml"))


@pytest.mark.parametrize(("code", "old", "new", "value", "limit"), CASES, ids=[code for code, *_ in CASES])
def test_each_law_has_its_limit_and_its_cure(
    code: str, old: str, new: str, value: Fraction, limit: Fraction
) -> None:
    assert all(each.ok for each in judged(read_spec(TEXT, "lumber.yml")).values())
    text = TEXT.replace(old, new, 1)
    assert text != TEXT
    loaded = read_spec(text, "lumber.yml")
    failed = judged(loaded)[code]
    assert not failed.ok
    assert (failed.value, failed.limit) == (value * INCH, limit * INCH)
    if callable(failed.law.cure):
        down = failed.sense == "at most"
        case = Case(loaded, bench().layout, failed.path, value * INCH, limit * INCH, down)
        changes = [(each.path, each.value) for each in failed.law.cure(case)]
        assert judged(read_spec(adapted(text, changes), "lumber.yml"))[code].ok
    assert callable(failed.law.cure) == (code in CURED_AT_SCREWS)


def test_two_screws_a_joint_are_bought_and_drilled() -> None:
    """Four long rails with two ends each: 16 screws, each with its recess, its hole and its pilot hole."""
    (row,) = (row for row in hardware(bench()) if row.kind == "structural screw")
    acts = [op.op for part in bench().parts for op in part.operations]
    assert row.count == 16
    assert {acts.count(op) for op in ("screw recess", "screw hole", "end pilot hole")} == {16}


def test_their_places_are_about_the_middle_of_the_rail() -> None:
    """The lower rail is 5 1/2 high, its screws 2 apart: at 1 3/4 and 3 3/4 of post and rail."""
    (post,) = (part for part in bench().parts if part.mark == "A1")
    (rail,) = (part for part in bench().parts if part.mark == "B1")
    heights = sorted(op.at[0] / INCH for op in post.operations if op.op == "screw hole")
    assert heights[:2] == [F(7, 4), F(15, 4)]
    pilots = [op for op in rail.operations if op.op == "end pilot hole" and op.face == "left"]
    assert [op.at[1] / INCH for op in pilots] == [F(7, 4), F(15, 4)]
    # 7 less the 3 of post under the recess
    assert {op.depth for op in pilots} == {4 * INCH}


def test_a_lap_is_half_of_the_timber_at_its_outer_or_upper_face() -> None:
    """The end member: half of 3 1/2 at its outer face, and as long as the recess of the screws leaves it in the post.

    3 1/2 less the axis at 1 3/4, half of the recess, 6 mm of wood and 2 mm.
    """
    by_mark = {part.mark: part for part in bench().parts}
    (member,) = (
        part for part in by_mark.values() if part.name == "base end member" and part.place.end == "left"
    )
    (lap,) = (op for op in member.operations if op.op == "lap" and op.face == "front")
    assert lap.size == (F(7, 4) * INCH, F(11, 2) * INCH)
    assert lap.aside == F(-7, 8) * INCH
    assert lap.depth == F(7, 2) * INCH - F(7, 4) * INCH - F(3, 8) * INCH - 8
    (notch,) = (op for op in by_mark["A1"].operations if op.purpose == f"{member.mark}, front end")
    assert (notch.op, notch.at[1], notch.depth) == ("lap notch", F(7, 8) * INCH, lap.depth)


def test_timbers_that_mirror_each_other_are_not_taken_for_equal_ones() -> None:
    """A post has its notches at its outer face, those of the rear one groove more: two pairs of mirror images."""
    rows = [row for row in part_rows(bench()) if row.group == "corner post"]
    assert [row.marks for row in rows] == [("A1",), ("A2",), ("A3",), ("A4",)]
    assert [row.other_hand for row in rows] == ["A2", "A1", "A4", "A3"]
