"""Names that a spec refers to: each must exist and be of the right kind. Works on the raw data, so that a wrong
name is reported together with every other fault."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from generator.findings import Finding, Severity, nearest
from generator.spec.reader import Document

Path = tuple[str | int, ...]

#: Where a name stands, the section that defines it, and the kinds that will do.
REFERENCES: tuple[tuple[str, str, tuple[str, ...]], ...] = (
    ("frame.material", "materials", ("profile",)),
    ("frame.joints.default", "hardware", ("end clip", "through screw")),
    ("frame.joints.long_rails_to_corner_posts", "hardware", ("end clip", "through screw")),
    ("frame.joints.inner_post_tops", "hardware", ("end clip", "through screw")),
    ("zones.*.bays.*.stack.*.totes", "totes", ()),
    ("panels.material", "materials", ("sheet",)),
    ("tray.material", "materials", ("sheet",)),
    ("tray.trim", "materials", ("angle",)),
    ("drawers.slide", "hardware", ("slide",)),
    ("drawers.box", "materials", ("sheet",)),
    ("drawers.bottom", "materials", ("sheet",)),
    ("drawers.front", "materials", ("sheet",)),
    ("drawers.packing", "materials", ("strip",)),
    ("shelves.material", "materials", ("sheet",)),
    ("shelves.cleat", "materials", ("strip",)),
    ("totes.*.runner", "materials", ("strip",)),
    ("top.material", "materials", ("sheet",)),
    ("base.casters", "hardware", ("caster",)),
    ("extra.panels.*.material", "materials", ("sheet",)),
)


def check_names(data: Mapping[str, Any], document: Document) -> list[Finding]:
    """Report every name that is not defined, is of a wrong kind, or stands twice."""
    found = []
    for pattern, section, kinds in REFERENCES:
        for path, name in _values(data, tuple(pattern.split("."))):
            if isinstance(name, str):
                found += _check_reference(data.get(section), section, kinds, path, name, document)
    return found + _check_twice(data, document)


def _values(here: Any, pattern: tuple[str, ...], path: Path = ()) -> Iterator[tuple[Path, Any]]:
    if not pattern:
        yield path, here
        return
    step, rest = pattern[0], pattern[1:]
    if step == "*":
        pairs = here.items() if isinstance(here, dict) else enumerate(here) if isinstance(here, list) else ()
        for key, value in pairs:
            yield from _values(value, rest, (*path, key))
    elif isinstance(here, dict) and step in here:
        yield from _values(here[step], rest, (*path, step))


def _check_reference(
    entries: Any, section: str, kinds: tuple[str, ...], path: Path, name: str, document: Document
) -> list[Finding]:
    if not isinstance(entries, dict):
        return []
    wanted = [
        key
        for key, entry in entries.items()
        if not kinds or (isinstance(entry, dict) and entry.get("kind") in kinds)
    ]
    if name in wanted:
        return []
    what = " or ".join(kinds) or "tote"
    message = f"no {what} of this name in `{section}`"
    if name in entries:
        kind = entries[name].get("kind", "without a kind") if isinstance(entries[name], dict) else "empty"
        message = f"this must name a {what}, but `{section}.{name}` is {kind}"
    return [
        Finding(
            "unknown-name",
            Severity.ERROR,
            message,
            document.where(path),
            found=name,
            allowed=", ".join(wanted) or f"a {what} that `{section}` defines",
            nearest=nearest(name, wanted),
        )
    ]


def _check_twice(data: Mapping[str, Any], document: Document) -> list[Finding]:
    found = []
    for what, pattern in (("zone", "zones.*.name"), ("bay", "zones.*.bays.*.name")):
        first: dict[str, Path] = {}
        for path, name in _values(data, tuple(pattern.split("."))):
            if not isinstance(name, str) or not name:
                continue
            if name in first:
                line = document.where(first[name]).line
                found.append(
                    Finding(
                        "name-twice",
                        Severity.ERROR,
                        f"two {what}s have one name (the first in line {line})",
                        document.where(path),
                        found=name,
                        allowed="a name of its own",
                    )
                )
            first.setdefault(name, path)
    return found
