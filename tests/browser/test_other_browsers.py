"""The pages in Firefox as its reader gets them, and what both browsers print. `.ci/try-in-webkit` tries WebKit."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.browser.printed import ASK, faults
from tests.browser.remote import Firefox, pages_of, try_pages, try_tools
from tests.effort import quick_or, sample

PRINTED = quick_or(["cut-list", "story-sticks"], ["assembly", "part-sheets", "checklist", "strength"])


@pytest.fixture(scope="session")
def demo(built: Callable[[str], Path]) -> Path:
    return built("demo")


def lines_of(site: Path) -> str:
    """The words of the lines at the head and foot of every sheet."""
    return "".join(
        re.findall(r'content: "(.*?)"', (site / "assets" / "paper.css").read_text(encoding="utf-8"))
    )


def test_pages_open_and_their_tools_work_in_firefox(demo: Path, firefox: Firefox) -> None:
    try_pages(firefox, sample(pages_of(demo), 5))
    try_tools(firefox, demo)


@pytest.mark.parametrize("name", PRINTED)
def test_firefox_prints_a_page_whole_and_nothing_else(demo: Path, firefox: Firefox, name: str) -> None:
    firefox.open((demo / f"{name}.html").as_uri())
    assert not faults(firefox.printed(), firefox.run(ASK), lines_of(demo))


@pytest.mark.parametrize("name", PRINTED)
def test_chromium_prints_a_page_whole_and_nothing_else(
    demo: Path, open_page: Callable[[Path], object], name: str
) -> None:
    page = open_page(demo / f"{name}.html").page  # type: ignore[attr-defined]
    assert not faults(page.pdf(format="A4"), page.evaluate(f"() => {{{ASK}}}"), lines_of(demo))


def test_what_is_wrong_on_paper_is_found(demo: Path, open_page: Callable[[Path], object]) -> None:
    page = open_page(demo / "cut-list.html").page  # type: ignore[attr-defined]
    said = page.evaluate(f"() => {{{ASK}}}")
    page.add_style_tag(
        content="@media print { h1::before { content: 'Zebra ' } h1 + p, article > p { display: none }"
        "h2:last-of-type ~ * { display: none } } @page { margin: 1mm; @top-left { content: none !important } }"
    )
    found = "\n".join(faults(page.pdf(format="A4"), said, lines_of(demo)))
    wrongs = (
        "is cut off",
        "“spoiled” is not printed",
        "“Zebra” is printed",
        "has no head line",
        "nothing below it",
    )
    for wrong in wrongs:
        assert wrong in found
