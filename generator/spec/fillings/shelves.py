"""A shelf in a stack."""

from __future__ import annotations

from generator.spec.fields import Length
from generator.spec.item import Node


class ShelfKeys(Node):
    """A shelf in a stack."""

    shelf: Length | None = None
    """Height from the top of the base rail to the top of the shelf, such as 300 mm."""


#: The key of the item, and how a message says it.
ITEM = ("shelf", "shelf")
