"""Joints and what holds them."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from generator.spec.item import Look

Length = Fraction


@dataclass(frozen=True)
class Joints:
    """How often each kind of joint and of machining occurs on the whole bench; `kinds` has all, with their words."""

    end_clips: int
    through_screws: int
    tapped_ends: int
    access_holes: int
    reliefs: int
    kinds: tuple[tuple[int, str], ...] = field(default=(), metadata={"silent": True})


@dataclass(frozen=True)
class JointRow:
    """One butt joint: the end of `member` against `crossing`, its fastener and where the key enters.

    Of a joint that is cut and glued `hole_face` is the face with the mortise or the notch.
    """

    member: str
    end: str
    crossing: str
    kind: str
    screw: str
    hole_at: Length
    hole_face: str


@dataclass(frozen=True)
class Lot:
    """A part of a row that is bought as goods of its own: its size, or in which way it differs."""

    count: int
    size: str
    spare: int = 0


@dataclass(frozen=True)
class HardwareRow:
    """Bought hardware of one kind. `count` is what the bench needs, `spare` comes on top; `for_` says what for.

    `item` is the spec's own name for it or the trade's; `kind` is the trade's, whatever the spec calls it.
    `has_card` is true where the name is that of a card in the spec.
    """

    item: str
    count: int
    spare: int
    for_: str
    size: str = ""
    kind: str = ""
    lots: tuple[Lot, ...] = ()
    """What of it differs, where the pieces are not all the same."""
    has_card: bool = field(default=False, metadata={"silent": True})
    looks: tuple[Look, ...] = field(default=(), metadata={"silent": True})
    """What it looks like at its size; nothing where no size of it is known."""


@dataclass(frozen=True)
class PlateBolt:
    """A bolt of a stand's plate into the bottom slot of `member`, at X, Y of the frame; no member, no bar above."""

    plate: str
    member: str
    at: tuple[Length, Length]
