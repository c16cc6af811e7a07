"""What joints by a screw share: cures of its length, and the law of the slot's mouth."""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor

from generator.bench.law import GOODS, Case, Law
from generator.codes import Code
from generator.findings import Change, dotted
from generator.spec.joints import EndClip, ThroughScrew
from generator.units.sizes import INCH

#: Steps of a screw's length, in metric sizes and in inches (mm).
METRIC_STEP, INCH_STEP = Fraction(5), INCH / 8


def longer_screw(case: Case) -> tuple[Change, ...]:
    """A joint's screw longer by what it lacks, by whole steps."""
    return _screw(case, case.off)


def shorter_screw(case: Case) -> tuple[Change, ...]:
    """A joint's screw shorter by what it is too long, by whole steps."""
    return _screw(case, -case.off)


def _screw(case: Case, more: Fraction) -> tuple[Change, ...]:
    card = case.goods.joints[str(case.path[1])]
    assert isinstance(card, EndClip | ThroughScrew)
    screw = card.screw
    thread, metric = screw.thread, screw.thread.startswith("M")
    step = METRIC_STEP if metric else INCH_STEP
    steps = (ceil if more > 0 else floor)((screw.length + more) / step)
    return (Change(dotted(case.path), f"{thread}x{steps * step}" if metric else f"{thread} x {steps}/8"),)


BOLT_MOUTH = Law(
    Code.BOLT_MOUTH, "error", "The screw passes the slot's mouth", "The screw is thicker than the slot's mouth",
    "Take a smaller thread here, or a bar with a wider `slot: {opening}`.", "It does not fit.", GOODS,
    quantity="diameter of the screw",
)  # fmt: skip
