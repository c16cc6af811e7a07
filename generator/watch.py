"""Files that somebody writes: what they hold now, once a save is whole."""

from __future__ import annotations

import time
from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

LOOK = 0.01
"""Seconds between two looks, and for how long a file must not change: an editor may save in two strokes."""
EMPTIED = 0.3
"""Seconds after which a file that was emptied or taken away counts as such, and not as the first stroke of a save."""


class Watch:
    """Files of which only a change of contents counts: saving the same text again changes nothing."""

    def __init__(self, paths: Sequence[Path], emptied: float = EMPTIED) -> None:
        self._paths, self._emptied = paths, emptied
        self._stamps, self._contents = self._look(), self._read()

    def wait(self) -> None:
        """Return once the files hold something else and no longer change."""
        while True:
            time.sleep(LOOK)
            if (now := self._look()) == self._stamps:
                continue
            self._stamps = self._settled(now)
            if (contents := self._read()) != self._contents:
                self._contents = contents
                return

    def _settled(self, now: list[_Stamp | None]) -> list[_Stamp | None]:
        """The stamps once they stay the same; those of a file that was emptied or taken away must do so for longer."""
        begin = time.monotonic()
        while True:
            time.sleep(LOOK)
            if (again := self._look()) != now:
                now, begin = again, time.monotonic()
                continue
            emptied = any(
                _holds(was) and not _holds(is_now) for was, is_now in zip(self._stamps, now, strict=True)
            )
            if not emptied or time.monotonic() - begin > self._emptied:
                return now

    def _look(self) -> list[_Stamp | None]:
        return [_stamp(path) for path in self._paths]

    def _read(self) -> list[bytes | None]:
        return [_contents(path) for path in self._paths]


class _Stamp(NamedTuple):
    """What shows that a file was written to."""

    changed: int
    size: int
    number: int


def _holds(stamp: _Stamp | None) -> bool:
    return stamp is not None and stamp.size > 0


def _stamp(path: Path) -> _Stamp | None:
    try:
        stat = path.stat()
    except OSError:
        return None
    return _Stamp(stat.st_mtime_ns, stat.st_size, stat.st_ino)


def _contents(path: Path) -> bytes | None:
    try:
        return path.read_bytes()
    except OSError:  # a folder, or gone since it was looked at
        return None
