"""From saving a spec to seeing it: every page, 20 edits each, by the clock and by the processors, in one table.

The page is scrolled to its middle, as where somebody reads, and counts as seen when no picture in sight is missing.
Processor time is that of the server and of the browser's page together, from the save to that moment: what the clock
would say if they had a processor for themselves and never worked at once. What a build takes is for
`tests/benchmarks/build.py`.

Run from the checkout, with Chromium installed: python tests/benchmarks/live.py [--edits N] [page ...]
"""

from __future__ import annotations

import argparse
import os
import shutil
import signal
import statistics
import subprocess
import sys
import time
from collections.abc import Callable, Sequence
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter

from playwright.sync_api import Browser, Page, sync_playwright

from generator.pages import PAGES

DEMO = Path(__file__).parents[2] / "specs" / "demo.yml"
EDITS = 20
BROWSERS = ("chromium", "chromium-browser", "google-chrome")
SEEN = """old => document.readyState === "complete" && document.querySelector(".bm-head")
    && document.querySelector(".bm-head").textContent !== old
    && !Array.from(document.querySelectorAll("[data-awaited]")).some(box => {
        const at = box.getBoundingClientRect();
        return at.width && at.bottom > 0 && at.top < innerHeight;
    })"""
PAINTED = "() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done)))"
REST = 0.3
"""Seconds between two edits."""


def edited(text: str, edit: int) -> str:
    """The spec of one edit: lengths, shares, titles and drawers in turn, none of them twice."""
    changes = (
        ("length: 2000", f"length: {2000 + 10 * edit + 10}"),
        ("width: 400", f"width: {390 - edit}"),
        ("title: ", f"title: {edit} "),
        ("drawer: 165", f"drawer: {164 - edit}"),
    )
    changed = text.replace(*changes[edit % len(changes)])
    assert changed != text
    return changed.replace("drawer: 80", "drawer: share") if edit % len(changes) == 3 else changed


def of_process(number: int) -> float:
    """Seconds that a process has had of the processors, where the system has a file for it; nothing elsewhere."""
    stat = Path(f"/proc/{number}/stat")
    if not stat.is_file():
        return float("nan")
    fields = stat.read_text(encoding="ascii").rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def latencies(
    page: Page, url: str, spec: Path, edits: int, used: Callable[[], float]
) -> list[tuple[float, float]]:
    """Seconds from saving until the browser has painted the new page, by the clock and of the processors."""
    text = DEMO.read_text(encoding="utf-8")
    tools = page.context.new_cdp_session(page)
    tools.send("Performance.enable")

    def both() -> float:
        metrics = tools.send("Performance.getMetrics")["metrics"]
        return used() + next(float(each["value"]) for each in metrics if each["name"] == "ProcessTime")

    page.goto(url)
    page.wait_for_timeout(500)
    page.evaluate("scrollTo(0, document.documentElement.scrollHeight / 2)")
    page.wait_for_timeout(1500)
    found = []
    for edit in range(edits):
        old = page.locator(".bm-head").inner_text()
        worked, begin = both(), perf_counter()
        spec.write_text(edited(text, edit), encoding="utf-8")
        page.wait_for_function(SEEN, arg=old, timeout=60_000, polling=20)
        page.evaluate(PAINTED)
        found.append((perf_counter() - begin, both() - worked))
        time.sleep(REST)
    return found


def live(names: Sequence[str], edits: int) -> None:
    """Print a row for each page, and how busy the machine was beside."""
    print("| page | clock, median / worst (s) | processors, median / worst (s) | load |")
    print("|---|---:|---:|---:|")
    with TemporaryDirectory() as work, sync_playwright() as playwright:
        spec = Path(work, "bench.yml")
        spec.write_text(DEMO.read_text(encoding="utf-8"), encoding="utf-8")
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
                _row(browser, name, url, spec, edits, server.pid)
        finally:
            browser.close()
            server.send_signal(signal.SIGINT)
            server.wait(timeout=30)


def _row(browser: Browser, name: str, url: str, spec: Path, edits: int, server: int) -> None:
    page = browser.new_page()
    found = latencies(page, f"{url}{name}.html", spec, edits, lambda: of_process(server))
    page.close()  # a page left open follows the spec as well
    clock, worked = ([each[which] for each in found] for which in (0, 1))
    cells = [f"{statistics.median(each):.2f} / {max(each):.2f}" for each in (clock, worked)]
    print(f"| {name} | {' | '.join(cells)} | {os.getloadavg()[0]:.1f} |", flush=True)


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--edits", type=int, default=EDITS)
    parser.add_argument("pages", nargs="*", default=[page.slug for page in PAGES])
    given = parser.parse_args()
    live([name.removesuffix(".html") for name in given.pages], given.edits)
