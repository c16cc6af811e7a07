"""What is wrong with a page of a manual that a browser printed: read from its PDF by another program, `pdftotext`."""

from __future__ import annotations

import re
import subprocess
import unicodedata
from collections import Counter
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any
from xml.etree import ElementTree

MM = 25.4 / 72
EDGE = 4.0
"""Millimetres at a sheet's edges in which few printers print."""
BELOW = 12.0
"""Millimetres of text that a heading has below it on its sheet: a line and a row at least."""
FOOT = 14.0
"""Millimetres at the foot of a sheet that hold its foot line."""
ASK = """
const article = document.querySelector('article');
const whole = one => {
  const below = one.nextElementSibling, then = below && below.nextElementSibling;
  return below && below.tagName === 'P' && below.innerText.length < 120 &&
    (!then || /^H\\d$/.test(then.tagName) && then.tagName <= one.tagName);
};
const seen = [...article.querySelectorAll('h1, h2, h3, td, th, li, p:not(.bm-head, .bm-foot)')].filter(
  one => one.checkVisibility() && !one.querySelector('.bm-watch, li, p') && !one.closest('.bm-bench'));
return {
  headings: [...article.querySelectorAll('h2, h3')].filter(one => !whole(one))
    .map(one => one.textContent.replace('\\u00b6', '')),
  said: seen.map(one => one.innerText).join(' '),
  all: article.textContent + ' done, printed',
}"""
"""What the page itself says, asked before it is printed: among its headings are none with a line of text alone."""


@dataclass(frozen=True)
class Word:
    """A word of a sheet: its text, its box (mm, from the sheet's upper left corner)."""

    text: str
    left: float
    top: float
    right: float
    bottom: float


@dataclass(frozen=True)
class Sheet:
    """A sheet of paper (mm) and its words in the order of reading."""

    width: float
    height: float
    words: tuple[Word, ...]


def sheets(pdf: bytes) -> list[Sheet]:
    """The sheets of a PDF."""
    with TemporaryDirectory() as folder:
        path = Path(folder, "one.pdf")
        path.write_bytes(pdf)
        text = subprocess.run(
            ["pdftotext", "-bbox", path, "-"], check=True, capture_output=True, text=True
        ).stdout
    tree = ElementTree.fromstring(re.sub(r"[^\t\n\x20-\ud7ff\ue000-\ufffd]", "", text))
    return [
        Sheet(float(page.get("width", 0)) * MM, float(page.get("height", 0)) * MM, tuple(map(_word, page)))
        for page in tree.iterfind(".//{*}page")
    ]


def _word(node: ElementTree.Element) -> Word:
    left, top, right, bottom = (float(node.get(key, 0)) * MM for key in ("xMin", "yMin", "xMax", "yMax"))
    return Word(node.text or "", left, top, right, bottom)


def faults(pdf: bytes, page: Any, foot_lines: str = "", every_sheet: bool = True) -> list[str]:
    """What is wrong with a printed page. `page` is what ASK gave, `foot_lines` what paper.css adds.

    Letters beyond the sheet's edge; words of the page that are missing; words that are not the page's (the menu, the
    head of the site); a heading with nothing below it; a sheet without the head line.
    """
    printed = sheets(pdf)
    found = [
        f"sheet {number}: “{word.text}” is cut off"
        for number, sheet in enumerate(printed, 1)
        for word in sheet.words
        if min(word.left, word.top, sheet.width - word.right, sheet.height - word.bottom) < EDGE
    ]
    on_paper = "".join(plain(word.text) for sheet in printed for word in sheet.words)
    # a word may be parted at a line's end, and two cells stand side by side
    said = Counter(word for word in plain(page["said"], " ").split() if len(word) < 8)
    found += [f"“{word}” is not printed" for word, times in said.items() if on_paper.count(word) < times]
    own = plain(page["all"] + foot_lines)
    strange = [word.text for sheet in printed for word in sheet.words if plain(word.text) not in own]
    found += [
        f"“{word}” is printed, and no word of the page" for word in strange if not re.search(r"\d", word)
    ]
    found += [f"“{heading}” has nothing below it" for heading in _stranded(printed, page["headings"])]
    for number, sheet in enumerate(printed if every_sheet else printed[:1], 1):
        top = [word.text for word in sheet.words if word.top < sheet.height / 5]
        if "revision" not in top:
            found.append(f"sheet {number} has no head line")
    return found


def plain(text: str, between: str = "") -> str:
    """Letters and digits only."""
    return between.join(re.findall(r"[^\W_]+", unicodedata.normalize("NFKC", text)))


def _stranded(printed: list[Sheet], headings: list[str]) -> list[str]:
    """The headings, each a line of its own, that are the last but a line on their sheet."""
    found = []
    for sheet in printed:
        lines: dict[int, list[str]] = {}
        for word in sheet.words:
            if word.bottom < sheet.height - FOOT:
                lines.setdefault(round(word.bottom), []).append(word.text)
        lowest = max(lines, default=0)
        found += [
            heading
            for foot, words in lines.items()
            for heading in headings
            if words == heading.split() and lowest < foot + BELOW
        ]
    return found
