"""Order lists: what to order from each supplier, the pieces for a cutting service, what to check on arrival."""

from __future__ import annotations

from generator.drawings.dimensions import Ruler
from generator.figures.model import Figures
from generator.figures.rows.buying import PIECES_FILE
from generator.pages.page import Context, Page


def context(figures: Figures, ruler: Ruler) -> Context:
    """Each order with its rows; the pieces to cut now and those that wait, by material."""
    orders = [
        (order, [row for row in figures.purchases if row.supplier == order.supplier])
        for order in figures.purchase_total.orders
    ]
    pieces = [
        (when, [part for part in figures.parts if part.waits is waits])
        for when, waits in (("Cut now", False), ("Cut when every bay is measured", True))
    ]
    return {
        "orders": orders,
        "named": any(order.supplier for order in figures.purchase_total.orders),
        "pieces": [(when, parts) for when, parts in pieces if parts],
        "service_file": PIECES_FILE,
    }


PAGE = Page(
    "order-lists",
    "Order lists",
    "a list for each supplier and for a cutting service, what to check on arrival",
    context,
)
