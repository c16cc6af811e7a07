"""Through-screws in a spec: their card."""

from __future__ import annotations

from typing import Literal

from generator.spec.fields import Length, ScrewField
from generator.spec.item import Node
from generator.spec.joints.card import JointItem


class Counterbore(Node):
    """A hole with a flat bottom that sinks the head of a screw."""

    diameter: Length
    """Diameter of the counterbore, larger than the screw head."""
    depth: Length
    """Depth from the face of the bar. It must reach the floor of the slot."""


class ThroughScrew(JointItem):
    """A butt joint that pulls: a screw through the crossing bar into the other bar's tapped end."""

    kind: Literal["through screw"]
    """Kind of the goods: through screw."""
    screw: ScrewField
    """Thread and length under the head, such as M8x25."""
    hole: Length
    """Diameter of the clearance hole under the counterbore."""
    counterbore: Counterbore


#: The name that the language takes, and its card.
STANDARD = {"through-screw": "through screw M8"}
