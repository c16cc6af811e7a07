"""An opening through a board, as a rectangle or round; and openings in the boards of the frame and the bays."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Self

from pydantic import Field, model_validator
from pydantic_core import PydanticCustomError

from generator.codes import Code
from generator.spec.fields import Length, LengthOrZero, Name, Words
from generator.spec.item import Node


class OpeningShape(Node):
    """The shape of an opening."""

    size: tuple[Length, Length] | None = None
    """Size of a rectangle, [along, across] the board."""
    diameter: Length | None = None
    """Diameter of a round opening, instead of a size."""
    corner: LengthOrZero = Fraction(10)
    """Radius of the corners. A cutter of twice this diameter, or a thinner one, cuts them."""

    @property
    def outside(self) -> tuple[Fraction, Fraction]:
        """Its size along and across the board (mm), a round one's twice."""
        assert self.size is not None or self.diameter is not None
        return self.size or (self.diameter or Fraction(0),) * 2

    @model_validator(mode="after")
    def _one_shape(self) -> Self:
        if (self.size is None) == (self.diameter is None):
            raise PydanticCustomError(
                Code.CUTOUT_SHAPE,
                "{message}",
                {
                    "message": "a cut-out is a rectangle or round",
                    "found": "neither" if self.size is None else "both",
                    "allowed": "one of `size` and `diameter`",
                },
            )
        return self


class BoardCutout(OpeningShape):
    """An opening in a wall, the tray, a shelf or another board, for a hose, a cable or a hand."""

    at: tuple[Length, Length]
    """Middle of the opening, [along, across] the board from its left, front or lower edge, tongues included."""
    # both keys are words of Python, so they cannot be written as fields
    __annotations__["in"] = Annotated[
        Name, Field(description="Mark of the board, such as FD2, or its name, such as tray.")
    ]
    __annotations__["for"] = Annotated[
        Words, Field(default="", description="What the opening is for, in your own words, such as dust hose.")
    ]

    @property
    def board(self) -> str:
        """The mark or name of its board."""
        return str(getattr(self, "in"))

    @property
    def purpose(self) -> str:
        """What it is for."""
        return str(getattr(self, "for"))
