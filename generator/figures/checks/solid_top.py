"""Checks of a top of solid wood: its brackets let it move across the grain, and no edging holds its ends."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.law import Law, by_the_check, said
from generator.bench.model import Bench
from generator.bench.role import Role
from generator.codes import Code
from generator.figures.checks.check_result import CheckResult, check_result
from generator.figures.checks.top import named_bracket
from generator.figures.screws import bracket_screws
from generator.figures.seasons import moistures
from generator.figures.solid_top import is_solid, moves_in_depth, slot_needed
from generator.findings import Change
from generator.provenance import constant

#: Metal left at each end of a slot (mm). Common practice, no source.
BEYOND_SLOT = constant(5, "metal beyond the end of a slot")

TOP_MOVES = Law(
    Code.TOP_MOVES, "warning", "The brackets let the top of solid wood move",
    "The brackets hold the top of solid wood fast",
    "Use brackets with long holes across the grain.",
    "It grows and shrinks with the seasons. Held fast it cracks, or tears out its screws.", by_the_check,
    quantity="length of the long holes",
)  # fmt: skip
EDGING_GRAIN = Law(
    Code.EDGING_GRAIN, "warning", "No edging holds the end grain of the top",
    "The edging at the ends of a top of solid wood holds it fast", "Leave the edging out at the ends.",
    "Glued across the grain it breaks off, or the top cracks.", by_the_check,
)  # fmt: skip


def solid_checks(bench: Bench) -> Iterator[CheckResult]:
    """The slots of the brackets, then the edging; nothing for a top of sheet."""
    if not is_solid(bench):
        return
    spec = bench.spec
    if not moves_in_depth(bench):
        turned = Change("top.run", "length") if spec.top.run == "depth" else Change(_grain(bench), "length")
        yield check_result(
            TOP_MOVES, False, "grain from front to rear", ("top", "material"), remedy=(turned,),
            advice="Let the grain of the top run along the bench: the slots of brackets run from front to rear.",
        )  # fmt: skip
        return
    needed, card = slot_needed(bench, moistures(bench)[2]), bench.goods.bracket
    slot = card.slot if card else None
    has = slot or next(each.screw.shank for each in bracket_screws(bench))
    yield check_result(
        TOP_MOVES, has >= needed, "brackets of the top", ("top", "bracket"), value=has, limit=needed, unit="mm",
        sense="at least", remedy=_slotted(bench, needed),
    )  # fmt: skip
    edging = spec.top.edging
    if edging is not None:
        ends = [side for side in edging.sides if side in ("left", "right")]
        sides = [side for side in edging.sides if side not in ends] or ["front"]
        yield check_result(
            EDGING_GRAIN, not ends, " and ".join(ends) or "front and rear", ("top", "edging", "sides"),
            remedy=(Change("top.edging.sides", f"[{', '.join(sides)}]"),),
        )  # fmt: skip


def _grain(bench: Bench) -> str:
    return f"grain.{bench.of(Role.TOP)[0].group}"


def _slotted(bench: Bench, needed: Fraction) -> tuple[Change, ...]:
    """The top's bracket, or a typical one, with one slot that is long enough in a leg that holds it."""
    spec, card = bench.spec, bench.goods.bracket
    named = () if spec.top.bracket else named_bracket(bench)
    name = spec.top.bracket or named[-1].value
    along, leg, thickness = card.size if card else (Fraction(36), Fraction(40), bench.goods.bracket_thickness)
    wide = max(leg, needed + thickness + 2 * BEYOND_SLOT)
    middle = (wide + thickness) / 2
    size = f"[{said(spec, along)}, {said(spec, wide)}, {said(spec, thickness)}]"
    return (
        *(change for change in named if not change.path.endswith(".size")),
        *((Change(f"hardware.{name}.size", size),) if wide > leg or not card else ()),
        Change(f"hardware.{name}.holes", f"[{said(spec, middle)}]"),
        Change(f"hardware.{name}.slot", said(spec, needed)),
    )
