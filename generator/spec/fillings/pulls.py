"""What opens a drawer: pulls and edge grips, their cards and the keys that choose them."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator

from generator.spec.fields import Length, Name, Number, ScrewField
from generator.spec.item import HardwareItem, Node

#: How people write that they want no pull.
NONE = ("none", "no", "false", "null", "off")


class Pull(HardwareItem):
    """A bow pull on two machine screws that come from inside."""

    kind: Literal["pull"]
    holes: Length
    """From the centre of one screw to the centre of the other."""
    screw: ScrewField
    """Thread and length of its screws, as M4x25."""
    projection: Length
    """How far it is before the face."""


class EdgeGrip(HardwareItem):
    """A cut-out in the upper edge of the face, for a hand."""

    kind: Literal["edge grip"]
    size: tuple[Length, Length]
    """[width, depth] of the cut-out; the depth is from the upper edge of the face."""


def _none(value: Any) -> Any:
    return None if isinstance(value, str) and value.strip().casefold() in NONE else value


class PullKeys(Node):
    """What opens the drawers."""

    pull: Annotated[Name | None, BeforeValidator(_none)] = None
    """Name of a pull or an edge grip under `hardware`; `none` for drawers without one."""
    pull_at: tuple[Number, Number] = (Fraction(1, 2), Fraction(1, 2))
    """Middle of a pull: [from the left, from below], as parts of the face. An edge grip ignores it."""
