"""Totes in a stack."""

from __future__ import annotations

from generator.spec.fields import Count, Name
from generator.spec.item import Node


class ToteKeys(Node):
    """What places totes."""

    totes: Name | None = None
    """Name of a tote under `totes`."""
    count: Count = 1
    """Number of totes."""


#: The key of the item, and how a message says it.
ITEM = ("totes", "totes (with count)")
