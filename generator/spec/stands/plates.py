"""Keys that all stands have that come by the piece: how many, and the plate between frame and stand."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from pydantic import Field

from generator.spec.fields import Length
from generator.spec.item import Node


class Plate(Node):
    """The plate between frame and caster, flush with the frame's outside. `size` is [X, Y]."""

    size: tuple[Length, Length] = (Fraction(170), Fraction(170))
    """[X, Y]; large enough for the caster's holes and for bolts into the bars above."""
    thickness: Length = Fraction(10)
    """Thickness of the plate."""


class PlateKeys(Node):
    """How many, and the plate."""

    count: Literal[4, 6] = 4
    """Four, or six for a long or heavy bench."""
    plate: Plate = Field(default_factory=Plate)
