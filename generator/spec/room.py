"""The room around the bench."""

from __future__ import annotations

from generator.spec.fields import LengthOrZero
from generator.spec.item import Node


class Room(Node):
    """Free floor at each side of the bench, from the edge of the top to the wall or the next machine."""

    front: LengthOrZero | None = None
    """Free floor before the bench. A side that you leave out is not checked."""
    rear: LengthOrZero | None = None
    """Free floor behind the bench."""
    left: LengthOrZero | None = None
    """Free floor at its left end, as seen from the front."""
    right: LengthOrZero | None = None
    """Free floor at its right end, as seen from the front."""
