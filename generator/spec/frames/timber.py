"""Timber frames in a spec: the card of a member's wood, and the keys that choose them."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Literal

from generator.spec.fields import Length, LengthOrZero, Modulus, Name, Words, number_field
from generator.spec.item import Node
from generator.spec.material import Material
from generator.spec.plausible import WoodDensity


class Timber(Material):
    """Solid wood planed to a section, for the members of a timber frame."""

    kind: Literal["timber"]
    """Kind of the goods: timber."""
    section: tuple[Length, Length]
    """[thickness, width] as planed. Rails and cross-members have their width upright."""
    density: WoodDensity
    """Mass per volume, at the moisture of the shop."""
    modulus: Modulus = Fraction(11_000)
    """Modulus of elasticity along the grain: 11 GPa for common softwood (EN 338, C24)."""
    creep: Annotated[Fraction, *number_field(1, 10, "a factor of creep", "")] = Fraction(8, 5)
    """How many times its first sag a timber reaches under a load that stays for years: 1.6 in a dry room."""
    species: Words = "spruce"
    """Kind of wood, such as spruce or beech."""

    @property
    def thickness(self) -> Fraction:
        """The first size of the section (mm)."""
        return self.section[0]

    @property
    def width(self) -> Fraction:
        """The second size of the section (mm)."""
        return self.section[1]


class TimberKeys(Node):
    """What chooses a timber frame."""

    system: Literal["t-slot", "timber"] = "t-slot"
    """What the frame is built of: bars with slots, or timber."""
    posts: Name | None = None
    """Timber of the posts: a name under `materials`. Only for a timber frame."""
    rails: Name | None = None
    """Timber of all rails and cross-members: a name under `materials`. Default: that of the posts."""
    groove: Length = Fraction(10)
    """Depth of the grooves that are cut into timber for the panels."""
    horns: LengthOrZero = Fraction(0)
    """How much longer a post is left at an end near a glued mortise. It is sawn off later. Usual: 25 to 35 mm."""


REFERENCES = (
    ("frame.posts", "materials", ("timber",), ""),
    ("frame.rails", "materials", ("timber",), ""),
)
