"""Names that a spec refers to: each must exist and be of the right kind.

Works on the raw data, so that a wrong name is reported together with every other fault.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from typing import Any

from generator.codes import Code
from generator.findings import Finding, Severity, nearest, one_of
from generator.spec.document import Document
from generator.spec.fillings.pulls import NONE
from generator.spec.references import REFERENCES, Path, Reference, kind_of, values

#: Keys that may be left out to go without, and how people write that they want none.
WITHOUT = ("trim", "bracket")
#: Keys that take such a word themselves.
TAKES_NONE = ("pull",)


def check_names(data: Mapping[str, Any], document: Document, faulty: Collection[Path] = ()) -> list[Finding]:
    """Report every name that is not defined, is of a wrong kind, or is there twice.

    `faulty` are entries that are reported for another reason: what refers to them is no second fault.
    """
    found = []
    for each in REFERENCES:
        written = [
            (path, " ".join(name.split())) for path, name in values(data, each.steps) if isinstance(name, str)
        ]
        if not written and each.default:
            written = [((each.section, each.default), each.default)]
        for path, name in written:
            if path[-1] in TAKES_NONE and name.casefold() in NONE:
                continue
            if (each.section, name) not in faulty:
                found += _check_reference(data.get(each.section), each, path, name, document)
    return _once(found) + _check_twice(data, document)


def _once(findings: list[Finding]) -> list[Finding]:
    """A standard name that several defaults take is one fault."""
    return list({(str(finding.where), finding.message): finding for finding in findings}.values())


def _check_reference(
    entries: Any, reference: Reference, path: Path, name: str, document: Document
) -> list[Finding]:
    section, kinds = reference.section, reference.kinds
    if not isinstance(entries, dict):
        return []
    wanted = [key for key, entry in entries.items() if not kinds or kind_of(entry) in kinds]
    if name in wanted or (name in entries and not kind_of(entries[name])):
        return []
    what = " or ".join(kinds) or "tote"
    message = f"`{section}` has no {what} with this name"
    if name in entries:
        message = (
            f"`{section}.{name}` is of the kind {kind_of(entries[name])}, and this key needs the kind {what}"
        )
    return [
        Finding(
            Code.UNKNOWN_NAME,
            Severity.ERROR,
            message,
            document.where(path),
            found=name,
            allowed=one_of(wanted) if wanted else f"the name of a {what} under `{section}`",
            nearest=nearest(name, wanted),
            advice="If you want none, leave the key out."
            if path[-1] in WITHOUT and name.casefold() in NONE
            else "",
        )
    ]


def _check_twice(data: Mapping[str, Any], document: Document) -> list[Finding]:
    found = []
    for what, pattern in (("zone", "zones.*.name"), ("bay", "zones.*.bays.*.name")):
        first: dict[str, Path] = {}
        for path, name in values(data, tuple(pattern.split("."))):
            if not isinstance(name, str) or not name:
                continue
            if name in first:
                line = document.where(first[name]).line
                found.append(
                    Finding(
                        Code.NAME_TWICE,
                        Severity.ERROR,
                        f"two {what}s have the same name (the first is in line {line})",
                        document.where(path),
                        found=name,
                        allowed="a name that no other has",
                    )
                )
            first.setdefault(name, path)
    return found
