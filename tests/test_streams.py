"""What a full disk or another language's locale does to the commands: one line of words, and no half file."""

from __future__ import annotations

import json
import os
import re
import resource
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

from generator.cli import main
from generator.resources import bundled
from generator.spec.load import read_spec_file

ROOT = Path(__file__).resolve().parent.parent
STARTER = (bundled("specs") / "starter.yml").read_text(encoding="utf-8")
NO_LANGUAGE = {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}
"""A system that was told no language, and Python kept from mending that."""


@pytest.fixture(autouse=True)
def _shop(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("mine.yml").write_text(STARTER, encoding="utf-8")
    Path("broken.yml").write_text("spec: 1\n", encoding="utf-8")
    Path("bars.yml").write_text("stock: [[6000]]\npieces: [[1920, 4]]\n", encoding="utf-8")


@contextmanager
def full(stream: str, monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """A standard stream that takes nothing, as on a full disk."""
    with Path("/dev/full").open("w", buffering=1) as device, monkeypatch.context() as patched:
        patched.setattr(sys, stream, device)
        yield
        os.dup2(os.open(os.devnull, os.O_WRONLY), device.fileno())  # for what it still holds


@contextmanager
def full_disk(left: int) -> Iterator[None]:
    """No file may grow beyond `left` bytes."""
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (left, hard))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))


def run(*words: str, env: dict[str, str], **keys: Any) -> subprocess.CompletedProcess[bytes]:
    environment = {**os.environ, "PYTHONPATH": str(ROOT), **env}
    program = [sys.executable, "-c", "from generator.cli import run; run()", *words]
    return subprocess.run(program, env=environment, check=False, **keys)


# --- a full disk


@pytest.mark.parametrize(
    "words",
    [
        "--help",
        "--version",
        "cuts --help",
        "schema",
        "check mine.yml",
        "figures mine.yml",
        "cuts bars.yml",
        "adapt mine.yml --set bench.height=905",
        "new fresh.yml",
        "record mine.yml note begun",
        "build mine.yml",
    ],
)
def test_a_screen_that_takes_nothing_is_told_in_one_line(
    words: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    with full("stdout", monkeypatch):
        assert main(words.split()) == 2
    said = capsys.readouterr().err.splitlines()
    assert said[-1] == "bench-manual: the output cannot be written: No space left on device"


@pytest.mark.parametrize("words", ["check broken.yml", "check none.yml", "check mine.yml", "chekc"])
def test_where_findings_cannot_be_told_the_status_says_it(
    words: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    with full("stderr", monkeypatch):
        assert main(words.split()) == 2


def test_the_process_says_no_more_than_its_line() -> None:
    """What is left in the stream is not tried again at the end."""
    with Path("/dev/full").open("wb") as device:
        done = run("schema", env={}, stdout=device, stderr=subprocess.PIPE)
    assert (done.returncode, done.stderr.decode()) == (
        2,
        "bench-manual: the output cannot be written: No space left on device\n",
    )


@pytest.mark.parametrize(
    ("words", "file"),
    [
        ("new fresh.yml", "fresh.yml"),
        ("adapt mine.yml --set bench.height=905", "mine-adapted.yml"),
        ("record mine.yml note begun", "mine"),
        ("schema --out schema.json", "schema.json"),
        ("figures mine.yml --out figures.json", "figures.json"),
    ],
)
@pytest.mark.parametrize("left", [0, 50])
def test_a_full_disk_leaves_no_half_file(
    words: str, file: str, left: int, capsys: pytest.CaptureFixture[str]
) -> None:
    Path("figures.json").write_text("the last ones")
    before = sorted(Path().iterdir())
    with full_disk(left):
        assert main(words.split()) == 2
    said = capsys.readouterr().err
    assert file in said
    assert "cannot be written: File too large" in said
    assert sorted(Path().iterdir()) == before
    assert Path("figures.json").read_text() == "the last ones"


def test_a_starter_without_room_for_its_schema_is_not_written(capsys: pytest.CaptureFixture[str]) -> None:
    with full_disk(20_000):
        assert main(["new", "fresh.yml"]) == 2
    assert "bench-manual.schema.json cannot be written" in capsys.readouterr().err
    assert not Path("fresh.yml").exists()


# --- links that somebody planted


@pytest.mark.parametrize(
    ("words", "link"),
    [
        ("new fresh.yml", "bench-manual.schema.json"),
        ("new fresh.yml", "fresh.yml"),
        ("adapt mine.yml --set bench.height=905", "mine-adapted.yml"),
        ("record mine.yml note begun", ".mine.record.yml.part"),
        ("schema --out schema.json", ".schema.json.part"),
    ],
)
@pytest.mark.parametrize("there", [False, True])
def test_no_link_is_written_through(words: str, link: str, there: bool) -> None:
    behind = Path("precious.txt")
    if there:
        behind.write_text("precious")
    Path(link).symlink_to(behind)
    main(words.split())
    assert behind.exists() == there
    assert not there or behind.read_text() == "precious"


# --- files that are named


@pytest.mark.parametrize("words", ["schema", "figures mine.yml --working layout.length"])
def test_out_writes_what_the_screen_would_show(words: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(words.split()) == 0
    shown = capsys.readouterr().out
    Path("out.txt").write_text("the last ones, which were longer" * 9999)
    assert main([*words.split(), "--out", "out.txt"]) == 0
    assert capsys.readouterr().out == "Wrote out.txt\n"
    assert Path("out.txt").read_bytes() == shown.encode()
    assert main([*words.split(), "--out", "/dev/null"]) == 0
    assert Path("/dev/null").is_char_device()


@pytest.mark.parametrize("out", ["link.yml", "mine.record.yml", ".", "none/x.json"])
def test_out_never_takes_the_place_of_the_spec(out: str, capsys: pytest.CaptureFixture[str]) -> None:
    Path("link.yml").symlink_to("mine.yml")
    before = sorted(Path().iterdir())
    assert main(["figures", "mine.yml", "--out", out]) == 2
    said, *warnings = capsys.readouterr().err.splitlines()
    assert re.fullmatch(r"bench-manual: .*(cannot be written|is the input of this command).*", said)
    assert not any(line.startswith("bench-manual: ") for line in warnings)
    assert Path("mine.yml").read_text(encoding="utf-8") == STARTER
    assert sorted(Path().iterdir()) == before


# --- letters


def test_letters_go_out_as_utf_8_and_come_in_as_they_were_typed() -> None:
    """In a code page of Western Europe, and where a system was told no language at all."""
    Path("mine.yml").write_text(STARTER.replace("My first bench", "Łódź"), encoding="utf-8")
    done = run("figures", "mine.yml", env={"PYTHONIOENCODING": "cp1252"}, stdout=subprocess.PIPE)
    assert json.loads(done.stdout.decode("utf-8"))["spec"]["title"] == "Łódź"
    Path("bänk.yml").write_text(STARTER, encoding="utf-8")
    done = run("record", "bänk.yml", "note", "grün", "--by", "Åse", env=NO_LANGUAGE, capture_output=True)
    assert (done.returncode, done.stderr) == (0, b"")
    assert done.stdout.decode("utf-8").endswith("bänk.record.yml\n")
    entry = read_spec_file(Path("bänk.yml")).record.entries[0]
    assert (entry.note, entry.by) == ("grün", "Åse")


def test_the_name_of_a_file_may_hold_what_are_no_letters(capsys: pytest.CaptureFixture[str]) -> None:
    name = os.fsdecode(b"b\xe4nk.yml")
    Path(name).write_text(STARTER.replace("length:", "lenght:", 1), encoding="utf-8")
    assert main(["check", name]) == 2
    assert "b\ufffdnk.yml:10:" in capsys.readouterr().err
