"""A space that a stack leaves empty."""

from __future__ import annotations

from generator.spec.fields import ShareOrLength
from generator.spec.item import Node


class OpenKeys(Node):
    """An empty space in a stack."""

    open: ShareOrLength | None = None
    """Height of a space that stays empty, or a share of the height that the other items leave, such as `share`."""


#: The key of the item, and how a message says it.
ITEM = ("open", "open")
