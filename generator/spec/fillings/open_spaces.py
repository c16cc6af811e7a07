"""A space that a stack leaves empty."""

from __future__ import annotations

from generator.spec.fields import ShareOrLength
from generator.spec.item import Node


class OpenKeys(Node):
    """What leaves a space empty."""

    open: ShareOrLength | None = None
    """Height of a space that stays empty, or a share."""


#: The key of the item, and how a message says it.
ITEM = ("open", "open")
