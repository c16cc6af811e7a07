"""What a print is: a document of framed sheets, made for each size of paper."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import partial
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


Contents = Callable[[Paper, Stamp], Sequence[Content]]
"""Of one bench the sheets of a document for a size of paper, before they are framed."""


@dataclass(frozen=True)
class Print:
    """A document: `contents` gives its sheets before they are framed. Every bench has some for each print.

    `begun` does the same for one paper after the other, where these have much in common.
    """

    slug: str
    title: str
    purpose: str
    contents: Callable[[Figures, Ruler, Paper, Stamp], Sequence[Content]]
    begun: Callable[[Figures, Ruler], Contents] | None = None

    def sheets(self, figures: Figures, ruler: Ruler, paper: Paper, stamp: Stamp) -> tuple[Drawing, ...]:
        """The finished sheets for one size of paper."""
        ((_, found),) = self.on_papers(figures, ruler, [paper], stamp)
        return found

    def on_papers(
        self, figures: Figures, ruler: Ruler, papers: Iterable[Paper], stamp: Stamp
    ) -> Iterator[tuple[Paper, tuple[Drawing, ...]]]:
        """The finished sheets for each size of paper."""
        contents = self.begun(figures, ruler) if self.begun else partial(self.contents, figures, ruler)
        for paper in papers:
            name = f"{self.slug}-{paper.name.lower()}"
            yield paper, frame_sheets(name, contents(paper, stamp), stamp, paper)

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
