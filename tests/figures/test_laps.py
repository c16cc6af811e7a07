"""Glued laps and bridles against a push at the top, by hand; laps that come into a post from two sides."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache
from math import hypot

import pytest

from generator.bench.frames import frame_kind
from generator.bench.model import Bench
from generator.bench.solve import solve
from generator.figures.checks.laps import lap_checks
from generator.figures.rows.checks import Check
from generator.figures.sway import joint_moments
from generator.spec.load import read_spec
from generator.spec.samples import sample_text
from tests.bench.joints.test_bridle import BRIDLED
from tests.benchmarks.timbers import faults

LUMBER = sample_text("lumber")
ALL_LAPS = LUMBER.replace("inner_post_tops: pocket", "inner_post_tops: lap")
#: Two stays at one height come into a front post from the left and from the right; the bays are empty.
STAYED = (
    re.sub(r"stack: \[.*\]}", "stack: []}", ALL_LAPS)
    + """extra:
  members:
    - {name: left stay, along: x, at: [3 1/2, 0, 14], length: 17 5/16}
    - {name: right stay, along: x, at: [24 5/16, 0, 14], length: 17 5/16}
"""
)
CODES_OF_LAPS = {"lap-moment", "laps-left"}
INCH = 25.4


@cache
def bench(text: str) -> Bench:
    return solve(read_spec(text, "bench.yml"))


def check(text: str) -> Check:
    (found,) = (each.check for each in lap_checks(bench(text)))
    return found


def lap_bears(wide: float, long: float, shear: float) -> float:
    """Moment (N m) of a glued face: shear × J over half of its diagonal, J = b1 b2 (b1² + b2²)/12."""
    return shear * wide * long * (wide**2 + long**2) / 12 / (hypot(wide, long) / 2) / 1000


def test_the_lap_of_an_end_member_bears_a_third_of_what_its_glue_does() -> None:
    """5 1/2 wide; in the post 3 1/2 less 1 3/4 less 3/8 less 8 mm; soft wood at 1 N/mm²; one face; three times safe."""
    long = (3.5 - 1.75 - 0.375) * INCH - 8
    assert check(LUMBER).limit == pytest.approx(lap_bears(5.5 * INCH, long, 1.0) / 3)


def test_a_bridle_has_two_glued_faces_and_hard_wood_bears_half_as_much_again() -> None:
    """Beech, 95 wide and 22.5 long."""
    assert check(BRIDLED).limit == pytest.approx(2 * lap_bears(95, 22.5, 1.5) / 3)


def test_the_joints_of_a_direction_bear_the_whole_push() -> None:
    """Force times height is what all of them bear together: no joint is left out and none counted twice."""
    found = bench(LUMBER)
    push, height = float(found.spec.loads.push), float(found.sway.height)
    for way in ("long", "cross"):
        assert sum(moment for _, moment in joint_moments(found, way)) == pytest.approx(push * height)


def test_a_hard_push_is_told() -> None:
    assert check(LUMBER).ok
    text = LUMBER + "loads: {push: 150 lbf}\n"
    assert check(text).ok is False
    assert check(text).value == pytest.approx(150 * 4.4482216 / 200 * float(check(LUMBER).value or 0))


def test_frames_without_laps_in_posts_are_not_judged() -> None:
    assert list(lap_checks(bench(sample_text("joiner")))) == []


def test_laps_from_two_sides_of_a_post_leave_wood_between_them() -> None:
    """6 mm: half of what is left of 3 1/2 in each; by geometry of another sort the bench is sound."""
    found = bench(STAYED)
    assert list(faults(found)) == []
    (post,) = (part for part in found.parts if part.mark == "D1")
    notches = [op for op in post.operations if op.op == "lap notch"]
    assert {op.face for op in notches} == {"left", "right"}
    assert {op.depth for op in notches} == {(Fraction(7, 2) * Fraction(254, 10) - 6) / 2}


def test_what_laps_from_two_sides_leave_of_a_thin_post_is_told() -> None:
    """Half of a post: 1 3/4 of 3 1/2 is enough, 1 1/16 of 2 1/8 is not."""
    found = bench(STAYED)
    told = {each.law.code: each for each in frame_kind(found.spec).judge(found)}["laps-left"]
    assert told.ok and told.value == Fraction(7, 4) * Fraction(254, 10)
    thin = (
        STAYED.replace("3 1/2", "2 1/8")
        .replace("length: 7, head", "length: 6, head")
        .replace("at: [24 5/16, 0, 14], length: 17 5/16", "at: [X2, 0, 14], length: SPAN")
        .replace("length: 17 5/16", "length: SPAN")
    )
    post = next(part for part in bench(thin.split("extra:")[0]).parts if part.mark == "D1")
    inches = {"SPAN": post.box.x.low - Fraction(17, 8) * Fraction(254, 10), "X2": post.box.x.high}
    for word, length in inches.items():
        thin = thin.replace(word, f"{float(length)} mm")
    found = bench(thin)
    failed = {each.law.code: each for each in frame_kind(found.spec).judge(found)}["laps-left"]
    assert not failed.ok and failed.value == Fraction(17, 16) * Fraction(254, 10)
    assert failed.path == ("materials", "leg")
