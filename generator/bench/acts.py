"""What is done in a step beside putting pieces in: an act that a picture of its own shows, with a prop or an order."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass

#: When an act comes: before the pieces of its step, while they go in, when they are in, when the step is checked.
FIRST, NOW, THEN, CHECKED = "First", "Now", "Then", "After the check"
#: The kinds of acts, by what a picture shows of them.
BATTEN_ON, BATTEN_OFF = "batten on", "batten off"
STAND_UP, STRAP, LOWER = "stand up", "strap", "lower"
LEVELS, PAINT, CENTRE_OUT = "levels", "paint", "centre out"
MEASURE, HANG = "measure", "hang"
POCKETS, SEAL, TAP = "pockets", "seal", "tap"

#: How what a bench stands on says that it comes down; what follows is its kind's.
LOWERING = "With two or more people, lower one end at a time onto lower blocks"


@dataclass(frozen=True)
class Act:
    """One of these kinds, when it comes, and what is written below its picture in whole sentences."""

    kind: str
    when: str
    words: str

    def said_in(self, notes: Collection[str]) -> bool:
        """Whether one of the sentences of a step says some of it: a frame of another kind may do it elsewhere."""
        return any(note.rstrip(".") in self.words for note in notes)
