"""The prints of a manual as PDF files, on every size of paper."""

from __future__ import annotations

from generator.drawings.paper import PAPERS
from generator.figures.model import Figures
from generator.pages.page import ruler_for
from generator.prints import PRINTS
from generator.prints.print import PrintOptions, stamp_of

AS_DRAWN = PrintOptions()
"""Full-scale sheets as they are, in the shipped letters."""


def paper_names() -> list[str]:
    """The path of every print on every size of paper."""
    return [f"docs/downloads/{each.file(paper)}" for each in PRINTS for paper in PAPERS]


def paper_files(figures: Figures, options: PrintOptions = AS_DRAWN) -> dict[str, bytes]:
    """Every print on every size of paper, as PDF."""
    # late: a process that prints nothing need not read the library, a quarter of what the program reads at its start
    from generator.writers.pdf import About, to_pdfs

    ruler, stamp = ruler_for(figures), stamp_of(figures, options.bar)
    documents = {}
    for each in PRINTS:
        about = About(f"{figures.spec.title}: {each.title}", figures.spec.designer, figures.spec.date)
        for paper, sheets in each.on_papers(figures, ruler, PAPERS, stamp):
            documents[f"docs/downloads/{each.file(paper)}"] = (sheets, about)
    return to_pdfs(documents, options.font)
