"""Time at the machines, and money. Minutes for each operation are common practice, no source: time your own."""

from __future__ import annotations

from collections.abc import Mapping

from generator.calculators.quantities import Minutes, Money, Ratio
from generator.provenance import constant, inexact

#: Minutes for one operation on a timber, set-up not counted.
OF_TIMBER = (
    ("mortise", 8), ("tenon", 6), ("lap notch", 6), ("lap", 5), ("panel groove", 5), ("barrel hole", 3),
    ("bolt hole", 3), ("screw hole", 3), ("joining hole", 3), ("screw pocket", 2), ("open mortise", 6),
    ("bridle tenon", 6), ("prong notch", 4), ("bridle prong", 4),
)  # fmt: skip
#: The same for all operations.
MINUTES: Mapping[str, float] = {
    name: inexact(constant(minutes, f"time for one {name}", unit="min"))
    for name, minutes in (
        ("tapped end", 3),
        ("access hole", 3),
        ("through screw hole", 5),
        ("clamp relief", 7),
        ("notch", 1),
        ("banded edge", 5),
        *OF_TIMBER,
    )
}
#: Minutes of the assembly for one thing, common practice, no source.
PLACED = inexact(constant(2, "time to find a piece and put it in its place", unit="min"))
TIGHTENED = inexact(constant(1, "time to set and tighten a fastener", unit="min"))
#: What cuts, blunt cutters and a spoiled piece add to the material.
SURCHARGE = inexact(constant("0.1", "surcharge for spoiled pieces and blunt cutters", unit=""))


def time_for(*, count: Ratio, each: Minutes) -> Minutes:
    """Minutes for a number of like operations: n t."""
    return count * each


def with_surcharge(*, price: Money, surcharge: Ratio = SURCHARGE) -> Money:
    """Price with a part on top: p (1 + s)."""
    return price * (1 + surcharge)
