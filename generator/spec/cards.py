"""Typical data cards, and the names that a spec may use without defining them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any

import yaml

from generator.findings import nearest
from generator.resources import bundled
from generator.spec.bracing import STANDARD as BRACING
from generator.spec.fillings.doors import STANDARD as DOORS
from generator.spec.joining import STANDARD as JOINING
from generator.spec.joints import STANDARD as JOINTS
from generator.spec.references import own_goods
from generator.spec.stands import STANDARD as STANDS
from generator.spec.text_file import read_text

#: What the defaults of the language refer to. A spec that defines the name itself overrides the card.
STANDARD = {
    "materials": {
        "bar": "profile 40",
        "ply-12": "plywood 12",
        "ply-6": "plywood 6",
        "ply-18": "plywood 18",
        "mdf-18": "mdf 18",
        "poplar-15": "strip 50 x 15",
        "poplar-20": "strip 50 x 20",
        "angle-15": "angle 15",
    },
    "hardware": {
        **JOINTS,
        "slot-nut": "slot nut M8",
        "slide": "slide 500",
        **STANDS,
        **DOORS,
        **BRACING,
        **JOINING,
    },
    "totes": {},
}
SECTIONS = tuple(STANDARD)


@cache
def typical_cards() -> Mapping[str, Mapping[str, Mapping[str, Any]]]:
    """Every shipped card: section -> name -> keys, as text."""
    # every scalar is a text, as in a spec; what is shipped has no faults to look for, and its places are of no use
    loader = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
    data: Mapping[str, Mapping[str, Mapping[str, Any]]] = yaml.load(
        read_text(bundled("specs") / "cards.yml"), Loader=loader
    )
    return data


@dataclass(frozen=True)
class UnknownCard:
    """A `use:` that names no shipped card: its key path, the name, all names of that section, the nearest of them."""

    path: tuple[str, ...]
    name: str
    allowed: tuple[str, ...]
    nearest: str


@dataclass(frozen=True)
class Completed:
    """The spec's data with cards laid under it. `typical` names the card under each entry that has one."""

    data: dict[str, Any]
    typical: Mapping[tuple[str, str], str]
    unknown: tuple[UnknownCard, ...]


def complete(data: Mapping[str, Any]) -> Completed:
    """Lay typical cards under the entries that say `use:`, and add the standard names a spec leaves out.

    A key that is left out takes the spec's own goods of that kind before a standard card.
    """
    result = dict(data)
    own: dict[str, dict[str, Any]] = {}
    typical: dict[tuple[str, str], str] = {}
    unknown: list[UnknownCard] = []
    for section in SECTIONS:
        entries = data.get(section)
        if entries is not None and not isinstance(entries, dict):
            continue
        merged: dict[str, Any] = {}
        standard = {name: {"use": card} for name, card in STANDARD[section].items()}
        for name, entry in {**standard, **(entries or {})}.items():
            merged[name] = entry
            if not isinstance(entry, dict) or not isinstance(entry.get("use"), str):
                continue
            card = typical_cards()[section].get(entry["use"])
            if card is None:
                names = tuple(typical_cards()[section])
                unknown.append(
                    UnknownCard((section, name, "use"), entry["use"], names, nearest(entry["use"], names))
                )
                del merged[name]
                continue
            merged[name] = {**card, **entry}
            typical[section, name] = entry["use"]
        result[section] = merged
        own[section] = {name: merged[name] for name in entries or {} if name in merged}
    cards = {
        section: {name: typical_cards()[section][card] for name, card in names.items()}
        for section, names in STANDARD.items()
    }
    for reference, name in own_goods(data, cards, own):
        if not name:
            shipped = STANDARD[reference.section][reference.default]
            entry = {**cards[reference.section][reference.default], "use": shipped}
            name = shipped
            while result[reference.section].get(name, entry) != entry:
                name = f"typical {name}"
            result[reference.section][name] = entry
            typical[reference.section, name] = shipped
        _put(result, reference.steps, name)
    return Completed(result, typical, tuple(unknown))


def _put(data: dict[str, Any], path: tuple[str, ...], name: str) -> None:
    """Write a name at a key, in groups of their own; a value that is no group is a fault that is reported elsewhere."""
    for step in path[:-1]:
        group = data.get(step, {})
        if not isinstance(group, dict):
            return
        data[step] = dict(group)
        data = data[step]
    data[path[-1]] = name
