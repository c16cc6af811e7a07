"""The manual as a tool in the shop: units, large type, finding a mark, the keyboard, and reading without scripts."""

from __future__ import annotations

import io
import re
from collections.abc import Callable
from pathlib import Path
from typing import Protocol

import pypdf
import pytest
from playwright.sync_api import Browser, Page


class Watched(Protocol):
    page: Page
    complaints: list[str]


OpenPage = Callable[..., Watched]

demo = pytest.mark.parametrize("site", ["demo"], indirect=True)
both = pytest.mark.parametrize(("site", "own"), [("demo", "mm"), ("wall-bench", "in")], indirect=["site"])


def lengths(page: Page, within: str) -> list[str]:
    found: list[str] = page.eval_on_selector_all(
        f"{within} [data-o]", "all => all.map(one => one.textContent)"
    )
    return found


@both
def test_the_unit_is_switched_in_text_and_drawings_and_stays(
    site: Path, own: str, open_page: OpenPage
) -> None:
    opened = open_page(site / "part-sheets.html", 820)
    page = opened.page
    before = {place: lengths(page, place) for place in ("article", "article svg")}
    assert all(before.values())
    head = page.locator(".bm-head").inner_text()
    page.get_by_role("button", name="mm / in").click()
    other = {place: lengths(page, place) for place in before}
    kept = page.eval_on_selector_all("[data-o]", "all => all.map(one => one.dataset.o)")
    assert {"article": kept[-len(before["article"]) :]} != other  # the former reading waits in the attribute
    for place, texts in before.items():
        assert len(other[place]) == len(texts)
        assert all(a != b for a, b in zip(texts, other[place], strict=True))
    assert page.locator(".bm-head").inner_text() != head
    assert "rounded" in page.locator(".bm-head").inner_text()
    assert page.locator("article svg").first.bounding_box()

    page.reload()
    assert lengths(page, "article") == other["article"]
    elsewhere = open_page(site / "cut-list.html", 390).page
    words = {"mm": "inches", "in": "millimetres"}[own]
    assert f"Sizes are cut sizes in {words}" in elsewhere.locator("article").inner_text()

    page.get_by_role("button", name="mm / in").click()
    assert lengths(page, "article") == before["article"]
    assert not opened.complaints


@demo
def test_what_follows_a_length_stands_close_to_it_in_both_units(site: Path, open_page: OpenPage) -> None:
    """Gaps between the height of the work surface and its name, in pixels of the page."""
    page = open_page(site / "index.html", 1280).page
    view = page.locator("svg[id=Drawing-elevation-front]")
    gaps = []
    for height in ("880", "34 21/32", "880"):
        size, name = (
            view.locator("text", has_text=words).first.bounding_box() for words in (height, "work surface")
        )
        assert size and name
        gaps.append(name["x"] - size["x"] - size["width"])
        page.get_by_role("button", name="mm / in").click()
    assert all(2 < gap < 20 for gap in gaps)
    assert gaps[0] == gaps[2]


@demo
def test_known_lengths_read_right_in_both_units(site: Path, open_page: OpenPage) -> None:
    """1920 mm is 75 19/32 in to the nearest 1/32, by hand: 1920 / 25.4 = 75.5906, 0.5906 x 32 = 18.9."""
    page = open_page(site / "cut-list.html").page
    row = page.locator("tr", has_text="long rail").first
    assert "1920" in row.inner_text()
    page.get_by_role("button", name="mm / in").click()
    assert row.locator(".bm-size").inner_text() == "75 19/32"
    assert "(1920 mm)" in row.inner_text()


@demo
def test_a_printed_page_says_its_unit(site: Path, open_page: OpenPage) -> None:
    page = open_page(site / "cut-list.html").page
    page.get_by_role("button", name="mm / in").click()
    text = pypdf.PdfReader(io.BytesIO(page.pdf(format="A4"))).pages[0].extract_text()
    assert " in in · spec" in " ".join(text.split())
    assert "75 19/32" in text


@demo
def test_large_type_is_large_stays_and_fits_a_phone(site: Path, open_page: OpenPage) -> None:
    page = open_page(site / "assembly.html", 390).page
    size = "parseFloat(getComputedStyle(document.querySelector('article p')).fontSize)"
    before = page.evaluate(size)
    page.get_by_role("button", name="large type").click()
    assert page.evaluate(size) >= 1.15 * before
    assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0
    page.reload()
    assert page.get_by_role("button", name="large type").get_attribute("aria-pressed") == "true"
    page.set_viewport_size({"width": 820, "height": 1100})
    assert page.evaluate(size) >= 1.35 * before
    assert page.evaluate("document.documentElement.scrollWidth - innerWidth") <= 0


@demo
def test_a_part_is_found_by_its_mark(site: Path, open_page: OpenPage) -> None:
    """By the search, by the index, and from a drawing."""
    page = open_page(site / "index.html").page
    search = page.get_by_role("textbox", name="Search")
    search.focus()
    search.press_sequentially("FD2")
    page.locator("[data-md-component=search-result] a[href*='part']").first.wait_for()
    page.keyboard.press("Escape")

    page.goto((site / "part-index.html").as_uri())
    page.locator("td a.bm-mark", has_text=re.compile("^FD2$")).click()
    page.wait_for_url("**/part-sheets.html#part-*")
    place = page.url.split("#")[1]
    assert page.locator(f"#{place}").inner_text().startswith("FD1–FD3")

    for drawn in ("index.html", "assembly.html", "sheet-plan.html", "bar-plan.html"):
        text = (site / drawn).read_text(encoding="utf-8")
        assert re.search(r'<svg(?:(?!</svg>).)*<a href="part-sheets\.html#part-', text), drawn


@demo
def test_the_keyboard_reaches_everything(site: Path, open_page: OpenPage) -> None:
    """From the top of a page: into the text, both switches, a link, with a mark of focus that can be seen."""
    page = open_page(site / "checklist.html").page
    page.keyboard.press("Tab")
    assert page.evaluate("document.activeElement.classList.contains('md-skip')")
    met = []
    for _ in range(60):
        page.keyboard.press("Tab")
        met.append(page.evaluate("document.activeElement.outerHTML.slice(0, 160)"))
        if "data-bm" in met[-1]:
            break
    assert any("bm-switch-unit" in each for each in met)
    assert any("bm-switch-type" in each for each in met)
    assert "data-bm" in met[-1], "no tick box within 60 steps"
    outline = page.evaluate("getComputedStyle(document.activeElement).outlineStyle")
    assert outline != "none"
    page.keyboard.press("Space")
    assert page.locator("input[data-bm]:checked").count() == 1


@demo
def test_the_menu_has_the_parts_of_the_work_and_the_overview_the_first_act(
    site: Path, open_page: OpenPage
) -> None:
    page = open_page(site / "index.html", 1280).page
    parts = page.locator(".bm-menu-part > span").all_inner_texts()
    assert [each.capitalize() for each in parts][:6] == [
        "Start",
        "Buy",
        "Set up",
        "Cut",
        "Build",
        "Test and keep",
    ]
    way = page.locator(".bm-way a").all_inner_texts()
    assert way == ["Buy", "Set up", "Cut", "Build", "Test and keep"]
    first = page.get_by_role("link", name="First: measure your goods")
    assert first.is_visible()
    first.click()
    active = page.locator(".bm-menu-part .md-nav__item--active > a.md-nav__link--active")
    assert "Measure your goods" in (active.text_content() or "")
    page.goto((site / "assembly.html").as_uri() + "#step-lid")
    here = page.locator(".md-nav--secondary .bm-here")
    here.wait_for()
    assert here.get_attribute("href") == "#step-lid"
    page.wait_for_function(
        """() => {
            const frame = document.querySelector('.md-sidebar__scrollwrap').getBoundingClientRect();
            const at = document.querySelector('.bm-here').getBoundingClientRect();
            return frame.top <= at.top && at.bottom <= frame.bottom;
        }"""
    )


@demo
def test_a_printed_checklist_shows_its_state(site: Path, open_page: OpenPage) -> None:
    page = open_page(site / "checklist.html").page
    page.locator("input[data-bm]").first.check()
    page.emulate_media(media="print")
    page.evaluate("dispatchEvent(new Event('beforeprint'))")
    assert re.search(
        r"^1 of \d+ done, printed \d{4}-\d\d-\d\d$", page.locator(".bm-progress output").inner_text()
    )
    ticks = page.eval_on_selector_all(
        "input[data-bm]",
        "all => all.slice(0, 2).map(box => getComputedStyle(box, '::before').borderBottomColor"
        " + getComputedStyle(box, '::before').content)",
    )
    assert ticks[0] == 'rgb(0, 0, 0)""'
    assert "none" in ticks[1]


@demo
def test_pages_can_be_read_without_scripts(site: Path, browser: Browser) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto((site / "cut-list.html").as_uri())
    assert "1920" in page.locator("article").inner_text()
    assert not page.locator(".bm-switch").count()
    page.locator("footer a").last.click()
    assert page.locator("h1").inner_text().startswith("Bar plan")
    context.close()


@demo
def test_a_term_leads_to_its_meaning(site: Path, open_page: OpenPage) -> None:
    page = open_page(site / "fits.html").page
    term = page.locator("a.bm-term").first
    meaning = term.get_attribute("title")
    term.click()
    page.wait_for_url("**/glossary.html#term-*")
    place = page.url.split("#")[1]
    assert meaning and page.locator(f"#{place} + dd").inner_text() == meaning


@demo
def test_drawings_say_to_a_screen_reader_what_they_show(site: Path) -> None:
    """Title and text alternative on each; the alternative of a dimensioned drawing has its numbers."""
    for name in ("index.html", "part-sheets.html", "openings-and-drawers.html", "story-sticks.html"):
        text = (site / name).read_text(encoding="utf-8")
        drawings = re.findall(r'<svg [^>]*class="bm-drawing".*?</svg>|<svg class="bm-drawing".*?</svg>', text)
        assert drawings, name
        for drawing in drawings:
            title, description = (
                re.search(rf"<{tag}[^>]*>(.*?)</{tag}>", drawing) for tag in ("title", "desc")
            )
            assert title and title[1], name
            assert description and re.search(r"\d", description[1]), f"{name}: {title[1]}"
