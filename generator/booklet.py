"""A whole manual as one PDF: its built pages joined into one document, printed by a Chromium browser."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
from collections.abc import Mapping, Sequence
from html import escape, unescape
from html.parser import HTMLParser
from pathlib import Path
from tempfile import TemporaryDirectory

from generator.disk import put
from generator.drawings.paper import Paper

BROWSERS = (
    "chromium",
    "chromium-browser",
    "google-chrome",
    "google-chrome-stable",
    "chrome",
    "microsoft-edge",
    "msedge",
)
"""Commands under which a browser of this kind is installed."""
PROGRAM_FOLDERS = ("ProgramFiles", "ProgramFiles(x86)", "LocalAppData")
"""Variables of Windows that name the folders of installed programs; their commands are on no path."""
PROGRAMS = (
    "Google/Chrome/Application/chrome.exe",
    "Chromium/Application/chrome.exe",
    "Microsoft/Edge/Application/msedge.exe",
)
"""Where browsers are below these folders."""
APPLICATIONS = (
    "/Applications/Google Chrome.app/Contents/MacOS/Google Chrome",
    "/Applications/Chromium.app/Contents/MacOS/Chromium",
    "/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge",
)
"""Where they are on macOS."""
BOOKLET = "booklet.html"
"""The joined pages, beside the others while they are printed."""
BROWSER_SECONDS = 180
"""Seconds after which a browser hangs."""

_VOID = frozenset(
    {"area", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"}
)


class BookletError(Exception):
    """No browser, or one that makes no PDF; the text says what is missing."""


def find_browser(named: str | None = None) -> Path:
    """The browser that was named, else the first that is installed. Raises BookletError that says what to do."""
    for name in (named,) if named else BROWSERS:
        if found := shutil.which(name):
            return Path(found)
    folders = [Path(folder) for name in PROGRAM_FOLDERS if (folder := os.environ.get(name))]
    installed = [*(folder / program for folder in folders for program in PROGRAMS), *map(Path, APPLICATIONS)]
    if not named and (there := next((path for path in installed if path.is_file()), None)):
        return there
    if named:
        raise BookletError(f"no browser has the name {named}; name another with --browser")
    raise BookletError(
        f"no Chromium browser was found (looked for {', '.join(BROWSERS)}). Install one, or name one with --browser. "
        "You can also open site/index.html in any browser and print each page"
    )


def print_booklet(
    site_dir: Path, pages: Sequence[tuple[str, str]], paper: Paper, pdf: Path, browser: Path
) -> None:
    """Print the pages (title, file) of a built site in their order into one PDF. Raises BookletError.

    It is printed twice, because the contents say on which pages things are only when that is known.
    """
    joined = site_dir / BOOKLET
    try:
        # on Windows a browser that is about to end still holds files of its profile
        with TemporaryDirectory(prefix="bench-manual-", ignore_cleanup_errors=True) as profile:
            fresh = Path(profile, "fresh.pdf")
            numbers: Mapping[str, int] = {}
            for _ in range(2):
                put(joined, join_pages(site_dir, pages, paper, numbers).encode())
                _run(browser, Path(profile, "profile"), joined, fresh)
                numbers = page_numbers(fresh.read_bytes(), [_anchor(file) for _, file in pages])
                if not numbers:
                    break
            pdf.parent.mkdir(parents=True, exist_ok=True)
            put(pdf, fresh.read_bytes())
    finally:
        joined.unlink(missing_ok=True)


def _run(browser: Path, profile: Path, page: Path, pdf: Path) -> None:
    command = [
        str(browser),
        "--headless",
        "--disable-gpu",
        "--no-first-run",
        "--disable-extensions",
        "--disable-background-networking",
        "--host-resolver-rules=MAP * ~NOTFOUND",
        f"--user-data-dir={profile}",
        "--no-pdf-header-footer",
        "--generate-pdf-document-outline",
        f"--print-to-pdf={pdf}",
    ]
    if hasattr(os, "geteuid") and os.geteuid() == 0:
        command.append("--no-sandbox")  # Chromium does not start as root with one
    try:
        done = subprocess.run(
            [*command, page.resolve().as_uri()], capture_output=True, timeout=BROWSER_SECONDS
        )
    except subprocess.TimeoutExpired:
        raise BookletError(f"{browser.name} made no PDF within {BROWSER_SECONDS} seconds") from None
    except OSError as error:
        raise BookletError(f"{browser} cannot be started: {error.strerror}") from None
    if not pdf.is_file():
        # not every browser writes in the code page of its system
        said = done.stderr.decode(errors="replace").splitlines()
        last = next((line for line in reversed(said) if line.strip()), "no reason given")
        raise BookletError(f"{browser.name} made no PDF: {last}")


def page_numbers(pdf: bytes, names: Sequence[str]) -> dict[str, int]:
    """On which page, from 1, each named place of a PDF is; none for a file whose objects are packed.

    ISO 32000: a leaf of the page tree lists its pages in /Kids, a name leads to a page and a place on it.
    """
    pages = set(re.findall(rb"(\d+) 0 obj\s*<<\s*/Type /Page\b", pdf))
    leaves = (re.findall(rb"(\d+) 0 R", kids) for kids in re.findall(rb"/Kids \[([^\]]*)\]", pdf))
    order = [page for leaf in leaves for page in leaf if page in pages]
    found = {}
    for name in names:
        place = re.search(rb"/" + re.escape(name.encode()) + rb" \[(\d+) 0 R", pdf)
        if place and place[1] in order:
            found[name] = order.index(place[1]) + 1
    return found


def join_pages(
    site_dir: Path, pages: Sequence[tuple[str, str]], paper: Paper, numbers: Mapping[str, int] | None = None
) -> str:
    """One document of all pages: links between them lead within it, links to files are plain words.

    `numbers` are the pages on which their places were printed; the contents say them.
    """
    at = numbers or {}
    files = [file for _, file in pages]
    first = _Article(files[0], files)
    articles = []
    for number, file in enumerate(files):
        article = first if number == 0 else _Article(file, files)
        article.feed((site_dir / file).read_text(encoding="utf-8"))
        article.close()
        articles.append(f'<section class="bm-page" id="{_anchor(file)}">{article.text}</section>')
    sheets = "".join(f'<link rel="stylesheet" href="{escape(sheet)}">' for sheet in first.style_sheets)
    entries = "".join(
        f'<li><a href="#{_anchor(file)}">{escape(title)}</a>{_at(at.get(_anchor(file)))}</li>'
        for title, file in pages
    )
    title = escape(first.title.strip().removeprefix(f"{pages[0][0]} - "))
    size = (
        f"@page{{size:{paper.name} portrait;margin:12mm 15mm 11mm}}"
        f"@page bm-landscape{{size:{paper.name} landscape}}"
    )
    return (
        f'<!doctype html><html lang="en"><head><meta charset="utf-8"><title>{title}</title>{sheets}'
        f'<style>{size}</style></head><body class="bm-booklet" dir="ltr" data-md-color-scheme="default">'
        f'<main class="md-main"><article class="md-content__inner md-typeset"><section class="bm-page bm-contents">'
        f"<h1>{title}</h1><h2>Contents</h2><ol>{entries}</ol></section>{''.join(articles)}</article>"
        "</main></body></html>"
    )


def _at(number: int | None) -> str:
    return f"<span>{number}</span>" if number else ""


def _anchor(file: str, fragment: str = "") -> str:
    """The name in the joined document of a page, or of a place on it."""
    page = file.removesuffix(".html")
    return f"{page}--{fragment}" if fragment else page


class _Article(HTMLParser):
    """Takes the article out of one page; what is read is written again, with names and links of the whole."""

    def __init__(self, file: str, files: Sequence[str]) -> None:
        super().__init__(convert_charrefs=False)
        self.file, self.files = file, files
        self.parts: list[str] = []
        self.style_sheets: list[str] = []
        self.title = ""
        self.depth = 0
        """Open articles; text is taken while there is one."""
        self.in_title = False

    @property
    def text(self) -> str:
        """The article's inside."""
        return "".join(self.parts)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """An opening tag: style sheets and the title are noted, those of the article are written."""
        values = dict(attrs)
        if tag == "link" and values.get("rel") == "stylesheet" and values.get("href"):
            self.style_sheets.append(values["href"] or "")
        if tag == "title" and not self.depth:
            self.in_title = not self.title
        if self.depth:
            self.parts.append(f"<{tag}{''.join(self._attribute(tag, *pair) for pair in attrs)}>")
        if tag == "article":
            self.depth += 1

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """A tag that closes itself, as SVG has them."""
        if self.depth:
            self.parts.append(f"<{tag}{''.join(self._attribute(tag, *pair) for pair in attrs)}/>")

    def handle_endtag(self, tag: str) -> None:
        """A closing tag."""
        if tag == "article":
            self.depth -= 1
        if tag == "title":
            self.in_title = False
        if self.depth and tag not in _VOID:
            self.parts.append(f"</{tag}>")

    def handle_data(self, data: str) -> None:
        """Text."""
        if self.in_title:
            self.title += unescape(data)
        if self.depth:
            self.parts.append(data)

    def handle_entityref(self, name: str) -> None:
        """A named letter, left as it is."""
        self.handle_data(f"&{name};")

    def handle_charref(self, name: str) -> None:
        """A numbered letter, left as it is."""
        self.handle_data(f"&#{name};")

    def _attribute(self, tag: str, name: str, value: str | None) -> str:
        if value is None:
            return f" {name}"
        if name == "id":
            value = _anchor(self.file, value)
        elif name == "href" and tag in ("a", "use"):
            target = self._target(value)
            if not target:
                return ""
            value = target
        return f' {name}="{escape(value)}"'

    def _target(self, link: str) -> str:
        """Where a link leads in the joined document; empty for files and other places."""
        file, _, fragment = link.partition("#")
        if file and file not in self.files:
            return ""
        return f"#{_anchor(file or self.file, fragment)}"
