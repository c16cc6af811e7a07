"""Names of the user in ids, links and file names: any name works, no two things share one."""

from __future__ import annotations

import html
import re
import shlex
from dataclasses import replace
from pathlib import Path
from urllib.parse import unquote

import markdown
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from markdown.extensions.toc import slugify

from generator import gallery
from generator.bench.solve import solve
from generator.cli import main
from generator.figures.compute import compute
from generator.figures.model import Figures
from generator.figures.workings import workings
from generator.manual import Manual
from generator.names import file_stem, file_stems, slugs
from generator.pages import PAGES
from generator.pages.literal import literal
from generator.resources import bundled
from generator.spec.load import LoadedSpec, RecordText, read_spec

STARTER = (bundled("specs") / "starter.yml").read_text(encoding="utf-8")
FILES = (
    "my_bench.yml",
    "o'clock.yml",
    "R&D bench.yml",
    "bench #2.yml",
    "a*b.yml",
    "bench [2].yml",
    "q?x.yml",
    "12:30.yml",
    "back\\slash.yml",
    "two\nlines.yml",
    "Верстак.yml",
    "作業台.yaml",
    f"{'long' * 62}.yml",
    "con.yml",
    "LPT1.yml",
    ".yml",
    "figures.json",
    "50%20.yml",
    "\udcff.yml",
)


def solved(text: str, record: str = "") -> tuple[LoadedSpec, Figures]:
    loaded = read_spec(text, "spec.yml", RecordText(record, "spec.record.yml") if record else None)
    return loaded, compute(solve(loaded))[0]


@pytest.fixture(scope="module")
def starter() -> tuple[LoadedSpec, Figures]:
    return solved(STARTER)


# ---- files ----


def test_the_usual_name_stays() -> None:
    assert [file_stem(name) for name in ("my_bench.yml", "My-Bench2.yml")] == ["my_bench", "My-Bench2"]


@pytest.mark.parametrize("name", FILES)
def test_the_downloads_of_any_spec_have_names_that_every_system_takes(
    name: str, starter: tuple[LoadedSpec, Figures]
) -> None:
    manual = Manual(*starter, name)
    # Microsoft: Naming Files, Paths, and Namespaces; what is left needs no sign of its own in a link (RFC 3986, 2.3)
    assert re.fullmatch(r"[A-Za-z0-9_-]{1,120}\.ya?ml", manual.spec_name)
    assert not re.match(r"(con|prn|aux|nul|com\d|lpt\d)\.", manual.spec_name, re.IGNORECASE)
    assert manual.file(f"docs/downloads/{manual.spec_name}") == STARTER.encode()


def test_links_to_downloads_lead_to_them(starter: tuple[LoadedSpec, Figures]) -> None:
    manual = Manual(*starter, "a_b*c_d.yml")
    page = manual.page(next(page for page in PAGES if page.slug == "downloads"))
    links = [unquote(link) for link in re.findall(r"\]\((downloads/[^)]*\.(?:ya?ml|zip))\)", page)]
    assert links == [f"downloads/{manual.spec_name}", "downloads/a_b-c_d-pack.zip"]


def test_a_name_too_long_for_a_record_is_a_spec_without_one(tmp_path: Path) -> None:
    spec = tmp_path / f"{'x' * 251}.yml"
    spec.write_text(STARTER, encoding="utf-8")
    assert main(["figures", str(spec), "--working", "bench.length"]) == 0


def test_a_gallery_has_a_folder_for_each_spec_whatever_its_name(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    names = ["a#b.yml", "A?B.yml"]
    for name in names:
        (tmp_path / name).write_text(STARTER, encoding="utf-8")

    def build_site(pages: Path, site: Path) -> None:
        site.mkdir(parents=True)
        (site / "index.html").write_bytes((pages / "name").read_bytes())

    monkeypatch.setattr(gallery, "compile_manual", lambda loaded, figures, name, **_: {"name": name.encode()})
    monkeypatch.setattr(gallery, "build_site", build_site)
    gallery.build_gallery([tmp_path / name for name in names], tmp_path / "out", lambda: None)
    site = tmp_path / "out" / "site"
    links = re.findall(r'<h2><a href="([^"]+)"', (site / "index.html").read_text(encoding="utf-8"))
    assert [(site / unquote(link)).read_text(encoding="utf-8") for link in links] == names
    assert not any(sign in link for link in links for sign in "#?")


# ---- ids ----


@settings(max_examples=50)
@given(st.lists(st.text(max_size=12), max_size=8))
def test_no_two_slugs_are_one_file(names: list[str]) -> None:
    assert len({slug.lower() for slug in slugs(names)}) == len(names)
    assert len({stem.lower() for stem in file_stems(names)}) == len(names)
    assert all(re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", slug) for slug in slugs(names))


def test_a_number_behind_a_name_takes_no_other_names_place() -> None:
    assert len(set(slugs(["x", "x-2", "X", "x 2", "x_3"]))) == 5


ALIKE = """\
spec: 1
title: Alike
bench: {length: 1300, depth: 700, height: 900}
materials:
  ply-12: {use: plywood 12, stock: [{length: 2440, width: 1220}]}
  PLY 12: {use: plywood 18, stock: [{length: 2440, width: 1220}]}
  sheet plan ply-12 1: {use: plywood 12, stock: [{length: 2440, width: 1220}]}
zones:
  - {name: z, depth: share, bays: [{name: a b, width: share, stack: [{drawer: 200}, {open: share}]},
                                   {name: A-B, width: 400, stack: [{shelf: 200}]}]}
top: {material: PLY 12}
tray: {material: sheet plan ply-12 1}
"""


def test_materials_and_bays_of_like_names_have_drawings_and_headings_of_their_own() -> None:
    manual = Manual(*solved(ALIKE), "alike.yml")
    shown = ("sheet-plan", "openings-and-drawers", "set-up-cards")
    pages = {page.slug: manual.page(page) for page in PAGES if page.slug in shown}
    drawn = re.findall(r'href="(drawings/[^"]*)">Drawing alone', "".join(pages.values()))
    assert len({name.lower() for name in drawn}) == len(drawn)
    for material in ("ply-12", "PLY 12"):
        title = f"Sheet 1 of {manual.figures.materials[material]}"
        file = re.search(rf'{re.escape(title)}</title>.*?href="(drawings/[^"]*)"', pages["sheet-plan"])
        assert file
        alone = manual.file(f"docs/{file[1]}")
        assert alone is not None
        assert f"<title>{title}</title>".encode() in alone
    headings = {slugify(title, "-") for title in re.findall("^## (.*)$", pages["sheet-plan"], re.MULTILINE)}
    assert "12-mm-plywood-sheet-plan-ply-12-1" in headings
    assert headings.isdisjoint(re.findall(r'<svg [^>]*id="([^"]*)"', pages["sheet-plan"]))
    for slug in ("sheet-plan", "set-up-cards"):
        places = re.findall(r"\{ #([^ }]*) \}", pages[slug])
        assert places and len(set(places)) == len(places)


def test_a_command_can_be_pasted_into_a_shell() -> None:
    """A name in it is one word, whatever a shell would make of its signs."""
    manual = Manual(*solved(ALIKE + "panels: {material: sheet plan ply-12 1}\n"), "alike.yml")
    for slug in ("build-record", "replicate"):
        page = manual.page(next(page for page in PAGES if page.slug == slug))
        commands = re.findall(r"<code>(bench-manual .*?)</code>", page)
        words = [
            word for each in commands for word in shlex.split(re.sub("<[^>]*>", "", html.unescape(each)))
        ]
        named = [word for word in words if word.startswith("materials.")]
        assert [word.partition("=")[0] for word in named] == ["materials.sheet plan ply-12 1.thickness"]


DOTTED = ALIKE.replace("PLY 12", "ply-12.5").replace("title: Alike", "title: Dots")


def test_a_name_with_dots_is_one_word_of_a_key_path() -> None:
    loaded, figures = solved(
        DOTTED, "- {date: 2026-11-03, measured: {path: materials.ply-12.5.thickness, value: 17.5}}\n"
    )
    assert loaded.spec.materials["ply-12.5"].thickness == 17.5
    names = {line.given.name: line.name for line in workings(figures).by_key.values() if line.given}
    assert names["materials.ply-12.5.thickness"] == "thickness of ply-12.5"
    assert {each.path for card in figures.setups for each in card.unmeasured} <= set(names)


def test_like_keys_lead_to_workings_of_their_own() -> None:
    book = workings(solved(ALIKE)[1])
    assert {"materials.ply-12.thickness", "materials.PLY 12.thickness"} <= set(book.by_key)
    assert len(set(book.slugs.values())) == len(book.by_key)


# ---- text ----

PRINTABLE = st.text(st.characters(exclude_categories=("Cc", "Cs", "Co", "Zl", "Zp")), max_size=30)
BLOCKS = (
    "#2 workbench",
    "- bench",
    "1. bench",
    "> x",
    "+ x",
    "12) x",
    "===",
    "---",
    "!!! note",
    ": x",
    "*** x",
)


def shown(text: str) -> str:
    """What a reader sees of a text that begins a paragraph, when it is a paragraph and nothing else."""
    page = markdown.markdown(
        f"First.\n\n{literal(text)} · rest\n{{: .bm-head }}",
        extensions=["admonition", "attr_list", "md_in_html", "tables", "toc"],
    )
    found = re.fullmatch(r'<p>First.</p>\n<p class="bm-head">([^<]*) · rest</p>', page)
    assert found, page
    return html.unescape(found[1])


@pytest.mark.parametrize("text", BLOCKS)
def test_a_title_begins_no_heading_and_no_list(text: str) -> None:
    assert shown(text) == text


@settings(max_examples=60)
@given(PRINTABLE)
def test_any_text_is_shown_as_it_is_written(text: str) -> None:
    text = f"{text} x".strip()
    text = " ".join(text.split())  # as the spec is read
    assert shown(text) == text


def test_signs_by_which_the_pages_set_figures_apart_are_refused() -> None:
    for sign in ("\ue000", '"\\ue003"'):
        text = STARTER.replace("title: My first bench", f"title: {sign}")
        with pytest.raises(Exception, match="control-character"):
            read_spec(text, "spec.yml")


def test_a_manual_is_told_apart_by_a_title_in_any_script(starter: tuple[LoadedSpec, Figures]) -> None:
    loaded, figures = starter
    ids = set()
    for title in ("作業台", "工作台", "Верстак", "Bench", "Bench 2"):
        titled = replace(figures, spec=replace(figures.spec, title=title))
        ids.add(Manual(loaded, titled, "spec.yml").facts["manual_id"])
    assert len(ids) == 5
