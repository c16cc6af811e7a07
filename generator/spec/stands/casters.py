"""Casters in a spec: their card, and the key that chooses them."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from generator.spec.fields import Length, LengthOrZero, Mass, Name
from generator.spec.item import HardwareItem, Look, Node, Outline


class Caster(HardwareItem):
    """A swivel caster with its plate. `plate` and `holes` are [X, Y]."""

    kind: Literal["caster"]
    """Kind of the goods: caster."""
    height: Length
    """Height from the floor to the top of the caster's own plate."""
    wheel: Length
    """Diameter of the wheel."""
    trail: LengthOrZero
    """Level distance from the swivel axis to the axle."""
    plate: tuple[Length, Length]
    """Size of the caster's own plate, [X, Y]."""
    holes: tuple[Length, Length]
    """Distances between the centres of the plate's four holes, [X, Y]."""
    rating: Mass
    """Mass that one caster may carry."""

    @property
    def looks(self) -> tuple[Look, ...]:
        """By its card."""
        (long, wide), (apart, across) = self.plate, self.holes
        edges = ((long - apart) / 2, (wide - across) / 2)
        holes = tuple(
            (x, y, Fraction(0)) for x in (edges[0], long - edges[0]) for y in (edges[1], wide - edges[1])
        )
        return (
            Outline("plate, with its holes", self.plate, holes),
            Outline("wheel", (self.wheel, self.wheel), disc=True),
        )


class CasterKeys(Node):
    """What chooses casters."""

    casters: Name = "caster"
    """Which casters: a name under `hardware`."""
    brakes: Literal[2, 4] = 4
    """How many casters have a brake: 4 at the corners, or 2 at the front corners."""
    fixed: Literal["left", "right"] | None = None
    """End whose two casters do not swivel: the bench is steered from the other end. Leave it out if all swivel."""


#: Where the name is written, the section, the kinds that are allowed, and the name that the language takes.
REFERENCES = (("base.casters", "hardware", ("caster",), "caster"),)
#: The card of that name.
STANDARD = {"caster": "caster 100"}
