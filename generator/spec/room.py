"""The room around the bench."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated

from generator.spec.fields import LengthOrZero, number_field
from generator.spec.item import FromMemory, Node

Grip = Annotated[
    Fraction,
    *number_field(0.05, 1, "a part of the load,"),
    FromMemory("rubber on dry concrete, half of the value in tables of friction; painted or dusty: 0.3"),
]


class Room(Node):
    """The room around the bench: free floor at each side, from the edge of the top to the wall or the next machine."""

    front: LengthOrZero | None = None
    """Free floor before the bench. A side that you leave out is not checked."""
    rear: LengthOrZero | None = None
    """Free floor behind the bench."""
    left: LengthOrZero | None = None
    """Free floor at its left end, as seen from the front."""
    right: LengthOrZero | None = None
    """Free floor at its right end, as seen from the front."""
    grip: Grip = Fraction(1, 2)
    """Part of the load on it with which the floor holds a stand: 0.5 dry, 0.3 painted or dusty."""
