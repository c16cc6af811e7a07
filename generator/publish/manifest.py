"""The manifest of a published bench, `okh.toml`: its documentation as the Open Know-How specification lists it."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Any
from urllib.parse import quote

from generator.figures.model import Figures
from generator.figures.rows.parts import PartRow
from generator.publish.how_to import PAGE
from generator.publish.public import Public, about

OKH = "2.4"
"""Version of the Open Know-How specification whose fields these are."""
NO_LICENCE = "LicenseRef-NONE"
"""What the specification asks for where no licence is stated: all rights are kept."""

_SPDX = re.compile(r"[A-Za-z0-9.+-]+( (AND|OR|WITH) [A-Za-z0-9.+-]+)*")
_DRAWN = (".pdf", ".dxf", ".glb")


def manifest(public: Public, figures: Figures, files: Sequence[str], spec_name: str) -> str:
    """The manifest as TOML. `files` are the paths of all downloads from the first page, `spec_name` the spec's file."""
    facts, layout = figures.spec, figures.layout
    source = f"downloads/{spec_name}"
    fields: dict[str, Any] = {
        "okhv": OKH,
        "name": facts.title,
        "repo": public.repository,
        "version": facts.revision,
        "release": _one(files, "-pack.zip"),
        "license": licence_id(facts.licence),
        "licensor": facts.designer or "not named",
        "readme": "index.html",
        "image": public.card,
        "documentation-language": "en",
        "function": about(figures),
        "bom": "downloads/shopping-list.csv",
        "manufacturing-instructions": [PAGE, *_ending(files, ("part-sheets-a4.pdf",))],
        "user-manual": "index.html",
        "mass": round(float(figures.mass.empty) * 1000),
        "source": [quote(source)],
        "export": [quote(each) for each in _ending(files, _DRAWN)],
    }
    if addresses := [each.url for each in facts.adapted_from if each.url]:
        fields["forkOf"] = addresses[-1]
    tables = {"outer-dimensions": _sizes(layout.length, layout.depth, layout.height)}
    parts = [_part(row, source, files) for row in figures.parts]
    return _toml(fields, tables, parts)


def licence_id(licence: str) -> str:
    """A licence as the manifest names it: an SPDX expression, or a name of its own that begins with LicenseRef-."""
    if not licence:
        return NO_LICENCE
    return (
        licence
        if _SPDX.fullmatch(licence)
        else f"LicenseRef-{re.sub('[^A-Za-z0-9.]+', '-', licence).strip('-')}"
    )


def _part(row: PartRow, source: str, files: Sequence[str]) -> dict[str, Any]:
    outline = f"downloads/dxf/{row.mark}.dxf"
    return {
        "name": f"{row.mark} {row.name}",
        "source": [quote(source)],
        **({"export": [quote(outline)]} if outline in files else {}),
        "mass": round(float(row.mass) * 1000),
        "outer-dimensions": _sizes(row.length, row.width, row.thickness),
    }


def _sizes(width: Any, depth: Any, height: Any) -> dict[str, float]:
    """Sizes in millimetres under the names of the manifest."""
    sizes = {"width": width, "depth": depth, "height": height}
    return {name: round(float(size), 3) for name, size in sizes.items()}


def _ending(files: Iterable[str], endings: tuple[str, ...]) -> list[str]:
    return sorted(each for each in files if each.lower().endswith(endings))


def _one(files: Iterable[str], ending: str) -> str:
    return quote(_ending(files, (ending,))[0])


def _toml(
    fields: Mapping[str, Any], tables: Mapping[str, Mapping[str, Any]], parts: Sequence[Mapping[str, Any]]
) -> str:
    lines = [f"{key} = {_value(value)}" for key, value in fields.items()]
    for name, table in tables.items():
        lines += ["", f"[{name}]", *(f"{key} = {_value(value)}" for key, value in table.items())]
    for part in parts:
        lines += ["", "[[part]]", *(f"{key} = {_value(value)}" for key, value in part.items())]
    return "\n".join(lines) + "\n"


def _value(value: Any) -> str:
    """A value of TOML. Its basic strings are escaped as those of JSON, but for U+007F."""
    if isinstance(value, Mapping):
        return f"{{ {', '.join(f'{key} = {_value(each)}' for key, each in value.items())} }}"
    return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")
