"""End clips in a spec: their card."""

from __future__ import annotations

from typing import Literal

from generator.spec.fields import Length, ScrewField
from generator.spec.item import HardwareItem


class EndClip(HardwareItem):
    """A butt joint: a screw in the bar's tapped end holds a clip that rides in the crossing bar's slot."""

    kind: Literal["end clip"]
    clip: tuple[Length, Length, Length]
    """[length, width, thickness]; length along the slot."""
    head_height: Length
    """Height of the screw's head above the clip."""
    screw: ScrewField
    """Thread and length under the head."""
    key: Length
    """Width across flats of the key that turns the screw."""
    access_hole: Length
    """Diameter of the hole through the crossing bar, by which the key reaches the screw."""
    entry: Literal["slide-in", "roll-in"] = "slide-in"
    """Whether the clip goes into the slot from the bar's end only, or anywhere along it."""


#: The name that the language takes, and its card.
STANDARD = {"end-clip": "end clip M8"}
