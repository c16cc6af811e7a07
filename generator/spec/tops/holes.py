"""The grid of dog holes in a top."""

from __future__ import annotations

from fractions import Fraction

from generator.spec.fields import Length, LengthOrZero
from generator.spec.item import Node


class Holes(Node):
    """A grid of dog holes through the top, with equal margins."""

    diameter: Length = Fraction(20)
    """Diameter of each hole. It must suit your dogs and clamps."""
    pitch: Length = Fraction(96)
    """Distance between neighbouring holes, from centre to centre, both ways."""
    edge: Length = Fraction(60)
    """Least distance from the edge of the top to the centre of a hole."""
    keep_clear: LengthOrZero = Fraction(3)
    """Least distance from a hole to the side of a bar below. Holes that are nearer are left out."""
