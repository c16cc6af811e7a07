"""Finishes in a spec: what coats which parts, how often, and when."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from generator.spec.fields import Count, Coverage, Duration, Name, Number, Volume
from generator.spec.item import FROM, Node


class Coat(Node):
    """A finish on one kind of part."""

    coat: Name
    """What you put on, as it is sold, such as hardwax oil."""
    coats: Count = 2
    """How many coats."""
    coverage: Coverage = Fraction(10)
    """Area that one litre covers in one coat, from the tin, such as 10 m2/l."""
    dry: Duration = Fraction(12)
    """How long one coat dries before the next, from the tin, such as 12 h."""
    when: Literal["before assembly", "after assembly"] = "before assembly"
    """When you coat the parts. Panels in slots are coated before assembly."""
    tin: Volume = Fraction(3, 4)
    """Volume of one tin, such as 0.75 l."""
    price: Number | None = None
    """Price of one tin."""
    __annotations__["from"] = FROM


class Finish(Node):
    """What coats the parts. A part that is not named here stays bare."""

    top: Coat | None = None
    """The work surface: both faces and all edges."""
    panels: Coat | None = None
    """Dividers, ends, spine, back, tray and extra boards, without their tongues."""
    shelves: Coat | None = None
    """Shelves, and the boards of racks."""
    drawers: Coat | None = None
    """Drawer boxes, bottoms and faces, without their glue faces and grooves."""
    doors: Coat | None = None
    """Doors."""
    packing: Coat | None = None
    """Packing strips, without their backs."""
    cleats: Coat | None = None
    """Shelf cleats and tote runners, without their backs."""


#: Its keys, in the order in which the parts are coated.
KEYS = tuple(Finish.model_fields)
