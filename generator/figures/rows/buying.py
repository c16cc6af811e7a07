"""What to buy, by whole packs and pieces of stock."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

Length = Fraction


@dataclass(frozen=True)
class Bought:
    """`count` bars, sheets, packs or pieces to buy, with the price of one; `length` and `width` of stock in mm."""

    count: int
    price: float | None
    length: Length | None = None
    width: Length | None = None
    pack: int | None = None
    """Pieces in a pack."""
    tin: float | None = None
    """Litres in a tin."""


@dataclass(frozen=True)
class Purchase:
    """One line of the shopping list. `quantity` is in `unit` (m, m², pieces); `cost` is None without prices."""

    section: str
    item: str
    quantity: float
    unit: str
    detail: str
    buy: tuple[Bought, ...] = ()
    cost: float | None = None


@dataclass(frozen=True)
class PurchaseTotal:
    """What all purchases with a price come to, and the items that have none."""

    cost: float
    unpriced: tuple[str, ...]
