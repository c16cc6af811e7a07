"""A shelf in a stack."""

from __future__ import annotations

from generator.spec.fields import Length
from generator.spec.item import Node


class ShelfKeys(Node):
    """What places a shelf."""

    shelf: Length | None = None
    """From the top of the base rail to the top of the shelf."""


#: The key of the item, and how a message says it.
ITEM = ("shelf", "shelf")
