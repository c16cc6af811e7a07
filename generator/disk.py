"""Files on disk: written whole or not at all, and a lock that lets one process write at a time."""

from __future__ import annotations

import os
import shutil
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path


def is_plain_file(path: Path) -> bool:
    """Whether `path` is a regular file itself, not a link to one."""
    return path.is_file() and not path.is_symlink()


def readable(name: str) -> str:
    """The name of a file as text; bytes in it that are no letters become marks."""
    return name.encode(errors="surrogateescape").decode(errors="replace")


def put(path: Path, data: bytes, part: Path | None = None, durable: bool = False) -> None:
    """Put a file in its place in one step: whenever the process ends, the old file is there or the new one.

    `part` is where it is written first, on the same disk; two processes must not share one. A link that was left there
    is removed and never followed, and so is one at `path`. `durable`: the new file outlives a power failure as well.
    Raises OSError that names the file, with nothing changed and nothing left over.
    """
    part = part or path.with_name(f".{path.name}.part")
    try:
        part.unlink(missing_ok=True)
        with part.open("xb") as stream:
            stream.write(data)
            stream.flush()
            if durable:
                os.fsync(stream.fileno())
        if path.exists():
            shutil.copymode(path, part)
        part.replace(path)
    except OSError as error:
        with suppress(OSError):
            part.unlink(missing_ok=True)
        error.filename = str(path)
        raise
    if durable and sys.platform != "win32":
        handle = os.open(path.parent, os.O_RDONLY)
        try:
            os.fsync(handle)  # the name, too, must be on the disk
        finally:
            os.close(handle)


def create(path: Path, data: bytes) -> None:
    """Write a file that must not be there yet, not even as a link.

    Raises FileExistsError, or OSError that names the file, with nothing left over.
    """
    with path.open("xb") as stream:
        try:
            stream.write(data)
            stream.flush()
        except OSError as error:
            path.unlink()
            error.filename = str(path)
            raise


@contextmanager
def locked(path: Path, on_wait: Callable[[], None] = lambda: None) -> Iterator[None]:
    """Hold the lock of a file that need not be there yet; a killed process lets it go.

    `on_wait` is called when another process or thread has it. Raises OSError that names the file.
    """
    from filelock import FileLock, Timeout

    # A file beside it is locked, for on Windows nobody can read what is locked itself. `fallback_to_soft` would take
    # a file that is merely there for a lock, on a disk that has no real ones: a killed process would block the next.
    place = path.with_name(f".{path.name.lstrip('.')}.lock")
    lock = FileLock(place, fallback_to_soft=False)
    try:
        path.parent.stat()  # a folder that is missing would be made
        try:
            lock.acquire(blocking=False)
        except Timeout:
            on_wait()
            lock.acquire()
    except OSError as error:
        error.filename = str(path)
        raise
    try:
        yield
    finally:
        with suppress(OSError):  # Windows removes it at the release
            place.unlink()  # while it is held: who waits for this file sees that it is gone, and takes the next
        lock.release()
