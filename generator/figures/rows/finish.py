"""What is coated, with what, how much of it, and how long it dries."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class FinishLayer:
    """The parts of one key: their area (m²), net litres, hours of one coat, `parts` as marks, `masks` in words."""

    key: str
    parts: tuple[str, ...]
    area_m2: float
    coats: int
    litres: float
    dry_hours: float
    when: str
    masks: tuple[str, ...]


@dataclass(frozen=True)
class FinishRow:
    """A coat as it is bought: net area (m²) and litres of all that it coats, and whole tins with what is spilt."""

    coat: str
    area_m2: float
    litres: float
    tin_litres: float
    tins: int
    parts: tuple[str, ...]
    layers: tuple[FinishLayer, ...]
    price: float | None = None
    """Of one tin."""
