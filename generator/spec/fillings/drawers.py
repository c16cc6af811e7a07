"""A drawer in a stack."""

from __future__ import annotations

from generator.spec.fields import ShareOrLength
from generator.spec.item import Node


class DrawerKeys(Node):
    """A drawer in a stack."""

    drawer: ShareOrLength | None = None
    """Height of the drawer front, or a share of the height that the other items leave, such as `share 2`."""


#: The key of the item, and how a message says it.
ITEM = ("drawer", "drawer")
