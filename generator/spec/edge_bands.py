"""Edge banding: which edges of boards are covered, and with what."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Literal

from pydantic import Field

from generator.spec.fields import Length, LengthOrZero, Name
from generator.spec.item import HardwareItem, Node

BoardEdge = Literal["front", "back", "left", "right", "top", "bottom"]


class EdgeBanding(HardwareItem):
    """A thin band for the edges of boards, as it is sold in rolls."""

    kind: Literal["edge banding"]
    """Kind of the goods: edge banding."""
    thickness: Length
    """Thickness of the band. Boards are cut smaller by it on each edge that has one."""
    width: Length
    """Width as bought. It is trimmed flush with both faces of the board."""
    roll: Length
    """Length of one roll, or of one piece, such as 50 m."""
    on_by: Literal["iron", "glue"] = "iron"
    """How it is put on: with an iron, because it has glue on its back, or with glue and clamps."""


class EdgeBands(Node):
    """Banding on the edges of boards. The finished sizes stay; the boards are cut smaller by the band's thickness."""

    banding: Name | None = None
    """Banding of all edges: a name under `hardware`. Leave it out for bare edges."""
    sides: Literal["visible", "named"] = "visible"
    """Which edges have it: all visible ones, or only the edges named under `boards`."""
    boards: Annotated[dict[Name, tuple[BoardEdge, ...]], Field(max_length=200)] = Field(default_factory=dict)
    """Edges of single boards, by mark or group: `{tray: [front], DO1: []}`. A mark counts more than its group."""
    extra: LengthOrZero = Fraction(40)
    """How much longer than its edge each band is cut, for both ends together (common practice)."""


#: Keys of banding that take a name.
REFERENCES = (("edges.banding", "hardware", ("edge banding",)),)
