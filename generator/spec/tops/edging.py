"""The edging of a top: strips of solid wood, taken into its size."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from generator.spec.fields import Name
from generator.spec.item import Node

TopSide = Literal["front", "back", "left", "right"]


class Edging(Node):
    """Strips glued to the edges of the top. The board is smaller by their thickness, the finished top is not larger."""

    material: Name
    """Strip of the edging: a name under `materials`. Its thickness is taken off the board on each side."""
    sides: Annotated[tuple[TopSide, ...], Field(min_length=1, max_length=4)] = (
        "front",
        "back",
        "left",
        "right",
    )
    """Sides that have it."""
    corners: Literal["butt", "mitred"] = "butt"
    """How two strips meet: butt (those at the ends are between those at the front and rear) or mitred at 45 degrees."""


#: Keys of the edging that take a name.
REFERENCES = (("top.edging.material", "materials", ("strip",), "", True),)
