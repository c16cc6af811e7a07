"""No length is broken over two lines: not between a number and its fraction or unit, nor between Ø and its figure."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Protocol

import pytest
from playwright.sync_api import Page

from tests.browser.test_site_offline import pages_of
from tests.effort import quick_or, sample


class Watched(Protocol):
    page: Page


#: How many lengths a page has, and those whose first and last letter are on different lines. It asks for the places
#: of letters on the screen, whatever holds them there.
BROKEN = """() => {
  const unit = '(?:mm|in|kg|m|lb|ft|N|l|h|min|s|%)(?![\\\\w-])', sum = '\\\\d+\\\\s\\\\d+/\\\\d+';
  const length = new RegExp(
    `${sum}(?:\\\\s${unit})?|\\\\d+(?:[./]\\\\d+)?\\\\s${unit}|Ø\\\\s?\\\\d+|\\\\d+/\\\\d+`, 'g');
  const article = document.querySelector('article'), broken = [], lines = new Map();
  const flows = one => getComputedStyle(one).display.startsWith('inline');
  const walk = document.createTreeWalker(article, NodeFilter.SHOW_TEXT);
  for (let text; (text = walk.nextNode()); ) {
    let holder = text.parentElement;
    if (holder.closest('svg, script, style') || !holder.getClientRects().length) continue;
    while (flows(holder)) holder = holder.parentElement;
    lines.set(holder, [...(lines.get(holder) || []), text]);
  }
  let count = 0;
  for (const texts of lines.values()) {
    const letters = [];
    let before = null;
    for (const text of texts) {
      const apart = before && document.createRange();
      if (apart) {
        apart.setStart(before, before.data.length);
        apart.setEnd(text, 0);
        if (apart.cloneContents().querySelector('br')) letters.push(null);
      }
      for (let at = 0; at < text.data.length; at++) letters.push([text, at]);
      before = text;
    }
    const place = index => {
      const range = document.createRange(), [text, at] = letters[index];
      range.setStart(text, at);
      range.setEnd(text, at + 1);
      return range.getBoundingClientRect();
    };
    const said = letters.map(letter => letter ? letter[0].data[letter[1]] : '|').join('');
    for (const found of said.matchAll(length)) {
      count++;
      const first = place(found.index), last = place(found.index + found[0].length - 1);
      if (first.height && last.height && last.top > first.bottom - 2) broken.push(found[0]);
    }
  }
  return [count, broken];
}"""


@pytest.mark.parametrize("site", quick_or(["wall-bench"], ["demo"]), indirect=True)
def test_no_length_is_broken(site: Path, open_page: Callable[..., Watched]) -> None:
    seen = 0
    for path in sample([page for page in pages_of(site) if page.stem != "working"], 4):
        page = open_page(path).page
        for width in (1280, 820, 390, 320):
            page.set_viewport_size({"width": width, "height": 1000})
            count, broken = page.evaluate(BROKEN)
            seen += count
            assert not broken, f"{path.name} at {width} px"
        page.emulate_media(media="print")
        assert not page.evaluate(BROKEN)[1], f"{path.name} on paper"
        page.close()
    assert seen > 200


def test_a_broken_length_is_found(open_page: Callable[..., Watched], tmp_path: Path) -> None:
    path = tmp_path / "page.html"
    path.write_text(
        "<meta charset=utf-8><article><p style='width: 1em'>78 3/4 <i>in</i></p><p>9 mm<br>3/4</p><p>5 kg</p></article>"
    )
    assert open_page(path).page.evaluate(BROKEN) == [4, ["78 3/4 in"]]
