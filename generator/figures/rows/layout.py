"""Zones and bays as laid out in the frame (mm)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from generator.figures.rows.room import RoomSide

Length = Fraction


@dataclass(frozen=True)
class Zone:
    """A row of bays. `depth` is clear between the posts; `front_edge` its front end, from the frame's front."""

    name: str
    depth: Length
    front_edge: Length


@dataclass(frozen=True)
class Bay:
    """A clear space between two posts, from the frame's left end; `bottom` and `height` bound its opening.

    `opens` is the face one reaches in from: front, rear, or empty for a zone between two others.
    """

    name: str
    zone: str
    left: Length
    width: Length
    bottom: Length
    height: Length
    opens: str = "front"
    measured: Length | None = None
    """Clear width on the standing frame, where it was measured."""
    knee: bool = False
    """Leg room: no base rail is at its open face, and its opening begins at the floor."""

    @property
    def clear(self) -> Length:
        """As measured, else as planned: by this is cut what fills the bay."""
        return self.width if self.measured is None else self.measured


@dataclass(frozen=True)
class LayoutFacts:
    """The bench at a glance: heights from the frame's underside, left edges from its left end.

    `post_edges` holds the posts' left faces by the name of their zone; `clamp_gap` is from tray to top rail.
    """

    frame_height: Length
    zones: tuple[Zone, ...]
    bays: tuple[Bay, ...]
    post_edges: Mapping[str, tuple[Length, ...]]
    clamp_gap: Length
    length: Length = Fraction(0)
    depth: Length = Fraction(0)
    height: Length = Fraction(0)
    section: Length = Fraction(0)
    floor_to_frame: Length = Fraction(0)
    lines: tuple[Length, ...] = ()
    """Left edges of the inner posts' lines, of all zones together."""
    outside_depth: Length = Fraction(0)
    """With all that is before the frame or behind it: overhang of the top, pulls."""
    room: tuple[RoomSide, ...] = ()
    """The free floor at each side that the spec says."""
