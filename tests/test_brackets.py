"""Brackets hold a top near its corners and in between, clear of bars and holes."""

from __future__ import annotations

import re
from functools import cache

from generator.bench.model import Bench
from generator.bench.role import Role
from generator.bench.solve import solve
from generator.figures.compute import compute
from generator.figures.hardware import nuts
from generator.figures.model import Figures
from generator.findings import Finding
from generator.geometry import Span
from generator.resources import bundled
from generator.spec.adapt import adapted
from generator.spec.load import read_spec

STARTER = (bundled("specs") / "starter.yml").read_text(encoding="utf-8")
DEMO = (bundled("specs") / "demo.yml").read_text(encoding="utf-8")
#: One bay: no cross-member, so that each rail has one bracket, in its middle.
CART = STARTER.replace("length: 1300", "length: 660").replace(
    "      - {name: right, width: share, stack: [{shelf: 60}, {shelf: 300}]}\n", ""
)
#: What is said of brackets.
OF_BRACKETS = ("top-brackets", "bracket-gap", "bolt-window", "nut-clash", "feature-bracket")
CARD = "\nhardware: {corner: {use: bracket 40, price: 1.50}}\n"


def with_card(text: str) -> str:
    return text.replace("top:\n", "top:\n  bracket: corner\n") + CARD


@cache
def made(text: str) -> tuple[Figures, Bench, tuple[Finding, ...]]:
    loaded = read_spec(text, "bench.yml")
    bench = solve(loaded)
    figures, findings = compute(bench)
    return figures, bench, findings


def test_a_top_on_two_brackets_is_told_and_the_advice_mends_it() -> None:
    figures, _, findings = made(CART)
    assert figures.top.brackets == ((330, 40), (330, 660))
    (found,) = [each for each in findings if each.code == "top-brackets"]
    assert found.severity.name == "WARNING" and found.found == "330 mm" and found.allowed == "120 mm or less"
    assert all(str(change) in found.advice for change in found.remedy)
    mended, _, after = made(adapted(CART, [(change.path, change.value) for change in found.remedy]))
    assert not [each for each in after if each.code in ("top-brackets", "order-blocked", "nut-clash")]
    # near each of four corners, one between them where the distance asks for it, one in the middle of each long end
    assert {y for _, y in mended.top.brackets} >= {40, 660}
    assert {x for x, _ in mended.top.brackets} >= {40, 620}


def test_brackets_of_a_card_are_counted_bought_and_screwed() -> None:
    figures, bench, findings = made(with_card(STARTER))
    count = len(figures.top.brackets)
    rows = {row.kind: row for row in figures.hardware}
    assert (rows["bracket"].item, rows["bracket"].count, rows["bracket"].spare) == ("corner", count, 0)
    # the card's two holes, a tenth to spare
    assert (rows["top bracket wood screw"].count, rows["top bracket wood screw"].size) == (2 * count, "5x16")
    assert rows["top bracket bolt"].count == count and "top bracket" not in rows
    # a spare nut in each of two stretches of both rails and in both end members
    loaded = nuts(bench)
    assert (loaded.brackets, loaded.spare) == (count, 2 * 2 + 2)
    (bought,) = [each for each in figures.purchases if each.item == "corner"]
    assert bought.cost == 1.5 * count
    (top,) = [step for step in figures.assembly.steps if step.title == "Top board"]
    assert sum(len(place.at) for place in top.places) == count
    assert not [each for each in findings if each.severity.name == "ERROR" or each.code in OF_BRACKETS]


def test_brackets_keep_clear_of_cross_members_and_holes() -> None:
    text = DEMO.replace("overhang: 0", "overhang: 0, bracket: corner").replace(
        "hardware:\n", "hardware:\n  corner: {use: bracket 40}\n"
    )
    _, bench, findings = made(text)
    assert not [each for each in findings if each.severity.name == "ERROR" or each.code in OF_BRACKETS]
    assert bench.grid is not None
    for bracket in bench.brackets:
        bar = next(part for part in bench.parts if part.mark == bracket.bar)
        x, y = bracket.at
        # 36 along the bar, 40 out from it under the top
        out_x = Span(x, x + 40) if x < 1000 else Span(x - 40, x)
        out_y = Span(y, y + 40) if y < 450 else Span(y - 40, y)
        along_x = bar.along == "x"
        wide, deep = (Span(x - 18, x + 18), out_y) if along_x else (out_x, Span(y - 18, y + 18))
        for part in bench.of(Role.TOP_CROSS_MEMBER):
            assert not (along_x and wide.overlap(part.box.x) > 0)
        for column in bench.grid.columns.kept:
            for row in bench.grid.rows.kept:
                hole = Span(column - 10, column + 10), Span(row - 10, row + 10)
                assert not (wide.overlap(hole[0]) > 0 and deep.overlap(hole[1]) > 0)


def test_a_bracket_between_two_near_cross_members_is_told_and_the_advice_mends_it() -> None:
    near = DEMO.replace("B1, width: share", "B1, width: 575").replace(
        ", holes: {diameter: 20, pitch: 96, edge: 60, keep_clear: 3}", ""
    )
    (found,) = [each for each in made(near)[2] if each.code == "bracket-gap"]
    assert (found.found, found.allowed) == ("35 mm", "40 mm or more")
    mended = near.replace("overhang: 0", "overhang: 0, bracket: corner").replace(
        "hardware:\n", "hardware:\n  corner: {use: bracket 40}\n"
    )
    assert not [each for each in made(mended)[2] if each.code in ("bracket-gap", "top-brackets")]


def test_holes_near_the_edge_of_a_packing_strip_are_told_and_the_advice_mends_it() -> None:
    """On bars over 46 mm the strip clears the post and the first hole of a slide lies off its middle."""
    text = STARTER.replace("bar: {use: profile 40}", "bar: {use: profile 40, section: 50}")
    (found,) = [each for each in made(text)[2] if each.code == "packing-edge"]
    assert (found.found, found.allowed) == ("6 mm", "10 mm or more")
    named = re.search(r"`drawers\.slide_setback: (.*)`\.", found.advice)
    assert named
    mended = f"{text}\ndrawers: {{slide_setback: {named[1]}}}\n"
    assert not [each for each in made(mended)[2] if each.code == "packing-edge"]
