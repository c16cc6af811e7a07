"""A page that stands open beside the editor: it takes in each save without losing the reader's place or choices."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Protocol

from playwright.sync_api import BrowserContext, Page

from generator.resources import bundled
from tests.serving import serving

STARTER = (bundled("specs") / "starter.yml").read_text(encoding="utf-8")
TITLE = next(line for line in STARTER.splitlines() if line.startswith("title:"))
LONGER = ("length: 1300", "length: 1320")


class Watched(Protocol):
    page: Page
    complaints: list[str]


def test_an_open_page_takes_in_each_save(
    context: BrowserContext, watch: Callable[[Page], Watched], tmp_path: Path
) -> None:
    spec = tmp_path / "bench.yml"
    spec.write_text(STARTER.replace(TITLE, "title: First bench"), encoding="utf-8")
    with serving(spec) as served:
        page = context.new_page()
        watched = watch(page)
        page.set_viewport_size({"width": 390, "height": 800})
        page.goto(served.url + "cut-list.html")
        page.get_by_role("button", name="mm / in").click()
        page.evaluate("window.stillHere = true; scrollTo(0, 300)")
        length = page.locator("tr", has_text="long rail").first.locator(".bm-size")
        before = length.inner_text()

        text = STARTER.replace(TITLE, "title: Second bench").replace(*LONGER)
        spec.write_text(text, encoding="utf-8")
        page.wait_for_function("document.querySelector('.bm-head').textContent.includes('Second bench')")
        assert page.title() == "Cut list - Second bench"
        assert page.locator(".md-header__topic").first.inner_text() == "Second bench"
        assert length.inner_text() != before
        assert page.evaluate("window.stillHere"), "the page was loaded anew"
        assert page.evaluate("scrollY") == 300
        assert page.locator("html.bm-other").count() == 1
        assert "inches" in page.locator("article").inner_text()
        assert page.evaluate("document.documentElement.scrollWidth") <= 390
        boxes = page.locator(".md-typeset__scrollwrap table")
        assert boxes.count() == page.locator("article table:not([class])").count()
        page.get_by_role("button", name="mm / in").click()
        assert page.locator("html.bm-other").count() == 0

        search = page.get_by_role("textbox", name="Search")
        search.focus()
        search.press_sequentially("A1")
        results = page.locator("[data-md-component=search-result]")
        results.locator("a[href$='part-sheets.html#part-a1']").wait_for()
        page.keyboard.press("Escape")

        spec.write_text(text.replace("length:", "lenght:", 1), encoding="utf-8")
        panel = page.get_by_role("alert")
        panel.wait_for()
        assert "did you mean 'length'?" in panel.inner_text()
        assert page.title() == "Cut list - Second bench"
        spec.write_text(text.replace("Second", "Third"), encoding="utf-8")
        page.wait_for_function("document.querySelector('.bm-head').textContent.includes('Third bench')")
        assert panel.count() == 0
    assert not watched.complaints


def test_ticks_outlast_a_save(
    context: BrowserContext, watch: Callable[[Page], Watched], tmp_path: Path
) -> None:
    spec = tmp_path / "bench.yml"
    spec.write_text(STARTER, encoding="utf-8")
    with serving(spec) as served:
        page = context.new_page()
        watched = watch(page)
        page.goto(served.url + "checklist.html")
        page.locator("input[data-bm]").nth(1).check()
        head = page.locator(".bm-head").inner_text()
        spec.write_text(STARTER.replace(*LONGER), encoding="utf-8")
        page.wait_for_function("old => document.querySelector('.bm-head').textContent !== old", arg=head)
        assert page.locator("input[data-bm]").nth(1).is_checked()
        assert page.locator(".bm-progress").inner_text().startswith("1 of ")
        page.locator("input[data-bm]").nth(2).check()
        assert page.locator(".bm-progress").inner_text().startswith("2 of ")
    assert not watched.complaints


def test_pictures_of_the_assembly_are_drawn_as_they_come_near(
    context: BrowserContext, watch: Callable[[Page], Watched], tmp_path: Path
) -> None:
    spec = tmp_path / "bench.yml"
    spec.write_text(STARTER, encoding="utf-8")
    with serving(spec) as served:
        page = context.new_page()
        watched = watch(page)
        page.set_viewport_size({"width": 1000, "height": 800})
        page.goto(served.url + "assembly.html")
        boxes, drawn = (
            page.locator("article [data-awaited]"),
            page.locator("article .bm-scroll > svg:has(path)"),
        )
        several = boxes.count()
        assert several > 20
        page.locator("article .bm-scroll > svg").nth(4).scroll_into_view_if_needed()
        page.wait_for_function("!document.querySelectorAll('article .bm-scroll > svg')[4].dataset.awaited")
        assert 0 < drawn.count() < several / 2

        page.get_by_role("button", name="mm / in").click()
        shown = page.locator("article .bm-scroll > svg").nth(4)
        shown.scroll_into_view_if_needed()
        before, place = shown.inner_html(), page.evaluate("scrollY")
        page.evaluate(BLANK)
        spec.write_text(STARTER.replace(*LONGER), encoding="utf-8")
        page.wait_for_function(
            "old => document.querySelectorAll('article .bm-scroll > svg')[4].innerHTML !== old", arg=before
        )
        assert not page.evaluate("blank"), "the picture that was looked at went away before the new one came"
        assert abs(page.evaluate("scrollY") - place) < 50
        page.locator("article .bm-scroll > svg").nth(9).scroll_into_view_if_needed()
        page.wait_for_function("!document.querySelectorAll('article .bm-scroll > svg')[9].dataset.awaited")
        assert page.evaluate(IN_INCHES) > 10

        page.set_viewport_size({"width": 390, "height": 800})
        page.locator("article .bm-slim > svg").nth(12).scroll_into_view_if_needed()
        page.wait_for_function("!document.querySelectorAll('article .bm-slim > svg')[12].dataset.awaited")

        assert boxes.count() > 0
        page.evaluate("dispatchEvent(new Event('beforeprint'))")
        assert boxes.count() == 0
    assert not watched.complaints


BLANK = """() => {
  window.blank = false;
  new MutationObserver(() => {
    const shown = document.querySelectorAll("article .bm-scroll > svg")[4];
    if (shown && shown.dataset.awaited) window.blank = true;
  }).observe(document.querySelector("article"), { childList: true, subtree: true });
}"""
IN_INCHES = """() => Array.from(document.querySelectorAll("article .bm-scroll > svg:not([data-awaited]) text[data-o]"))
  .filter(text => /[0-9]\\/[0-9]|"/.test(text.textContent) && !/[0-9]\\/[0-9]|"/.test(text.dataset.o)).length"""
