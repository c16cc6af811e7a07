"""Structural screws in a spec: their card."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from generator.spec.fields import Count, Length, Words
from generator.spec.item import Look, Node, ScrewOutline
from generator.spec.joints.card import JointItem, Stiffness

#: How hard a joint of two screws is to turn, from memory.
USUAL = (Fraction("0.5"), Fraction(2))


class Sink(Node):
    """A hole with a flat bottom in the outside of the timber. The head is in it."""

    diameter: Length
    """Diameter of the recess, larger than the head."""
    depth: Length
    """Depth of the recess. The head must not stand out of it."""


class StructuralScrew(JointItem):
    """Strong wood screws through one timber into the end of another. They can be driven out again."""

    kind: Literal["structural screw"]
    """Kind of the goods: structural screw."""
    diameter: Length
    """Diameter of the thread."""
    length: Length
    """Length under the head."""
    head: tuple[Length, Length]
    """[diameter, height] of the head."""
    hole: Length
    """Diameter of the hole in the timber under the head: the screw passes it."""
    pilot: Length
    """Diameter of the pilot hole in the end of the other timber: about 0.7 of the thread."""
    recess: Sink
    count: Count = 2
    """Screws a joint, one beside the other along the timber that they go through."""
    apart: Length = Fraction(45)
    """Distance between the screws of a joint."""
    bit: Words = "driver with a long bit"
    """What drives it, in your own words."""
    stiffness: Stiffness = USUAL
    """How hard one joint is to turn, in kN m/rad: [least, most], or one number if you measured it."""

    @property
    def looks(self) -> tuple[Look, ...]:
        """By its card."""
        return (ScrewOutline("", self.diameter, self.length, Fraction(0), "cap", self.head, wood=True),)
