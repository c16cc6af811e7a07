"""A first spec as text: commented, short, and building as it is, in either unit and with as many bays as asked for."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from generator.spec.cards import typical_cards
from generator.units import INCH, format_inch, format_mm

SCHEMA_FILE = "bench-manual.schema.json"
"""The schema that the first line points editors to, beside the spec."""
MANY_BAYS = 3
"""From so many on the bench stands on six casters."""

_STACKS = (
    "{drawer: share 2}, {drawer: share}, {drawer: share}",
    "{shelf: LOW}, {shelf: HIGH}",
    "{shelf: LOW}",
)
#: The name under which the defaults of the language look for a card of each kind.
_NAMES = {
    "profile": "bar",
    "sheet": "ply-12",
    "strip": "poplar-15",
    "angle": "angle-15",
    "end clip": "end-clip",
    "through screw": "through-screw",
    "slot nut": "slot-nut",
    "slide": "slide",
    "caster": "caster",
}


@dataclass(frozen=True)
class _Sizes:
    """What a bench of one unit is made from; lengths in that unit. `longest` still fits a sheet and a door."""

    about: str
    bay: Fraction
    tote_bay: Fraction
    bar: Fraction
    longest: Fraction
    depth: str
    tote_depth: str
    height: str
    low: str
    high: str
    holes: str
    base: str
    many: str
    loads: str
    cards: Mapping[str, Mapping[str, tuple[str, str]]]


_BAR = "the frame's bar: slot, bore, mass"
_PLY = "dividers, ends, tray, drawer boxes: the tongues depend on its real thickness"
_SIZES = {
    "mm": _Sizes(
        "bare numbers are millimetres; any length may say its own: 23 5/8 in, 1.2 m",
        Fraction(590), Fraction(400), Fraction(40), Fraction(2000), "700", "800", "900", "60", "300",
        "{diameter: 20, pitch: 96, edge: 60}",
        "{count: 4}",
        "{count: 6}",
        "{drawer: 20 kg, shelf: 15 kg, top: 100 kg}",
        {"materials": {"bar": ("profile 40", _BAR), "ply-12": ("plywood 12", _PLY)}},
    ),
    "in": _Sizes(
        "bare numbers are inches; any length may say its own: 600 mm, 3 ft 2 1/2 in",
        Fraction(23), Fraction(63, 4), Fraction(3, 2), Fraction(79), "28", "32", "35 1/2", "2 1/2", "12",
        "{diameter: 3/4, pitch: 4, edge: 2 1/2}",
        "{count: 4, plate: {size: [6 1/2, 6 1/2], thickness: 5/16}}",
        "{count: 6, plate: {size: [6 1/2, 6 1/2], thickness: 5/16}}",
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

    Raises KeyError with the name of a card that is not shipped.
    """
    sizes = _SIZES[units]
    sections = _sections(sizes, cards)
    tote = next(iter(sections.get("totes", {})), "")
    last, depth = (sizes.tote_bay, sizes.tote_depth) if tote else (sizes.bay, sizes.depth)
    length = min(sizes.bay * (bays - 1) + last + sizes.bar * (bays + 1), sizes.longest)
    lines = [
        f"# yaml-language-server: $schema={SCHEMA_FILE}",
        "# A first bench. It builds as it is:  bench-manual build THIS-FILE",
        "# Change one line, build again, and look at what changed. Every key that is left out has a default: the",
        '# manual lists them all under "Assumed values", and the whole language under "Spec reference".',
        "spec: 1                            # version of the language",
        "title: My first bench",
        f"units: {units:27} # {sizes.about}",
        "",
        "# Outside sizes. The height is from the floor to the work surface.",
        f"bench: {{length: {_number(length, units)}, depth: {depth}, height: {sizes.height}}}",
        "",
        '# What you measured goes here. `use:` takes a typical card until you have: it is marked "measure yours".',
    ]
    for section, entries in sections.items():
        lines += [f"{section}:", *entries.values()]
    lines += [
        "",
        "# Zones run from front to back, bays from left to right. A stack is written from below.",
        "# `share` takes what is left; `share 2` takes twice as much as `share`.",
        *(["# Bays without a name are called F1, F2, ..."] if bays != 2 else []),
        "zones:",
        "  - name: front",
        "    depth: share",
        "    bays:",
        *(f"      - {_bay(number, bays, sizes, units, tote)}" for number in range(1, bays + 1)),
        "",
        "# A grid of holes in the top; leave this out for a plain top.",
        "top:",
        f"  holes: {sizes.holes}",
        "",
        "# What it stands on, 4 casters or 6, and what it has to carry: the casters are checked against that.",
        f"base: {sizes.many if bays >= MANY_BAYS else sizes.base}",
        f"loads: {sizes.loads}",
    ]
    return "\n".join(lines) + "\n"


def _number(length: Fraction, units: str) -> str:
    return format_mm(length) if units == "mm" else format_inch(length * INCH)


def _bay(number: int, bays: int, sizes: _Sizes, units: str, tote: str) -> str:
    stack = _STACKS[min(number, len(_STACKS)) - 1].replace("LOW", sizes.low).replace("HIGH", sizes.high)
    width = "share"
    if tote and number == bays:
        stack = f"{{totes: {tote}, count: 2}}"
        width = _number(sizes.tote_bay, units)
    name = f"name: {('left', 'right')[number - 1]}, " if bays == 2 else ""
    return f"{{{name}width: {width}, stack: [{stack}]}}"


def _sections(sizes: _Sizes, cards: Sequence[str]) -> dict[str, dict[str, str]]:
    """Section -> key -> its line: short ones that use a card, and the written-out ones."""
    found = {
        section: {key: f"  {f'{key}: {{use: {card}}}':32} # {what}" for key, (card, what) in entries.items()}
        for section, entries in sizes.cards.items()
    }
    for name in cards:
        section, values = _card(name)
        key = _NAMES.get(values.get("kind", ""), "tote")
        line = f"  # typical values of '{name}': measure yours, then add `measured: DATE`\n  {key}: {_flow(values)}"
        found.setdefault(section, {})[key] = line
    return found


def _card(name: str) -> tuple[str, Mapping[str, Any]]:
    for section, entries in typical_cards().items():
        if name in entries:
            return section, entries[name]
    raise KeyError(name)


def _flow(value: Any) -> str:
    if isinstance(value, Mapping):
        return "{" + ", ".join(f"{key}: {_flow(item)}" for key, item in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(_flow, value)) + "]"
    return str(value)
