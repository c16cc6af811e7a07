"""Boards with banding on their edges: what is cut of the board and of the band."""

from __future__ import annotations

from dataclasses import dataclass

from generator.figures.rows.parts import Length


@dataclass(frozen=True)
class Band:
    """One edge of each of these boards, with the length (mm) to cut its band to."""

    edge: str
    length: Length


@dataclass(frozen=True)
class BandedRow:
    """A distinct part with banding: its size before the bands (mm), and its bands in the order in which they go on."""

    mark: str
    marks: tuple[str, ...]
    name: str
    thickness: Length
    """Thickness of the band."""
    cut: tuple[Length, Length]
    finished: tuple[Length, Length]
    bands: tuple[Band, ...]
