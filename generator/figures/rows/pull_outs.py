"""Boards that one pulls out (mm)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction


@dataclass(frozen=True)
class PullOut:
    """Its upper face and the axis of what it runs on, above the frame's underside; above the base rail's top too."""

    bay: str
    number: int
    top: Fraction
    width: Fraction
    depth: Fraction
    thickness: Fraction
    slide_axis: Fraction
    above_rail: Mapping[str, Fraction] = field(default_factory=dict)
