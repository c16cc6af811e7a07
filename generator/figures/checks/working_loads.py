"""Checks of the finished bench under the loads of its work: does it stand, and does it stay where it is?"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from generator.bench.law import WORK, Law, said
from generator.codes import Code
from generator.figures.checks.check_result import CheckResult, check_result
from generator.figures.rows.loads import WorkingLoads
from generator.figures.working_loads import ASKED, TABLE
from generator.spec.schema import Spec

TIPS_UNDER_LOAD = Law(
    Code.TIPS_UNDER_LOAD, "warning", "A load at the edge does not tip the bench",
    "A load at the edge tips the bench, or nearly tips it",
    "Make the bench deeper or set its supports further out, or fix it to floor or wall. Until then nobody sits on it.",
    "It falls on the person who sits on its edge or pushes it.",
    "depth, stand, overhang and ballast share in it: no single value follows from the check", "tip",
    quantity="how many times what holds outweighs what turns",
)  # fmt: skip
SLIPS_AWAY = Law(
    Code.SLIPS_AWAY, "warning", "The bench stays where it is when you push it",
    "The bench slips away under a push",
    "Put brakes on all corners, or put more mass into the bench, or stand it against a wall.",
    "A bench that gives way while you saw or plane throws you off balance.", WORK, "tip",
    quantity="push under which the empty bench slips",
)  # fmt: skip
#: Below this the bench falls on whoever sits on it.
FALLS = 1.0


def load_checks(spec: Spec, loads: WorkingLoads) -> Iterator[CheckResult]:
    """The worst place of each case, then the grip on the floor."""
    for name, limit in ASKED.items():
        worst = min(
            (case for case in loads.cases if case.name == name and case.ratio is not None),
            key=lambda case: float(case.ratio or 0),
            default=None,
        )
        where = f"{name}, {worst.where}" if worst else name
        ratio = worst.ratio if worst else None
        yield check_result(
            TIPS_UNDER_LOAD, ratio is None or ratio >= limit, where, ("base",), value=ratio,
            limit=None if ratio is None else limit, sense="at least",
            advice=_further(spec, worst.further) if worst and worst.further is not None else "",
            severity="error" if name != TABLE and ratio is not None and ratio < FALLS else "",
        )  # fmt: skip
    floor = loads.floor
    yield check_result(SLIPS_AWAY, floor.slips >= floor.push, "empty bench, brakes on", ("base",),
                 value=floor.slips, limit=floor.push, unit="N", sense="at least")  # fmt: skip


def _further(spec: Spec, further: float) -> str:
    """What lets it stand: its supports further out (mm)."""
    far = said(spec, Fraction(ceil(further)))
    return (
        f"Set its supports {far} further out on this side, or make it deeper until the check is gone. "
        "Or fix it to floor or wall. Until then nobody sits on it."
    )
