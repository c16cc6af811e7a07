"""Files on disk, written only when their bytes differ: watchers and version control see real changes only."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from pathlib import Path, PurePosixPath

MANIFEST = ".bench-manual-files"
"""Names the files that the last run wrote into a folder, so that only these are ever removed."""


def write_changed(files: Mapping[str, bytes], folder: Path) -> tuple[int, int]:
    """Make `folder` hold `files` (relative path with `/` → bytes) and return how many were (written, kept).

    Files that a former run wrote and that are no longer among `files` are removed; all others are left alone.
    Each file appears whole or not at all. Raises ValueError for a path that leaves the folder, before
    anything is written.
    """
    for name in files:
        _require_inside(name, folder)
    _remove(_written_before(folder) - files.keys(), folder)
    written = sum(_write_if_changed(folder / name, content) for name, content in files.items())
    _write_if_changed(folder / MANIFEST, "".join(f"{name}\n" for name in sorted(files)).encode())
    return written, len(files) - written


def _require_inside(name: str, folder: Path) -> None:
    """Refuse a name that would be written elsewhere, also by way of a symbolic link inside the folder."""
    inside = (folder / name).parent.resolve().is_relative_to(folder.resolve())
    if not inside or not _is_plain(name) or name == MANIFEST:
        raise ValueError(f"not a path inside the manual's folder: {name!r}")


def _is_plain(name: str) -> bool:
    """Tell whether `name` means the same file on every system: relative, normal, no drive, no line break."""
    path = PurePosixPath(name)
    normal = str(path) == name and name != "."
    return normal and not path.is_absolute() and ".." not in path.parts and not set(name) & set("\\:\n")


def _written_before(folder: Path) -> set[str]:
    try:
        return set((folder / MANIFEST).read_text(encoding="utf-8").splitlines())
    except FileNotFoundError:
        return set()


def _remove(names: Iterable[str], folder: Path) -> None:
    """Remove files, and folders that this leaves empty. Only inside `folder`, whatever a manifest says."""
    for name in sorted(names):
        _require_inside(name, folder)
        path = folder / name
        path.unlink(missing_ok=True)
        for parent in path.parents:
            if parent == folder or not parent.is_dir() or any(parent.iterdir()):
                break
            parent.rmdir()


def _write_if_changed(path: Path, content: bytes) -> bool:
    if path.is_file() and path.read_bytes() == content:
        return False
    path.parent.mkdir(parents=True, exist_ok=True)
    part = path.with_name(f".{path.name}.part")
    try:
        part.write_bytes(content)
        part.replace(path)
    finally:
        part.unlink(missing_ok=True)
    return True
