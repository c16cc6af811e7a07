"""Masses and what the stands carry (kg)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from generator.figures.rows.hardware import PlateBolt

Length = Fraction


@dataclass(frozen=True)
class Stands:
    """Loads in kg: each with one or two in the air, and `required`, as it must be rated.

    `rating` is what the card allows; `positions` are their axes, X, Y in the frame. `one_in_the_air` is the most that
    one carries when any other carries nothing and the frame stays stiff.
    """

    load_each: float
    required: float
    count: int = 0
    rating: float | None = None
    positions: tuple[tuple[Length, Length], ...] = ()
    bolts: tuple[PlateBolt, ...] = ()
    one_in_the_air: float = 0.0


@dataclass(frozen=True)
class StandFacts:
    """What the bench stands on: where (X, Y in the frame), and the load on one (kg).

    `load_each` is an even share of the loaded bench, `required` what one must be rated for. The load on one is
    `determinate` for three stands alone: of more, a stiff frame may leave any but three without load.
    """

    kind: str
    points: tuple[tuple[Length, Length], ...]
    load_each: float
    required: float
    determinate: bool


@dataclass(frozen=True)
class Mass:
    """Masses in kg; `loaded` adds all that the spec's loads and totes put on the bench."""

    empty: float
    loaded: float
    by_group: Mapping[str, float]
