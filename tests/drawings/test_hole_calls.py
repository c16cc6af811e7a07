"""Call-outs of a drawing without hole words: every kind of hole is named once, with how many there are."""

from __future__ import annotations

import re
from collections import Counter
from functools import cache
from pathlib import Path

import pytest

from generator.drawings.canvas import Drawing
from generator.drawings.dimensions import Ruler
from generator.drawings.part import draw_part
from generator.figures.compute import figures_of
from generator.figures.model import Figures
from generator.figures.rows.parts import PartRow
from generator.geometry import FACES
from generator.spec.load import read_spec_file

SPECS = Path(__file__).parents[2] / "specs"
CALL = re.compile(r"(?:(\d+)× )?((?:Ø|M)[\d ./]+)")


@cache
def figures(name: str) -> Figures:
    return figures_of(read_spec_file(SPECS / f"{name}.yml"))[0]


def said(drawing: Drawing) -> Counter[str]:
    """How many holes of a size the call-outs count."""
    found: Counter[str] = Counter()
    for text, _ in drawing.text_boxes():
        first, *more = text.split(", ")
        if match := CALL.fullmatch(first):
            for size in (match[2], *more):
                found[size] += int(match[1] or 1)
    return found


def made(row: PartRow) -> Counter[str]:
    """The round holes in the sides of a part, as a driller counts them."""
    return Counter(
        f"M{hole.size}" if hole.op.startswith("tap") else f"Ø{float(hole.size):g}"
        for hole in row.operations
        if not isinstance(hole.size, tuple) and not (row.is_bar and hole.face in FACES[row.along])
    )


@pytest.mark.parametrize("name", ["demo", "samples/outfeed", "samples/joiner"])
def test_each_kind_of_hole_is_called_with_its_number(name: str) -> None:
    seen = 0
    for row in figures(name).parts:
        if row.is_bar or row.metal:
            drawing = draw_part(figures(name), row, Ruler("mm"), brief=True)
            assert said(drawing) == made(row), (row.mark, drawing.title)
            seen += len(made(row))
    assert seen > 3
