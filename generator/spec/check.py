"""Names that a spec refers to: each must exist and be of the right kind. Works on the raw data, so that a wrong
name is reported together with every other fault."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from typing import Any

from generator.findings import Finding, Severity, nearest
from generator.spec.reader import Document
from generator.spec.stands import REFERENCES as STAND_REFERENCES

Path = tuple[str | int, ...]

#: Where a name stands, the section that defines it, the kinds that will do, and the name that the language takes
#: when the spec leaves it out.
REFERENCES: tuple[tuple[str, str, tuple[str, ...], str], ...] = (
    ("frame.material", "materials", ("profile",), "bar"),
    ("frame.joints.default", "hardware", ("end clip", "through screw"), "end-clip"),
    ("frame.joints.long_rails_to_corner_posts", "hardware", ("end clip", "through screw"), "through-screw"),
    ("frame.joints.inner_post_tops", "hardware", ("end clip", "through screw"), "through-screw"),
    ("zones.*.bays.*.stack.*.totes", "totes", (), ""),
    ("panels.material", "materials", ("sheet",), "ply-12"),
    ("tray.material", "materials", ("sheet",), "ply-12"),
    ("tray.trim", "materials", ("angle",), ""),
    ("drawers.slide", "hardware", ("slide",), "slide"),
    ("drawers.box", "materials", ("sheet",), "ply-12"),
    ("drawers.bottom", "materials", ("sheet",), "ply-6"),
    ("drawers.front", "materials", ("sheet",), "ply-18"),
    ("drawers.packing", "materials", ("strip",), "poplar-15"),
    ("shelves.material", "materials", ("sheet",), "ply-18"),
    ("shelves.cleat", "materials", ("strip",), "poplar-15"),
    ("totes.*.runner", "materials", ("strip",), ""),
    ("top.material", "materials", ("sheet",), "mdf-18"),
    *STAND_REFERENCES,
    ("extra.panels.*.material", "materials", ("sheet",), ""),
)

#: Keys that may be left out to go without, and how people write that they want none.
WITHOUT = ("trim",)
NONE = ("none", "no", "false", "null", "off")


def check_names(data: Mapping[str, Any], document: Document, faulty: Collection[Path] = ()) -> list[Finding]:
    """Report every name that is not defined, is of a wrong kind, or stands twice.

    `faulty` are entries that are reported for another reason: what refers to them is no second fault.
    """
    found = []
    for pattern, section, kinds, default in REFERENCES:
        steps = tuple(pattern.split("."))
        written = [(path, name) for path, name in _values(data, steps) if isinstance(name, str)]
        if not written and default:
            written = [((section, default), default)]
        for path, name in written:
            if (section, name) not in faulty:
                found += _check_reference(data.get(section), section, kinds, path, name, document)
    return _once(found) + _check_slot_nut(data, document) + _check_twice(data, document)


def _once(findings: list[Finding]) -> list[Finding]:
    """A standard name that several defaults take is one fault."""
    return list({(str(finding.where), finding.message): finding for finding in findings}.values())


def _check_slot_nut(data: Mapping[str, Any], document: Document) -> list[Finding]:
    """Casters and brackets need a nut for the slots, whatever its name."""
    entries = data.get("hardware")
    if not isinstance(entries, dict) or any(
        _kind_of(entry) in ("slot nut", "") for entry in entries.values()
    ):
        return []
    return [
        Finding(
            "unknown-name",
            Severity.ERROR,
            "no slot nut in `hardware`",
            document.where(("hardware",)),
            found=", ".join(entries),
            allowed="an entry with `kind: slot nut`",
        )
    ]


def _kind_of(entry: Any) -> str:
    """The kind of an entry; empty when it has none, which is a fault of its own."""
    return str(entry.get("kind") or "") if isinstance(entry, dict) else ""


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
    wanted = [key for key, entry in entries.items() if not kinds or _kind_of(entry) in kinds]
    if name in wanted or (name in entries and not _kind_of(entries[name])):
        return []
    what = " or ".join(kinds) or "tote"
    message = f"no {what} of this name in `{section}`"
    if name in entries:
        message = f"this must name a {what}, but `{section}.{name}` is a {_kind_of(entries[name])}"
    return [
        Finding(
            "unknown-name",
            Severity.ERROR,
            message,
            document.where(path),
            found=name,
            allowed=", ".join(wanted) or f"a {what} that `{section}` defines",
            nearest=nearest(name, wanted),
            advice="To have none, leave the key out."
            if path[-1] in WITHOUT and name.casefold() in NONE
            else "",
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
