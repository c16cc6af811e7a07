"""A drawer in a stack."""

from __future__ import annotations

from generator.spec.fields import ShareOrLength
from generator.spec.item import Node


class DrawerKeys(Node):
    """What places a drawer."""

    drawer: ShareOrLength | None = None
    """Height of the drawer's front, or a share of what the rest of the stack leaves."""


#: The key of the item, and how a message says it.
ITEM = ("drawer", "drawer")
