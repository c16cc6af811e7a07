"""Rows of the shop's figures: speeds, holes, tightening, time, money. Their field names are keys of figures.json."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True)
class CutterRow:
    """A cutter (mm) in a material: revolutions and feed (mm) a minute as starting values, depth in how many passes."""

    work: str
    material: str
    diameter: Fraction
    slowest: float
    fastest: float
    feed: float
    depth: Fraction
    pass_depth: float
    passes: int


@dataclass(frozen=True)
class ScrewHoles:
    """Drills for a wood screw (mm): through the first piece, and for the thread in soft and in hard wood."""

    shank: float
    through: float
    softwood: float
    hardwood: float
    screw: str = ""
    """The number of an inch screw."""


@dataclass(frozen=True)
class Tightening:
    """Torque (N m), clamping force (N) of a thread in aluminium; `of_proof`: the greater force over the proof load."""

    thread: str
    low: float
    high: float
    force_low: float
    force_high: float
    of_proof: float


@dataclass(frozen=True)
class TimeRow:
    """Like operations, minutes for one and for all."""

    operation: str
    count: int
    each: float
    minutes: float


@dataclass(frozen=True)
class Shop:
    """What the shop needs beside sizes. `pocket` is how far a pocket hole reaches from the tray's support edge (mm).

    `cost_with_surcharge` is the sum of the shopping list and a tenth.
    """

    cutters: tuple[CutterRow, ...]
    screw_holes: tuple[ScrewHoles, ...]
    tightening: tuple[Tightening, ...]
    pocket: float
    times: tuple[TimeRow, ...]
    minutes: float
    cost_with_surcharge: float
