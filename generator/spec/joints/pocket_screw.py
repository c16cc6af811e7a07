"""Pocket screws in a spec: their card."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from generator.spec.fields import Count, Length, WoodScrewField, Words
from generator.spec.joints.card import JointItem, Stiffness

#: How hard a joint of two pocket screws is to turn, from memory.
USUAL = (Fraction(1), Fraction(3))


class PocketScrew(JointItem):
    """Wood screws that come at a slope out of pockets in one timber, through its end into another."""

    kind: Literal["pocket screw"]
    """Kind of the goods: pocket screw."""
    screw: WoodScrewField
    """Size and length of the wood screw, such as 4x60 or #10 x 2 1/2."""
    setting: Length = Fraction(38)
    """Thickness that the pocket jig is set to. A thicker timber is drilled as one of this thickness."""
    before: Length = Fraction(28)
    """Wood before the head, along the screw to the end of its timber. The stop collar of the drill sets it."""
    drill: Length = Fraction(19, 2)
    """Diameter of the stepped drill: a little more than the head."""
    count: Count = 2
    """Screws a joint, one beside the other along the timber that they go into."""
    apart: Length = Fraction(20)
    """Distance between the screws of a joint."""
    bit: Words = "driver with a long square bit"
    """What drives it, in your own words."""
    stiffness: Stiffness = USUAL
    """How hard one joint is to turn, in kN m/rad: [least, most], or one number if you measured it."""
