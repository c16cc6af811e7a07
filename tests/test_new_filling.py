"""A kind of filling that nobody knows: its two modules and its lines in the lists build a whole manual with it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.new_kinds import ROOT, Manual, built, pages_of, program_with

DUMMY = Path(__file__).parent / "data" / "dummy_filling"
BENCH = "generator/bench/fillings/__init__.py"
SPEC = "generator/spec/fillings/__init__.py"

#: The modules of the new kind, by their places.
MODULES = {
    "generator/bench/fillings/perches.py": DUMMY / "bench.txt",
    "generator/spec/fillings/perches.py": DUMMY / "spec.txt",
}
#: All that it asks of files that are there: file, line as it stands, line as it becomes.
LINES = (
    (
        BENCH,
        "from generator.bench.fillings.open_spaces import OpenSpaces\n",
        "from generator.bench.fillings.open_spaces import OpenSpaces\n"
        "from generator.bench.fillings.perches import Perches\n",
    ),
    (BENCH, "    ShelfFilling(),\n", "    ShelfFilling(),\n    Perches(),\n"),
    (SPEC, "import drawers, open_spaces,", "import drawers, open_spaces, perches,"),
    (SPEC, "open_spaces.ITEM)", "open_spaces.ITEM, perches.ITEM)"),
    (SPEC, "class StackItem(", "class StackItem(perches.PerchKeys, "),
    (
        "generator/codes.py",
        '    CLOSED_ZONE = "closed-zone", "", Harm.NO_FIT\n',
        '    CLOSED_ZONE = "closed-zone", "", Harm.NO_FIT\n    PERCH_LOW = "perch-low", "", Harm.NO_FIT\n',
    ),
)
SHELVES, PERCH = "[{shelf: 60}, {shelf: 300}]", "[{perch: 80}, {open: share}]"


@pytest.fixture(scope="module")
def manual(tmp_path_factory: pytest.TempPathFactory) -> Manual:
    """Files and findings of a bench with perches, by a copy of the program that knows them."""
    starter = (ROOT / "specs" / "starter.yml").read_text(encoding="utf-8")
    assert SHELVES in starter
    program = program_with(tmp_path_factory.mktemp("with-perches"), MODULES, LINES)
    return built(program, starter.replace(SHELVES, PERCH))


@pytest.fixture(scope="module")
def pages(manual: Manual) -> dict[str, str]:
    return pages_of(manual)


FOUND = (
    # its operation, on the sheet of its part
    ("part-sheets", "PE1 · perch board"),
    ("part-sheets", "for a tail"),
    ("part-sheets", "bay right, perch 1"),
    # its boards and what is bought for it
    ("cut-list", "perch board"),
    ("shopping-list", "beech, 77 mm"),
    # its step, with its motion, its fastener and its caution
    ("assembly", "Perches { #step-perches }"),
    ("assembly", "Way in: from the open face"),
    ("assembly", "**2 ×** perch peg"),
    ("assembly", "Knock the pegs in, lay the perch on them."),
    ("assembly", "CAUTION: Perches wobble"),
    ("before-you-start", "Never stand on a perch."),
    # its check
    ("checks", "The perch is too low to sit on"),
    # its place, for whoever sets it out
    ("story-sticks", "Z-perch right"),
    ("story-sticks", "perch 1 underside"),
    # itself, in the drawing of its opening
    ("openings-and-drawers", "A perch, its underside at "),
    # its words
    ("glossary", "A board that one sits on."),
    ("spec-reference", "Height of the perch, or a share."),
)


@pytest.mark.parametrize(("page", "words"), FOUND)
def test_a_new_kind_is_on_every_page_that_it_belongs_to(pages: dict[str, str], page: str, words: str) -> None:
    assert words in pages[page]


def test_a_new_kind_is_in_the_figures(manual: Manual) -> None:
    figures = json.loads(manual["files"]["docs/downloads/figures.json"])
    opening = next(row for row in figures["openings"] if row["item"] == "perch 1")
    assert (opening["bay"], opening["height"]) == ("right", 80)
    moved = [motion for step in figures["assembly"]["steps"] for motion in step["motions"]]
    assert any("PE1" in json.dumps(motion) for motion in moved)
    # 100 kg on the top and three drawers of 20 kg as in the starter, and 90 kg on the perch
    assert figures["mass"]["loaded"] - figures["mass"]["empty"] == pytest.approx(100 + 3 * 20 + 90)


def test_a_new_kind_is_judged_by_its_own_law(manual: Manual) -> None:
    (told,) = (finding for finding in manual["findings"] if "perch-low" in finding)
    assert ": 80 mm, must be " in told
    assert "Knees meet the floor." in told
