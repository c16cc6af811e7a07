"""What a spec can say of the top; one line a kind of keys in each list."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated

from pydantic import Field

from generator.spec.fields import Length, Name
from generator.spec.tops.boards import BoardKeys
from generator.spec.tops.edging import REFERENCES, Edging
from generator.spec.tops.features import FeatureKeys
from generator.spec.tops.holes import Holes
from generator.spec.tops.overhang import OrOneLength, Overhang
from generator.spec.tops.vises import ViseKeys


class Top(ViseKeys, FeatureKeys, BoardKeys):
    """The board that you work on."""

    material: Name = "mdf-18"
    """Material of the top: the name of a sheet under `materials`."""
    overhang: Annotated[Overhang, OrOneLength()] = Field(default_factory=Overhang)
    """How far the top reaches beyond the frame: one length for all sides, or `front`, `back`, `left`, `right`."""
    edging: Edging | None = None
    """Strips of solid wood at the edges of the top. Leave it out for a top without edging."""
    holes: Holes | None = None
    """Grid of dog holes. Leave it out for a plain top."""
    bracket: Name | None = None
    """Bracket that holds the top: a name under `hardware`. One is near each corner, the others at even distances."""
    bracket_thickness: Length = Fraction(4)
    """Thickness of the brackets if you name no `bracket`. Then each space between two cross-members gets one."""


__all__ = ["REFERENCES", "Holes", "Overhang", "Top"]
