"""What closes a bay before its contents, as these see it: how far back they begin, and what it takes of the width."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.bench.layout import BayPlace
from generator.bench.place import End
from generator.calculators.doors import ARM, BEHIND, BESIDE, open_door, open_overlay
from generator.provenance import greatest, least
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


def overlays(loaded: LoadedSpec) -> bool:
    """Whether the doors are before the posts."""
    return loaded.spec.doors.mount == "overlay"


def most_overlay(loaded: LoadedSpec) -> Fraction:
    """How far each of two doors beside one post may cover it (mm)."""
    return (loaded.goods.members.section - loaded.spec.doors.gap) / 2


def overlay_of(loaded: LoadedSpec) -> Fraction:
    """How far an overlay door covers its posts (mm): as the spec says, or its hinge, no more than has room."""
    rules, most = loaded.spec.doors, most_overlay(loaded)
    if rules.overlay is not None:
        return rules.overlay
    return most if not loaded.goods.hinge.overlay else least(loaded.goods.hinge.overlay, most)


def cover_of(loaded: LoadedSpec, bay: BayPlace) -> Cover | None:
    """The door of a bay; None for an open one."""
    door = bay.spec.door
    if door is None:
        return None
    thickness = loaded.goods.sheets[loaded.spec.doors.material].thickness
    clear = _beside_open(loaded, thickness)
    left = clear if door.hinge in ("left", "pair") else Fraction(0)
    right = clear if door.hinge in ("right", "pair") else Fraction(0)
    return Cover(_depth(loaded, thickness), left, right)


def _depth(loaded: LoadedSpec, thickness: Fraction) -> Fraction:
    """Behind an overlay door boxes begin where others begin behind their faces: so their slides reach the strips."""
    if overlays(loaded):
        return greatest(BEHIND, loaded.goods.sheets[loaded.spec.drawers.front].thickness)
    return thickness + BEHIND


def _beside_open(loaded: LoadedSpec, thickness: Fraction) -> Fraction:
    """What an open door and its hinges take of the bay at their side (mm)."""
    gap, hinge = loaded.spec.doors.gap, loaded.goods.hinge
    if hinge.cup is None:
        return Fraction(0) if hinge.zero_protrusion else open_door(thickness, gap)
    if hinge.zero_protrusion:
        return ARM + BESIDE
    return open_overlay(thickness, gap, overlay_of(loaded) if overlays(loaded) else Fraction(0), ARM)


def beside(cover: Cover | None, side: End) -> Fraction:
    """What the open door takes at one side of the bay (mm)."""
    if cover is None:
        return Fraction(0)
    return cover.left if side == "left" else cover.right


def aside_of(cover: Cover | None) -> Fraction:
    """How far the middle of what slides out is right of the bay's middle (mm)."""
    return Fraction(0) if cover is None else cover.aside
