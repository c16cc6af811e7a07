"""A plinth in a spec: the key that chooses it."""

from __future__ import annotations

from fractions import Fraction
from typing import Self

from pydantic import model_validator
from pydantic_core import PydanticCustomError

from generator.codes import Code
from generator.spec.fields import Length, Name
from generator.spec.item import Node
from generator.spec.stands.lifted import LiftKeys


class Plinth(Node):
    """Boards on edge that the bench stands on, set back on all sides."""

    material: Name = "ply-18"
    """Material of the boards: the name of a sheet under `materials`."""
    height: Length = Fraction(90)
    """From the floor to the frame: the boards, and the plates on them."""
    setback: Length = Fraction(50)
    """How far the boards are behind the outside of the frame: space for toes."""


class PlinthKeys(LiftKeys):
    """What chooses a plinth, or casters and feet."""

    plinth: Plinth | None = None
    """A plinth instead of casters or feet: boards on edge below the frame."""

    @model_validator(mode="after")
    def _one_stand(self) -> Self:
        others = [
            key
            for key in ("casters", "brakes", "fixed", "feet", "lift", "plate")
            if key in self.model_fields_set
        ]
        if self.plinth is None or not others:
            return self
        raise PydanticCustomError(
            Code.STAND_TWO, "{message}",
            {
                "message": "a bench on a plinth has no casters, feet or plates of metal",
                "found": " and ".join(f"`{key}`" for key in ("plinth", *others)),
                "allowed": "`plinth` without them, or them without `plinth`",
            },
        )  # fmt: skip


#: Its default stands in the key: most benches leave the whole group out.
REFERENCES = (("base.plinth.material", "materials", ("sheet",), ""),)
