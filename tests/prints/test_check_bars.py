"""Check bars as a ruler finds them in the finished PDFs: what stands between two neighbouring ticks."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest

from generator.drawings.paper import PAPERS, Paper
from generator.prints.print import Bars
from tests.effort import sample
from tests.paper_reader import Stroke, pages, strokes, words
from tests.prints.bench import NAMES, pdf

FULL_SCALE = ("story-sticks", "templates")
BARS = (None, (Fraction("99.7"), Fraction("100.2")))
SHEETS = [
    (name, slug, paper, bar) for name in NAMES for slug in FULL_SCALE for paper in PAPERS for bar in BARS
]


def lying(stroke: Stroke) -> tuple[float, float, float]:
    """(low, high, level) of a stroke along the sheet."""
    return min(stroke.x, stroke.to_x), max(stroke.x, stroke.to_x), stroke.y


def upright(stroke: Stroke) -> tuple[float, float, float]:
    """(low, high, level) of a stroke across it."""
    return min(stroke.y, stroke.to_y), max(stroke.y, stroke.to_y), stroke.x


def between_ticks(
    bars: list[tuple[float, float, float]], ticks: list[tuple[float, float, float]]
) -> list[float]:
    """Distances of neighbouring ticks on every line that bears ticks at both of its ends."""
    found: set[tuple[float, ...]] = set()
    for low, high, level in bars:
        on_line = sorted({round(at, 2) for a, b, at in ticks if a - 0.1 < level < b + 0.1})
        if all(any(abs(at - end) < 0.02 for at in on_line) for end in (low, high)):
            found.add(tuple(on_line))
    return sorted(b - a for line in found for a, b in pairwise(line))


@pytest.mark.parametrize(
    ("name", "slug", "paper", "bar"), sample(SHEETS, 5), ids=lambda v: getattr(v, "name", v)
)
def test_neighbouring_ticks_are_the_ends_of_one_bar(
    name: str, slug: str, paper: Paper, bar: Bars | None
) -> None:
    long, short = (float(100 / each) for each in bar or (Fraction(100), Fraction(100)))
    for number, page in enumerate(pages(pdf(name, slug, paper, bar)), 1):
        assert {"check: 100 mm", "check: 4 in"} <= {word.text for word in words(page)}
        lies = float(page.mediabox.width) > float(page.mediabox.height)
        along, across = (long, short) if lies else (short, long)
        drawn = strokes(page)
        level = [lying(s) for s in drawn if s.across < 0.001]
        plumb = [upright(s) for s in drawn if s.along < 0.001]
        # longer than any tick of a scale, shorter than the frame's own lines
        for lines, others, factor in ((level, plumb, along), (plumb, level, across)):
            bars = [line for line in lines if 90 < line[1] - line[0] < 115]
            ticks = [line for line in others if line[1] - line[0] < 4]
            expected = pytest.approx([100 * factor, 101.6 * factor], abs=0.03)
            assert between_ticks(bars, ticks) == expected, f"sheet {number}"
