"""What a user calls a thing, as part of an id or of a file name: the one place that makes such names.

Names come from the spec and may hold anything: spaces, markup, other scripts, the same letters in another case. Ids
and files get plain ASCII, so that no page, link or file system can read them in another way.
"""

from __future__ import annotations

import hashlib
import re
import unicodedata
from collections.abc import Iterable
from pathlib import PurePath

NAMELESS = "unnamed"
"""What is used for a name without any letter or digit of ASCII."""
LONGEST = 100
"""Most characters of a name: file systems take 255 bytes, and its kind and its ending come to it."""
#: Names that Windows keeps for devices, whatever their ending (Microsoft: Naming Files, Paths, and Namespaces).
_DEVICES = re.compile(r"(con|prn|aux|nul|com\d|lpt\d)", re.IGNORECASE)


def slug(text: str) -> str:
    """Small letters and digits, joined by hyphens. Two texts may have one slug: see `slugs`."""
    return "-".join(re.findall(r"[a-z0-9]+", _ascii(text).lower()))[:LONGEST].strip("-") or NAMELESS


def slugs(texts: Iterable[str]) -> list[str]:
    """A slug for each text, in their order; no two are the same."""
    return _distinct(map(slug, texts))


def file_stem(name: str) -> str:
    """The name of a file without its folder and ending, safe on every system, in an archive and in a link."""
    stem = "-".join(re.findall(r"\w+", _ascii(PurePath(name).stem), re.ASCII))[:LONGEST] or "bench"
    return f"{stem}-bench" if _DEVICES.fullmatch(stem) else stem


def spec_file(name: str) -> str:
    """What a spec's file is called in its manual: as it is named, as far as every system and link can bear that."""
    return f"{file_stem(name)}{'.yaml' if name.endswith('.yaml') else '.yml'}"


def manual_id(title: str) -> str:
    """Tells manuals apart that share one browser's store; stays the same over revisions of one bench."""
    # two titles in another script must not be one
    return slug(title if title.isascii() else f"{title} {hashlib.sha256(title.encode()).hexdigest()[:8]}")


def pack_name(spec_name: str) -> str:
    """Name of the pack that has everything to build the manual again."""
    return f"{PurePath(spec_name).stem}-pack.zip"


def file_stems(names: Iterable[str]) -> list[str]:
    """The stem for each file name, in their order; no two are the same, also where a file system ignores case."""
    return _distinct(map(file_stem, names))


def _ascii(text: str) -> str:
    """Letters without their accents; what is not ASCII then becomes a gap."""
    plain = (c for c in unicodedata.normalize("NFKD", text) if not unicodedata.combining(c))
    return "".join(c if c.isascii() else " " for c in plain)


def _distinct(names: Iterable[str]) -> list[str]:
    """The names; one that was there before, in whatever case, gets the next free number behind it."""
    found: list[str] = []
    taken: set[str] = set()
    for name in names:
        new, number = name, 1
        while new.lower() in taken:
            number += 1
            new = f"{name}-{number}"
        taken.add(new.lower())
        found.append(new)
    return found
