"""Workings as they are read: on the terminal, on the pages, and every figure with one or with a reason."""

from __future__ import annotations

import re
from collections.abc import Mapping
from functools import cache

import pytest

from generator.bench.solve import solve
from generator.cli import main
from generator.figures.compute import compute
from generator.figures.number_names import numbers_of
from generator.figures.workings import workings
from generator.manual import Manual
from generator.pages import PAGES
from generator.pages.page import working_anchor
from generator.resources import bundled
from tests.test_working import BENCHES, book, loaded


def test_places_of_workings_are_named_apart() -> None:
    for name in BENCHES:
        anchors = [working_anchor(book(name), key) for key in book(name).by_key]
        assert len(set(anchors)) == len(anchors), name


def test_figures_print_their_working_on_the_terminal(capsys: pytest.CaptureFixture[str]) -> None:
    spec = str(bundled("specs") / "demo.yml")
    assert main(["figures", spec, "--working", "drawers.0.box_width"]) == 0
    printed = capsys.readouterr().out
    assert (
        "= width of bay F1 − 2 × proud of drawers − 2 × side space of slide\n    = 500 − 2 × 1 − 2 × 13\n"
        in printed
    )
    assert "demo.yml:74: drawers.proud: 1." in printed


def test_a_part_of_a_path_prints_all_below_it(capsys: pytest.CaptureFixture[str]) -> None:
    spec = str(bundled("specs") / "wall-bench.yml")
    assert main(["figures", spec, "--working", "fits[0]"]) == 0
    printed = capsys.readouterr().out
    assert "rabbet depth" in printed and "offset" in printed


def test_an_unknown_figure_names_the_nearest(capsys: pytest.CaptureFixture[str]) -> None:
    spec = str(bundled("specs") / "demo.yml")
    assert main(["figures", spec, "--working", "drawers[0].boxwidth"]) == 2
    assert "did you mean 'drawers[0].box_width'?" in capsys.readouterr().err


@cache
def manual() -> Mapping[str, bytes]:
    spec = loaded("demo")
    figures, _ = compute(solve(spec))
    made = Manual(spec, figures, "demo.yml")
    return {f"docs/{page.file}": made.page(page).encode() for page in PAGES}


def test_every_figure_of_a_page_leads_to_a_place_on_the_page_of_workings() -> None:
    files = manual()
    working = files["docs/working.md"].decode()
    places = set(re.findall(r'(?:\{: #|id=")(w-[a-z0-9-]+)', working))
    led = {
        file: re.findall(r"\(working\.md#(w-[a-z0-9-]+)\)", text.decode())
        for file, text in files.items()
        if file.endswith(".md")
    }
    for file, anchors in led.items():
        assert set(anchors) <= places, file
    for page in ("cut-list", "openings-and-drawers", "fits", "story-sticks", "part-sheets", "checks"):
        assert len(led[f"docs/{page}.md"]) > 20, page
    assert set(re.findall(r"\]\(#(w-[a-z0-9-]+)\)", working)) <= places


#: What a page says in two units without a figure behind it.
ONLY_SAID = {
    "±0.2 mm": "how well the shop saws: the note at the foot of every page",
    "0.1 mm": "how well the shop drills: the note at the foot of every page",
    "0.05 mm": "how well to measure a sheet",
    "0.3 mm": "how well to measure a bay",
    "400 mm": "how far away a lift is reckoned: words of the sentence on lifting",
    "30 mm": "room for the hands at a door: words of the sentence on lifting",
    "0.5": "how far from square a frame may be: a tolerance of the trade",
    "1": "the same, of the larger frames",
    "50 mm": "how far from the edge a load is: words of the test of tables",
    "0.5 mm": "what may stay after a pull: words of the card to test the bench",
    "1 mm": "what may change in the diagonals: words of the same card",
    "0.0\xa0kg\xa0m": "nothing: the least that may hold a bench down",
}


SHOWN_IN_FULL = (
    "assembly",
    "at-the-machine",
    "bar-plan",
    "checks",
    "fits",
    "set-up-cards",
    "sheet-plan",
    "strength",
)


@pytest.mark.parametrize("page", SHOWN_IN_FULL)
def test_every_number_of_a_page_that_has_two_readings_shows_its_working(page: str) -> None:
    """What is written in both units of length, mass, force … and does not lead on is listed above, with the reason."""
    text = manual()[f"docs/{page}.md"].decode()
    # a box to tick holds no link: the diagonals stand on Checks, with their working
    text = re.sub(r'<ul class="bm-checklist.*?</ul>', "", text)
    # nothing in a heading leads on, and the second reading of a pair in brackets stands beside the first
    body = "\n".join(line for line in text.splitlines() if not line.startswith("#") and "<svg" not in line)
    body = re.sub(r"<span class='bm-in'>.*?\)</span>", "", body)
    body = re.sub(r"\[[^\[\]]{0,300}\]\(working\.md#[^)]*\)", "", body)
    left = {said for said in re.findall(r"<span data-o=[^>]*>([^<]*)</span>", body) if re.search(r"\d", said)}
    assert left <= set(ONLY_SAID), left - set(ONLY_SAID)


#: Numbers of figures.json without a working, by their paths, and why.
NO_WORKING = {
    r"checks\[\d+\]\.(value|limit)": "drawers open at once, and how many there are: counted",
    r"stability\[[123]\]\.holds.*": "no page prints the groups of a face without drawers",
    r"balance\.(empty|loaded)\[2\]": "a height, on which nothing rests that is printed",
    r"assembly\.steps\[\d+\]\.keys\[\d+\]\.key": "the size by which a key is bought",
    r"assembly\.steps\[\d+\]\.fixings\[\d+\]\.uses\[\d+\]\..*": "by which a picture takes its screw, as on Hardware",
    r"assembly\.steps\[\d+\]\.squares\[\d+\]\.tolerance": "a tolerance of the trade, as it is read off",
    r"purchases\[\d+\]\.(quantity|cost|buy\[\d+\]\.price)|purchase_total\..*cost": "amounts to buy and money",
    r"cutting\.(bar_bound\..*|(sheet_)?summaries\[\d+\])\.(used|cost|clean_cost|gap)": "shares and money of a plan",
    r"assumed\[\d+\]\.value": "what the table of assumed values states as it is given",
    r"shop\.screw_holes\[\d+\]\..*": "drills by the half millimetre on the shelf",
    r"record\.measured\[\d+\]\..*": "what was measured, as the record states it",
    r"assembly\.(solids|screws|nuts|brackets)\[\d+\]\.blocks\[\d+\]\[\d\]": "corners of bodies: shown, not printed",
    r"hardware\[\d+\]\.looks\[\d+\]\..*": "sizes of goods as the list has them, by which they are drawn",
    r"diagonals\[\d+\]\.flat\[\d\]": "where a picture draws the tape",
    r"seasons\.(driest|dampest)": "moisture of wood by a fit to measured tables",
}


@pytest.mark.parametrize("name", BENCHES)
def test_every_number_of_the_figures_has_a_working_or_a_reason(name: str) -> None:
    spec = loaded(name)
    figures, _ = compute(solve(spec))
    found = workings(figures)
    numbers = list(numbers_of(figures))
    without = [path for path, _, value in numbers if value and not found.key_of(value)]
    odd = [path for path in without if not any(re.fullmatch(each, path) for each in NO_WORKING)]
    assert not odd
    counted = [path for path in without if path.startswith("checks")]
    assert {int(path[7 : path.index("]")]) for path in counted} <= {
        place for place, check in enumerate(figures.checks) if check.code == "drawers-open"
    }
    assert len(numbers) - len(without) > 2000
