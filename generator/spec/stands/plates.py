"""Keys that all stands have that come by the piece: how many, and the plate between frame and stand."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from pydantic import Field

from generator.spec.fields import Length
from generator.spec.item import Node


class Plate(Node):
    """The plate between the frame and a caster or foot, flush with the outside of the frame."""

    size: tuple[Length, Length] = (Fraction(170), Fraction(170))
    """Size [X, Y]. There must be space for the holes of the caster or foot, and for bolts into the bars above."""
    thickness: Length = Fraction(10)
    """Thickness of the plate."""


class PlateKeys(Node):
    """How many, and the plate."""

    count: Literal[4, 6] = 4
    """How many: 4, or 6 for a long or heavy bench."""
    plate: Plate = Field(default_factory=Plate)
