"""What to buy, by whole packs and pieces of stock."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

Length = Fraction

#: The order of pieces from a cutting service, and its file among the downloads: no supplier's order has its name.
PIECES = "pieces to cut"
PIECES_FILE = "order-pieces-to-cut.csv"


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
    supplier: str = ""
    """Who sells it; empty where the spec does not say so."""


@dataclass(frozen=True)
class Order:
    """What to order from one supplier: items of the shopping list, their cost, and those of them without a price.

    The one without a name has what no supplier is named for.
    """

    supplier: str
    items: tuple[str, ...]
    cost: float
    unpriced: tuple[str, ...]
    file: str
    """Name of the file with it among the downloads."""


@dataclass(frozen=True)
class PurchaseTotal:
    """What all purchases with a price come to, and the items that have none; the same supplier by supplier."""

    cost: float
    unpriced: tuple[str, ...]
    orders: tuple[Order, ...] = ()
