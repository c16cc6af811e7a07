"""Checks of the edging of a top: its strip is wide enough to be planed flush with the board."""

from __future__ import annotations

from collections.abc import Iterator

from generator.bench.law import GOODS, Case, Law
from generator.bench.model import Bench
from generator.bench.role import Role
from generator.codes import Code
from generator.figures.checks.check_result import CheckResult, at_least, check_result
from generator.findings import Change
from generator.provenance import constant

#: Common practice, no source (mm).
PLANED_OFF = constant("1/2", "edging that is planed off flush with the board")


def _square(_: Case) -> tuple[Change, ...]:
    return (Change("top.edging.corners", "butt"),)


EDGING_NARROW = Law(
    Code.EDGING_NARROW, "error", "The edging is wide enough for the thickness of the top",
    "The edging is narrower than the top is thick", "Take a wider strip.",
    "A step is left below or above the edging.", GOODS,
    quantity="width of the strip",
)  # fmt: skip


EDGING_CORNERS = Law(
    Code.EDGING_CORNERS, "note", "Strips of the edging meet at mitred corners",
    "No two strips of the edging meet, so that none is mitred", "Leave `corners` out, or add a side.",
    "All strips are cut square.", _square,
)  # fmt: skip


def edging_checks(bench: Bench) -> Iterator[CheckResult]:
    """The width of the strip as bought."""
    edging = bench.spec.top.edging
    if edging is not None:
        width = bench.goods.strips[edging.material].width
        needed = bench.goods.top.thickness + PLANED_OFF
        yield at_least(EDGING_NARROW, width, needed, "top edging", ("materials", edging.material, "width"))
        if edging.corners == "mitred":
            met = any(part.mitres for part in bench.of(Role.TOP_EDGING))
            where = " and ".join(edging.sides)
            yield check_result(EDGING_CORNERS, met, where, ("top", "edging", "corners"))
