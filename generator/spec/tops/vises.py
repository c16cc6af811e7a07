"""Vises at the edge of a top."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Literal

from pydantic import Field

from generator.spec.fields import Count, Force, Length
from generator.spec.item import Node

Corner = Literal["left front", "right front", "left back", "right back"]


class Vise(Node):
    """A vise at the front or rear edge, beside a corner post. Measure yours with its jaws closed."""

    at: Corner
    """Corner of the top beside which it is. The jaw begins at the inner side of the corner post."""
    jaw: tuple[Length, Length]
    """[width, height] of the jaw."""
    reach: Length
    """How far screw and bars reach in below the top from its edge, when the jaws are closed."""
    drop: Length = Fraction(60)
    """Distance from the face of the top down to the screw and its bars. The block below the top makes up for it."""
    bolts: Count = 4
    """Bolts that hold it, in two rows."""
    force: Force = Fraction(4000)
    """Force with which its jaws press: 3 to 5 kN (common practice)."""


class ViseKeys(Node):
    """What is clamped to the edge of the top."""

    vise: Annotated[tuple[Vise, ...], Field(max_length=8)] = ()
    """Vises, each at a corner. Holes, brackets and all that is below keep clear of them."""
