"""Checks of what hangs on strips: their screws bear the loads of a bay, even pulled out."""

from __future__ import annotations

from collections.abc import Iterator

from generator.bench.hanging import most_on_a_screw
from generator.bench.law import GOODS, Law
from generator.bench.model import Bench
from generator.calculators.joint_limits import (
    part_that_tips,
    screw_gravity,
    screw_in_thin_wood,
    wood_screw_across,
)
from generator.codes import Code
from generator.figures.checks.check_result import CheckResult, check_result
from generator.figures.screws import driven
from generator.provenance import inexact, least

SCREW_ACROSS = Law(
    Code.SCREW_ACROSS, "warning", "The screws of the strips bear what hangs on them",
    "The screws of the strips bear less than what hangs on them",
    "Load this bay less, or take thicker walls and thicker screws.",
    "The screws tip over in the wall, and the strip comes off under its load.", GOODS,
    quantity="load across each screw",
)  # fmt: skip


def hanging_checks(bench: Bench) -> Iterator[CheckResult]:
    """The most loaded screw of each kind of strip."""
    for each in driven(bench):
        found = most_on_a_screw(bench, each)
        if found is None:
            continue
        load, bay = found
        gravity = screw_gravity(density=inexact(bench.goods.wall.density))
        depth = least(each.into, each.screw.length - each.through)
        bears = least(
            wood_screw_across(diameter=inexact(each.screw.shank)),
            screw_in_thin_wood(
                part=least(part_that_tips(ratio=inexact(each.through / depth)), 1.0),
                gravity_ratio=gravity,
                diameter=inexact(each.screw.shank),
                depth=inexact(depth),
            ),
        )
        yield check_result(
            SCREW_ACROSS, load <= bears, f"bay {bay}, {each.place}", ("panels", "material"), value=load,
            limit=bears, unit="N",
        )  # fmt: skip
