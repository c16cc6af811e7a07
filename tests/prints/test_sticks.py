"""The full-scale sticks, measured in the finished PDFs: bars, joins, sums over all tiles, every mark."""

from __future__ import annotations

import re
from collections import defaultdict
from dataclasses import dataclass, field, replace
from fractions import Fraction
from itertools import combinations, pairwise

import pytest

from generator.drawings.dimensions import Ruler
from generator.drawings.extent import Extent
from generator.drawings.paper import A4, LETTER, TRUE_SCALE, Paper
from generator.drawings.shapes import Circle, Text
from generator.drawings.stick import all_sticks
from generator.drawings.strips import BAND, MarkingStrip, Position, StripHole, TilePainter, printed
from generator.pages.page import ruler_for
from generator.prints.print import Bars
from generator.prints.sticks import pieces
from generator.writers.svg import to_svg
from tests.paper_reader import Stroke, Word, pages, size, strokes, words
from tests.prints.bench import NAMES, figures_of, pdf, sheets

SLUG = "story-sticks"
READ_STANDING = 16
"""Points of the figures of a stick: it is read at arm's length."""
JOIN_LENGTH = 1.0 + BAND + 6.6
UNEQUAL = (Fraction("99.7"), Fraction("100.2"))
"""Bars along the long side and the short side: sticks lie along the long one."""
CASES = [(name, paper, bar) for name in NAMES for paper in (A4, LETTER) for bar in (None, UNEQUAL)]
MEASURED = pytest.mark.parametrize(("name", "paper", "bar"), CASES, ids=lambda v: getattr(v, "name", v))


@dataclass
class Found:
    """One tile as a ruler finds it."""

    name: str
    strokes: list[Stroke]
    words: list[Word]
    joins: dict[float, float] = field(default_factory=dict)
    """Coordinate that is written at a join -> its place on the paper."""


def tiles(data: bytes) -> dict[str, list[Found]]:
    """Every tile of a PDF by the stick's name, in order."""
    found: dict[str, list[Found]] = defaultdict(list)
    for page in pages(data):
        all_words, all_strokes = words(page), strokes(page)
        titles = sorted((w for w in all_words if " · 0 = " in w.text), key=lambda w: w.y)
        bars = min(w.y for w in all_words if w.text.startswith("check: ")) - 3
        for title, end in zip(titles, [*(t.y for t in titles[1:]), bars], strict=True):
            tile = Found(
                title.text.split(" · ")[0],
                [s for s in all_strokes if title.y - 3 < min(s.y, s.to_y) and max(s.y, s.to_y) < end],
                [w for w in all_words if title.y < w.y < end],
            )
            places = sorted({round(s.x, 3) for s in tile.strokes if abs(s.across - JOIN_LENGTH) < 0.1})
            marks = [re.fullmatch(r"join \d+ @ (.+)", w.text) for w in sorted(tile.words, key=lambda w: w.x)]
            coordinates = [number(mark[1]) for mark in marks if mark]
            tile.joins = dict(zip(coordinates, places, strict=True))
            found[tile.name].append(tile)
    return found


def capitals(points: float) -> float:
    """Height in mm of the capitals of the sheets' letters, as their font file has it."""
    return points * 25.4 / 72 * 1493 / 2048


def number(text: str) -> float:
    """A written length: a decimal, or inches and a fraction; in the unit in which it stands."""
    return float(sum(Fraction(part) for part in text.split()))


def ends(tile: Found) -> tuple[float, float]:
    """Left and right end of the band."""
    rails = [s for s in tile.strokes if s.across < 0.01 and s.along > 9]
    return min(s.x for s in rails), max(s.to_x for s in rails)


@MEASURED
def test_every_sheet_has_true_bars_both_ways(name: str, paper: Paper, bar: Bars | None) -> None:
    along, across = (float(100 / each) for each in bar) if bar else (1.0, 1.0)
    for page in pages(pdf(name, SLUG, paper, bar)):
        assert size(page) == pytest.approx((paper.height, paper.width), abs=0.01)
        found = strokes(page)
        for length in (100, 101.6):
            assert [s for s in found if abs(s.along - length * along) < 0.02 and s.across < 0.001], "along"
            assert [s for s in found if abs(s.across - length * across) < 0.02 and s.along < 0.001], "across"
        text = " ".join(w.text for w in words(page))
        assert ("corrected for bars of 99.7 × 100.2 mm" in text) == bool(bar)


@MEASURED
def test_the_tiles_of_a_stick_add_up_to_its_length(name: str, paper: Paper, bar: Bars | None) -> None:
    factor = float(100 / bar[0]) if bar else 1.0
    found = tiles(pdf(name, SLUG, paper, bar))
    for stick in all_sticks(figures_of(name)):
        total, start = 0.0, None
        for tile in found[stick.name]:
            left, right = ends(tile)
            places = sorted(tile.joins.values())
            begin = left if start is None else places[0]
            last = tile is found[stick.name][-1]
            total += (right if last else places[-1]) - begin
            start = begin
        assert total == pytest.approx(float(stick.length) * factor, abs=0.1), stick.name


@MEASURED
def test_every_mark_stands_at_its_place(name: str, paper: Paper, bar: Bars | None) -> None:
    factor, figures = float(100 / bar[0]) if bar else 1.0, figures_of(name)
    ruler = ruler_for(figures)
    found = tiles(pdf(name, SLUG, paper, bar))
    for stick in all_sticks(figures):
        missing = {(mark.at, mark.label) for mark in stick.marks}
        origin = 0.0  # coordinate of the tile's left end, in mm from the datum
        for tile in found[stick.name]:
            left, right = ends(tile)
            for mark in stick.marks:
                x = left + (float(mark.at) - origin) * factor
                leaders = [s for s in tile.strokes if abs(s.x - x) < 0.05 and s.along < 0.001]
                sizes = [
                    w
                    for w in tile.words
                    if w.text == ruler.text(mark.at)
                    and w.points > READ_STANDING - 0.01
                    and any(
                        abs(w.y - min(s.y, s.to_y) - capitals(w.points)) < 0.1 and abs(w.x - s.x) < 80
                        for s in leaders
                    )
                ]
                if sizes and left - 0.05 < x < right + 0.05:
                    missing.discard((mark.at, mark.label))
            if tile is not found[stick.name][-1]:
                origin += (sorted(tile.joins.values())[-1] - left) / factor - 5.0
        assert not missing, stick.name


@MEASURED
def test_both_tiles_of_a_join_bear_it_at_one_coordinate(name: str, paper: Paper, bar: Bars | None) -> None:
    for stick, parts in tiles(pdf(name, SLUG, paper, bar)).items():
        for before, after in pairwise(parts):
            assert max(before.joins) == min(after.joins), stick


def test_a_join_bears_a_target_and_a_member_an_x() -> None:
    """The two signs must not be taken for each other: a circle at each join, no circle elsewhere."""
    for sheet in sheets("demo", SLUG, A4):
        joins = [
            shape for shape in sheet.shapes if isinstance(shape, Text) and shape.text.startswith("join ")
        ]
        circles = [shape for shape in sheet.shapes if isinstance(shape, Circle)]
        assert len(circles) == len(joins)
        for join in joins:
            assert any(abs(abs(join.at[0] - circle.centre[0]) - 3.0) < 0.001 for circle in circles), join.text


def test_a_long_stick_says_that_paper_is_for_labels() -> None:
    for page in pages(pdf("demo", SLUG, A4)):
        text = " ".join(w.text for w in words(page))
        if "X-front" in text:
            assert "Over 500 mm, use paper for labels" in text


@pytest.mark.parametrize("name", NAMES)
def test_texts_of_a_stick_in_one_piece_are_apart_and_whole(name: str) -> None:
    figures = figures_of(name)
    for drawing in pieces(figures, ruler_for(figures)):
        room, boxes = Extent(0, 0, drawing.width, drawing.height), drawing.text_boxes()
        assert [text for text, box in boxes if not room.contains(box)] == [], drawing.id
        assert [(a, b) for (a, one), (b, two) in combinations(boxes, 2) if one.overlaps(two)] == [], (
            drawing.id
        )


def test_a_stick_in_one_piece_is_as_long_as_it_is() -> None:
    figures = figures_of("demo")
    for stick, drawing in zip(all_sticks(figures), pieces(figures, ruler_for(figures)), strict=True):
        svg = to_svg(drawing).alone
        width = float(re.search(r'width="([\d.]+)mm"', svg)[1])  # type: ignore[index]
        assert f'viewBox="0 0 {width:g} ' in svg.replace(f"{width:.2f}", f"{width:g}")
        rails = [s for s in drawing.shapes if getattr(s, "style", "") == "outline" and hasattr(s, "end")]
        lengths = [s.end[0] - s.start[0] for s in rails]  # type: ignore[union-attr]
        assert max(lengths) == pytest.approx(float(stick.length))


def test_the_height_rod_stands_on_the_floor() -> None:
    rod = figures_of("demo").height_rod
    assert rod is not None
    assert [float(mark.at) for mark in rod.marks] == [0, 137, 177, 662, 676, 688, 822, 862, 880]


def test_a_drilling_strip_has_no_paper_on_which_nothing_is_drilled() -> None:
    """Holes 20 and 700 from the end on tiles of 170: two sheets of five, and the last says where it begins."""
    holes = tuple(StripHole(Fraction(at), Fraction(20), Fraction(8)) for at in (20, 600))
    positions = tuple(Position(hole.at, "hole", "centre") for hole in holes)
    strip = MarkingStrip("strip", "left end", "B1", Fraction(615), positions, 40.0, holes)
    tiles = printed(strip, Fraction(170))
    assert [(tile.n, tile.joins) for tile in tiles] == [(1, ()), (4, ())]
    title = TilePainter(tiles[1], Ruler(), 0.0, 180.0, TRUE_SCALE).title()
    assert "measure 510 from 0 to its left end with a tape" in title
    assert len(printed(replace(strip, holes=()), Fraction(170))) == 4
