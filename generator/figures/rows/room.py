"""The free floor around the bench, side by side (mm)."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

Length = Fraction


@dataclass(frozen=True)
class Reach:
    """What comes out at a side when it is open: so far `out` from the edge of the top, `low` to `high` along the side.

    `person`: one stands before it.
    """

    name: str
    low: Length
    high: Length
    out: Length
    person: bool


@dataclass(frozen=True)
class RoomSide:
    """A side with its `free` floor, what it `needed`, and what reaches furthest."""

    side: str
    free: Length
    needed: Length
    furthest: str
    reaches: tuple[Reach, ...]
