"""Half laps in a spec: their card."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from generator.spec.fields import Length, Words
from generator.spec.joints.card import JointItem, Stiffness
from generator.spec.joints.tenon import Minutes

#: How hard one glued lap is to turn, from memory.
USUAL = (Fraction(20), Fraction(60))


class HalfLap(JointItem):
    """Half of a member's end is glued into a notch of the timber that it meets, flush outside or above."""

    kind: Literal["half lap"]
    """Kind of the goods: half lap."""
    stub: Length = Fraction(12)
    """Length of a lap in a lying member, where half of it would weaken it (common practice)."""
    glue: Words = "PVA glue"
    """The glue, in your own words."""
    open_time: Minutes = Fraction(15)
    """Minutes from the first glue until the clamps must be tight. See the glue's label."""
    clamp_time: Minutes = Fraction(60)
    """Minutes until the clamps can come off. See the glue's label."""
    stiffness: Stiffness = USUAL
    """How hard one joint is to turn, in kN m/rad: [least, most], or one number if you measured it."""
