"""The JSON Schema of the spec language."""

from __future__ import annotations

from collections.abc import Mapping
from copy import deepcopy
from fractions import Fraction
from functools import cache
from typing import Any

from generator.calculators.spacing import Share
from generator.spec.cards import SECTIONS, typical_cards
from generator.spec.schema import Spec
from generator.units.format import format_mm

DIALECT = "https://json-schema.org/draft/2020-12/schema"
ID = "urn:bench-manual:spec:1"
"""The schema's own name, which stays the same wherever it is kept: version 1 of the language."""


@cache
def schema_data() -> Mapping[str, Any]:
    """JSON Schema (draft 2020-12) of the language as plain data."""
    data = _as_written(Spec.model_json_schema())
    return {"$schema": DIALECT, "$id": ID, **data, "title": "bench-manual spec"}


def _as_written(data: dict[str, Any]) -> dict[str, Any]:
    """Fit the models' schema to what a user may write: `spec: 1` as a number, entries that only say `use:`."""
    properties = data["properties"]
    properties["spec"] = {"enum": [1, "1"], "description": "Version of the spec language: 1."}
    for section in SECTIONS:
        goods = properties[section]["additionalProperties"]
        models = [each["$ref"].rpartition("/")[2] for each in goods.get("oneOf", [goods])]
        carded = {f"{model}FromCard": _from_card(section, data["$defs"][model]) for model in models}
        data["$defs"] |= {name: group for name, group in carded.items() if group}
        offered = [{"$ref": f"#/$defs/{name}"} for name, group in carded.items() if group]
        properties[section]["additionalProperties"] = {"anyOf": [goods, *offered]}
    _give_defaults_their_unit(data)
    return data


def _from_card(section: str, model: Mapping[str, Any]) -> dict[str, Any]:
    """Goods that begin with a typical card of their kind and say only what is different; none without such a card."""
    kind = model["properties"].get("kind", {}).get("const")
    names = [name for name, card in typical_cards()[section].items() if card.get("kind") == kind]
    if not names:
        return {}
    use = {"enum": names, "description": f"Name of a typical data card, such as `{names[0]}`."}
    keys = deepcopy(model["properties"])  # what follows rewrites each group in place
    return {**model, "properties": {**keys, "use": use}, "required": ["use"]}


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
