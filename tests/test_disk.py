"""The lock of a file: one holder at a time, and nobody waits for a process that is gone."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from generator import disk
from generator.disk import locked

ROOT = Path(disk.__file__).resolve().parents[1]

#: Holds the lock of the file that it is told, says so, and goes on when it hears a line.
HOLDER = """
import sys
from pathlib import Path
from generator.disk import locked
with locked(Path(sys.argv[1]), lambda: print("waits", flush=True)):
    print("holds", flush=True)
    sys.stdin.readline()
"""

#: Adds one to the number in a file, often; without the lock some of them are lost.
COUNTER = """
import sys
from pathlib import Path
from generator.disk import locked
path = Path(sys.argv[1])
for _ in range(int(sys.argv[2])):
    with locked(path):
        path.write_text(str(int(path.read_text()) + 1))
"""


def run(code: str, *words: object) -> subprocess.Popen[str]:
    return subprocess.Popen(
        [sys.executable, "-c", code, *map(str, words)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        cwd=ROOT,
    )


def line(holder: subprocess.Popen[str]) -> str:
    assert holder.stdout is not None
    return holder.stdout.readline().strip()


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "a.record.yml"


@pytest.fixture
def holder(path: Path) -> Iterator[subprocess.Popen[str]]:
    """A process that holds the lock."""
    with run(HOLDER, path) as other:
        assert line(other) == "holds"
        try:
            yield other
        finally:
            other.kill()


def test_who_comes_second_is_told_and_waits(path: Path, holder: subprocess.Popen[str]) -> None:
    with run(HOLDER, path) as second:
        assert line(second) == "waits"
        holder.communicate("done\n", timeout=60)
        assert line(second) == "holds"
        second.communicate("done\n", timeout=60)
    assert list(path.parent.iterdir()) == []


def test_a_killed_holder_blocks_nobody(path: Path, holder: subprocess.Popen[str]) -> None:
    holder.kill()
    holder.wait(timeout=60)
    assert list(path.parent.iterdir()) != []  # its lock file lies there
    told = list[str]()
    with locked(path, lambda: told.append("waits")):
        pass
    assert told == []
    assert list(path.parent.iterdir()) == []


def test_of_many_at_once_none_writes_over_another(path: Path) -> None:
    path.write_text("0", encoding="utf-8")
    for writer in [run(COUNTER, path, 100) for _ in range(4)]:
        assert writer.communicate(timeout=120) == ("", None)
        assert writer.returncode == 0
    assert path.read_text(encoding="utf-8") == "400"
    assert list(path.parent.iterdir()) == [path]


def test_a_folder_that_is_missing_is_not_made(tmp_path: Path) -> None:
    missing = tmp_path / "none" / "a.record.yml"
    with pytest.raises(FileNotFoundError) as told, locked(missing):
        pass
    assert told.value.filename == str(missing)
    assert list(tmp_path.iterdir()) == []


def test_a_link_in_the_place_of_the_lock_is_not_followed(path: Path, tmp_path: Path) -> None:
    theirs = tmp_path / "theirs"
    (tmp_path / ".a.record.yml.lock").symlink_to(theirs)
    with pytest.raises(OSError) as told, locked(path):
        pass
    assert told.value.filename == str(path)
    assert not theirs.exists()
