"""Through-screws in a spec: their card."""

from __future__ import annotations

from typing import Literal

from generator.spec.fields import Length, ScrewField
from generator.spec.item import HardwareItem, Node


class Counterbore(Node):
    """A flat-bottomed bore that sinks a screw's head; depth from the bar's face."""

    diameter: Length
    """Diameter, larger than the screw's head."""
    depth: Length
    """Deep enough to reach the slot's floor."""


class ThroughScrew(HardwareItem):
    """A butt joint that pulls: a screw through the crossing bar into the other bar's tapped end."""

    kind: Literal["through screw"]
    screw: ScrewField
    """Thread and length under the head."""
    hole: Length
    """Diameter of the clearance hole below the counterbore."""
    counterbore: Counterbore


#: The name that the language takes, and its card.
STANDARD = {"through-screw": "through screw M8"}
