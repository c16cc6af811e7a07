"""How much free floor a side of a bench needs. Lengths in mm."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from generator.provenance import constant, greatest, rule

#: Floor that a person needs to work, or to stand before what is pulled out. Common practice, no source.
PERSON = constant(600, "free floor that a person needs")


@rule("common practice, no source")
def needed_floor(reaches: Sequence[tuple[Fraction, bool]], *, works: bool) -> Fraction:
    """What reaches furthest, with a person before it where one stands there; a person at least where one works.

    Each reach is measured from the edge of the top (mm); True: a person stands before it.
    """
    needed = PERSON if works else Fraction(0)
    for out, before in reaches:
        needed = greatest(needed, out + PERSON if before else out)
    return needed
