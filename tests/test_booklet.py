"""The pages of a site in one document: names and links hold, what leads out of it is plain words."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from generator.booklet import BROWSERS, BookletError, find_browser, join_pages, page_numbers, print_booklet
from generator.cli import main
from generator.drawings.paper import A4, LETTER
from generator.drawings.sheet import Stamp
from generator.pages import SETS
from generator.resources import bundled
from generator.writers.paper_css import paper_css

PAGES = [("First", "index.html"), ("Second", "second.html")]


@pytest.fixture
def site(tmp_path: Path) -> Path:
    head = '<head><title>Bench &amp; Co</title><link rel="stylesheet" href="a.css"></head>'
    (tmp_path / "index.html").write_text(
        f"<html>{head}<body><nav><a href='x.html'>nav</a></nav><article><h1 id='top'>One</h1>"
        '<a href="second.html#part">part</a> <a href="second.html">page</a> <a href="#top">up</a> '
        '<a href="downloads/a.pdf">file</a><svg viewBox="0 0 1 1"><title>T</title><path d="M0 0"/></svg>'
        "<input type=checkbox checked><p>a &lt; b &#124; c</p></article><script>bad()</script></body></html>"
    )
    (tmp_path / "second.html").write_text(
        f"<html>{head}<body><article><h1 id='top'>Two</h1><h2 id='part'>P</h2></article></body></html>"
    )
    return tmp_path


def test_links_lead_within_the_document(site: Path) -> None:
    text = join_pages(site, PAGES, A4)
    ids = re.findall(r' id="([^"]+)"', text)
    assert len(set(ids)) == len(ids)
    targets = re.findall(r'<a href="#([^"]+)"', text)
    assert {"second--part", "second", "index--top", "index"} <= set(targets)
    assert set(targets) <= set(ids)
    assert "downloads" not in text
    assert "<a>file</a>" in text


def test_what_is_drawn_again_is_found_in_the_document(tmp_path: Path) -> None:
    drawn = '<svg><g id="A"/></svg><svg><use href="#A"/></svg>'
    for _, file in PAGES:
        (tmp_path / file).write_text(f"<html><body><article>{drawn}</article></body></html>")
    text = join_pages(tmp_path, PAGES, A4)
    assert re.findall(r'<use href="#([^"]+)"', text) == re.findall(r'<g id="([^"]+)"', text)


def test_the_articles_are_taken_whole_and_nothing_else(site: Path) -> None:
    text = join_pages(site, PAGES, LETTER)
    assert '<svg viewbox="0 0 1 1"><title>T</title><path d="M0 0"/></svg>' in text
    assert "a &lt; b &#124; c" in text
    assert "nav" not in text
    assert "bad()" not in text
    assert "<title>Bench &amp; Co</title>" in text
    assert "size:Letter portrait" in text
    assert text.count('<section class="bm-page"') == 2


def test_the_contents_say_the_pages_on_which_things_were_printed(site: Path) -> None:
    pdf = (
        b"3 0 obj\n<</Type /Page\n/Parent 9 0 R>>\nendobj\n5 0 obj\n<</Type /Page\n>>\nendobj\n"
        b"7 0 obj\n<</Type /Page\n>>\nendobj\n8 0 obj\n<</Type /Pages\n/Kids [3 0 R 5 0 R]>>\nendobj\n"
        b"9 0 obj\n<</Type /Pages\n/Kids [7 0 R]>>\nendobj\n10 0 obj\n<</Type /Pages\n/Kids [8 0 R 9 0 R]>>\nendobj\n"
        b"<</index [5 0 R /XYZ 0 842 0]\n/second [7 0 R /XYZ 0 842 0]\n/second--part [3 0 R /XYZ 0 1 0]>>"
    )
    numbers = page_numbers(pdf, ["second", "index", "nowhere"])
    assert numbers == {"second": 3, "index": 2}
    assert ">Second</a><span>3</span></li>" in join_pages(site, PAGES, A4, numbers)
    assert page_numbers(b"packed", ["index"]) == {}


def test_the_sets_are_parts_of_the_manual_and_the_shop_has_its_steps() -> None:
    slugs = {name: [page.slug for page in pages] for name, pages in SETS.items()}
    assert sorted(slugs["shop"] + slugs["reference"]) == sorted(slugs["full"])
    assert {"assembly", "set-up-cards", "part-sheets", "cut-list", "story-sticks"} < set(slugs["shop"])


def test_a_missing_browser_is_said_with_the_way_out(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))
    with pytest.raises(BookletError) as missing:
        find_browser()
    assert all(name in str(missing.value) for name in BROWSERS)
    assert "--browser" in str(missing.value)
    assert main(["print", str(bundled("specs") / "starter.yml"), "--out", str(tmp_path / "out")]) == 2
    assert "no Chromium browser was found" in capsys.readouterr().err
    assert not (tmp_path / "out").exists()


def test_a_browser_that_prints_nothing_is_told(site: Path, tmp_path: Path) -> None:
    mute = tmp_path / "mute"
    mute.write_text("#!/bin/sh\necho broken >&2\n")
    mute.chmod(0o755)
    with pytest.raises(BookletError, match="mute made no PDF: broken"):
        print_booklet(site, PAGES, A4, tmp_path / "out.pdf", mute)
    assert not (site / "booklet.html").exists()


def test_head_and_foot_line_hold_whatever_a_title_is() -> None:
    css = paper_css(Stamp('A "B" \\ </style>\nC', "", "B", "2026-11-02", "abc", "mm"))
    assert '"A \\22 B\\22  \\5c  \\3c /style>\\a C · revision B · 2026-11-02 · in mm · spec abc"' in css
    for words in ("Datum of every part", "ISO 2768-m", "counter(pages)"):
        assert words in css


@pytest.mark.parametrize("bar", ["97", "103", "abc", "nan", "1/0", "99.7x103", "99x99x99", "x", "99.7x"])
def test_a_bar_that_no_printer_prints_is_refused(bar: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["build", str(bundled("specs") / "starter.yml"), "--bar", bar]) == 2
    assert "--bar" in capsys.readouterr().err
