"""Mortise and tenon in a spec: its card."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Literal

from generator.spec.fields import Length, LengthOrZero, Words, number_field
from generator.spec.joints.card import JointItem, Stiffness

#: How hard one glued tenon is to turn, from memory.
USUAL = (Fraction(10), Fraction(40))
Minutes = Annotated[Fraction, *number_field(1, 600, "minutes", "")]


class Tenon(JointItem):
    """A tenon on the end of a member in a mortise of the timber that it meets. It is glued."""

    kind: Literal["mortise and tenon"]
    """Kind of the goods: mortise and tenon."""
    thickness: Length
    """Thickness of the tenon, as the chisel or cutter: usually a third of the member's thickness."""
    length: Length
    """Longest that a tenon is. Where it would meet another, or come out of the post, it is shorter."""
    stub: Length = Fraction(12)
    """Length of a tenon in a lying member, where a long one would come out (common practice)."""
    shoulder: LengthOrZero = Fraction(10)
    """Shoulder at both edges of the tenon. At least the depth of the panels' grooves."""
    glue: Words = "PVA glue"
    """The glue, in your own words."""
    open_time: Minutes = Fraction(15)
    """Minutes from the first glue until the clamps must be tight. See the glue's label."""
    clamp_time: Minutes = Fraction(60)
    """Minutes until the clamps can come off. See the glue's label."""
    stiffness: Stiffness = USUAL
    """How hard one joint is to turn, in kN m/rad: [least, most], or one number if you measured it."""
