"""The bench in three dimensions, in one session: mouse, touch and keys, pull apart, steps, parts, and without WebGL."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Protocol

import pytest
from playwright.sync_api import Browser, Page, expect


class Watched(Protocol):
    page: Page
    requests: list[str]
    complaints: list[str]


OpenPage = Callable[..., Watched]
demo = pytest.mark.parametrize("site", ["demo"], indirect=True)
WIDEST = "document.documentElement.scrollWidth - innerWidth"


class Seen:
    """Pictures of the bench, each of which must differ from all before it."""

    def __init__(self, page: Page) -> None:
        self.canvas = page.locator(".bm-bench canvas")
        self.pictures: list[bytes] = []
        self.is_new("at first")

    def is_new(self, after: str) -> None:
        self.canvas.page.wait_for_timeout(150)
        picture = self.canvas.screenshot()
        assert picture not in self.pictures, f"the picture is an earlier one: {after}"
        self.pictures.append(picture)

    @property
    def middle(self) -> tuple[float, float]:
        box = self.canvas.bounding_box()
        assert box
        return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def turn_by_touch(page: Page, x: float, y: float) -> None:
    """One finger across the picture."""
    finger = page.context.new_cdp_session(page)
    finger.send("Emulation.setTouchEmulationEnabled", {"enabled": True})
    for kind, at in (("touchStart", x), ("touchMove", x + 40), ("touchMove", x + 90), ("touchEnd", 0)):
        points = [{"x": at, "y": y}] if at else []
        finger.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})
    finger.send("Emulation.setTouchEmulationEnabled", {"enabled": False})


@demo
def test_the_bench_is_turned_opened_built_and_asked(
    site: Path, open_page: OpenPage, axe_script: str, browser: Browser
) -> None:
    opened = open_page(site / "index.html", 820)
    page, box = opened.page, opened.page.locator(".bm-bench")
    expect(box.locator("canvas")).to_be_visible()
    expect(page.locator(".bm-corners")).to_be_hidden()
    seen, told, title = Seen(page), box.locator(".bm-bench-told"), box.locator("output")

    x, y = seen.middle
    page.mouse.move(x, y)
    page.mouse.down()
    page.mouse.move(x + 120, y + 20, steps=3)
    page.mouse.up()
    seen.is_new("a drag by mouse")
    turn_by_touch(page, x, y)
    seen.is_new("a drag by touch")
    seen.canvas.focus()
    page.keyboard.press("ArrowRight")
    seen.is_new("an arrow key")
    page.keyboard.press("+")
    seen.is_new("a key to zoom")

    box.get_by_label("Pull apart").fill("1")
    seen.is_new("pulled apart")
    box.get_by_label("Pull apart").fill("0")
    expect(title).to_have_text("The finished bench")
    step = box.get_by_role("slider", name="Step")
    step.fill("21.5")
    expect(title).to_have_text(re.compile(r"Step 22 of \d+: Left end frame on"))
    seen.is_new("a part of a step")
    step.press("ArrowRight")
    expect(step).to_have_value("22")
    seen.is_new("the end of a step")

    box.get_by_role("combobox").select_option("FD2")
    expect(told).to_contain_text("FD2 divider, front zone 520 × 509 × 12 mm")
    assert told.get_by_role("link", name="part sheet").get_attribute("href") == "part-sheets.html#part-fd1"
    expect(told.get_by_role("link", name=re.compile("step"))).to_have_count(1)
    seen.is_new("a part that is lit")
    page.get_by_role("button", name="mm / in").click()
    expect(told).to_contain_text("20 15/32 × 20 1/32 × 15/32 in")
    page.get_by_role("button", name="mm / in").click()
    box.get_by_role("button", name="Above").click()
    page.mouse.click(*seen.middle)
    expect(told).to_contain_text(re.compile(r"^(TOP|PAN|D\d|C\d|SP\d)"))
    page.keyboard.press("Escape")

    page.emulate_media(color_scheme="dark")
    page.set_viewport_size({"width": 320, "height": 900})
    seen.is_new("dark and narrow")
    assert page.evaluate(WIDEST) <= 0
    assert not [each for each in opened.complaints if "ReadPixels" not in each]  # of the pictures taken here
    page.evaluate(axe_script)
    found = page.evaluate(
        "axe.run('.bm-bench', {resultTypes: ['violations']}).then(result => result.violations)"
    )
    assert [(each["id"], each["nodes"][0]["html"][:90]) for each in found] == []

    page.goto((site / "assembly.html").as_uri() + "?part=C1–C3")
    expect(told).to_contain_text("C1, C2, C3 base cross-member")
    page.emulate_media(reduced_motion="reduce")
    page.locator("#step-close-left + .bm-watch").click()
    expect(title).to_have_text(re.compile("Left end frame on"))
    page.locator(".bm-take .bm-mark", has_text=re.compile("^C11$")).first.click()
    expect(told).to_contain_text("C11 top end member")
    assert not [url for url in opened.requests if not url.startswith(("file:", "data:", "blob:"))]

    page.add_init_script("HTMLCanvasElement.prototype.getContext = () => null")
    page.goto((site / "index.html").as_uri())
    page.wait_for_function("window.benchScene")
    expect(box).to_be_hidden()
    expect(page.locator(".bm-corners svg").first).to_be_visible()
    still = browser.new_context(java_script_enabled=False).new_page()
    still.goto((site / "index.html").as_uri())
    expect(still.locator(".bm-corners svg").first).to_be_visible()
    expect(still.locator(".bm-bench")).to_be_hidden()
    still.context.close()


@demo
def test_the_overview_is_light(site: Path) -> None:
    """The page with its styles, scripts and the bench, without the index of the search."""
    page = (site / "index.html").read_text(encoding="utf-8")
    files = set(re.findall(r'(?:href|src)="((?:assets)/[^"?]+\.(?:css|js))"', page))
    files |= {"assets/bench.js", "assets/solids.js", "index.html"}
    assert len(files) > 8
    assert sum((site / name).stat().st_size for name in files) < 750_000
