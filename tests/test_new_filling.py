"""A kind of filling that nobody knows: its two modules and its lines in the lists build a whole manual with it."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

#: Files by their paths, and what is found.
Manual = dict[str, Any]

ROOT = Path(__file__).parents[1]
DUMMY = Path(__file__).parent / "data" / "dummy_filling"
BENCH = "generator/bench/fillings/__init__.py"
SPEC = "generator/spec/fillings/__init__.py"

#: All that a new kind asks of files that are there: file, line as it stands, line as it becomes.
LINES = (
    (
        BENCH,
        "from generator.bench.fillings.open_spaces import OpenSpaces\n",
        "from generator.bench.fillings.open_spaces import OpenSpaces\n"
        "from generator.bench.fillings.perches import Perches\n",
    ),
    (BENCH, "OpenSpaces(), Shelves())", "OpenSpaces(), Shelves(), Perches())"),
    (SPEC, "import drawers, open_spaces,", "import drawers, open_spaces, perches,"),
    (SPEC, "open_spaces.ITEM)", "open_spaces.ITEM, perches.ITEM)"),
    (SPEC, "class StackItem(", "class StackItem(perches.PerchKeys, "),
    (
        "generator/codes.py",
        '    CLOSED_ZONE = "closed-zone"\n',
        '    CLOSED_ZONE = "closed-zone"\n    PERCH_LOW = "perch-low"\n',
    ),
)
BUILD = """
import json, sys
from pathlib import Path
from generator.manual import compile_loaded
from generator.spec.load import read_spec
text = Path("specs/starter.yml").read_text(encoding="utf-8")
shelves = "[{shelf: 60}, {shelf: 300}]"
assert shelves in text
files, findings = compile_loaded(read_spec(text.replace(shelves, "[{perch: 80}, {open: share}]"), "b.yml"), "b.yml")
told = [finding.explained() for finding in findings]
shown = {p: d.decode() for p, d in files.items() if p.endswith((".md", ".json", ".html", ".csv"))}
json.dump({"files": shown, "findings": told}, sys.stdout)
"""


@pytest.fixture(scope="module")
def manual(tmp_path_factory: pytest.TempPathFactory) -> Manual:
    """Files and findings of a bench with perches, by a copy of the program that knows them."""
    copy = tmp_path_factory.mktemp("with-perches")
    for folder in ("generator", "specs", "site_templates"):
        shutil.copytree(ROOT / folder, copy / folder, ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(ROOT / "pyproject.toml", copy)
    for path, old, new in LINES:
        text = (copy / path).read_text(encoding="utf-8")
        assert text.count(old) == 1, (path, old)
        (copy / path).write_text(text.replace(old, new), encoding="utf-8")
    shutil.copy(DUMMY / "bench.txt", copy / "generator/bench/fillings/perches.py")
    shutil.copy(DUMMY / "spec.txt", copy / "generator/spec/fillings/perches.py")
    done = subprocess.run(
        [sys.executable, "-c", BUILD],
        cwd=copy,
        env={"PYTHONPATH": str(copy)},
        capture_output=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr.decode()
    built: Manual = json.loads(done.stdout)
    return built


@pytest.fixture(scope="module")
def pages(manual: Manual) -> dict[str, str]:
    """Each page by its name, without what marks terms and figures."""
    names = {path: text for path, text in manual["files"].items() if path.endswith(".md")}
    return {
        Path(path).stem: re.sub(r"\[([^]]*)\]\([^)]*\)(\{[^}]*\})?", r"\1", t) for path, t in names.items()
    }


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
    ("assembly", "PE1 · from the open face."),
    ("assembly", "2 × perch peg"),
    ("assembly", "Knock the pegs in, lay the perch on them."),
    ("assembly", "CAUTION: Perches wobble"),
    ("assembly", "Never stand on a perch."),
    # its check
    ("checks", "The perch is too low to sit on"),
    # its place, for whoever sets it out
    ("story-sticks", "Z-perch right"),
    ("story-sticks", "perch 1 underside"),
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
    assert "found: 80 mm" in told
    assert "Knees meet the floor." in told
