"""From saving a spec to seeing it, over 20 edits. What a build takes: `tests/benchmarks/build.py`.

Run from the checkout, with Chromium installed: python tests/benchmarks/live.py [page ...]
"""

from __future__ import annotations

import shutil
import signal
import statistics
import subprocess
import sys
import time
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter

from playwright.sync_api import Page, sync_playwright

DEMO = Path(__file__).parents[2] / "specs" / "demo.yml"
EDITS = 20
BROWSERS = ("chromium", "chromium-browser", "google-chrome")
CHANGED = """old => document.readyState === "complete" && document.querySelector(".bm-head")
    && document.querySelector(".bm-head").textContent !== old"""
PAINTED = "() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))"
PAGES = ["index", "cut-list", "sheet-plan", "part-sheets", "openings-and-drawers", "assembly", "working"]
"""The first page, the one that is printed most, and the heaviest ones."""


def latencies(page: Page, url: str, spec: Path, text: str) -> list[float]:
    """Seconds from saving until the browser has painted the new page: lengths, shares, titles and drawers in turn."""
    page.goto(url)
    page.wait_for_timeout(500)
    found = []
    for edit in range(EDITS):
        old = page.locator(".bm-head").inner_text()
        changes = (
            ("length: 2000", f"length: {2000 + 10 * edit + 10}"),
            ("width: 400", f"width: {390 - edit}"),
            ("title: ", f"title: {edit} "),
            ("drawer: 165", f"drawer: {164 - edit}"),
        )
        changed = text.replace(*changes[edit % len(changes)])
        changed = changed.replace("drawer: 80", "drawer: share") if edit % len(changes) == 3 else changed
        begin = perf_counter()
        spec.write_text(changed, encoding="utf-8")
        page.wait_for_function(CHANGED, arg=old, timeout=60_000, polling=20)
        page.evaluate(PAINTED)
        found.append(perf_counter() - begin)
        time.sleep(0.3)
    return found


def live(names: list[str]) -> None:
    """Print median and worst for each page."""
    with TemporaryDirectory() as work, sync_playwright() as playwright:
        spec, text = Path(work, "bench.yml"), DEMO.read_text(encoding="utf-8")
        spec.write_text(text, encoding="utf-8")
        command = "from generator.cli import run; run()"
        server = subprocess.Popen(
            [sys.executable, "-c", command, "serve", str(spec), "--port", "0"],
            stdout=subprocess.PIPE,
            text=True,
        )
        assert server.stdout
        url = server.stdout.readline().split()[1]
        browser = playwright.chromium.launch(
            executable_path=next(filter(None, map(shutil.which, BROWSERS))),
            args=["--no-sandbox", "--disable-gpu"],
        )
        try:
            for name in names:
                page = browser.new_page()
                found = latencies(page, url + name, spec, text)
                page.close()  # a page left open follows the spec as well
                print(
                    f"{name}: median {statistics.median(found):.2f} s, worst {max(found):.2f} s of {EDITS} edits"
                )
        finally:
            browser.close()
            server.send_signal(signal.SIGINT)
            server.wait(timeout=30)


if __name__ == "__main__":
    live([f"{name.removesuffix('.html')}.html" for name in sys.argv[1:] or PAGES])
