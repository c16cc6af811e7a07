"""A real browser on built pages. It drives the system's Chromium and lets nothing out of the machine.

Without a browser the tests skip, but fail where one is required: `CI=true` or `BENCH_MANUAL_BROWSER=require`.
"""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import cache
from importlib.util import find_spec
from pathlib import Path
from typing import NoReturn

import jinja2
import pytest
from PIL import Image
from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright

from generator.disk import locked
from generator.manual import compile_loaded
from generator.output import write_changed
from generator.site import build_site
from generator.spec.load import RecordText, read_spec
from generator.writers.svg import drawing_css
from tests.browser.remote import Firefox, opened
from tests.effort import quick_or

TEMPLATES = Path(__file__).resolve().parents[2] / "site_templates"
SAMPLE = Path(__file__).resolve().parent / "sample"
NAMES = ("chromium", "chromium-browser", "google-chrome")
FIREFOX = ("firefox-esr", "firefox")
FLAGS = (
    "--no-sandbox",
    "--disable-gpu",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--disable-quic",
    "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1",
)
HEIGHT = 1100
NASTY_FILE = "R&D_o'clock #2 [3] q?x a*b 12:30\\\n<b>.yml"
SETTLE = 60
"""Milliseconds after `load` for scripts to have their say; from a folder nothing takes longer."""


DRIVER = "GL Driver Message (OpenGL, Performance"
"""What a slow machine's driver says of itself when a browser reads a canvas to show it: nothing of the page."""


@dataclass
class Watched:
    """A page and what it asked for and complained about since it was opened."""

    page: Page
    requests: list[str] = field(default_factory=list)
    complaints: list[str] = field(default_factory=list)


def missing(what: str) -> NoReturn:
    """Skip, or fail where the check must not be left out."""
    if os.environ.get("CI") == "true" or os.environ.get("BENCH_MANUAL_BROWSER") == "require":
        pytest.fail(f"{what} is required here and missing", pytrace=False)
    pytest.skip(f"{what} is missing; the pages were not tried in a browser")


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    executable = next(filter(None, map(shutil.which, NAMES)), None)
    if executable is None:
        missing("a Chromium browser")
    with sync_playwright() as playwright:
        running = playwright.chromium.launch(executable_path=executable, args=list(FLAGS))
        yield running
        running.close()


@pytest.fixture(scope="session")
def firefox() -> Iterator[Firefox]:
    """Firefox without a window. A machine for which there is none says so: `BENCH_MANUAL_WITHOUT=firefox`."""
    executable = next(filter(None, map(shutil.which, FIREFOX)), None)
    if executable is None:
        if os.environ.get("BENCH_MANUAL_WITHOUT") == "firefox":
            pytest.skip("no Firefox can be installed here")
        missing("Firefox")
    with opened(lambda: Firefox(executable, "--headless")) as running:
        yield running


@pytest.fixture(scope="session")
def axe_script() -> str:
    """The accessibility checker's source, from a package of the test environment."""
    package = find_spec("axe_playwright_python")
    if package is None or package.origin is None:
        missing("the package axe-playwright-python")
    return Path(package.origin).with_name("axe.min.js").read_text(encoding="utf-8")


@pytest.fixture
def context(browser: Browser) -> Iterator[BrowserContext]:
    """A fresh profile: no ticks, no chosen colours."""
    fresh = browser.new_context()
    fresh.set_default_timeout(10_000)
    yield fresh
    fresh.close()


def watched(page: Page) -> Watched:
    """The page, and from now on what it asks for and complains about."""
    found = Watched(page)
    page.on("request", lambda request: found.requests.append(request.url))
    page.on("pageerror", lambda error: found.complaints.append(str(error)))
    page.on(
        "console",
        lambda message: (
            found.complaints.append(message.text)
            if message.type in ("error", "warning") and DRIVER not in message.text
            else None
        ),
    )
    return found


@pytest.fixture
def watch() -> Callable[[Page], Watched]:
    """`watch(page)` before it is opened."""
    return watched


@pytest.fixture
def open_page(context: BrowserContext) -> Callable[[Path, int], Watched]:
    """`open_page(path, width, colours)` opens a file as a reader does, from the folder, and watches it."""

    def opened(path: Path, width: int = 1280, colours: str = "light") -> Watched:
        found = watched(context.new_page())
        page = found.page
        page.set_viewport_size({"width": width, "height": HEIGHT})
        page.emulate_media(color_scheme="dark" if colours == "dark" else "light")
        page.goto(path.as_uri())
        page.wait_for_timeout(SETTLE)
        return found

    return opened


@pytest.fixture(scope="session")
def built(of_this_run: Path, shipped: Callable[[str], Mapping[str, bytes]]) -> Callable[[str], Path]:
    """`built(name)` is the site of a manual, made once for all processes; nobody writes into it."""

    @cache
    def build(name: str) -> Path:
        folder = of_this_run / "sites" / name
        with locked(of_this_run / f"{name}.site"):
            if not (folder / "site").exists():
                make(name, folder)
        return folder / "site"

    def make(name: str, folder: Path) -> None:
        folder.mkdir(parents=True, exist_ok=True)
        specs = TEMPLATES.parent / "specs"
        if name == "sample":
            files = sample_files()
        elif name == "nasty":
            files = nasty_files(folder / "shop")
        elif name == "wall-bench":
            files = a_build_under_way((specs / "wall-bench.yml").read_text(encoding="utf-8"))
        else:
            files = shipped(name)
        write_changed(files, folder / "pages")
        build_site(folder / "pages", folder / "site")

    return build


@pytest.fixture(scope="session", params=quick_or(["sample", "demo"], ["wall-bench"]))
def site(request: pytest.FixtureRequest, built: Callable[[str], Path]) -> Path:
    """Each manual on which the whole suite runs, built as its reader gets it."""
    return built(request.param)


def nasty_files(folder: Path) -> Mapping[str, bytes]:
    """A manual in which every text of spec, record and file name attacks the page that shows it."""
    data = TEMPLATES.parent / "tests" / "data"
    spec, record = ((data / name).read_text(encoding="utf-8") for name in ("nasty.yml", "nasty.record.yml"))
    (folder / "photos").mkdir(parents=True)
    Image.new("RGB", (40, 30), "red").save(folder / "photos" / "a b#(1).png")
    loaded = read_spec(spec, "nasty.yml", RecordText(record, "nasty.record.yml", folder))
    return compile_loaded(loaded, NASTY_FILE)[0]


RECORD = """\
- {date: 2026-11-03, measured: {path: materials.ply-12.thickness, value: 11.8 mm}, by: Mara}
- {date: 2026-11-04, cut: {mark: B1, size: 66 15/16}, note: a slip of the stop}
- {date: 2026-11-04, cut: {mark: B2, size: 67}}
- {date: 2026-11-05, installed: [A1, A2]}
"""


def a_build_under_way(text: str) -> Mapping[str, bytes]:
    """A manual with a record of its build, and an earlier issue to compare with."""
    loaded = read_spec(text, "wall-bench.yml", RecordText(RECORD, "wall-bench.record.yml"))
    earlier = read_spec(text.replace("length: 5 ft 10 in", "length: 5 ft 9 in"), "wall-bench.yml")
    return compile_loaded(loaded, "wall-bench.yml", against=earlier)[0]


def sample_files() -> dict[str, bytes]:
    """A small manual of hand-written pages with all that is hard to show: wide, drawn, ticked, warned."""
    environment = jinja2.Environment(
        loader=jinja2.FileSystemLoader(TEMPLATES), undefined=jinja2.StrictUndefined
    )
    nav = [("Overview", "index.md"), ("Cut list", "cut-list.md"), ("Steps", "steps.md")]
    config = environment.get_template("mkdocs.yml.jinja").render(
        site_name="Sample bench", manual_id="sample", unit="mm", nav=nav
    )
    shipped = {
        "overrides/main.html": TEMPLATES / "overrides" / "main.html",
        **{f"docs/assets/{asset.name}": asset for asset in (TEMPLATES / "assets").iterdir()},
        **{f"docs/{page.name}": page for page in SAMPLE.iterdir()},
    }
    written = {"mkdocs.yml": config.encode(), "docs/assets/drawings.css": drawing_css().encode()}
    written["docs/assets/paper.css"] = b""
    return written | {name: path.read_bytes() for name, path in shipped.items()}
