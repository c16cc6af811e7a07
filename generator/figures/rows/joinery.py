"""Joints that are cut in wood, what is glued in one go, and when (mm, minutes)."""

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


@dataclass(frozen=True)
class GluedRow:
    """Members that glue makes one for good, by their marks, and their outside sizes along X, Y, Z (mm).

    `passes` says whether they go through the door of the spec; `captive` are the boards that never come out of them.
    """

    marks: tuple[str, ...]
    sizes: tuple[Length, Length, Length]
    passes: bool
    captive: tuple[str, ...]


@dataclass(frozen=True)
class DayRow:
    """Work of `minutes` on a day, from `start` minutes after its begin, when nothing could be done for `idle` minutes.

    `steps` are the numbers of its steps, `key` that of the first. What is glued is left alone for `wait` minutes in its
    `clamps`.
    """

    day: int
    start: float
    steps: tuple[int, ...]
    key: str
    title: str
    minutes: float
    wait: float
    clamps: int
    idle: float
