"""What slides out of a bench can tip it: the laws, and what lets one be open where a pull would tip the bench."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from generator.bench.law import WORK, Law, said
from generator.codes import Code
from generator.spec.schema import Spec
from generator.units.sizes import KG_PER_LB

#: The load of the work that has something open.
PULLED_WITH_ONE_OPEN = "a pull at the top edge with one full drawer open"

ONE_OPEN = Law(
    Code.DRAWER_TIPS, "error", "One full drawer may be open", "One full drawer tips the bench by its weight alone",
    "Make the bench deeper, the drawers' travel shorter or their load smaller, or put ballast at the far side.",
    "The first open drawer brings the bench down on someone's feet.",
    "depth, travel, load and ballast share in it: no single value follows from the check", "tip",
    quantity="moment that holds the bench down, one open",
)  # fmt: skip
ALL_OPEN = Law(
    Code.DRAWERS_OPEN, "warning", "All drawers may be open at once",
    "Not all full drawers may be open at once: a pull at the top edge would tip the bench",
    "Write on the bench how many may be open. Catches that let only one drawer open make it safe.",
    "Full drawers reach out beyond the supports, and it is easy to leave several open.", WORK, "tip",
    quantity="how many may be open",
)  # fmt: skip


def none_open(spec: Spec, ballast: float, further: float) -> str:
    """What lets one drawer be open: this much ballast (kg) at the far side, or supports further out (mm)."""
    pounds = spec.units == "in"
    mass = f"{ceil(ballast / KG_PER_LB)} lb" if pounds else f"{ceil(ballast)} kg"
    return (
        "Keep every drawer shut while someone pulls or leans at the top edge. To open one, put "
        f"{mass} of ballast on the far side of the base, or set the supports {said(spec, Fraction(ceil(further)))} "
        "further out. Or fix the bench to the wall. Then fit catches that let only one open."
    )
