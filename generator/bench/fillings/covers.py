"""What closes a bay before its contents, as these see it: how far back they begin, and what it takes of the width."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.bench.layout import BayPlace
from generator.bench.place import End
from generator.calculators.doors import BEHIND, open_door
from generator.spec.load import LoadedSpec


@dataclass(frozen=True)
class Cover:
    """Contents begin `depth` behind the bars' face. What slides out keeps `left` and `right` clear (mm)."""

    depth: Fraction
    left: Fraction
    right: Fraction

    @property
    def sides(self) -> Fraction:
        """Taken of the width in all."""
        return self.left + self.right

    @property
    def aside(self) -> Fraction:
        """How far the middle of what slides out is right of the bay's middle."""
        return (self.left - self.right) / 2


def cover_of(loaded: LoadedSpec, bay: BayPlace) -> Cover | None:
    """The door of a bay; None for an open one."""
    door = bay.spec.door
    if door is None:
        return None
    doors, hinge = loaded.spec.doors, loaded.goods.hinge
    thickness = loaded.goods.sheets[doors.material].thickness
    clear = Fraction(0) if hinge.zero_protrusion else open_door(thickness, doors.gap)
    left = clear if door.hinge in ("left", "pair") else Fraction(0)
    right = clear if door.hinge in ("right", "pair") else Fraction(0)
    return Cover(thickness + BEHIND, left, right)


def beside(cover: Cover | None, side: End) -> Fraction:
    """What the open door takes at one side of the bay (mm)."""
    if cover is None:
        return Fraction(0)
    return cover.left if side == "left" else cover.right


def aside_of(cover: Cover | None) -> Fraction:
    """How far the middle of what slides out is right of the bay's middle (mm)."""
    return Fraction(0) if cover is None else cover.aside
