"""Live writing: pages follow the spec, faults are told and the last good manual stays, nothing leaves the machine."""

from __future__ import annotations

import json
import socket
import time
import urllib.error
import urllib.request
from collections.abc import Callable
from pathlib import Path

import pytest

from generator.cli import main
from generator.findings import Finding, Severity, SpecError
from generator.live import Desk, network_address
from generator.manual import Manual
from generator.resources import bundled
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
        assert (network_address() or "no network") in served.said[1]


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

    desk = Desk(compile_spec)
    before = desk.state
    desk.renew()
    assert "the bench is broken" in desk.state.faults
    desk.renew()
    assert "a length of nothing" in desk.state.faults
    assert desk.state.manual == before.manual
    assert desk.state.number == before.number + 2
    assert desk.wait(before.number) == desk.state
