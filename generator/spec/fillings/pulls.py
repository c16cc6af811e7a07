"""What opens a drawer: pulls and edge grips, their cards and the keys that choose them."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator

from generator.spec.fields import Length, Name, PartOfSize, ScrewField
from generator.spec.item import HardwareItem, Look, Node, Outline

#: How people write that they want no pull.
NONE = ("none", "no", "false", "null", "off")


class Pull(HardwareItem):
    """A bow pull on two machine screws that come from inside."""

    kind: Literal["pull"]
    """Kind of the goods: pull."""
    holes: Length
    """Distance between the two screws, from centre to centre."""
    screw: ScrewField
    """Thread and length of its screws, such as M4x25."""
    projection: Length
    """How far the pull projects from the face."""

    @property
    def looks(self) -> tuple[Look, ...]:
        """By its card."""
        return (Outline("from the side, screw to screw", (self.holes, self.projection)),)


class EdgeGrip(HardwareItem):
    """A cut-out in the upper edge of the face, for a hand."""

    kind: Literal["edge grip"]
    """Kind of the goods: edge grip."""
    size: tuple[Length, Length]
    """[width, depth] of the cut-out. The depth is from the upper edge of the face."""


def without_pull(value: Any) -> Any:
    """None for a word that says so."""
    return None if isinstance(value, str) and value.strip().casefold() in NONE else value


class PullKeys(Node):
    """What opens the drawers."""

    pull: Annotated[Name | None, BeforeValidator(without_pull)] = None
    """Pull or edge grip of all drawers: a name under `hardware`. Write `none` for drawers without one."""
    pull_at: tuple[PartOfSize, PartOfSize] = (Fraction(1, 2), Fraction(1, 2))
    """Middle of the pull, [from the left, from below], as parts of the face. An edge grip does not use it."""
