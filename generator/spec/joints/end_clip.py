"""End clips in a spec: their card."""

from __future__ import annotations

from typing import Literal

from generator.calculators.fasteners import THREADS
from generator.spec.fields import Length, ScrewField
from generator.spec.item import Look, Outline
from generator.spec.joints.card import JointItem


class EndClip(JointItem):
    """A butt joint: a screw in the bar's tapped end holds a clip that rides in the crossing bar's slot."""

    kind: Literal["end clip"]
    """Kind of the goods: end clip."""
    clip: tuple[Length, Length, Length]
    """[length, width, thickness] of the clip. The length is along the slot."""
    head_height: Length
    """How far the screw head is above the clip."""
    screw: ScrewField
    """Thread and length under the head, such as M8x25."""
    key: Length
    """Width across flats of the key for the screw."""
    access_hole: Length
    """Diameter of the hole through the crossing bar. The key reaches the screw through it."""
    entry: Literal["slide-in", "roll-in"] = "slide-in"
    """How the clip goes into the slot: slide-in from the end of the bar, or roll-in anywhere."""

    @property
    def looks(self) -> tuple[Look, ...]:
        """By its card."""
        length, width, thickness = self.clip
        hole = (length / 2, width / 2, THREADS[self.screw.thread].diameter)
        return (
            Outline("from above", (length, width), (hole,)),
            Outline("from the side", (length, thickness)),
        )


#: The name that the language takes, and its card.
STANDARD = {"end-clip": "end clip M8"}
