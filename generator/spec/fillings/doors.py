"""Doors in a spec: the cards of hinges and catches, the key of a bay, the section that all doors share."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Literal

from pydantic import BeforeValidator, model_validator
from pydantic_core import PydanticCustomError

from generator.codes import Code
from generator.spec.fields import (
    Degrees,
    Flag,
    Length,
    LengthOrZero,
    Mass,
    Name,
    ScrewField,
    WoodScrewField,
)
from generator.spec.fillings.pulls import without_pull
from generator.spec.item import HardwareItem, Look, Node, Outline


class HingeCup(Node):
    """The cup of a hinge that sits in a hole of the door."""

    diameter: Length = Fraction(35)
    """Diameter of the cup."""
    depth: Length = Fraction(13)
    """Depth of its hole."""
    from_edge: Length = Fraction(4)
    """Wood between the edge of the door and the hole."""


class Hinge(HardwareItem):
    """A hinge of a door: with two leaves (`leaf`), or with a cup (`cup`)."""

    kind: Literal["hinge"]
    """Kind of the goods: hinge."""
    leaf: tuple[Length, Length] | None = None
    """[height, width] of one leaf of a butt hinge. The width is from the pin to the edge of the leaf."""
    thickness: Length = Fraction(2)
    """Thickness of a leaf, which must be thinner than the gap beside the door; of a cup hinge, of its plate."""
    cup: HingeCup | None = None
    """Cup of a hinge that sits in a hole of the door."""
    plate: tuple[Length, Length] | None = None
    """[behind the door, apart]: the two screws of a cup hinge's plate. Default: 37 mm behind it and 32 mm apart."""
    overlay: LengthOrZero | None = None
    """How far a cup hinge brings its door over the post: full or half, as its maker says; 0 for an inset door."""
    screw: WoodScrewField | None = None
    """Wood screw from the hinge into the door. Default: the longest that does not come out."""
    frame_screw: ScrewField | None = None
    """Countersunk machine screw from leaf or plate into its slot nut. Default: the one that fits the nut."""
    opening: Degrees = Fraction(110)
    """Angle to which the door opens, in degrees."""
    rating: Mass | None = None
    """Mass of the door that a pair of hinges may carry."""
    zero_protrusion: Flag = False
    """Write true if the open door leaves the opening of its bay free."""

    @property
    def looks(self) -> tuple[Look, ...]:
        """By its card."""
        if self.leaf is not None:
            height, width = self.leaf
            return (Outline("one leaf", (width, height)),)
        return (Outline("cup", (self.cup.diameter, self.cup.diameter), disc=True),) if self.cup else ()

    @model_validator(mode="after")
    def _one_kind(self) -> Hinge:
        if (self.leaf is None) == (self.cup is None):
            raise PydanticCustomError(
                Code.HINGE_KIND,
                "{message}",
                {
                    "message": "a hinge has two leaves or a cup",
                    "found": "neither" if self.leaf is None else "both",
                    "allowed": "one of `leaf` and `cup`",
                },
            )
        return self


class Catch(HardwareItem):
    """What keeps a door shut."""

    kind: Literal["catch"]
    """Kind of the goods: catch."""
    latch: Flag = False
    """Write true for a latch that stays shut until a hand opens it. A magnet opens when the bench rolls."""


class BayDoor(Node):
    """A door in front of all that a bay holds."""

    hinge: Literal["left", "right", "pair"]
    """Side of the hinges as seen from the front of the bench, for the back zone too; pair: two doors."""


class Doors(Node):
    """What all doors have in common. A door closes the whole opening of its bay."""

    material: Name = "ply-18"
    """Material of the doors: the name of a sheet under `materials`."""
    hinge: Name = "butt"
    """Hinge of the doors: a name under `hardware`."""
    pull: Annotated[Name | None, BeforeValidator(without_pull)] = None
    """Pull or edge grip of the doors: a name under `hardware`. Write `none` for doors without one."""
    gap: LengthOrZero = Fraction(3)
    """Gap around each door, and between the two doors of a pair."""
    mount: Literal["inset", "overlay"] = "inset"
    """Inset: between the posts, flush with their front. Overlay: before the posts, on hinges with a cup."""
    overlay: Length | None = None
    """How far overlay doors cover posts and base rail. Default: as their hinge brings them, or what the posts allow."""
    catch: Name | None = None
    """What keeps each door shut: a name under `hardware`."""
    packing: Name | None = None
    """Strip behind the slides at the hinge side, thicker by the open door. Default: that of the drawers."""


#: Keys of a door that take a name.
REFERENCES = (
    ("doors.material", "materials", ("sheet",), "ply-18"),
    ("doors.hinge", "hardware", ("hinge",), "butt"),
    ("doors.pull", "hardware", ("pull", "edge grip"), ""),
    ("doors.catch", "hardware", ("catch",), ""),
    ("doors.packing", "materials", ("strip",), ""),
)
#: The card of that name.
STANDARD = {"butt": "butt hinge 60 x 34"}
