"""The whole manual as one PDF: head and foot line on every page, lettering that can be read, no way out."""

from __future__ import annotations

import shutil
from math import hypot
from pathlib import Path

import pypdf
import pytest

from generator.cli import main
from generator.resources import bundled
from tests.browser.conftest import NAMES, missing
from tests.effort import quick_or, sample

LEAST = 2.5 / 0.729 * 72 / 25.4
"""Points whose capitals are 2.5 mm high."""


def read(page: pypdf.PageObject) -> tuple[str, float]:
    """The text of a page, and its smallest lettering in points."""
    sizes: list[float] = []

    def visit(text: str, user: list[float], matrix: list[float], font: object, size: float) -> None:
        if text.strip():
            sizes.append(abs(size) * hypot(*matrix[:2]) * hypot(*user[:2]))

    text = page.extract_text(visitor_text=visit)
    return " ".join(text.split()), min(sizes, default=LEAST)


@pytest.mark.parametrize(
    ("name", "paper", "sides", "pages"),
    quick_or(
        [("starter", "Letter", (215.9, 279.4), "shop")],
        [
            ("starter", "Letter", (215.9, 279.4), "full"),
            ("wall-bench", "A4", (210, 297), "full"),
            ("demo", "A4", (210, 297), "shop"),
        ],
    ),
)
def test_the_manual_prints_whole(
    name: str, paper: str, sides: tuple[float, float], pages: str, tmp_path: Path
) -> None:
    if not any(map(shutil.which, NAMES)):
        missing("a Chromium browser")
    spec = bundled("specs") / f"{name}.yml"
    assert main(["print", str(spec), "--paper", paper, "--set", pages, "--out", str(tmp_path)]) == 0
    document = pypdf.PdfReader(tmp_path / f"{'manual' if pages == 'full' else pages}-{paper}.pdf")
    assert len(document.pages) > 30
    if (name, paper, pages) == ("demo", "A4", "shop"):
        # what a shop prints: more is not carried to the bench
        assert len(document.pages) < 120
    assert document.outline
    # reading a page takes long, and there are three hundred: a few of each kind, and how it ends
    last = len(document.pages)
    for number in [*sample(range(1, last + 1), 10)]:
        page = document.pages[number - 1]
        size = sorted(float(side) * 25.4 / 72 for side in (page.mediabox.width, page.mediabox.height))
        assert size == pytest.approx(sides, abs=0.5)
        text, smallest = read(page)
        assert "spec " in text, number
        assert "ISO 2768-m" in text, number
        assert f"{number} / {last}" in text
        assert smallest > LEAST - 0.15, number
        links = [note.get_object() for note in page.get("/Annots", ())]
        assert not [link for link in links if "/URI" in link.get("/A", {})], number
    assert not (tmp_path / "site" / "booklet.html").exists()
