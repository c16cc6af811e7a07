"""The JSON Schema as an editor needs it: descriptions that say defaults, names of goods, no names of classes."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator, Mapping
from typing import Any

from generator.spec.cards import STANDARD, complete, typical_cards
from generator.spec.json_schema import schema_data
from generator.spec.references import REFERENCES, kind_of


def schema_json(spec: Mapping[str, Any] | None = None) -> str:
    """The schema as text, ending with a newline; keys that name goods offer those of `spec`, its data as written."""
    data = json.loads(json.dumps(schema_data()))
    _offer_goods(data, complete(spec or {}).data)
    groups = data["$defs"]
    data["$defs"] = {
        name: {**_in_words(model, _typical(name, groups), groups), "title": group_title(name)}
        for name, model in groups.items()
    }
    return json.dumps(_in_words(data, {}, groups), indent=1, ensure_ascii=False) + "\n"


def group_title(name: str) -> str:
    """A group of keys as a workshop calls it: `EndClip` is an end clip, `ZoneSpec` a zone."""
    words = re.sub(r"(?<!^)(?=[A-Z])", " ", name).lower()
    return "the spec itself" if words == "spec" else re.sub(r" (spec|card|choice|wishes)$", "", words)


def _offer_goods(data: dict[str, Any], spec: Mapping[str, Any]) -> None:
    """Give each key that names goods the names of the right kind, its own before the standard ones."""
    for each in REFERENCES:
        goods = spec[each.section]
        standard = STANDARD[each.section]
        names = [name for name, entry in goods.items() if not each.kinds or kind_of(entry) in each.kinds]
        names.sort(key=lambda name: name in standard)
        for node in _nodes(data, data, each.steps):
            if names:
                node["examples"] = names


def _nodes(data: Mapping[str, Any], node: dict[str, Any], steps: tuple[str, ...]) -> Iterator[dict[str, Any]]:
    """The schemas of a key; there are several where an item has more than one shape."""
    if not steps:
        yield node
        return
    if "$ref" in node:
        yield from _nodes(data, data["$defs"][node["$ref"].rpartition("/")[2]], steps)
    for member in (*node.get("anyOf", ()), *node.get("oneOf", ())):
        yield from _nodes(data, member, steps)
    inner = node.get("properties", {}).get(steps[0])
    if steps[0] == "*":
        inner = node.get("items") or node.get("additionalProperties")
    if isinstance(inner, dict):
        yield from _nodes(data, inner, steps[1:])


def _in_words(model: Mapping[str, Any], card: Mapping[str, Any], groups: Mapping[str, Any]) -> dict[str, Any]:
    """A group whose keys name their default in the description, or a typical value: editors show nothing else."""
    keys = {
        key: _described(entry, card.get(key), groups) for key, entry in model.get("properties", {}).items()
    }
    return {**model, "properties": keys} if keys else dict(model)


def _described(written: dict[str, Any], typical: Any, groups: Mapping[str, Any]) -> dict[str, Any]:
    """A key without the name of its class; one that is a group says what the group says."""
    entry = {key: value for key, value in written.items() if key != "title"}
    if "$ref" in entry and "description" not in entry:
        entry["description"] = groups[entry["$ref"].rpartition("/")[2]].get("description", "")
    if "const" in entry and "description" not in entry:
        entry["description"] = f"What it is: {entry['const']}."
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
