"""Totes in a stack."""

from __future__ import annotations

from generator.spec.fields import Count, Name
from generator.spec.item import Node


class ToteKeys(Node):
    """Totes in a stack."""

    totes: Name | None = None
    """Which tote: a name under `totes`."""
    count: Count = 1
    """How many totes, one above another."""


#: The key of the item, and how a message says it.
ITEM = ("totes", "totes (with count)")
