"""Levelling feet in a spec: their card, and the key that chooses them."""

from __future__ import annotations

from fractions import Fraction
from typing import Literal

from pydantic import model_validator
from pydantic_core import PydanticCustomError

from generator.codes import Code
from generator.spec.fields import Length, Mass, Name, ScrewField
from generator.spec.item import HardwareItem, Look, Node, Outline


class Foot(HardwareItem):
    """A foot on a threaded stem with a lock nut. Turning it levels the bench."""

    kind: Literal["levelling foot"]
    """Kind of the goods: levelling foot."""
    thread: ScrewField
    """Thread and length of the stem, such as M10x50."""
    range: tuple[Length, Length]
    """[lowest, highest] height, from the floor to the plate. At the lowest, the whole stem is in the plate."""
    drop: Length | None = None
    """Length of a threaded sleeve between plate and stem, by which the foot is lower. `range` is below it."""
    pad: Length
    """Diameter of the pad on the floor."""
    rating: Mass
    """Mass that one foot may carry."""

    @property
    def looks(self) -> tuple[Look, ...]:
        """By its card."""
        return (Outline("pad", (self.pad, self.pad), disc=True),)

    @property
    def middle(self) -> Fraction:
        """Half way up its range, with its sleeve: the height that a bench on feet alone is planned with."""
        low, high = self.reach
        return (low + high) / 2

    @property
    def reach(self) -> tuple[Fraction, Fraction]:
        """Lowest and highest, from the floor to the plate."""
        low, high = self.range
        sleeve = self.drop or Fraction(0)
        return low + sleeve, high + sleeve

    @model_validator(mode="after")
    def _in_order(self) -> Foot:
        low, high = self.range
        if low > high:
            raise PydanticCustomError(
                Code.FOOT_RANGE, "{message}",
                {
                    "message": "the lowest height of the foot is above its highest",
                    "found": f"[{float(low):g} mm, {float(high):g} mm]",
                    "allowed": "[lowest, highest]",
                },
            )  # fmt: skip
        return self


class FootKeys(Node):
    """What chooses feet."""

    feet: Name | None = None
    """Levelling feet instead of casters: a name under `hardware`. Each foot is screwed into a plate."""


REFERENCES = (("base.feet", "hardware", ("levelling foot",), ""),)
#: The card of that name.
STANDARD = {"foot": "foot M10"}
