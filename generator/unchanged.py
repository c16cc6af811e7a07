"""What the last build of a folder was made from, so that the next one can see that there is nothing to do.

A stale manual is the worst fault: everything that a page can depend on counts, the user's files by their contents, the
program's own and what the build wrote by their sizes and times. What is not known for certain is not kept.
"""

from __future__ import annotations

import hashlib
import json
import os
import sys
from collections.abc import Iterable, Iterator, Mapping, Sequence
from contextlib import suppress
from dataclasses import asdict, dataclass
from pathlib import Path

from generator.disk import is_plain_file, put
from generator.resources import bundled

MADE = ".bench-manual-made"
"""The file in the folder of a manual that says what the last whole build was made from."""
PRODUCED = ("pages", "site", "web")
"""The folders that a build writes."""
_PACKAGE = Path(__file__).resolve().parent
_DATE = "SOURCE_DATE_EPOCH"
"""Who builds packages sets the date of a build by it."""


@dataclass(frozen=True)
class WholeBuild:
    """A whole build: what went in, and what was said."""

    key: str
    """Of the program and the options, as `key_of` gives it."""
    inputs: Mapping[str, str]
    """Every file that was read, as `checksums` gives them."""
    pages: int
    """How many files its pages have."""
    findings: Sequence[str] = ()
    """Each in the words in which it was told."""
    errors: int = 0
    on_web: str = ""
    """What was said of the folder for a web server."""


def key_of(options: Iterable[object]) -> str:
    """Checksum of the program, of what it is installed with, and of a command's options."""
    known = [*map(str, options), sys.version, os.environ.get(_DATE, ""), *_libraries()]
    for folder in (_PACKAGE, bundled("site_templates"), bundled("specs")):
        known += _stamps(folder)
    return hashlib.sha256("\n".join(known).encode(errors="surrogateescape")).hexdigest()


def checksums(files: Iterable[Path], before: int) -> dict[str, str] | None:
    """Whole path of each file -> checksum of its contents, empty for one that is not there.

    None when one was written after the time `before` (ns since 1970): it may have been read before that.
    """
    found = {}
    for file in files:
        with suppress(OSError):
            if file.stat().st_mtime_ns >= before:
                return None
        found[str(file.absolute())] = _checksum(file)
    return found


def remember(folder: Path, made: WholeBuild) -> None:
    """Keep what a build that is whole now was made from. The caller holds the folder."""
    kept = {"made": asdict(made), "outputs": _outputs(folder)}
    put(folder / MADE, json.dumps(kept).encode())


def forget(folder: Path) -> None:
    """The last build is no longer whole: what it wrote is about to change."""
    (folder / MADE).unlink(missing_ok=True)


def last_build(folder: Path, key: str) -> WholeBuild | None:
    """The last build, if a new one would be the same in every byte, and all that it wrote is still as it was."""
    path = folder / MADE
    try:
        kept = json.loads(path.read_text(encoding="utf-8")) if is_plain_file(path) else {}
        made = WholeBuild(**kept["made"])
        same = made.key == key and all(_checksum(Path(file)) == known for file, known in made.inputs.items())
        return made if same and kept["outputs"] == _outputs(folder) else None
    except (OSError, ValueError, KeyError, TypeError):  # not there, or not as this version writes it
        return None


def _outputs(folder: Path) -> str:
    known = [stamp for name in PRODUCED for stamp in _stamps(folder / name)]
    return hashlib.sha256("\n".join(known).encode(errors="surrogateescape")).hexdigest()


def _stamps(folder: Path) -> Iterator[str]:
    """Each file below a folder, with its size and when it was written; links as such, nothing of compiled modules."""
    if not folder.is_dir():
        return
    with os.scandir(folder) as entries:
        for entry in sorted(entries, key=lambda each: each.name):
            if entry.is_dir(follow_symlinks=False):
                if entry.name != "__pycache__":
                    yield from _stamps(Path(entry.path))
                continue
            stat = entry.stat(follow_symlinks=False)
            yield f"{entry.path} {stat.st_mode} {stat.st_size} {stat.st_mtime_ns}"


def _libraries() -> list[str]:
    """Names and versions of all that is installed beside the program."""
    folders = [Path(place) for place in sys.path if place]
    found = (path for folder in folders if folder.is_dir() for path in folder.iterdir())
    return sorted(path.name for path in found if path.name.endswith((".dist-info", ".egg-info")))


def _checksum(file: Path) -> str:
    try:
        return hashlib.sha256(file.read_bytes()).hexdigest()
    except OSError:
        return ""
