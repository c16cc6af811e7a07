"""Firefox and WebKit by their own remote protocols, so that nothing is needed but the browsers of the system."""

from __future__ import annotations

import base64
import json
import socket
import subprocess
import tempfile
import time
from abc import ABC, abstractmethod
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any
from urllib.error import HTTPError, URLError
from urllib.request import Request, urlopen

WAIT = 120
"""Seconds after which a browser hangs; a loaded machine needs twenty to start one."""


def free_port() -> int:
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return int(one.getsockname()[1])


class Remote(ABC):
    """What both can: open a page, run a script in it, wait until something is so."""

    @abstractmethod
    def open(self, address: str) -> None:
        """Show a page."""

    @abstractmethod
    def run(self, script: str) -> Any:
        """What a script in the page returns."""

    def until(self, script: str, what: str) -> Any:
        """What the script returns as soon as that is true."""
        end = time.monotonic() + 30
        while time.monotonic() < end:
            if found := self.run(script):
                return found
            time.sleep(0.05)
        raise AssertionError(f"not so: {what}")


class Firefox(Remote):
    """A Firefox with a fresh profile. Messages of its protocol are `length:[0, number, command, parameters]`."""

    def __init__(self, command: str, *options: str) -> None:
        self.profile = tempfile.TemporaryDirectory(ignore_cleanup_errors=True)
        port = free_port()
        chosen = {"marionette.port": port, "webgl.force-enabled": True, "gfx.webrender.software": True}
        lines = [f"user_pref({json.dumps(key)}, {json.dumps(value)});" for key, value in chosen.items()]
        Path(self.profile.name, "user.js").write_text("\n".join(lines))
        self.process = subprocess.Popen(
            [command, "--no-remote", "--marionette", *options, "--profile", self.profile.name],
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        self.left, self.number = b"", 0
        try:
            self.socket = self._connected(port)
            self._read()
            self.command("WebDriver:NewSession")
        except BaseException:
            self._end()
            raise

    def _connected(self, port: int) -> socket.socket:
        end = time.monotonic() + WAIT
        while time.monotonic() < end and self.process.poll() is None:
            try:
                return socket.create_connection(("127.0.0.1", port), timeout=WAIT)
            except OSError:
                time.sleep(0.2)
        raise AssertionError("Firefox does not answer; is there a display?")

    def _read(self) -> Any:
        while b":" not in self.left:
            self.left += self._more()
        length, _, rest = self.left.partition(b":")
        parts, missing = [rest], int(length) - len(rest)
        while missing > 0:
            parts.append(self._more())
            missing -= len(parts[-1])
        whole = b"".join(parts)
        self.left = whole[int(length) :]
        return json.loads(whole[: int(length)])

    def _more(self) -> bytes:
        some = self.socket.recv(1 << 20)
        assert some, "Firefox has ended"
        return some

    def command(self, name: str, **parameters: object) -> Any:
        """What a command gives."""
        self.number += 1
        text = json.dumps([0, self.number, name, parameters]).encode()
        self.socket.sendall(str(len(text)).encode() + b":" + text)
        answer = self._read()
        assert not answer[2], f"{name}: {answer[2]}"
        return answer[3]

    def open(self, address: str) -> None:
        self.command("WebDriver:Navigate", url=address)

    def run(self, script: str) -> Any:
        return self.command("WebDriver:ExecuteScript", script=script, args=[])["value"]

    def printed(self, width: float = 210, height: float = 297) -> bytes:
        """The open page as a PDF on paper of this size (mm)."""
        page = {"width": width / 10, "height": height / 10}
        return base64.b64decode(self.command("WebDriver:Print", page=page, shrinkToFit=True)["value"])

    def _end(self) -> None:
        self.process.terminate()
        self.process.wait()
        self.profile.cleanup()

    def close(self) -> None:
        """End it."""
        self.socket.close()
        self._end()


class WebKit(Remote):
    """A session of Debian's `webkit2gtk-driver`, which speaks WebDriver (W3C); it needs a display."""

    def __init__(self) -> None:
        port = free_port()
        self.place = f"http://127.0.0.1:{port}"
        self.driver = subprocess.Popen(
            ["WebKitWebDriver", f"--port={port}"], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
        )
        end = time.monotonic() + WAIT
        while time.monotonic() < end:
            try:
                self.session = self._ask("POST", "/session", {"capabilities": {"alwaysMatch": {}}})[
                    "sessionId"
                ]
                return
            except (URLError, ConnectionError):
                time.sleep(0.2)
        self._end()
        raise AssertionError("the driver does not answer")

    def _ask(self, method: str, path: str, data: object = None) -> Any:
        body = json.dumps(data).encode() if data is not None else None
        request = Request(self.place + path, body, {"Content-Type": "application/json"}, method=method)
        try:
            with urlopen(request, timeout=WAIT) as answer:
                return json.load(answer)["value"]
        except HTTPError as error:
            raise AssertionError(f"{path}: {error.read().decode()}") from None

    def open(self, address: str) -> None:
        self._ask("POST", f"/session/{self.session}/url", {"url": address})

    def run(self, script: str) -> Any:
        return self._ask("POST", f"/session/{self.session}/execute/sync", {"script": script, "args": []})

    def _end(self) -> None:
        self.driver.terminate()
        self.driver.wait()

    def close(self) -> None:
        """End it."""
        self._ask("DELETE", f"/session/{self.session}")
        self._end()


@contextmanager
def opened(start: Callable[[], Any]) -> Iterator[Any]:
    """A browser that is ended whatever happens."""
    one = start()
    try:
        yield one
    finally:
        one.close()


def pages_of(site: Path) -> list[Path]:
    return [page for page in sorted(site.glob("*.html")) if page.name != "404.html"]


def try_pages(web: Remote, pages: list[Path]) -> None:
    """Each page opens with its heading and its switches."""
    for page in pages:
        web.open(page.as_uri())
        web.until("return document.querySelectorAll('.bm-switch').length === 2", f"switches on {page.name}")
        assert web.run("return document.querySelector('h1').textContent.length > 0"), page.name


def try_tools(web: Remote, site: Path) -> None:
    """Lengths change with the unit and back, a tick is kept, the search finds a term, the bench is shown."""
    web.open((site / "cut-list.html").as_uri())
    text = "return document.querySelector('article').innerText"
    switch = "document.querySelector('.bm-switch-unit').click()"
    web.until("return !!document.querySelector('.bm-switch-unit')", "the switch of units")
    before = web.run(text)
    web.run(switch)
    assert web.run(text) != before
    web.run(switch)
    assert web.run(text) == before
    for ticked in (False, True):
        web.open((site / "checklist.html").as_uri())
        web.until("return !!document.querySelector('input[data-bm]')", "boxes")
        assert web.run("return document.querySelector('input[data-bm]').checked") == ticked, "a tick is kept"
        if not ticked:
            web.run("document.querySelector('input[data-bm]').click()")
    web.run(
        "const field = document.querySelector('.md-search__input'); document.getElementById('__search').click();"
        "field.focus(); field.value = 'tongue'; field.dispatchEvent(new Event('input', {bubbles: true}));"
        "field.dispatchEvent(new KeyboardEvent('keyup', {bubbles: true}))"
    )
    web.until(
        "return document.querySelectorAll('.md-search-result__item a').length > 0", "the search finds a term"
    )
    web.open((site / "index.html").as_uri())
    web.until(
        "return !!document.querySelector('.bm-bench canvas, .bm-bench[hidden]')", "the bench, or its pictures"
    )
    seen = "[...document.querySelectorAll('.bm-bench canvas, .bm-corners svg')].some(one => one.checkVisibility())"
    assert web.run(f"return {seen}"), "neither the bench nor its pictures are shown"
