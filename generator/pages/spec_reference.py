"""Spec reference: every key of the language, made from the same models that read it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from generator.drawings.dimensions import Ruler
from generator.figures.model import Figures
from generator.pages.page import Context, Page
from generator.spec.cards import typical_cards
from generator.spec.editor_schema import group_title
from generator.spec.json_schema import schema_data

_REFERENCE = "#/$defs/"
_KINDS = {"string": "text", "number": "number", "integer": "whole number", "boolean": "true or false"}
#: How a quantity is called by its unit.
_QUANTITIES = {
    "mm": "length",
    "kg": "mass",
    "N": "force",
    "kg/m^3": "density",
    "kg/m": "mass per length",
    "MPa": "modulus",
    "mm^4": "second moment",
}


def context(figures: Figures, ruler: Ruler) -> Context:
    """Groups in the order in which they are met: {name, about, keys: [{key, value, default, about, groups}]}.

    `cards` are the names of the typical data cards, by section and kind.
    """
    return {"groups": list(_groups()), "cards": list(_cards())}


def _cards() -> Iterator[tuple[str, str, list[str]]]:
    for section, entries in typical_cards().items():
        kinds: dict[str, list[str]] = {}
        for name, card in entries.items():
            kinds.setdefault(str(card.get("kind", "tote")), []).append(name)
        for kind, names in kinds.items():
            yield section, kind, names


def _groups() -> Iterator[Mapping[str, Any]]:
    data = schema_data()
    waiting, met = ["Spec"], {"Spec"}
    while waiting:
        name = waiting.pop(0)
        model = data if name == "Spec" else data["$defs"][name]
        keys = [_key(key, entry, model.get("required", ())) for key, entry in model["properties"].items()]
        yield {"name": name, "title": group_title(name), "about": model.get("description", ""), "keys": keys}
        for group in (group for key in keys for group in key["groups"] if group not in met):
            met.add(group)
            waiting.append(group)


def _key(key: str, entry: Mapping[str, Any], required: Any) -> Mapping[str, Any]:
    groups = list(dict.fromkeys(_referred(entry)))
    about = entry.get("description", "")
    if not about and len(groups) == 1:
        about = schema_data()["$defs"][groups[0]].get("description", "")
    return {
        "key": key,
        "value": _value(entry),
        "default": "required" if key in required else _default(entry.get("default")),
        "about": "" if about.startswith("A length; a bare number") else about,
        "groups": groups,
        "links": [(group_title(group), f"group-{group.lower()}") for group in groups],
    }


def _value(entry: Mapping[str, Any]) -> str:
    """What may be there, in words; groups of keys are named by the links beside it."""
    if "const" in entry:
        return f"`{entry['const']}`"
    if "enum" in entry:
        return ", ".join(f"`{word}`" for word in dict.fromkeys(map(str, entry["enum"])))
    if "x-unit" in entry:
        kind = _QUANTITIES.get(entry["x-unit"], "quantity")
        return f"{kind} or share" if "share" in entry.get("examples", ()) else kind
    if "additionalProperties" in entry and isinstance(entry["additionalProperties"], Mapping):
        return "entries by name"
    choices = [each for each in entry.get("anyOf", ()) if each.get("type") != "null"]
    if choices and "$ref" not in choices[0]:
        return _value(choices[0])
    if entry.get("type") == "array":
        return _list(entry)
    kind = entry.get("type", "")
    return _KINDS.get(kind[0] if isinstance(kind, list) else kind, "keys")


def _list(entry: Mapping[str, Any]) -> str:
    items = entry.get("prefixItems")
    if items:
        return f"[{', '.join(map(_value, items))}]"
    inner = _value(entry.get("items", {}))
    return "list" if inner == "keys" else f"list of: {inner}"


def _default(value: Any) -> str:
    if value is None or value in ("", [], {}):
        return "–"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, list):
        return f"[{', '.join(map(str, value))}]"
    return str(value)


def _referred(node: Any) -> Iterator[str]:
    if isinstance(node, Mapping):
        if str(node.get("$ref", "")).startswith(_REFERENCE):
            yield node["$ref"].removeprefix(_REFERENCE)
        for key, item in node.items():
            if key != "discriminator":
                yield from _referred(item)
    elif isinstance(node, list):
        for item in node:
            yield from _referred(item)


PAGE = Page("spec-reference", "Spec reference", "every key that a spec may have", context, about_specs=True)
