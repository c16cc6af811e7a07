"""Checks of what turns about a pin: nothing may be in its way, and two that turn must not meet unnoticed."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations

from generator.bench.fillings import FILLINGS
from generator.bench.fillings.facts import Swing
from generator.bench.law import WORK, Case, Law
from generator.bench.model import Bench
from generator.calculators.swing import TOUCH, Outline, doors_meet, first_contact, rectangle
from generator.codes import Code
from generator.figures.checks.check_result import CheckResult, check_result
from generator.findings import Change, dotted
from generator.geometry import Box

#: A door that does not open so far (°) is in the way of what it hides.
LEAST = 90.0


def _other_side(case: Case) -> tuple[Change, ...]:
    """The hinges at the other side; a pair has both."""
    door = case.spec.zones[int(case.path[1])].bays[int(case.path[3])].door
    other = {"left": "right", "right": "left"}.get(door.hinge if door else "")
    return (Change(dotted(case.path), other),) if other else ()


SWING = Law(
    Code.DOOR_SWING, "warning", "Nothing is in the way of the opening door",
    "Something is in the way of the opening door",
    "Put the hinges at the other side, or free its way.", "The door hits it before it is open.", _other_side,
    quantity="angle to which the door opens",
)  # fmt: skip
MEET = Law(
    Code.DOORS_MEET, "note", "Any two doors can be open at once", "Two doors meet when both are open",
    "Open one at a time, or put the hinges of one at its other side.", "Their edges dent each other.", WORK,
)  # fmt: skip


def swing_checks(bench: Bench) -> Iterator[CheckResult]:
    """Each thing that turns against all pieces and goods at its heights, then each two of them."""
    swings = [swing for kind in FILLINGS for swing in kind.swings(bench)]
    for swing in swings:
        yield _way(bench, swing)
    for one, two in combinations(swings, 2):
        if _beside(one, two) and doors_meet(one.turning, two.turning):
            yield check_result(MEET, False, f"{one.name} and {two.name}", two.path)


def _way(bench: Bench, swing: Swing) -> CheckResult:
    found = sorted(
        (angle, name)
        for name, outline in _standing(bench, swing)
        if (angle := first_contact(swing.turning, outline)) is not None
    )
    if not found:
        return check_result(SWING, True, swing.name, swing.path)
    angle, name = found[0]
    return check_result(
        SWING, False, f"{swing.name}, {name}", swing.path, value=angle, limit=swing.turning.angle, unit="°",
        sense="at least", severity="error" if angle < LEAST else "",
    )  # fmt: skip


def _standing(bench: Bench, swing: Swing) -> Iterator[tuple[str, Outline]]:
    """What is at its heights, by its name, from above."""
    for part in bench.parts:
        if part.mark != swing.part and part.box.z.overlap(swing.z) > 0:
            yield part.mark, _outline(part.box)
    for kind in FILLINGS:
        for thing in kind.things(bench):
            box = Box.at(thing.low, _size(thing.low, thing.high))
            if box.z.overlap(swing.z) > 0 and not _turns_with(swing, box):
                yield "a pull", _outline(box)


def _size(
    low: tuple[Fraction, Fraction, Fraction], high: tuple[Fraction, Fraction, Fraction]
) -> tuple[Fraction, Fraction, Fraction]:
    return (high[0] - low[0], high[1] - low[1], high[2] - low[2])


def _turns_with(swing: Swing, box: Box) -> bool:
    """On the face of the closed door: its own pull."""
    xs = [x for x, _ in swing.turning.outline]
    return min(xs) < float(box.x.middle) < max(xs)


def _outline(box: Box) -> Outline:
    x, y = ((float(span.low), float(span.high)) for span in (box.x, box.y))
    return rectangle(x, y, TOUCH)


def _beside(one: Swing, two: Swing) -> bool:
    """At the same heights, so near that they can reach each other; both doors of a pair turn away from each other."""
    reach = sum(max(abs(x - each.turning.pin[0]) for x, _ in each.turning.outline) for each in (one, two))
    apart = abs(one.turning.pin[0] - two.turning.pin[0])
    return one.z.overlap(two.z) > 0 and one.turning.way != two.turning.way and apart < reach
