"""Rows of fits with their ranges, and of seasonal movement (mm). Their field names are keys of figures.json."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True)
class FitSize:
    """One size that a fit is made of: the value that counts, how far it may be off, and where that comes from.

    `measured` is the date of measuring, empty for a size that is cut or for goods nobody measured.
    """

    name: str
    value: Fraction
    lower: Fraction
    upper: Fraction
    source: str
    measured: str = ""


@dataclass(frozen=True)
class FitRow:
    """A clearance as drawn, at its worst, and as 997 of 1000 come out (mm), each with its word; how to test it."""

    name: str
    where: str
    nominal: Fraction
    worst: tuple[Fraction, Fraction]
    likely: tuple[float, float]
    verdict: str
    likely_verdict: str
    worst_verdict: str
    sizes: tuple[FitSize, ...]
    test: str


@dataclass(frozen=True)
class Movement:
    """What a size does between the shop's extremes (mm), against the room that it has; None where room is made.

    `cause` is moisture or heat. `enough` is None without a given room.
    """

    name: str
    where: str
    size: Fraction
    cause: str
    change: float
    room: float | None
    advice: str

    @property
    def enough(self) -> bool | None:
        """Whether the room takes the change."""
        return None if self.room is None else self.change <= self.room


@dataclass(frozen=True)
class Seasons:
    """Moisture of wood (% of its dry mass) in the shop's driest and dampest weeks, and what moves between them."""

    driest: float
    dampest: float
    warming: float
    rows: tuple[Movement, ...]
