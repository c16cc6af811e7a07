"""A top of several boards side by side, and of several layers."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from generator.spec.fields import Count, ShareOrLength
from generator.spec.item import Node


class BoardKeys(Node):
    """The boards and layers of the top."""

    boards: Annotated[tuple[ShareOrLength, ...], Field(max_length=12)] = ()
    """Widths of the boards, from the front or from the left, as lengths or shares. Leave it out for one board."""
    run: Literal["length", "depth"] = "length"
    """How the boards run: along the length of the bench, or from front to rear."""
    joint: Literal["glued", "dry"] = "glued"
    """How the boards meet: glued, or dry with a gap of 1 mm; then each board needs its own brackets."""
    layers: Count = 1
    """Layers of the material, glued face to face. The joints of every second layer are in the middle of the boards."""
