"""Live writing: pages follow the spec, faults are told and the last good manual stays, nothing leaves the machine."""

from __future__ import annotations

import json
import re
import socket
import struct
import time
import urllib.error
import urllib.parse
import urllib.request
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import pytest
from PIL import Image

from generator.bench.solve import solve
from generator.cli import main
from generator.figures.compute import compute
from generator.findings import Finding, Severity, SpecError
from generator.live import ManualStore, network_address
from generator.manual import Manual
from generator.resources import bundled
from generator.spec.load import read_spec
from tests.serving import Served, serving

ROOT = Path(__file__).resolve().parent.parent
STARTER = (bundled("specs") / "starter.yml").read_text(encoding="utf-8")
TITLE = next(line for line in STARTER.splitlines() if line.startswith("title:"))
BROKEN = STARTER.replace("length:", "lenght:", 1)


def until(holds: Callable[[], bool], seconds: float = 20) -> bool:
    end = time.monotonic() + seconds
    while not holds():
        if time.monotonic() > end:
            return False
        time.sleep(0.05)
    return True


def test_pages_follow_the_spec_and_outlive_its_faults(tmp_path: Path) -> None:
    spec = tmp_path / "bench.yml"
    spec.write_text(BROKEN, encoding="utf-8")
    with serving(spec) as served:
        refuses_others(served)
        assert "no manual yet" in served.get("")
        assert "did you mean 'length'?" in served.state()["faults"]

        spec.write_text(STARTER.replace(TITLE, "title: First bench"), encoding="utf-8")
        assert until(lambda: not served.state()["faults"])
        good = served.state()
        assert "First bench" in served.get("index.html")
        assert "First bench" in served.get("assets/paper.css")

        spec.write_text(BROKEN, encoding="utf-8")
        broken = served.state(good["state"])
        assert broken["manual"] == good["manual"]
        assert "bench.yml" in broken["faults"]
        assert "First bench" in served.get("index.html")

        replacement = tmp_path / "saved-by-replacing.tmp"
        replacement.write_text(STARTER.replace(TITLE, "title: Second bench"), encoding="utf-8")
        replacement.replace(spec)
        mended = served.state(broken["state"])
        assert mended["manual"] != good["manual"]
        assert not mended["faults"]
        assert "Second bench" in served.get("cut-list.html")
        assert '"figures"' not in served.get("search/search_index.json")
        assert "part-sheets.html#part-a1" in served.get("search/search_index.json")
        assert json.loads(served.get("downloads/figures.json"))["spec"]["title"] == "Second bench"
        with pytest.raises(urllib.error.HTTPError, match="404"):
            served.get("../bench.yml")
    assert served.errors.count("unknown-key") == 2
    assert [path.name for path in tmp_path.iterdir()] == ["bench.yml"]


def refuses_others(served: Served) -> None:
    """Who was not asked in cannot even knock."""
    port = int(served.url.rstrip("/").rsplit(":", 1)[1])
    if address := network_address():
        with pytest.raises(ConnectionError), socket.create_connection((address, port), timeout=5):
            pass


def test_a_tablet_is_told_where_to_look(tmp_path: Path) -> None:
    spec = tmp_path / "bench.yml"
    spec.write_text(STARTER, encoding="utf-8")
    with serving(spec, "--lan") as served:
        assert served.said[1].startswith("On this network:")
        address = network_address()
        assert (address or "no network") in served.said[1]
        if address:
            port = served.url.rstrip("/").rsplit(":", 1)[1]
            there = f"http://{address}:{port}/"
            assert asked(there + "index.html")[0] == 200
            for host in ("manual.example", f"manual.example:{port}", "192.0.2.7", "0.0.0.0"):
                assert asked(there + "index.html", host)[0] == 403, host


def asked(url: str, host: str = "", method: str = "GET") -> tuple[int, bytes]:
    """Status and body."""
    headers = {"Host": host} if host else {}
    try:
        with urllib.request.urlopen(urllib.request.Request(url, headers=headers, method=method)) as answer:
            return answer.status, answer.read()
    except urllib.error.HTTPError as error:
        with error:
            return error.code, error.read()


def spoken(url: str, *lines: bytes) -> bytes:
    """The first line of the answer to a request, word by word."""
    place = urllib.parse.urlsplit(url)
    with socket.create_connection((place.hostname or "", place.port or 0), timeout=30) as line:
        line.sendall(b"\r\n".join([*lines, b"", b""]))
        return line.makefile("rb").readline()


def test_a_served_manual_is_for_its_own_readers(tmp_path: Path) -> None:
    """By name: a page of a stranger whose own name leads here reads nothing. Odd requests, and many, are answered."""
    spec = tmp_path / "bench.yml"
    spec.write_text(STARTER, encoding="utf-8")
    Image.new("RGB", (30, 20), "red").save(tmp_path / "frame.png")
    entry = "- {date: 2026-11-03, photo: {file: frame.png, alt: The left end frame}}\n"
    (tmp_path / "bench.record.yml").write_text(entry, encoding="utf-8")
    with serving(spec) as served:
        page, port = served.url + "index.html", served.url.rstrip("/").rsplit(":", 1)[1]
        for host in ("localhost", f"LocalHost:{port}", f"127.0.0.1:{port}", "[::1]:8000"):
            assert asked(page, host)[0] == 200, host
        strangers = (
            "manual.example",
            f"manual.example:{port}",
            "localhost.manual.example",
            "192.0.2.7",
            "[",
            "a b",
        )
        for path in (
            "index.html",
            "live?seen=1",
            "downloads/figures.json",
            "search/search_index.js",
            "live.js",
        ):
            for host in strangers:
                status, body = asked(served.url + path, host)
                assert (status, b"My first bench" in body) == (403, False), (path, host)
        assert spoken(page, b"GET /index.html HTTP/1.0").split()[1] == b"403"

        with urllib.request.urlopen(page) as whole:
            body, length = whole.read(), whole.headers["Content-Length"]
            assert whole.headers["Cross-Origin-Resource-Policy"] == "same-origin"
        with urllib.request.urlopen(urllib.request.Request(page, method="HEAD")) as head:
            assert (head.read(), head.headers["Content-Length"]) == (b"", length)
        assert int(length) == len(body)
        for path in (
            "a%00b",
            "downloads/%00",
            "downloads/none.pdf",
            "%2e%2e/bench.yml",
            "x" * 5000,
            "photos/9.png",
        ):
            assert asked(served.url + path)[0] == 404, path
        assert asked(served.url + f"live?seen={'9' * 5000}")[0] == 200
        for path in (b"//[", b"http://manual.example/index.html"):
            answer = spoken(page, b"GET " + path + b" HTTP/1.1", b"Host: localhost", b"Connection: close")
            assert answer.split()[1] == b"404", path

        photos = re.findall(
            r'<img alt="The left end frame"[^>]* src="([^"]+)"', served.get("build-record.html")
        )
        assert len(photos) == 1
        assert asked(served.url + photos[0])[1].startswith(b"\x89PNG")

        with ThreadPoolExecutor(100) as readers:
            answers = list(readers.map(lambda _: asked(page), range(100)))
        assert {status for status, _ in answers} == {200}
        assert len({body for _, body in answers}) == 1
        for _ in range(5):  # who hangs up in the middle of a word is no fault to tell
            line = socket.create_connection(("127.0.0.1", int(port)))
            line.setsockopt(socket.SOL_SOCKET, socket.SO_LINGER, struct.pack("ii", 1, 0))
            line.sendall(b"GET /index.h")
            line.close()
    assert served.errors == ""


def refused(*_: object, **__: object) -> None:
    raise AssertionError("a file is made that nobody asked for")


def test_a_file_that_the_manual_has_not_makes_none(monkeypatch: pytest.MonkeyPatch) -> None:
    manual = Manual(loaded := read_spec(STARTER, "bench.yml"), compute(solve(loaded))[0], "bench.yml")
    for made in ("paper_files", "to_svg", "to_dxf", "pack", "figures_json", "cut_list_csv"):
        monkeypatch.setattr("generator.manual." + made, refused)
    for name in (
        "downloads/none.pdf",
        "downloads/",
        "downloads/dxf/A1.dxf",
        "photos/001.jpg",
        "assets/none.css",
    ):
        assert manual.file(f"docs/{name}") is None


def test_a_port_in_use_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    spec = tmp_path / "bench.yml"
    spec.write_text(STARTER, encoding="utf-8")
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        assert main(["serve", str(spec), "--port", str(port)]) == 2
    assert f"cannot serve on 127.0.0.1:{port}" in capsys.readouterr().err


def test_a_desk_survives_whatever_a_spec_does() -> None:
    faults: list[Exception] = [
        SpecError([Finding("T1", Severity.ERROR, "the bench is broken")]),
        ZeroDivisionError("a length of nothing"),
    ]

    def compile_spec() -> Manual:
        raise faults.pop(0)

    store = ManualStore(compile_spec)
    before = store.state
    store.rebuild()
    assert "the bench is broken" in store.state.faults
    store.rebuild()
    assert "a length of nothing" in store.state.faults
    assert store.state.manual == before.manual
    assert store.state.number == before.number + 2
    assert store.wait(before.number) == store.state
