"""Sheets of paper: their sizes in mm and the space to draw on.

Sizes after ISO 216 (A4) and ANSI X3.151 (Letter). Margins after ISO 5457: 20 mm to bind, 10 mm elsewhere.
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.drawings.extent import Extent

BINDING_MARGIN, MARGIN = 20.0, 10.0
"""ISO 5457: the left edge is bound, whichever way the sheet lies."""


@dataclass(frozen=True)
class Paper:
    """A sheet as it lies in front of the reader, in mm. `pitch` is what one tile of a long drawing advances."""

    name: str
    width: float
    height: float
    pitch: float = 0.0

    @property
    def space(self) -> Extent:
        """The space within the margins."""
        return Extent(BINDING_MARGIN, MARGIN, self.width - MARGIN, self.height - MARGIN)

    def turned(self) -> Paper:
        """The sheet lying on its long side."""
        return Paper(self.name, self.height, self.width, self.pitch)


@dataclass(frozen=True)
class Scale:
    """By how much a sheet is drawn larger along `x` and `y`, to undo a printer that shrinks it."""

    x: float = 1.0
    y: float = 1.0

    @property
    def mean(self) -> float:
        """The factor of what has no direction, as a circle."""
        return (self.x + self.y) / 2

    def turned(self) -> Scale:
        """The scale of the same paper lying on its long side."""
        return Scale(self.y, self.x)


TRUE_SCALE = Scale()
"""A printer that is true both ways."""

A4 = Paper("A4", 210.0, 297.0, pitch=250.0)
LETTER = Paper("Letter", 215.9, 279.4, pitch=230.0)
PAPERS = (A4, LETTER)
