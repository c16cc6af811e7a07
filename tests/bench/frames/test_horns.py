"""Horns: posts are cut longer where a glued mortise is near their end; lists, plans, cards, sheets and steps say so."""

from __future__ import annotations

import re
from fractions import Fraction
from functools import cache

from generator.bench.model import Bench
from generator.bench.solve import solve
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.manual import Manual
from generator.pages import PAGES
from generator.spec.load import LoadedSpec, read_spec
from generator.spec.samples import sample_text

TEXT = sample_text("joiner")
#: A bench in inches: laps have no closed mortise, tenons have.
LUMBER = sample_text("lumber").replace("groove: 1/2\n", "groove: 1/2\n  horns: 1 1/4\n")
TENONED = LUMBER.replace(
    "{kind: half lap, use: half lap, from: Harbour Timber, stub: 1/2,",
    "{kind: mortise and tenon, from: Harbour Timber, thickness: 1 1/8, length: 2, stub: 1/2, shoulder: 1/2,",
)
F = Fraction


@cache
def loaded() -> LoadedSpec:
    return read_spec(TEXT, "joiner.yml")


@cache
def figures() -> Figures:
    return compute(solve(loaded()))[0]


def corner_posts(found: Bench) -> list[tuple[Fraction, Fraction, dict[str, Fraction]]]:
    return [
        (part.length, part.cut_size[0], dict(part.horns))
        for part in found.parts
        if part.role.value == "corner post"
    ]


def test_a_post_is_cut_longer_by_its_horns_and_stays_as_long_in_the_bench() -> None:
    """Tenons begin a shoulder and a haunch from both ends, nearer than 60: 30 at the foot and at the head."""
    height = figures().layout.frame_height
    assert corner_posts(solve(loaded())) == [(height, height + 60, {"bottom": 30, "top": 30})] * 4


def test_no_other_timber_has_horns() -> None:
    """Posts between the rails have tenons at their ends; rails are bolted, their mortises far from their ends."""
    assert {row.group for row in figures().parts if row.horns} == {"corner post"}


def test_without_the_key_there_are_none_and_laps_need_none() -> None:
    plain = read_spec(TEXT.replace("  horns: 30\n", ""), "joiner.yml")
    assert all(not part.horns for part in solve(plain).parts)
    assert all(not part.horns for part in solve(read_spec(LUMBER, "lumber.yml")).parts)


def test_in_inches_they_are_as_long_as_the_spec_says() -> None:
    horn = F(5, 4) * F(254, 10)
    for length, cut, ends in corner_posts(solve(read_spec(TENONED, "lumber.yml"))):
        assert (cut - length, ends) == (2 * horn, {"bottom": horn, "top": horn})


def test_the_bar_plan_has_the_length_that_is_sawn() -> None:
    height = figures().layout.frame_height
    lengths = {
        mark: length
        for row in figures().cutting.bars
        for mark, length in zip(row.pieces, row.lengths, strict=True)
    }
    assert {lengths[mark] for mark in ("A1", "A2", "A3", "A4")} == {height + 60}


def test_every_page_says_what_is_cut_and_when_it_goes() -> None:
    manual = Manual(loaded(), figures(), "joiner.yml")
    pages = {
        page.slug: manual.page(page) for page in PAGES if page.slug in ("cut-list", "part-sheets", "assembly")
    }
    assert "corner post" in pages["cut-list"] and "with horns at bottom and top" in pages["cut-list"]
    sheet = re.sub(r"\]\([^)]*\)(?:\{[^}]*\})?|<[^>]*>|\[", "", pages["part-sheets"])
    assert "Cut it 863 mm long, with horns: bottom 30, top 30. Measure from the finished ends." in sheet
    saw, stand = "Saw off the horns of both posts", "Stand the frame up when the clamps are off"
    assert pages["assembly"].count(saw) == 2
    assert pages["assembly"].index(saw) < pages["assembly"].index(stand)
