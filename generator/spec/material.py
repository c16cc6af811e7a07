"""What all materials in a spec have in common: how they are called, measured and bought."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from generator.spec.fields import Count, Date, Flag, Length, LengthOrZero, Number, Words
from generator.spec.item import FROM, Node


class Defect(Node):
    """What no piece may have: a knot, a crack, sapwood. A rectangle on the face that you see."""

    at: tuple[LengthOrZero, LengthOrZero]
    """Its lower left corner, [along, across] from that of the board."""
    size: tuple[Length, Length]
    """Its size, [along, across] the board."""


class Stock(Node):
    """One length or size that you can buy, or that you have."""

    length: Length
    """Length of the bar, strip or sheet, such as 2440 mm."""
    width: Length | None = None
    """Width of the sheet, such as 1220 mm; bars and strips have none."""
    price: Number | None = None
    """Price of one piece. Use the same currency for all prices."""
    count: Count | None = None
    """How many pieces there are. Default: as many as you need."""
    on_hand: Flag = False
    """Write true for stock that you already have. It is not put on the shopping list."""
    defects: Annotated[tuple[Defect, ...], Field(max_length=40)] = ()
    """Defects of one board, to cut around. A board with defects is one board: it has no `count`."""
    lot: Words = ""
    """Batch or delivery, in your own words, such as: delivery of May."""


class Material(Node):
    """What all materials have in common."""

    use: Words = ""
    """Name of a typical data card, such as `plywood 12`. Its values are marked "measure yours"."""
    label: Words = ""
    """What the shop calls it, such as `birch plywood`. Its size is put in front, unless the label has a number."""
    measured: Date = ""
    """Date on which you measured the values, such as 2026-10-28."""
    stock: tuple[Stock, ...] = ()
    """The lengths or sizes that you can buy, and what you have."""
    __annotations__["from"] = FROM
