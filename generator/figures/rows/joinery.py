"""Joints that are cut in wood, and what is glued in one go (mm, minutes)."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

Length = Fraction


@dataclass(frozen=True)
class TenonRow:
    """A tenon's sizes (mm)."""

    thickness: Length
    width: Length
    length: Length


@dataclass(frozen=True)
class JoineryRow:
    """The end of `member` in or on `into`. `shoulder_to_shoulder` is the member without its tenons (mm).

    `at` is where its middle is on the other timber, from that one's datum end; `tenon` is None where there is none.
    """

    member: str
    end: str
    into: str
    kind: str
    shoulder_to_shoulder: Length
    tenon: TenonRow | None
    at: Length


@dataclass(frozen=True)
class GlueUpRow:
    """What is glued in one go: the step, its joints, how long that takes and how long the clamps stay on."""

    step: str
    joints: tuple[str, ...]
    minutes: float
    clamps: int
    open_minutes: float
    wait_minutes: float
