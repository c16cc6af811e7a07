"""Goods for a first spec that suit each other: fasteners by the bar's bore, packing by bar and panel."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from generator.calculators.fasteners import THREADS, WASHERS, bolt_window, stock_lengths
from generator.calculators.fits import packing_thickness
from generator.spec.cards import STANDARD, typical_cards
from generator.spec.references import REFERENCES
from generator.spec.schema import Drawers
from generator.units.parse import parse_length

#: The name under which the defaults of the language look for a card of each kind; a sheet's depends on the sheet.
NAMES = {
    "profile": "bar",
    "strip": "poplar-15",
    "angle": "angle-15",
    "end clip": "end-clip",
    "through screw": "through-screw",
    "slot nut": "slot-nut",
    "bracket": "bracket",
    "slide": "slide",
}
#: Sheets by what they are used for: up to this thickness (mm) a bottom, a wall, and above it a front.
BOTTOM, WALL = Fraction(7), Fraction(16)
#: Under `hardware`, what takes the bar's thread.
THREADED = {
    "end-clip": "most joints",
    "through-screw": "joints that pull the frame together",
    "slot-nut": "casters, top brackets",
}


class UnsuitedCardsError(ValueError):
    """Two cards that do not go together; the message says why and what to write instead."""


@dataclass(frozen=True)
class StarterGoods:
    """`used` are cards to refer to and why, `written` those to write out: section -> key -> (card, remark).

    `section` is the bar's, in mm; `thread` is what its ends and its slots take.
    """

    used: Mapping[str, Mapping[str, tuple[str, str]]]
    written: Mapping[str, Mapping[str, str]]
    section: Fraction
    thread: str


def key_of(card: str) -> tuple[str, str]:
    """Section and standard name under which a card is written. Raises KeyError for one that is not shipped."""
    section, values = _find(card)
    if values.get("kind") == "sheet":
        thickness = parse_length(values["thickness"], "mm")
        wall = "ply-6" if thickness <= BOTTOM else "ply-12" if thickness <= WALL else "ply-18"
        return section, "mdf-18" if card.startswith("mdf") else wall
    return section, name_of(values["kind"]) if "kind" in values else "tote"


def name_of(kind: str) -> str:
    """The name under which the defaults of the language look for goods of a kind; without a default, the kind's own."""
    if kind in NAMES:
        return NAMES[kind]
    cards = typical_cards()["hardware"]
    return {cards[card]["kind"]: name for name, card in STANDARD["hardware"].items()}.get(
        kind, kind.replace(" ", "-")
    )


def wishes(goods: StarterGoods) -> dict[str, dict[str, str]]:
    """Part of the spec -> key -> name, of the keys that must be written for the goods to be used at all."""
    cards, found = typical_cards(), dict[str, dict[str, str]]()
    for each in REFERENCES:
        # a group within a part, such as an edging, asks for more than the name of its goods
        if not each.kinds or each.default or "*" in each.steps or len(each.steps) > 2:
            continue
        for name, card in goods.written.get(each.section, {}).items():
            if cards[each.section][card]["kind"] in each.kinds:
                part, key = each.steps
                found.setdefault(part, {})[key] = name
    return found


def suited_goods(
    defaults: Mapping[str, Mapping[str, tuple[str, str]]], units: str, cards: Sequence[str]
) -> StarterGoods:
    """The defaults of a unit, changed to suit the cards that are asked for. Raises UnsuitedCardsError, or KeyError."""
    written: dict[str, dict[str, str]] = {}
    for card in cards:
        section, key = key_of(card)
        other = written.setdefault(section, {}).setdefault(key, card)
        if other != card:
            raise UnsuitedCardsError(
                f"'{other}' and '{card}' are both for `{section}.{key}`; leave one of them out"
            )
    used = {section: dict(entries) for section, entries in defaults.items()}
    bar, thread = _bar(used, written, units)
    if "bar" not in written.get("materials", {}):
        used["materials"]["bar"] = (bar, used["materials"]["bar"][1])
    for key, what in THREADED.items():
        if key not in written.get("hardware", {}):
            _use(used, "hardware", key, _threaded(key, thread), what)
    _packing(used, written, bar, units)
    _bracket(used, written, bar, thread)
    return StarterGoods(used, written, _length(bar, "section"), thread)


def _find(card: str) -> tuple[str, Mapping[str, Any]]:
    for section, entries in typical_cards().items():
        if card in entries:
            return section, entries[card]
    raise KeyError(card)


def _length(card: str, key: str) -> Fraction:
    return parse_length(_find(card)[1][key], "mm")


def _use(used: dict[str, dict[str, tuple[str, str]]], section: str, key: str, card: str, what: str) -> None:
    """Refer to a card where it is not the one that the language takes by itself."""
    if used.get(section, {}).get(key, (STANDARD[section].get(key), ""))[0] != card:
        used.setdefault(section, {})[key] = (card, what)


def _thread_of(card: str) -> str:
    """The thread of a bar's bore, of a screw or of a nut."""
    values = _find(card)[1]
    if "bore" in values:
        bore = parse_length(values["bore"], "mm")
        return next(thread.name for thread in THREADS.values() if thread.takes(bore))
    return str(values.get("thread") or values["screw"].partition("x")[0]).strip()


def _bar(
    used: Mapping[str, Mapping[str, tuple[str, str]]], written: Mapping[str, Mapping[str, str]], units: str
) -> tuple[str, str]:
    """The bar and its thread: the one asked for, or one that is bored for the fasteners asked for."""
    fasteners = [card for key, card in written.get("hardware", {}).items() if key in THREADED]
    default = used["materials"]["bar"][0]
    bars = [name for name, card in typical_cards()["materials"].items() if card["kind"] == "profile"]
    bar = written.get("materials", {}).get("bar")
    if bar is None:
        wanted = {_thread_of(card) for card in fasteners}
        suited = [name for name in (default, *bars) if wanted <= {_thread_of(name)}]
        bar = suited[0] if suited else default
    thread = _thread_of(bar)
    for card in fasteners:
        if _thread_of(card) != thread:
            raise UnsuitedCardsError(
                f"'{card}' has the thread {_thread_of(card)}, and '{bar}' is bored for {thread}; leave one out, and "
                "the starter takes one that suits the other"
            )
    return bar, thread


def _threaded(key: str, thread: str) -> str:
    cards = typical_cards()["hardware"]
    return next(name for name in cards if name_of(cards[name]["kind"]) == key and _thread_of(name) == thread)


def _packing(
    used: dict[str, dict[str, tuple[str, str]]],
    written: Mapping[str, Mapping[str, str]],
    bar: str,
    units: str,
) -> None:
    """The thinnest strip that brings a slide out from the panel's face before the bar's."""
    own = written.get("materials", {})
    panel = own.get("ply-12") or used["materials"]["ply-12"][0]
    offset = (_length(bar, "section") - _length(panel, "thickness")) / 2
    needed = packing_thickness(offset, Drawers().proud)
    strips = [name for name, card in typical_cards()["materials"].items() if card["kind"] == "strip"]
    fitting = [name for name in _own_unit(strips, units) if _length(name, "thickness") >= needed]
    chosen = own.get("poplar-15")
    if chosen is None:
        usual = used["materials"].get("poplar-15", (STANDARD["materials"]["poplar-20"], ""))[0]
        if _length(usual, "thickness") < needed and fitting:
            _use(used, "materials", "poplar-15", fitting[0], "packing strips, cleats")
    elif chosen not in fitting:
        raise UnsuitedCardsError(
            f"'{chosen}' is too thin for packing strips between '{bar}' and '{panel}'"
            + (f"; take '{fitting[0]}'" if fitting else "")
        )


def _bracket(
    used: Mapping[str, Mapping[str, tuple[str, str]]],
    written: Mapping[str, Mapping[str, str]],
    bar: str,
    thread: str,
) -> None:
    """Refuse a bracket through which no stock bolt reaches its nut without touching the slot's floor."""
    hardware = written.get("hardware", {})
    bracket = hardware.get("bracket")
    if bracket is None:
        return
    nut = (
        hardware.get("slot-nut")
        or used.get("hardware", {}).get("slot-nut", (STANDARD["hardware"]["slot-nut"], ""))[0]
    )
    slot = _find(bar)[1]["slot"]
    window = bolt_window(
        grip=parse_length(_find(bracket)[1]["size"][2], "mm") + WASHERS[thread].thickness,
        lip=parse_length(slot["lip"], "mm"),
        nut=_length(nut, "height"),
        slot_depth=parse_length(slot["depth"], "mm"),
        lengths=stock_lengths(thread),
    )
    if window.length is None:
        raise UnsuitedCardsError(
            f"no standard {thread} bolt fits '{bracket}' on '{bar}'; leave one of them out"
        )


def _own_unit(names: Iterable[str], units: str) -> list[str]:
    """Thinnest first, those that are sold in the spec's own unit before the others."""
    return sorted(
        names, key=lambda name: (name.endswith(" in") != (units == "in"), _length(name, "thickness"))
    )
