"""A kind of stand that nobody knows: its two modules and its lines in the lists build a whole manual with it."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from tests.new_kinds import ROOT, Manual, built, changed, pages_of, program_with

DUMMY = Path(__file__).parent / "data" / "dummy_stand"
BENCH = "generator/bench/stands/__init__.py"
SPEC = "generator/spec/stands/__init__.py"
CARDS = "specs/cards.yml"

#: The modules of the new kind, by their places.
MODULES = {
    "generator/bench/stands/spikes.py": DUMMY / "bench.txt",
    "generator/spec/stands/spikes.py": DUMMY / "spec.txt",
}
#: All that it asks of files that are there: file, line as it stands, line as it becomes.
LINES = (
    (
        BENCH,
        "from generator.bench.stands.plinth import OnPlinth\n",
        "from generator.bench.stands.plinth import OnPlinth\nfrom generator.bench.stands.spikes import Spikes\n",
    ),
    (BENCH, "= (OnPlinth(), Lifted(),", "= (Spikes(), OnPlinth(), Lifted(),"),
    (SPEC, "import casters, feet, plinth\n", "import casters, feet, plinth, spikes\n"),
    (SPEC, 'Tag("levelling foot")]', 'Tag("levelling foot")] | Annotated[spikes.Spike, Tag("spike")]'),
    (SPEC, "*plinth.REFERENCES)", "*plinth.REFERENCES, *spikes.REFERENCES)"),
    (SPEC, "class Base(PlateKeys, PlinthKeys", "class Base(PlateKeys, spikes.SpikeKeys, PlinthKeys"),
    (
        "generator/codes.py",
        '    CASTER_RATING = "caster-rating", "", Harm.FALLS\n',
        '    CASTER_RATING = "caster-rating", "", Harm.FALLS\n'
        '    SPIKE_LOW = "spike-low", "", Harm.FAILS\n    SPIKE_RATING = "spike-rating", "", Harm.FALLS\n'
        '    SPIKE_HANGING = "spike-hanging", "", Harm.FALLS\n',
    ),
    (
        CARDS,
        "  caster 100:",
        "  spike 60: {kind: spike, height: 25 mm, shank: 23 mm, rating: 200 kg}\n  caster 100:",
    ),
)
BASE, SPIKES = "base: {count: 4}", "base: {spikes: point}\nhardware: {point: {use: spike 60}}"


@pytest.fixture(scope="module")
def program(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of the program that knows spikes."""
    return program_with(tmp_path_factory.mktemp("with-spikes"), MODULES, LINES)


@pytest.fixture(scope="module")
def manual(program: Path) -> Manual:
    """Files and findings of a bench on spikes."""
    starter = (ROOT / "specs" / "starter.yml").read_text(encoding="utf-8")
    assert BASE in starter
    return built(program, starter.replace(BASE, SPIKES))


@pytest.fixture(scope="module")
def pages(manual: Manual) -> dict[str, str]:
    return pages_of(manual)


FOUND = (
    # its operation, on the sheet of its part
    ("part-sheets", "## KP1–KP4 · spike pad"),
    ("part-sheets", "for the spike&#39;s shank"),
    ("part-sheets", "bolt to slot nut in B1"),
    ("part-sheets", "KP1 front left; KP2 front right; KP3 rear left; KP4 rear right."),
    # its parts and what is bought for it
    ("cut-list", "<span>spike pad</span></span> | 4 |"),
    ("hardware", '| spike <small class="bm-key">point</small> |'),
    ("hardware", "16 for spike pads, 4 for top brackets"),
    ("hardware", "## Pads"),
    ("shopping-list", "M8x16, 16 + 2 spare"),
    # its step, with its motion, its fasteners and its caution
    ("assembly", "## Top grid and spikes"),
    ("assembly", "Pads and spikes, from below { #step-spikes }"),
    ("assembly", "- Way in: up"),
    ("assembly", "- **4 ×** KP1–KP4 spike pad"),
    ("assembly", '- **4 ×** spike <small class="bm-key">point</small>'),
    ("assembly", "- **16 ×** pad bolt"),
    ("assembly", "Drive each spike into its pad with a mallet."),
    ("assembly", "without its spikes"),
    ("assembly", "Blocks higher than the spikes."),
    ("assembly", "B1, bottom slot: 4 nuts for spike pads. Then A2 closes the slot."),
    ("assembly", "C3, bottom slot: 4 nuts for spike pads. Then C3 rear clip closes the slot."),
    ("assembly", "CAUTION: Points go through shoes"),
    ("before-you-start", "Keep feet away when you lower it."),
    # its checks: one that fails, and its load by its own rule
    ("checks", "The spikes are too low for a broom"),
    ("checks", "Dust that nobody can sweep draws damp."),
    ("checks", "Each of 4 spikes must carry"),
    ("strength", "## Points"),
    ("strength", "The line runs from point to point."),
    ("working", "Three spikes carry the loaded bench, however many there are."),
    # what to measure first
    ("before-you-start", "| Spike: height |"),
    ("measure", "| `shank` | With a caliper, above the point. |"),
    ("replicate", "Spike, floor to its collar"),
    # its words
    ("index", "| Least rating of each spike |"),
    ("glossary", "A steel point under a bench that stays where it is."),
    ("spec-reference", "for a bench that never moves."),
)


@pytest.mark.parametrize(("page", "words"), FOUND)
def test_a_new_kind_is_on_every_page_that_it_belongs_to(pages: dict[str, str], page: str, words: str) -> None:
    assert words in pages[page]


def test_no_page_of_it_speaks_of_another_kind(pages: dict[str, str]) -> None:
    """The language and the words of the trade have all kinds; a manual's other pages have the one of the bench."""
    said = {name for name, text in pages.items() if re.search(r"caster|wheel", text, re.IGNORECASE)}
    assert said == {"glossary", "spec-reference"}


def test_a_new_kind_is_in_the_figures(manual: Manual) -> None:
    figures = json.loads(manual["files"]["docs/downloads/figures.json"])
    # 900 high: a spike of 25, a pad of 6, the frame, a top of 18
    assert figures["layout"]["floor_to_frame"] == 31
    assert figures["layout"]["frame_height"] == 900 - 31 - 18
    (step,) = (step for step in figures["assembly"]["steps"] if step["key"] == "spikes")
    assert [(motion["name"], motion["way"]) for motion in step["motions"]] == [
        *((f"KP{n}", "+z") for n in range(1, 5)),
        *((f"spike {n}", "+z") for n in range(1, 5)),
    ]
    # it stands on its points: no trail is added to the 95 by which they stand in
    assert {row["tip_line"] for row in figures["stability"]} == {95}
    assert figures["mass"]["by_group"]["spike"] == pytest.approx(4 * 0.7)
    assert figures["casters"] is None


def test_a_new_kind_is_judged_by_its_own_law(manual: Manual) -> None:
    (told,) = (finding for finding in manual["findings"] if "spike-low" in finding)
    assert ": 25 mm, must be 30 mm or more" in told
    assert "write `hardware.point.height: 30 mm`" in told
    assert not [finding for finding in manual["findings"] if "error" in finding.split(": ")[1]]


def test_a_new_kind_changes_few_files_and_none_that_collect_its_facts(program: Path) -> None:
    """With this test they are seven."""
    assert changed(program) == {
        "generator/bench/stands/__init__.py",
        "generator/bench/stands/spikes.py",
        "generator/codes.py",
        "generator/spec/stands/__init__.py",
        "generator/spec/stands/spikes.py",
        "specs/cards.yml",
    }
