"""A kind of joint that nobody knows: its two modules and its lines in the lists build a whole manual with it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from tests.new_kinds import ROOT, Manual, built, changed, pages_of, program_with

DUMMY = Path(__file__).parent / "data" / "dummy_joint"
BENCH = "generator/bench/joints/__init__.py"
SPEC = "generator/spec/joints/__init__.py"

#: The modules of the new kind, by their places.
MODULES = {
    "generator/bench/joints/toggle.py": DUMMY / "bench.txt",
    "generator/spec/joints/toggle.py": DUMMY / "spec.txt",
}
#: All that it asks of files that are there: file, line as it stands, line as it becomes.
LINES = (
    (
        BENCH,
        "from generator.bench.joints.through_screw import ThroughScrews\n",
        "from generator.bench.joints.through_screw import ThroughScrews\n"
        "from generator.bench.joints.toggle import Toggles\n",
    ),
    (BENCH, "    Bridles(),\n", "    Bridles(),\n    Toggles(),\n"),
    (SPEC, "import end_clip, through_screw\n", "import end_clip, through_screw, toggle\n"),
    (SPEC, "| PocketScrew | Bridle\n", "| PocketScrew | Bridle | toggle.Toggle\n"),
    (
        SPEC,
        'Annotated[BarrelBolt, Tag("barrel bolt")]\n',
        'Annotated[BarrelBolt, Tag("barrel bolt")] | Annotated[toggle.Toggle, Tag("toggle")]\n',
    ),
    (
        "generator/codes.py",
        '    COUNTERBORE = "counterbore", "", Harm.FAILS\n',
        '    COUNTERBORE = "counterbore", "", Harm.FAILS\n    TOGGLE_BORE = "toggle-bore", "", Harm.NO_FIT\n',
    ),
)
TOGGLES = """
hardware: {disc: {kind: toggle, screw: M8x40, disc: 14, bore: 14.5, key: 5}}
frame: {joints: {long_rails_to_corner_posts: disc}}
"""


@pytest.fixture(scope="module")
def program(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of the program that knows toggles."""
    return program_with(tmp_path_factory.mktemp("with-toggles"), MODULES, LINES)


@pytest.fixture(scope="module")
def manual(program: Path) -> Manual:
    """Files and findings of a bench with toggles."""
    starter = (ROOT / "specs" / "starter.yml").read_text(encoding="utf-8")
    return built(program, starter + TOGGLES)


@pytest.fixture(scope="module")
def pages(manual: Manual) -> dict[str, str]:
    return pages_of(manual)


FOUND = (
    ("index", "18 end clips, 2 through screws, 8 toggles"),
    # its operations, on the sheets of the bars that they are in
    ("part-sheets", "disc, long rail, left end"),
    ("part-sheets", "M8 for the toggle to the corner post"),
    # its set-up with its test piece
    ("set-up-cards", "Toggle bores"),
    ("set-up-cards", "Stop above the slot."),
    # what is bought, where it goes, and by which key
    ("shopping-list", "M8x40 with a disc of 14 mm"),
    ("hardware", "18 end clips, 2 through screws and 8 toggles need 28 tapped ends."),
    ("hardware", "joints that a test knows"),
    ("assembly", '**4 ×** toggle <small class="bm-key">disc</small>'),
    ("assembly", "| B1 left toggle |"),
    # its check
    ("checks", "The disc does not drop into its bore"),
    # its words
    ("glossary", "A disc that a screw pulls tight."),
    ("measure", "Across the disc, twice."),
    ("spec-reference", "Diameter of the bore that the disc lies in."),
)


@pytest.mark.parametrize(("page", "words"), FOUND)
def test_a_new_kind_is_on_every_page_that_it_belongs_to(pages: dict[str, str], page: str, words: str) -> None:
    assert words in pages[page]


def test_a_new_kind_is_in_the_figures(manual: Manual) -> None:
    """Bores of 20 in bars of 40, the screw 20 in its bore, 250 g each, 3 minutes a bore."""
    figures = json.loads(manual["files"]["docs/downloads/figures.json"])
    joints = [row for row in figures["joint_rows"] if row["kind"] == "toggle"]
    assert {(row["member"][0], row["crossing"][0]) for row in joints} == {("B", "A")}
    assert len(joints) == 8
    bores = [op for part in figures["parts"] for op in part["operations"] if op["op"] == "toggle bore"]
    assert {op["depth"] for op in bores} == {20}
    assert figures["mass"]["by_group"]["toggle"] == pytest.approx(8 * 0.25)
    clips = figures["joints"]["end_clips"]
    (timed,) = (row for row in figures["shop"]["times"] if row["operation"] == "access hole")
    assert (timed["count"], timed["minutes"]) == (clips + 8, 3 * (clips + 8))


def test_a_new_kind_is_judged_by_its_own_law(manual: Manual) -> None:
    (told,) = (finding for finding in manual["findings"] if "toggle-bore" in finding)
    assert ": 14.5 mm, must be 15 mm or more" in told
    assert "write `hardware.disc.bore: 15 mm`" in told
    assert "A toggle that jams is never found again." in told


def test_no_body_of_a_new_kind_is_in_the_way(manual: Manual) -> None:
    """The disc lies in its bore and the shank in its hole: an overlap would be an error."""
    assert not any(": error: " in finding for finding in manual["findings"])


def test_a_new_kind_changes_few_files_and_none_that_collect_its_facts(program: Path) -> None:
    """With its card and this test they are seven."""
    assert changed(program) == {
        "generator/bench/joints/__init__.py",
        "generator/bench/joints/toggle.py",
        "generator/codes.py",
        "generator/spec/joints/__init__.py",
        "generator/spec/joints/toggle.py",
    }
