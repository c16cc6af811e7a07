"""What a print is: a document of framed sheets, made for each size of paper."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

from generator.drawings.canvas import Drawing
from generator.drawings.dimensions import Ruler
from generator.drawings.paper import Paper, Scale
from generator.drawings.sheet import DO_NOT_CUT, Content, Stamp, frame_sheets
from generator.figures.model import Figures

SHORT = 6
"""How many digits of the record's checksum identify a printed sheet."""
Bars = tuple[Fraction, Fraction]
"""Measured bars in mm: along the paper's long side, along its short side."""

CHECK_BAR = Fraction(100)
"""What the measured bar should be, in mm."""


@dataclass(frozen=True)
class PrintOptions:
    """What a reader's own shop adds: `bar` is what printed bars of 100 mm measured there, `font` a file of letters."""

    bar: Bars | None = None
    font: Path | None = None


@dataclass(frozen=True)
class Print:
    """A document: `contents` gives its sheets before they are framed. Every bench has some for each print."""

    slug: str
    title: str
    purpose: str
    contents: Callable[[Figures, Ruler, Paper, Stamp], Sequence[Content]]

    def sheets(self, figures: Figures, ruler: Ruler, paper: Paper, stamp: Stamp) -> tuple[Drawing, ...]:
        """The finished sheets for one size of paper."""
        contents = self.contents(figures, ruler, paper, stamp)
        return frame_sheets(f"{self.slug}-{paper.name.lower()}", contents, stamp, paper)

    def file(self, paper: Paper) -> str:
        """Name of the PDF."""
        return f"{self.slug}-{paper.name}.pdf"


def stamp_of(figures: Figures, bar: Bars | None = None) -> Stamp:
    """What every sheet of a manual says about itself. `bar` is what printed bars of 100 mm measured."""
    facts, record = figures.spec, figures.record
    long, short = bar or (CHECK_BAR, CHECK_BAR)
    return Stamp(
        title=facts.title,
        owner=facts.designer,
        revision=facts.revision,
        date=facts.date,
        checksum=facts.checksum,
        units=facts.units,
        correction=Scale(float(CHECK_BAR / short), float(CHECK_BAR / long)),
        bar=" × ".join(f"{float(each):g}" for each in dict.fromkeys(bar)) if bar else "",
        record=record.checksum[:SHORT] if record else "",
        state=DO_NOT_CUT if figures.has_errors else record.state if record else "draft",
    )
