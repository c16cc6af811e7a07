"""What identifies the spec of a manual, and what it left to defaults."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

Length = Fraction


@dataclass(frozen=True)
class PastIssue:
    """An earlier revision of the spec; sheets with its `checksum` are superseded."""

    revision: str
    date: str = ""
    reason: str = ""
    checksum: str = ""


@dataclass(frozen=True)
class SourceBench:
    """A bench that this one was adapted from, with author, licence and the web address of its manual."""

    title: str
    designer: str = ""
    licence: str = ""
    revision: str = ""
    checksum: str = ""
    url: str = ""


@dataclass(frozen=True)
class SpecFacts:
    """What identifies the spec. `checksum` is the first twelve hex digits of the SHA-256 of its bytes."""

    title: str
    revision: str
    checksum: str
    units: str
    designer: str = ""
    date: str = ""
    reason: str = ""
    licence: str = ""
    inch_fraction: int = 32
    history: tuple[PastIssue, ...] = ()
    currency: str = ""
    budget: float | None = None
    adapted_from: tuple[SourceBench, ...] = ()


@dataclass(frozen=True)
class Assumption:
    """A value that the spec does not state, by its key path, and why it was taken. Quantities in base units."""

    path: str
    value: str | Length | float | tuple[Length, ...]
    reason: str
