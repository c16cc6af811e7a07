"""The benches that a bench was adapted from."""

from __future__ import annotations

import json
from collections.abc import Mapping
from typing import Any

from generator.spec.fields import Words
from generator.spec.item import Node
from generator.spec.site import Address


class Source(Node):
    """A bench that this one was adapted from, as its own spec says."""

    title: Words = ""
    """Title of that bench."""
    designer: Words = ""
    """Who designed it."""
    licence: Words = ""
    """Licence under which it was published, such as CC-BY-4.0."""
    revision: Words = ""
    """Letter or number of the issue, such as B."""
    checksum: Words = ""
    """Checksum of the issue, as printed on its sheets."""
    url: Address = ""
    """Web address of its manual."""


def with_source(data: Mapping[str, Any], checksum: str) -> str:
    """The value of `adapted_from` for a spec that is made from another: what that one lists, and that one itself.

    `data` is the other spec as it is written; values that are no text are left out.
    """
    revision, site = data.get("revision"), data.get("site")
    known = data.get("adapted_from")
    new = {
        "title": data.get("title"),
        "designer": data.get("designer"),
        "licence": data.get("licence"),
        "revision": revision.get("number") if isinstance(revision, Mapping) else "A",
        "checksum": checksum,
        "url": site.get("url") if isinstance(site, Mapping) else "",
    }
    rows = [*(known if isinstance(known, list) else []), new]
    return f"[{', '.join(_entry(row) for row in rows if isinstance(row, Mapping))}]"


def _entry(row: Mapping[str, Any]) -> str:
    told = {key: value for key, value in row.items() if isinstance(value, str) and value}
    return (
        f"{{{', '.join(f'{key}: {json.dumps(value, ensure_ascii=False)}' for key, value in told.items())}}}"
    )
