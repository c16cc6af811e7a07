"""Folders that the program writes: only real changes reach the disk, and what others put there stays.

A folder is the program's own when it bears a mark. One that holds anything and bears none is refused.
"""

from __future__ import annotations

import os
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from pathlib import Path, PurePosixPath

from generator.disk import is_plain_file, locked, put

MANIFEST = ".bench-manual-files"
"""Names the files that were written into a folder, so that only these are ever removed; it marks the folder."""
MARK = ".bench-manual"
"""Marks the folder above pages/ and site/, says what it is for, and has the lock of who writes there."""

_PART = ".bench-manual-part"
"""A file of the folder before it is whole."""
_NOBODYS = frozenset({_PART, f"{MARK}.lock", ".DS_Store", "desktop.ini", "Thumbs.db"})
"""Beside what a killed run left: files that a system puts into a folder that somebody looked at."""


class FolderError(Exception):
    """A folder that cannot be written without touching what others put there; the text says what to do."""


@contextmanager
def claimed(folder: Path, kind: str, on_wait: Callable[[], None]) -> Iterator[None]:
    """Hold `folder` alone while pages/ and site/ of a `kind` ("manual", "gallery") are written into it.

    Makes it if it is missing. `on_wait` is called when another process is writing there. Raises FolderError as
    `require_claimable` does.
    """
    require_claimable(folder, kind)
    folder.mkdir(parents=True, exist_ok=True)
    with locked(folder / MARK, on_wait):
        require_claimable(folder, kind)
        if not _claimed_for(folder):
            put(folder / MARK, f"{kind}\n".encode(), part=folder / _PART)
        yield


def require_claimable(folder: Path, kind: str) -> None:
    """Raise FolderError when `folder` holds what somebody else put there, or another kind."""
    _require_folder(folder)
    held = _claimed_for(folder) or _claimed_earlier(folder)
    if held not in ("", kind):
        raise FolderError(f"this folder has a {held} in it: {folder}. Name another folder with --out")
    if not held:
        require_own(folder)


def _claimed_for(folder: Path) -> str:
    """The kind that the folder's mark names; empty without a mark, or when a run died while it wrote it."""
    mark = folder / MARK
    return mark.read_text(encoding="utf-8", errors="replace").strip() if is_plain_file(mark) else ""


def _claimed_earlier(folder: Path) -> str:
    """The kind that an earlier version built here, which marked the pages alone."""
    pages = folder / "pages"
    if is_plain_file(pages / MANIFEST) or _has_our_configuration(pages):
        return "manual"
    return "gallery" if any(pages.glob(f"*/{MANIFEST}")) else ""


def write_changed(files: Mapping[str, bytes], folder: Path, later: Sequence[str] = ()) -> tuple[int, int]:
    """Make `folder` hold `files` (relative path with `/` → bytes) and return how many were (written, kept).

    Files that a former run wrote and that are no longer among `files` are removed, but for those that come `later`; all
    others are left alone. Each file appears whole or not at all, and a run that ends midway is made good by the next.
    Raises ValueError for a path that leaves the folder, and FolderError for a folder of somebody else, before anything
    is written.
    """
    for name in (*files, *later):
        if not _is_plain(name):
            raise ValueError(f"not a path inside the manual's folder: {name!r}")
    require_own(folder)
    before = _written_before(folder)
    names = {*files, *later}
    _require_no_links(before | names, folder)
    (folder / _PART).unlink(missing_ok=True)
    _write_manifest(before | names, folder)  # first, so that a run that ends midway leaves none unnamed
    _remove(before - names, folder)
    written = sum(_write_if_changed(name, content, folder) for name, content in files.items())
    _write_manifest(names, folder)
    return written, len(files) - written


def mark(folder: Path) -> None:
    """Make `folder` bear the mark, before others write into it. Raises FolderError as `write_changed` does."""
    require_no_link(folder)
    require_own(folder)
    _write_manifest(_written_before(folder), folder)


def remove_written(folder: Path) -> None:
    """Remove what was written into `folder`, and the folder when nothing else is in it."""
    if is_plain_file(folder / MANIFEST) and not folder.is_symlink():
        write_changed({}, folder)
        (folder / MANIFEST).unlink()
        with suppress(OSError):  # somebody's own files are in it
            folder.rmdir()


def require_own(folder: Path, is_earlier: Callable[[Path], bool] = lambda folder: False) -> None:
    """Raise FolderError unless `folder` bears a mark, has nothing in it but marked folders, or is not there yet.

    `is_earlier` says whether a folder is from an earlier version, which left no such mark.
    """
    _require_folder(folder)
    if any(is_plain_file(folder / mark) for mark in (MANIFEST, MARK)):
        return
    inside = list(folder.iterdir()) if folder.exists() else []
    names = [path.name for path in inside if not is_plain_file(path / MANIFEST)]
    others = sorted(name for name in names if name not in _NOBODYS)
    if others and not _has_our_configuration(folder) and not is_earlier(folder):
        more = f" and {len(others) - 1} more" if len(others) > 1 else ""
        raise FolderError(
            f"{folder} has files that bench-manual did not write: {others[0]}{more}. Nothing was changed. "
            "Name an empty or new folder with --out"
        )


def require_no_link(path: Path) -> None:
    """Raise FolderError when `path` is a link: what is written below it would land elsewhere."""
    if path.is_symlink():
        raise FolderError(
            f"{path} is a link to another place, so nothing was written. Remove the link, or name another folder "
            "with --out"
        )


def _require_folder(folder: Path) -> None:
    """Raise FolderError when there can be no folder here, or none that may be written."""
    there = next(path for path in (folder, *folder.absolute().parents) if path.exists())
    if not there.is_dir():
        raise FolderError(f"{there} is a file. Name a folder with --out")
    if not os.access(there, os.W_OK):
        raise FolderError(f"you have no right to write into {there}. Name another folder with --out")


def _has_our_configuration(folder: Path) -> bool:
    """Recognize pages that an earlier version left half-written: their configuration is written first."""
    path = folder / "mkdocs.yml"
    if not is_plain_file(path):
        return False
    with path.open("rb") as stream:
        return stream.readline(80).startswith(b"# Written by bench-manual.")


def _is_plain(name: str) -> bool:
    """Whether `name` means the same file on every system: relative, normal, no drive, no line break."""
    path = PurePosixPath(name)
    normal = str(path) == name and name not in (".", MANIFEST)
    return normal and not path.is_absolute() and ".." not in path.parts and not set(name) & set("\\:\n\0")


def _written_before(folder: Path) -> set[str]:
    """The names in the manifest. Raises FolderError when the program cannot have written it."""
    manifest = folder / MANIFEST
    if not is_plain_file(manifest):
        return set()
    names = manifest.read_text(encoding="utf-8", errors="replace").splitlines()
    if strange := [name for name in names if not _is_plain(name)]:
        raise FolderError(
            f"{manifest} was changed by hand: it names {strange[0]!r}, which bench-manual does not write. "
            f"Delete the folder {folder}, or name another one with --out"
        )
    return set(names)


def _write_manifest(names: Iterable[str], folder: Path) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    _write_if_changed(MANIFEST, "".join(f"{name}\n" for name in sorted(names)).encode(), folder)


def _require_no_links(names: Iterable[str], folder: Path) -> None:
    """Refuse links among the folder and those inside it; a link in a file's place is harmless, it is replaced."""
    for parent in sorted({parent for name in names for parent in PurePosixPath(name).parents}):
        require_no_link(folder / parent)


def _remove(names: Iterable[str], folder: Path) -> None:
    """Remove files, and folders that this leaves empty."""
    for name in sorted(names):
        path = folder / name
        if path.is_dir() and not path.is_symlink():  # a run that died had begun to make a folder of it
            continue
        with suppress(FileNotFoundError, NotADirectoryError):
            path.unlink()
        for parent in path.parents:
            if parent == folder or not parent.is_dir() or any(parent.iterdir()):
                break
            parent.rmdir()


def _write_if_changed(name: str, content: bytes, folder: Path) -> bool:
    path = folder / name
    if is_plain_file(path) and path.read_bytes() == content:
        return False
    path.parent.mkdir(parents=True, exist_ok=True)
    put(path, content, part=folder / _PART)
    return True
