"""The JSON Schema of the spec language."""

from __future__ import annotations

import json
from collections.abc import Mapping
from fractions import Fraction
from functools import cache
from typing import Any

from generator.calculators.spacing import Share
from generator.spec.cards import SECTIONS, typical_cards
from generator.spec.schema import Spec
from generator.units.format import format_mm

DIALECT = "https://json-schema.org/draft/2020-12/schema"


@cache
def schema_data() -> Mapping[str, Any]:
    """JSON Schema (draft 2020-12) of the language as plain data."""
    data = _as_written(Spec.model_json_schema())
    return {"$schema": DIALECT, **data, "title": "bench-manual spec"}


def schema_json() -> str:
    """The same as text, ending with a newline."""
    data = dict(schema_data())
    data["$defs"] = {
        name: _in_words(model, _typical(name, data["$defs"])) for name, model in data["$defs"].items()
    }
    return json.dumps(_in_words(data, {}), indent=1, ensure_ascii=False) + "\n"


def _in_words(model: Mapping[str, Any], card: Mapping[str, Any]) -> dict[str, Any]:
    """A group whose keys name their default in the description, or a typical value: editors show nothing else."""
    keys = {key: _described(entry, card.get(key)) for key, entry in model.get("properties", {}).items()}
    return {**model, "properties": keys} if keys else dict(model)


def _described(entry: dict[str, Any], typical: Any) -> dict[str, Any]:
    default = entry.get("default")
    if default not in (None, "", [], {}):
        more = f" Default: {_said(default)}."
    elif typical and not isinstance(typical, dict) and "such as" not in entry["description"]:
        more = f" Typical: {_said(typical)}."
    else:
        return entry
    return {**entry, "description": entry["description"] + more}


def _said(value: Any) -> str:
    if isinstance(value, list):
        return f"[{', '.join(map(_said, value))}]"
    return str(value).lower() if isinstance(value, bool) else str(value)


def _typical(name: str, groups: Mapping[str, Any]) -> Mapping[str, Any]:
    """What the first typical card of a kind of goods has for its keys, or for a group in it: the slot of a bar."""
    cards = {str(card.get("kind", "tote")): card for card in reversed(_cards())}
    for group, model in groups.items():
        keys = model.get("properties", {})
        card = cards.get("tote" if group == "ToteCard" else keys.get("kind", {}).get("const"), {})
        if group == name:
            return {key: card[key] for key in card if key not in ("kind", "label", "stock")}
        inner = [key for key in card if keys.get(key, {}).get("$ref", "").endswith(f"/{name}")]
        if inner:
            return dict(card[inner[0]])
    return {}


def _cards() -> list[Mapping[str, Any]]:
    return [card for entries in typical_cards().values() for card in entries.values()]


def _as_written(data: dict[str, Any]) -> dict[str, Any]:
    """Fit the models' schema to what a user may write: `spec: 1` as a number, entries that only say `use:`."""
    properties = data["properties"]
    properties["spec"] = {"enum": [1, "1"], "description": "Version of the spec language: 1."}
    card = {
        "type": "object",
        "properties": {
            "use": {"type": "string", "description": "Name of a typical data card, such as `profile 40`."}
        },
        "required": ["use"],
    }
    for section in SECTIONS:
        entry = properties[section]["additionalProperties"]
        properties[section]["additionalProperties"] = {"anyOf": [entry, card]}
    _give_defaults_their_unit(data)
    return data


def _give_defaults_their_unit(node: Any) -> None:
    """A default without a unit would be read in the spec's own; `x-unit` says in which the models hold it."""
    if isinstance(node, list):
        for item in node:
            _give_defaults_their_unit(item)
    if not isinstance(node, dict):
        return
    default = node.get("default")
    if isinstance(default, dict) and default.keys() == {"weight"}:
        node["default"] = str(Share(Fraction(default["weight"])))
    elif isinstance(default, str) and "x-unit" in node:
        node["default"] = f"{format_mm(Fraction(default), 3)} {node['x-unit']}"
    elif isinstance(default, int) and f"1/{default}" in node.get("enum", ()):  # a fraction of an inch
        node["default"] = f"1/{default}"
    elif isinstance(default, list) and default and node.get("prefixItems"):
        units = [item.get("x-unit") for item in node["prefixItems"]]
        if all(units):
            node["default"] = [
                f"{format_mm(Fraction(each), 3)} {unit}" for each, unit in zip(default, units, strict=True)
            ]
    for item in node.values():
        _give_defaults_their_unit(item)
