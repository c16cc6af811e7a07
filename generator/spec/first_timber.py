"""A first spec of a bench of timber, where a card of a timber or of a joint between timbers is asked for."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from generator.spec.cards import typical_cards
from generator.units.parse import parse_length

#: Kinds of cards for which the frame is of timber, by the key of `frame.joints` that they are for.
TIMBER = "timber"
JOINTS: Mapping[str, str] = {
    "mortise and tenon": "default", "half lap": "default", "bridle": "default",
    "barrel bolt": "long_rails_to_corner_posts", "structural screw": "long_rails_to_corner_posts",
    "pocket screw": "inner_post_tops",
}  # fmt: skip
#: Those that need a thicker post than the usual one: a lap loses to a head's recess, a long screw to a panel.
THICK_ONLY = ("half lap", "structural screw")
#: What bigger posts than this (mm) take instead of tenons and barrel bolts.
THIN = Fraction(75)
#: Posts and rails: thin ones are of one section, thick ones of two.
POSTS, HIGH = {True: "beech 70 x 70", False: "Douglas fir 4 x 4 in"}, {False: "Douglas fir 4 x 6 in"}
USUAL = {
    True: {"default": "tenon 23", "long_rails_to_corner_posts": "barrel bolt M8"},
    False: {"default": "half lap", "long_rails_to_corner_posts": "structural screw 5/16 x 7 in"},
}
#: Minutes that the glue of a first bench should stay open.
OPEN = 20


@dataclass(frozen=True)
class _Usual:
    """What a bench of timber in one unit is made from; sizes in that unit, some for thin and for thick posts."""

    thin: bool
    depths: Mapping[bool, str]
    heights: Mapping[bool, str]
    setbacks: Mapping[bool, str]
    goods: Mapping[str, Mapping[str, str]]
    plates: Mapping[bool, str]
    large_plate: str
    also: tuple[str, ...]


_USUAL = {
    "mm": _Usual(
        True, {True: "760", False: "720"}, {True: "900", False: "930"}, {True: "26", False: "46"},
        {
            "materials": {"ply-12": "plywood 12", "cleat": "strip 50 x 20", "packing": "strip 50 x 45"},
            "hardware": {"bracket": "bracket 40", "foot": "foot M10"},
        },
        {True: "[200, 200], thickness: 12", False: "[200, 200], thickness: 12"}, "[270, 240], thickness: 12",
        (),
    ),
    "in": _Usual(
        False, {True: "30", False: "30"}, {True: "36", False: "36"}, {True: "1 1/8", False: "2"},
        {
            "materials": {"ply": "plywood 1/2 in", "cleat": "strip 2 x 3/4 in", "packing": "strip 2 x 1 3/4 in"},
            "hardware": {"bracket": "bracket 1 1/2 in", "foot": "foot M10"},
        },
        {True: "[7 1/4, 7 1/4], thickness: 1/2", False: "[8, 8], thickness: 1/2"}, "[10 1/2, 9 1/2], thickness: 1/2",
        ("panels: {material: ply}", "tray: {material: ply}"),
    ),
}  # fmt: skip


#: Section -> name in the spec -> card.
Goods = Mapping[str, Mapping[str, str]]
#: What a bay holds, first and last, where high rails leave no room to tilt a shelf in.
LOW_STACKS = ("{drawer: share}, {drawer: share}", "{drawer: share}")


class UnsuitedTimbersError(ValueError):
    """Two cards that do not go together; the message says why and what to do."""


def is_of_frame(card: str) -> bool:
    """Whether a card is that of a timber or of a joint between timbers."""
    return _kind(card) in (TIMBER, *JOINTS)


def of_timber(cards: Sequence[str]) -> bool:
    """Whether one of these cards asks for a frame of timber. Raises KeyError for a card that is not shipped."""
    return any(_kind(card) in (TIMBER, *JOINTS) for card in cards)


def post_of(units: str, cards: Sequence[str]) -> Fraction:
    """How thick the posts are (mm)."""
    return _section(_posts(units, cards)[0])[0]


def sections_of(units: str, cards: Sequence[str], others: Goods) -> dict[str, dict[str, str]]:
    """Section -> name in the spec -> card, with all that the frame needs; `others` are those that are no part of it.

    Raises UnsuitedTimbersError.
    """
    usual = _USUAL[units]
    found = {section: dict(entries) for section, entries in usual.goods.items()}
    post, rail = _posts(units, cards)
    sheet = next(iter(found["materials"].keys() & {"ply", "ply-12"}))
    if post_of(units, cards) <= THIN:
        # its groove leaves wood beside the coach screws of the plates, which a thicker sheet's does not
        found["materials"][sheet] = _USUAL["mm"].goods["materials"]["ply-12"]
    found["materials"] = {"leg": post, **({"rail": rail} if rail != post else {}), **found["materials"]}
    if high_rails(units, cards):
        del found["materials"]["cleat"]
    joints = _joints(units, cards)
    found["hardware"] = {**{_name(card): card for card in joints.values()}, **found["hardware"]}
    called = {"poplar-15": "packing", "ply-12": sheet}
    for section, entries in others.items():
        for key, card in entries.items():
            found.setdefault(section, {})[called.get(key, key)] = card
    return found


def frame_lines(units: str, cards: Sequence[str]) -> list[str]:
    """The frame, and what follows from it."""
    joints = _joints(units, cards)
    post, rail = _posts(units, cards)
    named = {key: _name(card) for key, card in joints.items()}
    return [
        "# End frames, base and top grid are glued; the long rails come off again.",
        "frame:",
        "  system: timber",
        "  posts: leg",
        *(["  rails: rail"] if rail != post else []),
        f"  joints: {{{', '.join(f'{key}: {name}' for key, name in named.items())}}}",
    ]


def stands_on(sections: dict[str, dict[str, str]], wished: Goods) -> None:
    """Leave the usual feet out where a card is asked for that the bench stands on instead."""
    if "base" in wished and "foot" not in wished["base"].values():
        sections["hardware"].pop("foot", None)


def rest_lines(
    units: str,
    cards: Sequence[str],
    wished: Mapping[str, Mapping[str, str]],
    sections: dict[str, dict[str, str]],
) -> list[str]:
    """Drawers, shelves, top and what the bench stands on; `wished` are the keys by which other cards are used."""
    usual, thin = _USUAL[units], post_of(units, cards) <= THIN
    stand = wished.get("base", {})
    plate = usual.large_plate if stand else usual.plates[thin]
    base = {**(stand or {"feet": "foot"}), "count": "4", "plate": f"{{size: {plate}}}"}
    parts: dict[str, dict[str, str]] = {
        "drawers": {"packing": "packing", "slide_setback": usual.setbacks[thin]},
        **({"shelves": {"cleat": "cleat"}} if "cleat" in sections["materials"] else {}),
        "top": {"bracket": "bracket"},
    }
    for part, keys in wished.items():
        if part != "base":
            parts[part] = {**parts.get(part, {}), **keys}
    return [
        *usual.also,
        *(f"{part}: {_keys(keys)}" for part, keys in parts.items()),
        "",
        "# What the bench stands on.",
        f"base: {_keys(base)}",
    ]


def _keys(keys: Mapping[str, str]) -> str:
    return f"{{{', '.join(f'{key}: {value}' for key, value in keys.items())}}}"


def glued(card: str) -> bool:
    """Whether a joint's card has a glue, whose open time a first bench makes long enough."""
    return JOINTS.get(_kind(card)) == "default"


def high_rails(units: str, cards: Sequence[str]) -> bool:
    """Whether the rails leave less height between them than those of slotted bars."""
    post, rail = _posts(units, cards)
    return post != rail


def outside(units: str, cards: Sequence[str]) -> tuple[str, str]:
    """Depth and height of the bench, in its unit."""
    thin, usual = post_of(units, cards) <= THIN, _USUAL[units]
    return usual.depths[thin], usual.heights[thin]


def _card(name: str) -> Mapping[str, Any]:
    for entries in typical_cards().values():
        if name in entries:
            return entries[name]
    raise KeyError(name)


def _kind(card: str) -> str:
    return str(_card(card).get("kind", ""))


def _name(card: str) -> str:
    """What the spec calls a joint: `tenon`, `half-lap`."""
    return _kind(card).split(" and ")[-1].replace(" ", "-")


def _section(card: str) -> tuple[Fraction, Fraction]:
    thick, wide = _card(card)["section"]
    return parse_length(thick, "mm"), parse_length(wide, "mm")


def _posts(units: str, cards: Sequence[str]) -> tuple[str, str]:
    """Timber of the posts, which are square, and of the rails, which are as thick."""
    timbers = [card for card in cards if _kind(card) == TIMBER]
    kinds = {_kind(card) for card in cards}
    square = [card for card in timbers if len(set(_section(card))) == 1]
    thin = (_USUAL[units].thin and not kinds & set(THICK_ONLY)) or "barrel bolt" in kinds
    if timbers:
        thin = _section(timbers[0])[0] <= THIN
    post = square[0] if square else POSTS[thin]
    rail = next((card for card in timbers if card != post), HIGH.get(thin, post))
    if _section(rail)[0] != _section(post)[0] or len(timbers) > 2:
        raise UnsuitedTimbersError(
            f"rails of '{rail}' are not as thick as posts of '{post}'; leave one of them out"
        )
    for card in cards:
        unsuited = _kind(card) in THICK_ONLY if thin else _kind(card) == "barrel bolt"
        if unsuited:
            raise UnsuitedTimbersError(f"'{card}' does not suit posts of '{post}'; leave one of them out")
    return post, rail


def _joints(units: str, cards: Sequence[str]) -> dict[str, str]:
    """Key of `frame.joints` -> card."""
    found: dict[str, str] = {}
    for card in cards:
        key = JOINTS.get(_kind(card))
        if key is not None and found.setdefault(key, card) != card:
            raise UnsuitedTimbersError(
                f"'{found[key]}' and '{card}' are both for `frame.joints.{key}`; leave one of them out"
            )
    chosen = {**USUAL[post_of(units, cards) <= THIN], **found}
    return {**chosen, "inner_post_tops": found.get("inner_post_tops", chosen["default"])}
