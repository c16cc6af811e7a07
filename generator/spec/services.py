"""Power and dust in a spec: socket strips and hose ports, and the boards that they are let into."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Literal

from pydantic import Field

from generator.spec.fields import Count, Length, LengthOrZero, Name, WoodScrewField
from generator.spec.item import HardwareItem, Look, Node, Outline
from generator.spec.openings import OpeningShape


class SocketStrip(HardwareItem):
    """A strip of sockets in its own frame, which is let into a board."""

    kind: Literal["socket strip"]
    """Kind of the goods: socket strip."""
    cutout: tuple[Length, Length]
    """Cut-out in the board, [along, across]."""
    corner: LengthOrZero = Fraction(3)
    """Radius of the corners of the cut-out."""
    flange: tuple[Length, Length]
    """Size of its rim on the face of the board, [along, across]."""
    depth: Length
    """How far it reaches behind the face of the board, with its plug and the bend of the cable."""
    sockets: Count
    """Number of sockets."""
    screws: Count = 4
    """Screws in its rim."""
    screw: WoodScrewField | None = None
    """Wood screw in its rim. Default: the longest that does not come out."""

    @property
    def looks(self) -> tuple[Look, ...]:
        """By its card."""
        return (Outline("rim", self.flange), Outline("cut-out", self.cutout))

    @property
    def shape(self) -> OpeningShape:
        """Its cut-out."""
        return OpeningShape.model_construct(size=self.cutout, diameter=None, corner=self.corner)

    @property
    def rim(self) -> tuple[Fraction, Fraction]:
        """Its rim along and across the board (mm)."""
        return self.flange

    @property
    def passes(self) -> Fraction:
        """Diameter of what goes through it (mm)."""
        return Fraction(0)

    @property
    def mains(self) -> bool:
        """Whether it bears mains."""
        return True

    @property
    def says(self) -> tuple[str, tuple[Fraction, ...]]:
        """What is bought, with `{}` for the lengths (mm)."""
        return f"{self.sockets} sockets, cut-out {{}}", self.cutout


class HosePort(HardwareItem):
    """A port in a board for the hose of a dust extractor."""

    kind: Literal["hose port"]
    """Kind of the goods: hose port."""
    hose: Length
    """Outside diameter of the hose."""
    cutout: Length
    """Diameter of the hole in the board."""
    flange: Length
    """Diameter, or side, of its rim on the face of the board."""
    depth: Length
    """How far it reaches behind the face of the board, with the bend of the hose."""
    screws: Count = 4
    """Screws in its rim."""
    screw: WoodScrewField | None = None
    """Wood screw in its rim. Default: the longest that does not come out."""

    @property
    def looks(self) -> tuple[Look, ...]:
        """By its card."""
        return (Outline("cut-out", (self.cutout, self.cutout), disc=True),)

    @property
    def shape(self) -> OpeningShape:
        """Its cut-out."""
        return OpeningShape.model_construct(size=None, diameter=self.cutout, corner=Fraction(0))

    @property
    def rim(self) -> tuple[Fraction, Fraction]:
        """Its rim along and across the board (mm)."""
        return (self.flange, self.flange)

    @property
    def passes(self) -> Fraction:
        """Diameter of what goes through it (mm)."""
        return self.hose

    @property
    def mains(self) -> bool:
        """Whether it bears mains."""
        return False

    @property
    def says(self) -> tuple[str, tuple[Fraction, ...]]:
        """What is bought, with `{}` for the lengths (mm)."""
        return "hose {}", (self.hose,)


class Service(Node):
    """A socket strip or hose port in a board."""

    item: Name
    """What is let in: the name of a socket strip or a hose port under `hardware`."""
    at: tuple[Length, Length]
    """Its middle, [along, across] the board from its left, front or lower edge, tongues included."""
    # a word of Python cannot be written as a field
    __annotations__["in"] = Annotated[
        Name, Field(description="Mark of the board, such as EB1, or its name, such as tray.")
    ]

    @property
    def board(self) -> str:
        """The mark or name of its board."""
        return str(getattr(self, "in"))


#: The key that takes a name.
REFERENCES = (("services.*.item", "hardware", ("socket strip", "hose port"), ""),)
