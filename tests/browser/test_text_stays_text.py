"""Text of the spec on the site: shown as it is written, never run and never read as markup. One bench has it all."""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Callable
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urldefrag
from xml.etree import ElementTree

import pytest
from playwright.sync_api import BrowserContext, Route

TITLE = (
    "#2 workbench <script>document.title='X'</script><img src=x onerror=document.title='X'> R&D 🔧 \"q\" *b*"
)
INLINE = re.compile(r"<script(?![^>]*\bsrc=)[^>]*>(.*?)</script>", re.DOTALL)


class Elements(HTMLParser):
    """Tags with their attributes, and all text outside of scripts."""

    def __init__(self, page: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str]]] = []
        self.text = ""
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, {name: value or "" for name, value in attrs}))

    handle_startendtag = handle_starttag

    def handle_data(self, data: str) -> None:
        self.text += data


@pytest.fixture(scope="module")
def nasty(built: Callable[[str], Path]) -> Path:
    return built("nasty")


@pytest.fixture(scope="module")
def pages(nasty: Path) -> dict[str, Elements]:
    return {path.name: Elements(path.read_text(encoding="utf-8")) for path in nasty.glob("*.html")}


def test_no_text_of_the_spec_becomes_an_element_or_an_attribute(pages: dict[str, Elements]) -> None:
    for name, page in pages.items():
        for tag, attributes in page.tags:
            assert tag not in ("i", "u", "s", "object", "iframe"), (name, tag, attributes)
            assert not [each for each in attributes if each.startswith("on")], (name, tag, attributes)
            for link in (attributes.get("href", ""), attributes.get("src", "")):
                assert not re.match(r"\s*(javascript|data|vbscript):", link, re.IGNORECASE), (name, link)
        assert [tag for tag, _ in page.tags].count("h1") == (name != "404.html") or name == "404.html"


def test_no_script_of_a_page_holds_text_of_the_spec(nasty: Path) -> None:
    for path in nasty.glob("*.html"):
        scripts = INLINE.findall(path.read_text(encoding="utf-8"))
        assert not [each for each in scripts if "document.title" in each or "alert" in each], path.name


def test_every_page_shows_the_title_as_it_is_written(pages: dict[str, Elements]) -> None:
    for name, page in pages.items():
        assert TITLE in page.text, name
        if name != "404.html":
            assert page.text.count(TITLE) >= 3, (
                name
            )  # in the browser's head, in the theme's, in the page's own
        for tag, attributes in page.tags:
            if tag == "a" and attributes.get("data-md-component") == "logo":
                assert attributes["title"].startswith(TITLE)
                assert attributes["aria-label"].startswith(TITLE)


def test_every_link_of_every_page_leads_to_a_place_of_its_own(
    nasty: Path, pages: dict[str, Elements]
) -> None:
    places = {
        name: [attributes["id"] for _, attributes in page.tags if "id" in attributes]
        for name, page in pages.items()
    }
    for name, page in pages.items():
        assert len(set(places[name])) == len(places[name]), name
        for _, attributes in page.tags:
            link = attributes.get("href", attributes.get("src", ""))
            if not link or re.match(r"[a-z]+:", link):
                continue
            path, place = urldefrag(link)
            path = path.partition("?")[0]  # what a page is asked to show
            target = nasty / unquote(path) if path else nasty / name
            assert target.is_file(), (name, link)
            assert not place or unquote(place) in places[target.name], (name, link)


def test_files_beside_the_pages_are_sound(nasty: Path) -> None:
    names = [path.relative_to(nasty).as_posix() for path in nasty.rglob("*")]
    assert len({name.lower() for name in names}) == len(names)
    assert all(re.fullmatch(r"[\w./-]+", name, re.ASCII) for name in names)
    for path in (*nasty.glob("drawings/*.svg"), *nasty.glob("downloads/*.svg")):
        root = ElementTree.fromstring(path.read_text(encoding="utf-8"))
        assert not [each for each in root.iter() if each.tag.endswith(("script", "foreignObject"))], path.name
        assert not [name for each in root.iter() for name in each.attrib if name.startswith("on")], path.name
    for path in nasty.glob("downloads/*.csv"):
        data = path.read_bytes()
        assert data.isascii() or data.startswith(b"\xef\xbb\xbf"), path.name  # Unicode Standard, 23.8
        for row in csv.reader(io.StringIO(data.decode("utf-8-sig"))):
            for (
                cell
            ) in row:  # OWASP, CSV Injection: what begins a formula; one of a constant text alone is harmless
                assert not re.match(r"[-+@\t\r]\D|=", cell) or re.fullmatch(r'="([^"]|"")*"', cell), cell
    for path in nasty.glob("downloads/dxf/*.dxf"):
        assert "\\U+0041" not in path.read_text(encoding="ascii"), path.name


SHOWN = ("index", "sheet-plan", "set-up-cards", "openings-and-drawers", "build-record", "revisions")
"""Pages with the most text of the spec; what all pages hold is looked at above."""


def test_nothing_runs_in_a_browser(nasty: Path, context: BrowserContext) -> None:
    page = context.new_page()
    heard: list[str] = []
    page.on("dialog", lambda dialog: (heard.append(dialog.message), dialog.dismiss()))
    page.on("pageerror", lambda error: heard.append(str(error)))
    for name in SHOWN:
        page.goto((nasty / f"{name}.html").as_uri())
        assert page.title().endswith("{: onclick=x }"), name
    page.fill("input[name=query]", "workbench script")
    page.wait_for_selector(".md-search-result__item")
    assert page.title().endswith("{: onclick=x }")
    assert (
        page.locator(".md-search-result [onerror], .md-search-result img, .md-search-result script").count()
        == 0
    )
    assert heard == []


def test_what_is_not_there_leads_back_wherever_the_manual_lies(nasty: Path, context: BrowserContext) -> None:
    """A server answers with 404.html under the address that was asked for (RFC 3986, 5.1: links begin there)."""
    root = "http://127.0.0.1:9/shop/bench/"

    def answer(route: Route) -> None:
        file = nasty / unquote(route.request.url.removeprefix(root))
        route.fulfill(path=file if file.is_file() else nasty / "404.html")

    context.route("**/*", answer)
    page = context.new_page()
    for missing in ("nothing.html", "downloads/nothing.pdf"):
        page.goto(root + missing)
        links = page.eval_on_selector_all(
            "link, a, script[src]", "all => all.map(each => each.href || each.src)"
        )
        files = [urldefrag(link)[0].removeprefix(root) for link in links]
        assert len(files) > 30
        assert all((nasty / unquote(file)).exists() for file in files), files
