"""The text of a file that a user names, or a finding that says what is there instead."""

from __future__ import annotations

from pathlib import Path

from generator.codes import Code
from generator.findings import SpecError, Where, nearest
from generator.spec.unreadable import MAX_SIZE, stop, too_large


def read_text(path: Path) -> str:
    """Return the text of a file in UTF-8. Raises SpecError when it cannot be read."""
    try:
        if path.is_dir():
            raise stop(Code.IS_A_FOLDER, f"'{path}' is a folder", advice="Name a spec file in this folder.")
        if not path.exists():
            raise _no_file(path)
        if not path.is_file():  # a pipe or a device may never end
            raise stop(Code.NOT_READABLE, f"'{path}' is not a regular file")
        with path.open("rb") as stream:
            data = stream.read(MAX_SIZE + 1)
    except (OSError, ValueError) as error:  # ValueError: a NUL in the name
        reason = getattr(error, "strerror", None) or "not a file name"
        raise stop(Code.NOT_READABLE, f"'{path}' cannot be read: {reason}") from error
    if len(data) > MAX_SIZE:
        raise too_large(Where(str(path), 1, 1), f"the file is larger than {MAX_SIZE:,} bytes")
    return _decode(data, str(path))


def _no_file(path: Path) -> SpecError:
    folder = path.parent
    if not folder.is_dir():
        return stop(Code.NO_FILE, f"there is no folder '{folder}'")
    names = sorted(each.name for each in folder.iterdir() if each.is_file() and not each.name.startswith("."))
    message = f"there is no file '{path.name}' in '{folder}'"
    return stop(Code.NO_FILE, message, nearest=nearest(path.name, names))


def _decode(data: bytes, file: str) -> str:
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        # The bytes of error.object lack the byte order mark that error.start does not count either.
        before = bytes(error.object)[: error.start]
        line, column = before.count(b"\n") + 1, len(before.rpartition(b"\n")[2].decode("utf-8")) + 1
        advice = "Save the file as UTF-8 in your editor."
        raise stop(
            Code.NOT_UTF8, "this file is not UTF-8 text", Where(file, line, column), advice=advice
        ) from error
