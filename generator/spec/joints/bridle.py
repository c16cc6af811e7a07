"""Bridle joints in a spec: their card."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from generator.spec.fields import Length, Words
from generator.spec.joints.card import JointItem, Stiffness
from generator.spec.joints.tenon import Minutes

#: How hard one glued bridle is to turn, from memory: as a tenon of the same thickness.
USUAL = (Fraction(10), Fraction(40))


class Bridle(JointItem):
    """A tenon as wide as its timber in a mortise that is open at the end of the other, or two prongs over it."""

    kind: Literal["bridle"]
    """Kind of the goods: bridle."""
    thickness: Length | None = None
    """Thickness of the tenon, as the chisel or cutter. Default: a third, in full millimetres or 16ths of an inch."""
    stub: Length = Fraction(12)
    """Length of prongs and tenons in a lying member, where longer ones would weaken it (common practice)."""
    glue: Words = "PVA glue"
    """The glue, in your own words."""
    open_time: Minutes = Fraction(15)
    """Minutes from the first glue until the clamps must be tight. See the glue's label."""
    clamp_time: Minutes = Fraction(60)
    """Minutes until the clamps can come off. See the glue's label."""
    stiffness: Stiffness = USUAL
    """How hard one joint is to turn, in kN m/rad: [least, most], or one number if you measured it."""
