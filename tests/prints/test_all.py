"""Every print of every shipped bench: lettering that can be read, nothing cut, bytes that stay."""

from __future__ import annotations

from itertools import combinations

import pytest

from generator.drawings.extent import Extent
from generator.drawings.letter_sizes import SMALL_TEXT
from generator.drawings.paper import PAPERS, Paper
from generator.prints import PRINTS
from generator.writers.pdf import About, to_pdf
from tests.effort import sample
from tests.prints.bench import NAMES, pdf, sheets

CASES = [(name, each.slug, paper) for name in NAMES for each in PRINTS for paper in PAPERS]
EVERY = pytest.mark.parametrize(("name", "slug", "paper"), CASES, ids=lambda v: getattr(v, "name", v))


@EVERY
def test_texts_are_apart_whole_and_large_enough(name: str, slug: str, paper: Paper) -> None:
    for sheet in sheets(name, slug, paper):
        room, boxes = Extent(0, 0, sheet.width, sheet.height), sheet.text_boxes()
        assert [text for text, box in boxes if not room.contains(box)] == [], sheet.id
        assert [(a, b) for (a, one), (b, two) in combinations(boxes, 2) if one.overlaps(two)] == [], sheet.id
        assert [text.text for text in sheet.texts() if text.height < SMALL_TEXT] == [], sheet.id


@EVERY
def test_every_sheet_says_what_it_is(name: str, slug: str, paper: Paper) -> None:
    drawn = sheets(name, slug, paper)
    for number, sheet in enumerate(drawn, 1):
        text = " ".join(text.text for text in sheet.texts())
        for word in (
            "rev ",
            "spec ",
            f"{number} / {len(drawn)}",
            "General tolerance ISO 2768-m unless stated.",
        ):
            assert word in text, sheet.id


@pytest.mark.parametrize(("name", "slug", "paper"), sample(CASES, 7), ids=lambda v: getattr(v, "name", v))
def test_the_same_sheets_give_the_same_bytes(name: str, slug: str, paper: Paper) -> None:
    if drawn := sheets(name, slug, paper):
        assert to_pdf(drawn, About("test", date="2026-11-02")) == pdf(name, slug, paper)
