"""A manual opened from its folder: no network, no complaint, readable at every width and on paper."""

import io
import re
from collections import Counter
from collections.abc import Callable
from itertools import product
from pathlib import Path
from typing import Protocol
from urllib.parse import unquote, urldefrag

import pypdf
import pytest
from playwright.sync_api import Page

from tests.effort import THOROUGH, quick_or, sample

WIDTHS, HEIGHT = (1280, 820, 390, 320), 1000
PHONE, LEAST_LETTERS = 390, 10
MANUALS, COLOURS = ("sample", "demo", "wall-bench"), ("light", "dark")
MM = 96 / 25.4
POINT = 96 / 72
LOADED_FROM_OUTSIDE = re.compile(r'(?:src|href|action|poster|data)\s*=\s*["\']?(?:https?:)?//[^"\'> ]*')
LINKED = re.compile(r'\s(?:src|href)="([^"#:]*(?:#[^":]*)?)"')

#: The smallest letters of all drawings of a page, in pixels.
LETTERS = """() => Math.min(99, ...[...document.querySelectorAll('article svg.bm-drawing')]
  .filter(drawing => drawing.getClientRects().length).flatMap(drawing =>
  [...new Set([...drawing.querySelectorAll('text')].map(text => text.getAttribute('font-size')))]
    .map(size => size * drawing.getScreenCTM().a)))"""
#: What a page is asked to show: the place is the same.
WITH_QUERY = re.compile(r"\?[^#]*")


class Watched(Protocol):
    page: Page
    requests: list[str]
    complaints: list[str]


OpenPage = Callable[..., Watched]


def pages_of(site: Path) -> list[Path]:
    return sorted(page for page in site.rglob("*.html") if page.name != "404.html")


def looked_at(site: Path) -> list[Path]:
    """All pages of the small manual, and a part of those of a large one."""
    return pages_of(site) if site.parent.name == "sample" else sample(pages_of(site), 3)


def page_with(site: Path, text: str) -> Path:
    return next(page for page in pages_of(site) if text in page.read_text(encoding="utf-8"))


# ---- what the files say ----


def test_no_page_names_another_host_as_a_source(site: Path) -> None:
    for page in pages_of(site):
        found = LOADED_FROM_OUTSIDE.findall(page.read_text(encoding="utf-8"))
        links = [link for link in found if "creativecommons.org/" not in link]
        assert not links, f"{page.name} names {links}"


def test_every_link_inside_leads_somewhere(site: Path) -> None:
    """MkDocs checks Markdown links only; those in drawings and in HTML are checked here."""
    texts = {page: page.read_text(encoding="utf-8") for page in pages_of(site)}
    for page, text in texts.items():
        for link in LINKED.findall(text):
            path, anchor = urldefrag(unquote(WITH_QUERY.sub("", link)))
            target = (page.parent / path).resolve() if path else page
            assert target.exists(), f"{page.name}: no file for {link}"
            if anchor and target in texts:
                assert f'id="{anchor}"' in texts[target], f"{page.name}: no place for {link}"


def test_no_two_things_of_a_page_bear_one_name(site: Path) -> None:
    """A link to a place must find one. HTML, section 3.2.6: an id is unique in its tree."""
    for page in pages_of(site):
        names = Counter(re.findall(r'\sid="([^"]+)"', page.read_text(encoding="utf-8")))
        assert not [name for name, count in names.items() if count > 1], page.name


# ---- on the screen ----


def test_pages_load_from_the_folder_alone_and_never_scroll_sideways(site: Path, open_page: OpenPage) -> None:
    for path in looked_at(site):
        opened = open_page(path, WIDTHS[0])
        for width in WIDTHS:
            opened.page.set_viewport_size({"width": width, "height": HEIGHT})
            wide = opened.page.evaluate("document.documentElement.scrollWidth - window.innerWidth")
            assert wide <= 0, f"{path.name} is {wide} px too wide at {width}"
            if width == PHONE:
                letters = opened.page.evaluate(LETTERS)
                assert letters >= LEAST_LETTERS, f"{path.name} has letters of {letters:.1f} px in a drawing"
        outside = [url for url in opened.requests if not url.startswith(("file:", "data:", "blob:"))]
        assert not outside, f"{path.name} asks for {outside}"
        assert not opened.complaints, f"{path.name}: {opened.complaints}"
        opened.page.close()


def test_search_works_without_a_server(site: Path, open_page: OpenPage) -> None:
    opened = open_page(site / "index.html")
    search = opened.page.get_by_role("textbox", name="Search")
    search.focus()
    search.press_sequentially("bench")
    result = opened.page.locator("[data-md-component=search-result] a[href*='.html']").first
    result.wait_for()
    result.click()
    opened.page.wait_for_url("**/*.html*")
    assert not [url for url in opened.requests if not url.startswith(("file:", "data:", "blob:"))]
    assert not opened.complaints


#: What repeats is cut away but its first four and its last, so that a page of 200 cards is checked like one of five.
WITHOUT_REPEATS = """() => {
  const middle = (all, most) => all.length > most ? all.slice(4, -1) : [];
  for (const body of document.querySelectorAll('tbody')) middle([...body.rows], 5).forEach(row => row.remove());
  for (const list of document.querySelectorAll('ul, ol')) middle([...list.children], 8).forEach(item => item.remove());
  for (const level of [2, 3])
    for (const head of middle([...document.querySelectorAll('article h' + level)], 12)) {
      while (head.nextElementSibling && !/^H[1-3]$/.test(head.nextElementSibling.tagName))
        head.nextElementSibling.remove();
      head.remove();
    }
}"""


@pytest.mark.parametrize(
    ("site", "colours", "width"),
    quick_or([("sample", "dark", 1280), ("sample", "light", PHONE)], list(product(MANUALS, COLOURS, WIDTHS))),
    indirect=["site"],
)
def test_accessibility_checker_finds_nothing(
    site: Path, open_page: OpenPage, axe_script: str, width: int, colours: str
) -> None:
    for path in pages_of(site):
        page = open_page(path, width, colours).page
        if not THOROUGH:
            page.evaluate(WITHOUT_REPEATS)
        page.evaluate(axe_script)
        violations = page.evaluate("axe.run({resultTypes: ['violations']}).then(result => result.violations)")
        told = [
            (one["id"], one["impact"], [node["html"][:120] for node in one["nodes"][:3]])
            for one in violations
        ]
        assert not told, f"{path.name} {colours} {width}: {told}"
        page.close()


# ---- ticks ----


def list_of(site: Path) -> Path:
    """The page of a site that is there to be ticked."""
    checklist = site / "checklist.html"
    return checklist if checklist.exists() else page_with(site, "data-bm=")


def boxes(page: Page) -> list[bool]:
    ticks: list[bool] = page.eval_on_selector_all("input[data-bm]", "all => all.map(box => box.checked)")
    return ticks


def test_ticks_stay_and_can_be_cleared(site: Path, open_page: OpenPage) -> None:
    path = list_of(site)
    page = open_page(path, 820).page
    total = len(boxes(page))
    page.locator("input[data-bm]").first.check()
    page.locator("input[data-bm]").last.focus()
    page.keyboard.press("Space")
    page.get_by_text(f"2 of {total} done").wait_for()
    page.reload()
    assert [boxes(page)[0], boxes(page)[-1], sum(boxes(page))] == [True, True, 2]
    page.get_by_text(f"2 of {total} done").wait_for()

    other = open_page(path, 390).page
    assert sum(boxes(other)) == 2
    page.on("dialog", lambda dialog: dialog.accept())
    page.get_by_role("button", name="Clear the ticks").click()
    assert not any(boxes(page))
    other.get_by_text(f"0 of {total} done").wait_for()
    page.reload()
    assert not any(boxes(page))


@pytest.mark.parametrize("site", ["demo"], indirect=True)
def test_a_step_that_is_ticked_where_it_is_told_is_ticked_on_the_checklist(
    site: Path, open_page: OpenPage
) -> None:
    page = open_page(site / "assembly.html").page
    page.locator("#step-left-posts ~ .bm-ticked input").check()
    assert page.locator(".md-nav--secondary a.bm-done").all_text_contents()[0].strip().startswith("8.")
    page.goto((site / "checklist.html").as_uri())
    assert page.locator("input:checked").evaluate_all("all => all.map(box => box.dataset.bm)") == [
        "left-posts/done"
    ]


def test_two_manuals_on_one_device_do_not_share_ticks(site: Path, open_page: OpenPage) -> None:
    page = open_page(list_of(site)).page
    page.locator("input[data-bm]").first.check()
    keys = page.evaluate("Object.keys(localStorage)")
    manual = page.locator('meta[name="bench-manual"]').get_attribute("content")
    assert [key for key in keys if key.startswith(f"bench-manual/{manual}/")]


def test_a_device_that_keeps_nothing_says_so(site: Path, open_page: OpenPage) -> None:
    path = list_of(site)
    opened = open_page(path)
    opened.page.add_init_script(
        "for (const verb of ['getItem', 'setItem', 'removeItem'])"
        " Storage.prototype[verb] = function () { throw new Error('denied'); }"
    )
    opened.page.reload()
    opened.page.locator("input[data-bm]").first.check()
    opened.page.get_by_text("does not keep ticks").wait_for()
    assert boxes(opened.page)[0]


def test_every_tick_box_is_big_enough_for_a_thumb(site: Path, open_page: OpenPage) -> None:
    page = open_page(list_of(site), 390).page
    for label in page.locator(".bm-checklist label").all():
        box = label.bounding_box()
        assert box and box["height"] >= 44


# ---- on paper ----


def style(page: Page, selector: str, name: str) -> str:
    value: str = page.eval_on_selector(selector, f"one => getComputedStyle(one).{name}")
    return value


@pytest.mark.parametrize(
    ("site", "colours"), quick_or([("sample", "dark")], list(product(MANUALS, COLOURS))), indirect=["site"]
)
def test_paper_is_black_on_white_and_big_enough(site: Path, open_page: OpenPage, colours: str) -> None:
    for path in pages_of(site):
        page = open_page(path, 1280, colours).page
        page.emulate_media(media="print")
        assert style(page, "body", "backgroundColor") == "rgb(255, 255, 255)"
        assert style(page, "article", "color") == "rgb(0, 0, 0)"
        assert not page.locator("header.md-header, nav, .bm-progress button").locator("visible=true").count()
        for selector in ("article p:not(.bm-head, .bm-foot)", "article li", "article td"):
            sizes = page.eval_on_selector_all(
                selector, "all => all.map(one => parseFloat(getComputedStyle(one).fontSize))"
            )
            assert all(size >= 11 * POINT - 0.01 for size in sizes), (
                f"{path.name}: {selector} {min(sizes)} px"
            )
        turns = page.eval_on_selector_all(
            "article tr", "all => all.map(one => getComputedStyle(one).breakInside)"
        )
        assert set(turns) <= {"avoid"}, path.name
        for box in page.locator("input[data-bm]").all():
            size = box.bounding_box()
            assert size and min(size["width"], size["height"]) >= 8 * MM
        page.close()


def title_size(page: pypdf.PageObject, title: str) -> float:
    """Points in which the title stands on paper: without a word, a browser shrinks what is too wide."""
    sizes: list[float] = []

    def visit(text: str, cm: list[float], tm: list[float], _font: object, size: float) -> None:
        if text.strip() and text.strip() in title:
            sizes.append(abs(size * tm[3] * cm[3]))

    page.extract_text(visitor_text=visit)
    return max(sizes)


@pytest.mark.parametrize(
    ("site", "paper", "width", "height"),
    quick_or(
        [("sample", "A4", 210, 297)],
        [
            ("sample", "Letter", 215.9, 279.4),
            ("demo", "A4", 210, 297),
            ("wall-bench", "Letter", 215.9, 279.4),
        ],
    ),
    indirect=["site"],
)
def test_every_page_prints_on_both_papers(
    site: Path, open_page: OpenPage, paper: str, width: float, height: float
) -> None:
    for path in pages_of(site):
        page = open_page(path).page
        document = pypdf.PdfReader(io.BytesIO(page.pdf(format=paper)))
        box = document.pages[0].mediabox
        sides = sorted([float(box.width), float(box.height)])
        assert sides == pytest.approx([width * 72 / 25.4, height * 72 / 25.4], abs=1)
        title = page.locator("article h1").evaluate("one => one.firstChild.textContent.trim()")
        assert title_size(document.pages[0], title) == pytest.approx(18, abs=0.2), (
            f"{path.name} is printed smaller"
        )
        page.close()
