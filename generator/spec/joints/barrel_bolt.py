"""Bolts with barrel nuts in a spec: their card."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from generator.spec.fields import Length, ScrewField
from generator.spec.item import Node
from generator.spec.joints.card import JointItem, Stiffness

#: How hard one bolted joint is to turn, from memory.
USUAL = (Fraction(3), Fraction(15))


class Barrel(Node):
    """A round nut across the member. The bolt pulls it."""

    diameter: Length
    """Diameter of the nut and of its hole."""
    length: Length
    """Length of the nut, across the bolt."""
    from_end: Length
    """Distance from the shoulder of the member to the middle of the nut. Long is strong: seven bolt diameters."""


class Recess(Node):
    """A hole with a flat bottom in the outside of the post. Washer and head are in it."""

    diameter: Length
    """Diameter of the recess, larger than the washer."""
    depth: Length
    """Depth of the recess. The head must not stand out of it."""


class BarrelBolt(JointItem):
    """A bolt through one timber into a barrel nut in another. It can be taken apart."""

    kind: Literal["barrel bolt"]
    """Kind of the goods: barrel bolt."""
    screw: ScrewField
    """Thread and length of the bolt under its head, such as M10x160."""
    hole: Length
    """Diameter of the bolt's hole, about 1 mm more than the bolt."""
    washer: tuple[Length, Length]
    """[outside diameter, thickness] of the washer under the head: three bolt diameters wide or more."""
    barrel: Barrel
    recess: Recess
    beyond: Length = Fraction(15)
    """How far the bolt's hole goes on behind the barrel nut."""
    stiffness: Stiffness = USUAL
    """How hard one joint is to turn, in kN m/rad: [least, most], or one number if you measured it."""
