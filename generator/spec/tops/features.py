"""What is let into a top: cut-outs, with or without a ledge, and slots along it."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Literal

from pydantic import Field

from generator.spec.fields import Length, LengthOrZero, Name
from generator.spec.item import Node
from generator.spec.openings import OpeningShape


class Cutout(OpeningShape):
    """An opening through the top: a rectangle (`size`), or round (`diameter`)."""

    name: Name
    """What the opening is for, such as router plate."""
    at: tuple[Length, Length]
    """Middle of the opening, [from the left, from the front] edge of the finished top."""
    ledge: LengthOrZero = Fraction(0)
    """Width of the ledge that holds a plate. `size` is then that of the plate; the opening is smaller."""
    depth: Length = Fraction(10)
    """Depth of the recess above the ledge: the thickness of the plate. It counts only with a ledge."""


class TopSlot(Node):
    """A slot in the upper face of a top, from edge to edge, such as one for a mitre gauge or a track."""

    name: Name
    """What the slot is for, such as mitre slot."""
    along: Literal["x", "y"] = "x"
    """Direction of the slot: x runs from left to right, y from front to rear."""
    at: Length
    """Middle line of the slot: from the front edge of the finished top, or from its left edge if it runs along y."""
    width: Length
    """Width of the slot, such as 19 mm."""
    depth: Length
    """Depth of the slot, such as 9.5 mm."""


class FeatureKeys(Node):
    """What is let into the top. Holes, brackets and bars keep clear of it."""

    cutouts: Annotated[tuple[Cutout, ...], Field(max_length=40)] = ()
    """Openings through the top, such as one for a router plate."""
    slots: Annotated[tuple[TopSlot, ...], Field(max_length=20)] = ()
    """Slots in the upper face of the top, from edge to edge."""
