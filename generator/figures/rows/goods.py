"""Bought goods that every size rests on (mm)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

Length = Fraction


@dataclass(frozen=True)
class ToteFacts:
    """What a reader measures on a tote: width over the rim, of the body just below it, and height."""

    name: str
    rim_width: Length
    body_width: Length
    height: Length


@dataclass(frozen=True, kw_only=True)
class GoodsFacts:
    """The bought goods that every size rests on: what a reader measures first. Names are the spec's keys.

    `rail` is the material of what lies, `rail_width` its height. Timber has no slot and no bore.
    """

    bar: str
    section: Length
    rail: str
    rail_width: Length
    slot_opening: Length | None
    slot_depth: Length | None
    slot_lip: Length | None
    slot_undercut: Length | None
    bore: Length | None
    panel_sheet: str
    sheets: Mapping[str, Length]
    slide: str
    slide_length: Length | None
    slide_space: Length | None
    totes: tuple[ToteFacts, ...]
    solid: tuple[str, ...] = field(default=(), metadata={"silent": True})
    """What of these is solid wood: boards and timbers."""
    caster: str | None = None
    caster_height: Length | None = None
    caster_wheel: Length | None = None
    caster_trail: Length | None = None
    caster_plate: tuple[Length, Length] | None = None
    drills: tuple[Length, ...]
    taps: tuple[str, ...]
