"""Benches that are side by side and are bolted to each other: which other bench, at which side, and by what bolts."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any, Literal

from pydantic import field_validator

from generator.spec.fields import Length, LengthOrZero, Name, Thread, Words
from generator.spec.item import HardwareItem, Node

SideOfBench = Literal["left", "right", "front", "rear"]
#: The side of another bench that meets a side of this one, where both look the same way.
OPPOSITE: Mapping[SideOfBench, SideOfBench] = {
    "left": "right",
    "right": "left",
    "front": "rear",
    "rear": "front",
}


class JoiningBolt(HardwareItem):
    """A hexagon bolt with its nut and two large washers: it goes through a member of each bench."""

    kind: Literal["joining bolt"]
    """Kind of the goods: joining bolt."""
    thread: Thread
    """Thread of the bolt, such as M8. Its length follows from the members that it goes through."""
    washer: tuple[Length, Length]
    """Washer under head and nut: [outside diameter, thickness]."""
    sleeve: Length = Fraction(20)
    """Outside diameter of the tube around each bolt, where there is a gap between the frames."""


class Join(Node):
    """Another bench beside this one, bolted to it. Both manuals have the same holes."""

    side: SideOfBench
    """Side of this bench where the other one is, as you see this one from the front."""
    to: Words = ""
    """Spec file of the other bench, in the folder of this one. Leave it out for another bench of this same spec."""
    bolts: Literal[4, 6, 8] = 4
    """Number of bolts through the members that face each other: 4, 6 or 8. Write the same number in both specs."""
    gap: LengthOrZero = Fraction(0)
    """Gap between the edges of both tops. With 0 they meet. Write the same gap in both specs."""
    at: LengthOrZero = Fraction(0)
    """Where the other bench begins along this side, from the left or front corner of this frame."""
    bolt: Name = "join-bolt"
    """Bolt with nut and washers: the name of a joining bolt under `hardware`."""

    @field_validator("bolts", mode="before")
    @classmethod
    def _a_count_is_written_as_text(cls, value: Any) -> Any:
        return int(value) if value in ("4", "6", "8") else value


#: The key that takes a name. Its default is behind a list that most benches leave out.
REFERENCES = (("join.*.bolt", "hardware", ("joining bolt",), ""),)
#: The card of the name that the language takes.
STANDARD = {"join-bolt": "joining bolt M8"}
