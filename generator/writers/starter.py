"""A first spec as text: commented, short, and building as it is, in either unit and with as many bays as asked for."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from generator.spec import first_timber as timber
from generator.spec.cards import typical_cards
from generator.spec.stands.plates import Plate
from generator.units.format import format_inch, format_mm
from generator.units.parse import parse_length
from generator.units.sizes import INCH
from generator.writers.starter_goods import StarterGoods, UnsuitedCardsError, key_of, suited_goods, wishes

SCHEMA_FILE = "bench-manual.schema.json"
"""The schema that the first line points editors to, beside the spec."""
MANY_BAYS = 3
"""From this many bays on, the bench stands on six."""
FEW, MANY = 4, 6
"""How many supports the bench stands on, with fewer bays and with more."""

_STACKS = (
    "{drawer: share 2}, {drawer: share}, {drawer: share}",
    "{shelf: LOW}, {shelf: HIGH}",
    "{shelf: LOW}",
)
#: Thickness of caster plate and top bracket between which bolts are sold for the bar and nut of a thread, as text.
_PLATES = {"M6": "12 mm", "M8": "10 mm", "M10": "12 mm", "5/16-18": "5/16 in"}
_BRACKETS = {"M10": "5 mm"}


@dataclass(frozen=True)
class _Sizes:
    """What a bench of one unit is made from; lengths in that unit. `longest` still fits a sheet and a door.

    Other goods may be lighter than the usual ones: such a bench has `other_depth`, so that a pull does not tip it.
    """

    about: str
    bay: Fraction
    tote_bay: Fraction
    longest: Fraction
    depth: str
    other_depth: str
    tote_depth: str
    height: str
    low: str
    high: str
    holes: str
    plate: str
    large_plate: str
    loads: str
    cards: Mapping[str, Mapping[str, tuple[str, str]]]


_BAR = "the frame's bar: slot, bore, mass"
_PLY = "dividers, ends, tray, drawer boxes; tongues are cut to its real thickness"
_SIZES = {
    "mm": _Sizes(
        "numbers without a unit are millimetres; you can also write 23 5/8 in or 1.2 m",
        Fraction(590), Fraction(400), Fraction(2000), "700", "760", "800", "900", "60", "300",
        "{diameter: 20, pitch: 96, edge: 60}",
        "",
        "size: [180, 180]",
        "{drawer: 20 kg, shelf: 15 kg, top: 100 kg}",
        {"materials": {"bar": ("profile 40", _BAR), "ply-12": ("plywood 12", _PLY)}},
    ),
    "in": _Sizes(
        "numbers without a unit are inches; you can also write 600 mm or 3 ft 2 1/2 in",
        Fraction(23), Fraction(63, 4), Fraction(79), "28", "30", "32", "35 1/2", "2 1/2", "12",
        "{diameter: 3/4, pitch: 4, edge: 2 1/2}",
        "size: [6 1/2, 6 1/2]",
        "size: [7 1/4, 7 1/4]",
        "{drawer: 20 lb, shelf: 15 lb, top: 100 lb}",
        {
            "materials": {
                "bar": ("profile 1 1/2 in", _BAR),
                "ply-12": ("plywood 1/2 in", _PLY),
                "ply-6": ("plywood 1/4 in", "drawer bottoms"),
                "ply-18": ("plywood 3/4 in", "drawer fronts, shelves"),
                "mdf-18": ("mdf 3/4 in", "the top"),
                "poplar-15": ("strip 2 x 5/8 in", "packing strips, cleats"),
            },
            "hardware": {
                "end-clip": ("end clip 5/16 in", "most joints"),
                "through-screw": ("through screw 5/16 in", "joints that pull the frame together"),
                "slot-nut": ("slot nut 5/16 in", "casters, top brackets"),
                "slide": ("slide 18 in", "drawers"),
                "caster": ("caster 4 in", "the bench stands on four or six"),
            },
        },
    ),
}  # fmt: skip


def starter_text(units: str = "mm", bays: int = 2, cards: Sequence[str] = ()) -> str:
    """A spec in `units` with `bays` bays; `cards` are typical cards to write out in full, ready for your own values.

    What suits those cards comes with them. Raises KeyError with the name of a card that is not shipped,
    UnsuitedCardsError for two that do not go together.
    """
    sizes = _SIZES[units]
    if timber.of_timber(cards):
        return _of_timber(sizes, units, bays, cards)
    goods = suited_goods(sizes.cards, units, cards)
    sections = _sections(goods)
    tote = next(iter(sections.get("totes", {})), "")
    depth = sizes.tote_depth if tote else sizes.other_depth if cards else sizes.depth
    length = _number(_length(sizes, goods, units, bays, bool(tote)), units)
    lines = _head(sizes, units, (length, depth, sizes.height))
    for section, entries in sections.items():
        lines += [f"{section}:", *entries.values()]
    lines += [*_zones(sizes, units, bays, tote), *_top_and_base(sizes, goods, units, bays)]
    return "\n".join(lines) + "\n"


def _of_timber(sizes: _Sizes, units: str, bays: int, cards: Sequence[str]) -> str:
    """A bench of timber: cards that are asked for are written out, the others are used."""
    others: dict[str, dict[str, str]] = {}
    for card in cards:
        if not timber.is_of_frame(card):
            section, key = key_of(card)
            others.setdefault(section, {})[key] = card
    try:
        sections = timber.sections_of(units, cards, others)
    except timber.UnsuitedTimbersError as error:
        raise UnsuitedCardsError(str(error)) from None
    wished = wishes(StarterGoods({}, others, timber.post_of(units, cards), ""))
    timber.stands_on(sections, wished)
    post = timber.post_of(units, cards) / (INCH if units == "in" else 1)
    held = next(iter(sections.get("totes", {})), "")
    last = sizes.tote_bay if held else sizes.bay
    whole = sizes.bay * (bays - 1) + last + post * (bays + 1)
    depth, height = timber.outside(units, cards)
    length = _number(min(Fraction(math.ceil(whole * 4), 4), sizes.longest), units)
    lines = _head(sizes, units, (length, depth, height))
    for section, entries in sections.items():
        lines.append(f"{section}:")
        for key, card in entries.items():
            line = _written(section, key, card) if card in cards else f"  {key}: {{use: {card}}}"
            lines.append(f"{line[:-1]}, open_time: {timber.OPEN}}}" if timber.glued(card) else line)
    return (
        "\n".join(
            [
                *lines,
                "",
                *timber.frame_lines(units, cards),
                *_zones(
                    sizes,
                    units,
                    bays,
                    held,
                    timber.LOW_STACKS if timber.high_rails(units, cards) else _STACKS,
                ),
                *timber.rest_lines(units, cards, wished, sections),
                f"loads: {sizes.loads}",
            ]
        )
        + "\n"
    )


def _head(sizes: _Sizes, units: str, outside: tuple[str, str, str]) -> list[str]:
    """What every first spec begins with; `outside` are length, depth and height in its unit."""
    length, depth, height = outside
    return [
        f"# yaml-language-server: $schema={SCHEMA_FILE}",
        "# A first bench. You can build it at once:  bench-manual build THIS-FILE",
        "# Change one line, build again, and see what changed. Every key that you leave out has a default. The manual",
        '# lists all defaults under "Assumed values", and all keys under "Spec reference".',
        "spec: 1                            # version of the language",
        "title: My first bench",
        f"units: {units:27} # {sizes.about}",
        "",
        "# Outside sizes. The height is from the floor to the work surface.",
        f"bench: {{length: {length}, depth: {depth}, height: {height}}}",
        "",
        '# Write your measured values here. Until then, `use:` takes a typical card, marked "measure yours".',
    ]


def _zones(sizes: _Sizes, units: str, bays: int, held: str, stacks: Sequence[str] = _STACKS) -> list[str]:
    return [
        "",
        "# List zones from front to rear, bays from left to right, and each stack from the bottom up.",
        "# `share` takes the space that is left; `share 2` takes twice as much as `share`.",
        *(["# Bays without a name are called F1, F2, ..."] if bays != 2 else []),
        "zones:",
        "  - name: front",
        "    depth: share",
        "    bays:",
        *(f"      - {_bay(number, bays, sizes, units, held, stacks)}" for number in range(1, bays + 1)),
        "",
    ]


def _written(section: str, key: str, card: str) -> str:
    """A card written out, ready for measured values."""
    values = typical_cards()[section][card]
    return (
        f"  # typical values of '{card}': measure yours, then add `measured: DATE`\n  {key}: {_flow(values)}"
    )


def _length(sizes: _Sizes, goods: StarterGoods, units: str, bays: int, has_totes: bool) -> Fraction:
    """The bench's length in its own unit, rounded up to a quarter."""
    last = sizes.tote_bay if has_totes else sizes.bay
    bar = goods.section / (INCH if units == "in" else 1)
    whole = sizes.bay * (bays - 1) + last + bar * (bays + 1)
    return min(Fraction(math.ceil(whole * 4), 4), sizes.longest)


def _top_and_base(sizes: _Sizes, goods: StarterGoods, units: str, bays: int) -> list[str]:
    """The lines of the top, of what the bench stands on and of what it carries."""
    hardware, wished = goods.written.get("hardware", {}), wishes(goods)
    thickness = _PLATES[goods.thread]
    bracket = _BRACKETS.get(goods.thread, "")
    # wide holes, or those of another caster, keep their distance from the plate's edge
    plate = sizes.large_plate if goods.thread == "M10" or "caster" in hardware else sizes.plate
    loads = sizes.loads.replace("top: 100", "top: 60") if "caster" in hardware else sizes.loads
    return [
        "# A grid of dog holes in the top. Leave this out for a plain top.",
        "top:",
        f"  holes: {sizes.holes}",
        *([f"  bracket_thickness: {bracket}"] if bracket else []),
        *(f"  {key}: {name}" for key, name in wished.pop("top", {}).items()),
        "",
        "# 4 or 6 supports, and the loads that the bench must carry. The supports are checked against them.",
        f"base: {_base(wished.pop('base', {}), MANY if bays >= MANY_BAYS else FEW, plate, thickness, units)}",
        f"loads: {loads}",
        *(f"{part}: {_flow(keys)}" for part, keys in wished.items()),
    ]


def _number(length: Fraction, units: str) -> str:
    return format_mm(length) if units == "mm" else format_inch(length * INCH)


def _bay(number: int, bays: int, sizes: _Sizes, units: str, held: str, stacks: Sequence[str]) -> str:
    stack = stacks[min(number, len(stacks)) - 1].replace("LOW", sizes.low).replace("HIGH", sizes.high)
    width = "share"
    if held and number == bays:
        stack = f"{{totes: {held}, count: 2}}"
        width = _number(sizes.tote_bay, units)
    name = f"name: {('left', 'right')[number - 1]}, " if bays == 2 else ""
    return f"{{{name}width: {width}, stack: [{stack}]}}"


def _base(wished: Mapping[str, str], count: int, size: str, thickness: str, units: str) -> str:
    # a number that needs no unit has none, and what is a default is left out
    bare = thickness.removesuffix(f" {units}")
    same = parse_length(thickness, "mm") == Plate().thickness
    plate = ", ".join(filter(None, (size, "" if same else f"thickness: {bare}")))
    keys = [*(f"{key}: {name}" for key, name in wished.items()), f"count: {count}"]
    return f"{{{', '.join([*keys, f'plate: {{{plate}}}'] if plate else keys)}}}"


def _sections(goods: StarterGoods) -> dict[str, dict[str, str]]:
    """Section -> key -> its line: short ones that use a card, and the written-out ones."""
    found = {
        section: {key: f"  {f'{key}: {{use: {card}}}':32} # {what}" for key, (card, what) in entries.items()}
        for section, entries in goods.used.items()
    }
    for section, entries in goods.written.items():
        for key, name in entries.items():
            found.setdefault(section, {})[key] = _written(section, key, name)
    return found


def _flow(value: Any) -> str:
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{key}: {_flow(item)}" for key, item in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(_flow, value)) + "]"
    # a bare number sign would begin a comment
    return f'"{value}"' if "#" in str(value) else str(value)
