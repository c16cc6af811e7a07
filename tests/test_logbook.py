"""Adding to the record: every entry is kept whoever writes when, and a killed writer leaves a readable file."""

from __future__ import annotations

import multiprocessing
import os
import shutil
import signal
import subprocess
import sys
from contextlib import suppress
from datetime import date
from itertools import count
from pathlib import Path
from threading import Thread
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from generator import logbook
from generator.cli import main
from generator.findings import SpecError
from generator.logbook import add_entry
from generator.resources import bundled
from generator.spec.load import read_spec_file
from generator.spec.record import Entry, read_record

STARTER = (bundled("specs") / "starter.yml").read_text(encoding="utf-8")
few = settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
spawn = multiprocessing.get_context("spawn")


@pytest.fixture
def spec(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    path = tmp_path / "mine.yml"
    path.write_text(STARTER, encoding="utf-8")
    return path


def entries(spec: Path) -> tuple[Entry, ...]:
    return read_spec_file(spec).record.entries


def notes(spec: Path) -> list[str]:
    return [entry.note for entry in entries(spec)]


# --- the commands


def test_each_command_adds_its_entry(spec: Path, capsys: pytest.CaptureFixture[str]) -> None:
    day = ["--date", "2026-11-03"]
    for words in (
        [
            "measured",
            "materials.ply-12.thickness",
            "11.8",
            "--by",
            "Mara",
            "--note",
            "mean of six: fine",
            *day,
        ],
        ["cut", "B1", "1118.5 mm", *day],
        ["cut", "PAN", "1140x676", *day],
        ["installed", "A1", "A2", *day],
        ["note", 'He said: "all # good"', *day],
        ["verified", "100 kg on the top", "--by", "Mara", *day],
    ):
        assert main(["record", "mine.yml", *words]) == 0, words
    assert "Added to" in capsys.readouterr().out
    first, rail, tray, placed, said, done = entries(spec)
    assert first.measured is not None
    assert (first.measured.path, first.measured.text, first.by) == (
        "materials.ply-12.thickness",
        "11.8",
        "Mara",
    )
    assert first.note == "mean of six: fine"
    assert rail.cut is not None
    assert tray.cut is not None
    assert ([float(s) for s in rail.cut.size], [float(s) for s in tray.cut.size]) == ([1118.5], [1140, 676])
    assert [mark for mark, _ in placed.installed] == ["A1", "A2"]
    assert (said.note, done.verified) == ('He said: "all # good"', "100 kg on the top")
    assert {entry.date for entry in entries(spec)} == {"2026-11-03"}


def test_without_a_date_it_is_today(spec: Path) -> None:
    before = date.today().isoformat()
    assert main(["record", "mine.yml", "note", "x"]) == 0
    assert before <= entries(spec)[0].date <= date.today().isoformat()


def test_what_a_person_wrote_stays_as_it_is(spec: Path) -> None:
    record = spec.with_name("mine.record.yml")
    record.write_bytes(b"# my own words\r\n- {date: 2026-11-01, note: 'x'}   # why\r\n")
    record.chmod(0o640)
    assert main(["record", "mine.yml", "note", "y", "--date", "2026-11-02"]) == 0
    assert record.read_bytes().startswith(
        b"# my own words\r\n- {date: 2026-11-01, note: 'x'}   # why\r\n- date"
    )
    assert notes(spec) == ["x", "y"]
    assert record.stat().st_mode & 0o777 == 0o640


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["measured", "materials.ply-12.thicknes", "11.8"], "did you mean 'thickness'?"),
        (["measured", "materials.ply-12.thickness", "11,8"], "cannot have a comma"),
        (["measured", "bays.Q.width", "500"], "unknown-bay"),
        (["cut", "Z9", "500"], "unknown-mark"),
        (["cut", "A1", "long"], "bad-length"),
        (["installed", "A1", "Z9"], "unknown-mark"),
        (["note", "x", "--date", "yesterday"], "bad-date"),
        (["note", "\udcff"], "not-utf8"),
        (["note", "a\x07b"], "control-character"),
        (["photo", "none.jpg", "--alt", "x"], "no-file"),
        (["photo", "../a.jpg", "--alt", "x"], "outside-the-folder"),
        (["photo", "none.jpg"], "--alt"),
    ],
)
def test_a_faulty_entry_is_told_and_nothing_is_written(
    words: list[str], said: str, spec: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["record", "mine.yml", *words]) == 2
    assert said in capsys.readouterr().err
    assert [path.name for path in spec.parent.iterdir()] == ["mine.yml"]


def test_a_faulty_record_is_not_made_worse(spec: Path, capsys: pytest.CaptureFixture[str]) -> None:
    record = spec.with_name("mine.record.yml")
    for text in ("- {date: x, note: y}\n", "- [\n", "date: 5\n", "[{date: 2026-11-01, note: x}]\n"):
        record.write_text(text, encoding="utf-8")
        assert main(["record", "mine.yml", "note", "y"]) == 2
        assert record.read_text(encoding="utf-8") == text
    assert "not-appendable" in capsys.readouterr().err


def test_a_folder_that_cannot_be_written_is_told(
    spec: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    assert main(["record", "mine.yml", "note", "y"]) == 2
    assert "No space left on device" in capsys.readouterr().err
    assert not spec.with_name("mine.record.yml").exists()


@few
@given(st.text(max_size=80).filter(lambda text: text.split()))
def test_any_words_come_back_as_they_were_written(text: str) -> None:
    """What YAML cannot hold is refused before; everything else is the same words again."""
    read = logbook.entry_text({"date": "2026-11-03", "note": text})
    try:
        record, faults = read_record(read, "r.yml", "mm")
    except SpecError as error:
        codes = {finding.code for finding in error.findings}
        assert codes <= {"control-character", "yaml-syntax"}
        assert not text.isprintable()
        return
    assert faults == ()
    assert record.entries[0].note == " ".join(text.split())


# --- nothing is lost


def write_all(spec: Path, writer: int, many: int) -> None:
    for number in range(many):
        add_entry(spec, {"date": "2026-11-03", "note": f"{writer}.{number}"})


@pytest.mark.parametrize(("kind", "writers", "many"), [(spawn.Process, 2, 4), (Thread, 5, 5)])
def test_entries_of_writers_at_once_are_all_kept(kind: Any, writers: int, many: int, spec: Path) -> None:
    running = [kind(target=write_all, args=(spec, writer, many)) for writer in range(writers)]
    for writer in running:
        writer.start()
    for writer in running:
        writer.join()
    kept = notes(spec)
    assert sorted(kept) == sorted(f"{writer}.{number}" for writer in range(writers) for number in range(many))
    for writer in range(writers):  # and each writer's own in its order
        mine = [int(note.split(".")[1]) for note in kept if note.startswith(f"{writer}.")]
        assert mine == sorted(mine)


class Killed(BaseException):
    """The process is gone: nothing after this runs."""


def kill_at(step: int, monkeypatch: pytest.MonkeyPatch) -> None:
    """End the writer before (even steps) or after (odd ones) one of its calls that reach the disk."""
    calls = count()

    def counted(owner: Any, name: str) -> None:
        real = getattr(owner, name)

        def call(*args: Any, **keys: Any) -> Any:
            if next(calls) == step:
                raise Killed
            result = real(*args, **keys)
            if next(calls) == step:
                raise Killed
            return result

        monkeypatch.setattr(owner, name, call)

    for owner, name in ((os, "fsync"), (Path, "replace"), (shutil, "copymode")):
        counted(owner, name)


@pytest.mark.parametrize("step", range(9))
@pytest.mark.parametrize("there", [False, True])
def test_a_writer_that_dies_leaves_the_old_record_or_the_new_one(
    there: bool, step: int, spec: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    old = ["old"] if there else []
    if there:
        add_entry(spec, {"date": "2026-11-03", "note": "old"})
    with monkeypatch.context() as patched, suppress(Killed):
        kill_at(step, patched)
        add_entry(spec, {"date": "2026-11-03", "note": "new"})
    assert notes(spec) in (old, [*old, "new"])
    add_entry(spec, {"date": "2026-11-04", "note": "next"})  # whatever lies about, the next writer goes on
    assert notes(spec)[-1] == "next"
    assert notes(spec)[: len(old)] == old


def test_a_writer_that_is_killed_in_the_middle_of_its_work_loses_nothing(spec: Path) -> None:
    """The real thing: a process that writes one entry after the other is killed; all it had reported are there."""
    code = (
        "import sys\nfrom pathlib import Path\nfrom generator.logbook import add_entry\n"
        "for n in range(10_000):\n"
        f"    add_entry(Path({str(spec)!r}), {{'date': '2026-11-03', 'note': str(n)}})\n"
        "    print(n, flush=True)\n"
    )
    root = Path(logbook.__file__).resolve().parents[1]
    running = subprocess.Popen([sys.executable, "-c", code], stdout=subprocess.PIPE, text=True, cwd=root)
    assert running.stdout is not None
    reported = [int(running.stdout.readline()) for _ in range(4)]
    running.send_signal(signal.SIGKILL)
    reported += [int(line) for line in running.stdout]
    running.wait()
    running.stdout.close()
    kept = [int(note) for note in notes(spec)]
    assert kept == list(range(len(kept)))
    assert len(kept) in (len(reported), len(reported) + 1)
    add_entry(spec, {"date": "2026-11-04", "note": "next"})
    assert notes(spec)[-1] == "next"
