"""A rack in a stack: upright boards for sheet goods, papers, trays."""

from __future__ import annotations

from generator.spec.fields import Count, ShareOrLength
from generator.spec.item import Node


class RackKeys(Node):
    """A rack in a stack."""

    rack: ShareOrLength | None = None
    """Height of the rack over its two boards, or a share of what the other items leave."""
    slots: Count = 4
    """How many slots the rack has, all of one width."""


#: The key of the item, and how a message says it.
ITEM = ("rack", "rack (with slots)")
