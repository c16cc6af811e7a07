"""The files of a manual: the same for the same spec, complete, readable, with no false precision."""

import csv
import io
import re
import xml.etree.ElementTree as ElementTree
from collections.abc import Callable, Mapping
from itertools import pairwise
from pathlib import Path

import pypdf
import pytest

from generator.bench.solve import solve
from generator.figures.cautions import cautions_for
from generator.figures.compute import compute
from generator.manual import Manual, compile_loaded, compile_spec_file
from generator.pages import PAGES
from generator.resources import bundled
from generator.spec.cards import typical_cards
from generator.spec.load import read_spec, read_spec_file
from tests.net import digest, kept, written

SPECS = bundled("specs")
NAMES = ("demo", "wall-bench", "starter")


@pytest.fixture(scope="module")
def manuals(shipped: Callable[[str], Mapping[str, bytes]]) -> dict[str, Mapping[str, bytes]]:
    return {name: shipped(name) for name in NAMES}


def prose(files: Mapping[str, bytes]) -> dict[str, str]:
    """Every page without its drawings."""
    return {
        path: re.sub(r"<svg.*?</svg>", "", text.decode())
        for path, text in files.items()
        if path.endswith(".md")
    }


def test_the_same_spec_gives_the_same_bytes(manuals: dict[str, Mapping[str, bytes]]) -> None:
    assert compile_spec_file(SPECS / "starter.yml") == manuals["starter"]


def test_lists_to_tick_hold_no_markdown(manuals: dict[str, Mapping[str, bytes]]) -> None:
    """Markdown is not read inside HTML: a link would stand there with its brackets."""
    for files in manuals.values():
        lists = [line for line in files["docs/checklist.md"].decode().split("\n") if line.startswith("<ul")]
        assert lists
        assert not [line for line in lists if "](" in line or "{ .bm-" in line]


def test_no_term_is_explained_inside_a_tag(manuals: dict[str, Mapping[str, bytes]]) -> None:
    for files in manuals.values():
        for path, page in prose(files).items():
            assert not re.findall(r'="[^"\n]*\{ \.bm-', page), path


def test_a_bench_that_does_not_fit_says_so_on_every_page_and_sheet(
    manuals: dict[str, Mapping[str, bytes]],
) -> None:
    """Whoever has one page in the hand must not cut by it."""
    light = (SPECS / "demo.yml").read_text(encoding="utf-8").replace("rating: 180 kg", "rating: 100 kg")
    loaded = read_spec(light, "demo.yml")
    files, _ = compile_loaded(loaded, "demo.yml")
    assert [path for path, page in prose(files).items() if "DO NOT CUT BY THIS MANUAL YET" not in page] == []
    assert [path for path, page in prose(manuals["demo"]).items() if "DO NOT CUT" in page] == []
    for name in ("set-up-cards", "story-sticks"):
        document = pypdf.PdfReader(io.BytesIO(files[f"docs/downloads/{name}-A4.pdf"]))
        assert all("DO NOT CUT" in page.extract_text() for page in document.pages)


def test_no_caution_stands_twice_on_the_first_page(manuals: dict[str, Mapping[str, bytes]]) -> None:
    heads = re.findall(r'^!!! .*"(.+)"', manuals["demo"]["docs/before-you-start.md"].decode(), re.MULTILINE)
    assert len(heads) == len(set(heads)) > 8


def test_the_reference_lists_every_typical_card(manuals: dict[str, Mapping[str, bytes]]) -> None:
    page = manuals["demo"]["docs/spec-reference.md"].decode()
    missing = [
        name for cards in typical_cards().values() for name in cards if f"<code>{name}</code>" not in page
    ]
    assert not missing


def test_every_page_has_a_template_and_every_template_a_page() -> None:
    templates = {
        path.name.removesuffix(".md.jinja") for path in (bundled("site_templates") / "pages").iterdir()
    }
    assert {name for name in templates if not name.startswith("_")} == {page.slug for page in PAGES}
    assert [page.slug for page in PAGES if not page.purpose] == ["index"]


def test_templates_hold_no_arithmetic() -> None:
    for path in (bundled("site_templates") / "pages").iterdir():
        for code in re.findall(r"{[{%](.*?)[}%]}", path.read_text(encoding="utf-8"), flags=re.DOTALL):
            bare = re.sub(r'"[^"]*"', "", code).strip("-+ ")
            assert not re.search(r"[\w)\]]\s*(\*|/|\+|-|//|%)\s*[\w(]", bare), f"{path.name}: {code}"


@pytest.mark.parametrize("name", NAMES)
def test_no_number_has_false_precision(name: str, manuals: dict[str, Mapping[str, bytes]]) -> None:
    for path, text in prose(manuals[name]).items():
        found = [
            number
            for number in re.findall(r"\d+\.\d{4,}", text)
            # of what is smaller than a hundredth, three digits are no more than of others
            if not re.fullmatch(r"0\.00+[1-9]\d{0,2}", number)
        ]
        assert not found, f"{path}: {found}"
        assert "nan" not in re.findall(r"\b(?:nan|inf|None)\b", text), path


@pytest.mark.parametrize("name", NAMES)
def test_every_part_is_on_the_cut_list_and_has_a_sheet(
    name: str, manuals: dict[str, Mapping[str, bytes]]
) -> None:
    rows = list(csv.DictReader(io.StringIO(manuals[name]["docs/downloads/cut-list.csv"].decode("utf-8-sig"))))
    pages = prose(manuals[name])
    for row in rows:
        anchor = f"part-{row['mark'].lower()}"
        assert f"#{anchor})" in pages["docs/cut-list.md"]
        assert f"{{ #{anchor} }}" in pages["docs/part-sheets.md"]


def test_drawings_are_well_formed_and_named_apart(manuals: dict[str, Mapping[str, bytes]]) -> None:
    for name, files in manuals.items():
        pictures = [path for path in files if path.endswith(".svg") and "drawings/" in path]
        assert len(pictures) > 20, name
        for path in pictures:
            ElementTree.fromstring(files[path])


def test_changing_one_length_changes_what_depends_on_it(manuals: dict[str, Mapping[str, bytes]]) -> None:
    text = (SPECS / "demo.yml").read_text(encoding="utf-8")
    changed = text.replace("length: 2000, depth: 900", "length: 2010, depth: 900")
    paths = (
        "docs/cut-list.md",
        "docs/part-sheets.md",
        "docs/story-sticks.md",
        "docs/openings-and-drawers.md",
    )
    loaded = read_spec(changed, "demo.yml")
    longer = Manual(loaded, compute(solve(loaded))[0], "demo.yml")
    made = {path: longer.file(path) or b"" for path in paths}
    pages = [prose(manuals["demo"]), prose(made)]
    for path in paths:
        without_head = [re.sub(r"spec \w{12}", "", page[path]) for page in pages]
        assert without_head[0] != without_head[1], path
    assert "1930" in pages[1]["docs/cut-list.md"]
    assert "1920" not in re.sub(r"\(.*?\)", "", pages[1]["docs/cut-list.md"])


def test_cautions_stand_where_the_act_is(manuals: dict[str, Mapping[str, bytes]]) -> None:
    pages = prose(manuals["demo"])
    cautions = cautions_for(solve(read_spec_file(SPECS / "demo.yml")).stand)
    for path, key in (
        ("docs/cut-list.md", "saw"),
        ("docs/part-sheets.md", "drill"),
        ("docs/fits.md", "kickback"),
        ("docs/fits.md", "router"),
        ("docs/assembly.md", "lift"),
        ("docs/assembly.md", "pinch"),
        ("docs/assembly.md", "tip"),
    ):
        assert cautions[key].title in pages[path], (path, key)
    for key, caution in cautions.items():
        # the demo has no doors, mortises, banded edges, sockets or other benches
        here = key not in ("doors", "mortiser", "iron", "mains", "join")
        assert pages["docs/before-you-start.md"].count(caution.title) == here, key


def test_no_line_of_html_holds_markdown(manuals: dict[str, Mapping[str, bytes]]) -> None:
    """Markdown reads nothing within a line of HTML: a link there would be printed with its brackets."""
    for name, files in manuals.items():
        for path, text in prose(files).items():
            raw = [line for line in text.split("\n") if line.startswith("<") and "](" in line]
            assert raw == [], (name, path)


def test_every_table_begins_after_an_empty_line(manuals: dict[str, Mapping[str, bytes]]) -> None:
    """A row right after a sentence is a part of the sentence: the whole table would be printed with its strokes."""
    for name, files in manuals.items():
        for path, text in prose(files).items():
            lines = text.split("\n")
            heads = [row for row, rule in pairwise(lines) if rule.startswith("|--") and row.startswith("|")]
            begun = [row for before, row in pairwise(lines) if not before and row.startswith("|")]
            assert begun == heads, (name, path)


def test_no_key_stands_on_a_page_with_its_backticks(manuals: dict[str, Mapping[str, bytes]]) -> None:
    for name, files in manuals.items():
        for path, text in prose(files).items():
            assert re.findall(".{0,60}&#96;.{0,60}", text) == [], (name, path)


def test_the_tools_for_pocket_holes_are_named(manuals: dict[str, Mapping[str, bytes]]) -> None:
    files = manuals["demo"]
    assert "pocket screw" in files["docs/hardware.md"].decode()
    assert "pocket holes" in files["docs/before-you-start.md"].decode()


def test_specs_folder_holds_only_specs_and_cards() -> None:
    assert {path.name for path in Path(SPECS).iterdir()} == {
        "demo.yml",
        "wall-bench.yml",
        "starter.yml",
        "cards.yml",
        "samples",
    }


def test_openings_have_one_datum(manuals: dict[str, Mapping[str, bytes]]) -> None:
    """A height in a table is the height that the drawing of the same bay writes beside the same thing."""
    said = {
        "Lower edge of the face at": "face {} bottom",
        "Axis of the slide at": "slide {} axis",
        "Runner's top at": "runner {} top",
        "Cleat's top at": "cleat {} top",
    }
    also = {
        "Tote": {"Bottom at": "tote {} bottom", "Top at": "tote {} top"},
        "Shelf": {"Top at": "shelf {} top"},
    }
    seen = set()
    for files in manuals.values():
        page = files["docs/openings-and-drawers.md"].decode()
        assert "underside" not in re.sub(r"<svg.*?</svg>", "", page)
        for section in re.split(r"\n## Bays? ", page)[1:]:
            drawing, rest = section.split("</svg>", 1)
            written = [text for text in re.split(r"<[^>]*>", drawing) if text.strip()]
            heights = {words: size for size, words in pairwise(written)}
            rows = [
                [plain(cell) for cell in line.split("|")[1:-1]]
                for line in rest.split("\n")
                if line[:1] == "|"
            ]
            for head, *body in tables(rows):
                labels = said | also.get(head[0], {})
                for row in body:
                    for name, cell in zip(head, row, strict=True):
                        if name in labels:
                            assert heights[labels[name].format(row[0])] == cell, (section[:20], name)
                            seen.add(labels[name])
    assert len(seen) == 7


def plain(cell: str) -> str:
    """A cell of a Markdown table as it is read: no tags, no links."""
    return re.sub(r"\[(.*?)\]\([^)]*\)(\{[^}]*\})?", r"\1", re.sub(r"<[^>]*>", "", cell)).strip(" *")


def tables(rows: list[list[str]]) -> list[list[list[str]]]:
    """The rows of several tables, each from its head; the line of dashes below a head is left out."""
    found: list[list[list[str]]] = []
    for row, after in pairwise([*rows, ["end"]]):
        if after[0].startswith("--"):
            found.append([])
        if not row[0].startswith("--"):
            found[-1].append(row)
    return found


def test_advice_sets_keys_apart_and_shows_no_signs_of_it(manuals: dict[str, Mapping[str, bytes]]) -> None:
    page = prose(manuals["starter"])["docs/checks.md"]
    assert "<code>materials.ply-12.measured" in page
    assert "`" not in page and "&#96;" not in page


@pytest.mark.parametrize("name", NAMES)
def test_a_shipped_manual_is_what_it_was(name: str, manuals: dict[str, Mapping[str, bytes]]) -> None:
    """`python -m tests.net` writes the digests anew; the commit says which changed and why."""
    made = {path: digest(data) for path, data in written(manuals[name]).items()}
    held = {path: mark for path, mark in kept()[name].items() if path != "findings"}
    assert {path for path in made.keys() | held.keys() if made.get(path) != held.get(path)} == set()
