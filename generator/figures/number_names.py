"""What each number of the figures is called, in the words that a working speaks of it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import fields, is_dataclass
from fractions import Fraction
from functools import cache
from typing import Any

from generator.figures.model import Figures
from generator.figures.rows.assembly import Diagonal, PlaceRow, Square, Step
from generator.figures.rows.checks import Check, Fit
from generator.figures.rows.cutting import BarRow, Offcut, SheetCutRow, SheetRow, StopSetting
from generator.figures.rows.edge_bands import Band, BandedRow
from generator.figures.rows.fits import FitRow, FitSize, Movement
from generator.figures.rows.hardware import JointRow
from generator.figures.rows.joins import JoinHole, JoinRow
from generator.figures.rows.layout import Bay, Zone
from generator.figures.rows.loads import LoadCase, OnTheFloor
from generator.figures.rows.masses import Mass, Stands
from generator.figures.rows.parts import CutSection, NotchRow, OperationRow, PartRow, PlacedRow
from generator.figures.rows.pull_outs import PullOut
from generator.figures.rows.setting_out import (
    Mark,
    Relief,
    Setting,
    Setup,
    Spacer,
    Stick,
    TopBoard,
    TopEdging,
    TopFeature,
    TopGrid,
)
from generator.figures.rows.shop import CutterRow, Shop, Tightening, TimeRow
from generator.figures.rows.storage import Door, Drawer, OpeningRow, Shelf, StripPlace, Tote
from generator.figures.rows.strength import (
    DIRECTIONS,
    Balance,
    Handling,
    Holds,
    LooseTravel,
    Sag,
    Stability,
    Sway,
)
from generator.provenance import GivenValue, Number
from generator.spec.fillings import ITEMS
from generator.spec.references import SECTIONS


def given_name(given: GivenValue) -> str:
    """A key path in words: section of bar, length of bench, length of stock 1 of bar. Names stay as they are."""
    if not given.path:
        return given.name
    goods = given.path[0] in SECTIONS
    steps: list[str] = []
    for place, step in enumerate(given.path):
        if isinstance(step, int):
            steps[-1] += f" {step + 1}"
        else:
            steps.append(step if goods and place == 1 else step.replace("_", " "))
    if steps[0] == "saws":
        steps[1:2] = [f"{steps[1]} saw"]
    if steps[0] in (*SECTIONS, "saws"):
        steps = steps[1:]
    return " of ".join(reversed(steps))


def spec_names(figures: Figures) -> dict[tuple[str, str], str]:
    """What zones and bays are called in the manual, by the key path and unit of their sizes in the spec."""
    found = {}
    for z, zone in enumerate(figures.layout.zones):
        found[f"zones[{z}].depth", "mm"] = f"depth of zone {zone.name}"
        found[f"zones[{z}].depth", ""] = f"share of zone {zone.name}"
        for b, bay in enumerate(bay for bay in figures.layout.bays if bay.zone == zone.name):
            found[f"zones[{z}].bays[{b}].width", "mm"] = f"width of bay {bay.name}"
            found[f"zones[{z}].bays[{b}].width", ""] = f"share of bay {bay.name}"
            for item in range(40):
                path = f"zones[{z}].bays[{b}].stack[{item}]"
                for key in ITEMS:
                    found[f"{path}.{key}", "mm"] = (
                        f"height of {key} in the stack of bay {bay.name}, item {item + 1}"
                    )
                    found[f"{path}.{key}", ""] = (
                        f"share of {key} in the stack of bay {bay.name}, item {item + 1}"
                    )
    return found


def _offcut(material: str, length: Fraction, width: Fraction | None) -> str:
    """An off-cut has no mark: the shop knows it by its size."""
    across = "" if width is None else f" by {float(width):g}"
    return f"off-cut of {material}, {float(length):g}{across} mm"


#: Sections that define come before those that use.
_FIRST = (
    "layout",
    "fits",
    "drawers",
    "totes",
    "shelves",
    "strips",
    "top",
    "relief",
    "openings",
    "parts",
    "casters",
)


def numbers_of(figures: Figures) -> Iterator[tuple[str, str, Number]]:
    """Every number of the figures with its path in figures.json and its name."""
    names = [each.name for each in fields(figures) if not each.metadata.get("silent")]
    for name in (*_FIRST, *(each for each in names if each not in _FIRST)):
        yield from _inside(getattr(figures, name), name, name.replace("_", " "), "")


def _inside(value: Any, path: str, words: str, of: str) -> Iterator[tuple[str, str, Number]]:
    if is_dataclass(value):
        title = _TITLES.get(type(value), lambda row: "")(value)
        around = " of ".join(text for text in (title, of) if text)
        row: type = type(value)
        for field, name, word in _named_fields(row):
            inner = getattr(value, field)
            if type(inner) not in _WORDLESS:
                yield from _inside(inner, f"{path}.{name}", word, around)
    elif isinstance(value, Mapping):
        for key, item in value.items():
            yield from _inside(item, f"{path}.{key}", f"{words} {key}", of)
    elif isinstance(value, tuple):
        for index, item in enumerate(value):
            if type(item) in _WORDLESS:
                continue
            yield from _inside(
                item, f"{path}[{index}]", words if is_dataclass(item) else _counted(words, index), of
            )
    elif isinstance(value, Fraction | float):
        yield path, f"{words} of {of}" if of else words, value


def _words(row: type, name: str) -> str:
    own = _OWN_WORDS.get(row, {}).get(name)
    return _Pattern(own) if own else _WORDS.get(name, name.replace("_", " "))


class _Pattern(str):
    """Words of this module with places to fill. Braces in the words of a spec are letters like any other."""

    __slots__ = ()


def _counted(words: str, index: int) -> str:
    """The name of one number of a row.

    {0} counts from none, {1} from one, {2} is an axis of the frame, {3} nothing, {4} an end of a range.
    """
    if isinstance(words, _Pattern) and "{" in words:
        return _Pattern(words.format(index, index + 1, AXES[index % len(AXES)], "", ENDS[index % 2]))
    return f"{words} {index + 1}"


@cache
def _named_fields(row: type) -> tuple[tuple[str, str, str], ...]:
    """The fields of a row that a reader meets: as Python, figures.json and the manual call them."""
    found = []
    for each in fields(row):
        if each.name not in (*_NOT_PRINTED, *_DRAWN_ONLY.get(row, ())):
            name = each.name.removesuffix("_")
            found.append((each.name, name, _words(row, name)))
    return tuple(found)


#: Most values are no numbers with a working: they are passed over at once.
_WORDLESS = frozenset({str, int, bool, type(None)})
#: Where pieces are, for drawings only: no reader meets these numbers.
_NOT_PRINTED = ("pieces", "shapes", "lines")
_DRAWN_ONLY: Mapping[type, tuple[str, ...]] = {
    TopGrid: ("brackets",),
    SheetRow: ("pieces", "offcuts"),
    SheetCutRow: ("at", "x", "y"),
}
_WORDS = {
    "above_rail": "height above the base rail's top:",
    "by_group": "mass of all pieces:",
    "post_edges": "left edge of post in zone",
    "at": "place",
    "kg": "mass",
    "l": "length",
    "w": "width",
    "x": "place along",
    "y": "place across",
}

ENDS = ("least", "most")
AXES = ("from the left", "from the front", "from below")
#: What a field is called in one kind of row alone.
_OWN_WORDS: Mapping[type, Mapping[str, str]] = {
    Balance: {
        "empty": "centre of mass of the empty bench {2}",
        "loaded": "centre of mass of the loaded bench {2}",
    },
    Stability: {
        "push": "moment of the pull",
        "lean": "mass on an open drawer that tips the bench,",
        "ballast": "ballast that lets one be open",
        "further": "distance by which the supports must move out",
        "margins": "moment left with {0} open, all loaded,",
        "margins_alone": "moment left with {0} open, only these loaded,",
    },
    Holds: {"behind": "distance behind the line", "moment": "holding moment"},
    FitRow: {"worst": "least clearance, {4},", "likely": "likely clearance, {4},"},
    Sway: {
        "low": "least sway",
        "high": "greatest sway",
        "target": "limit of sway",
        "moment": "greatest moment of a joint",
        "opens": "moment that opens the joint",
        "needs": "stiffness that each joint needs",
        "slips": "pull that an angle on two bolts bears",
    },
    Sag: {"years": "sag after years"},
    LooseTravel: {"travel": "free travel"},
    LoadCase: {
        "down": "load down",
        "out": "distance of the load beyond the line",
        "holds": "holding moment",
        "turns": "turning moment",
        "ratio": "how many times what holds outweighs what turns,",
    },
    OnTheFloor: {
        "push": "push that must not move it",
        "slips": "push under which it slips",
        "rolls": "push that rolls it",
        "lifts": "dip that leaves a corner in the air, {4},",
        "sill": "height of a sill",
        "sill_push": "push that lifts it over a sill",
    },
    Handling: {"recommended": "recommended mass"},
    Tightening: {
        "low": "least torque",
        "high": "greatest torque",
        "force_low": "least clamping force",
        "force_high": "greatest clamping force",
        "of_proof": "share of the proof load",
    },
    Shop: {"pocket": "reach of a pocket hole"},
    Setup: {"half_steps": "half of step {1}{{3}}"},
    SheetCutRow: {"l": "workpiece length", "w": "workpiece width", "setting": "fence setting"},
    Stands: {
        "positions": "place of swivel {1} {{2}},",
        "one_in_the_air": "most on one when another hangs free,",
    },
}

#: What a row is called in a name such as "box width of drawer F1/1".
_TITLES: Mapping[type, Callable[[Any], str]] = {
    Zone: lambda row: f"zone {row.name}",
    Bay: lambda row: f"bay {row.name}",
    PartRow: lambda row: f"part {row.mark}",
    PlacedRow: lambda row: f"piece {row.mark}",
    NotchRow: lambda row: f"notch {row.corner}",
    OperationRow: lambda row: f"{row.op}, {row.face}",
    JointRow: lambda row: f"joint {row.member} on {row.crossing}",
    Fit: lambda row: row.where,
    OpeningRow: lambda row: f"bay {row.bay}, {row.item}",
    Drawer: lambda row: f"drawer {row.bay}/{row.number}",
    Door: lambda row: f"door {row.bay}/{row.leaf}",
    PullOut: lambda row: f"pull-out {row.bay}/{row.number}",
    JoinRow: lambda row: f"the joint at the {row.side} side",
    JoinHole: lambda row: f"bolt through {row.member} and {row.facing}",
    StripPlace: lambda row: f"packing strip in bay {row.bay}",
    Tote: lambda row: f"tote {row.bay}/{row.number}",
    Shelf: lambda row: f"shelf {row.bay}/{row.number}",
    Stick: lambda row: f"stick “{row.name}”",
    Mark: lambda row: row.label,
    Spacer: lambda row: row.label,
    TopGrid: lambda row: "top",
    TopBoard: lambda row: f"board {row.mark}",
    TopEdging: lambda row: f"edging, {row.side}",
    TopFeature: lambda row: f"{row.name} in the top",
    Relief: lambda row: "relief",
    Diagonal: lambda row: row.name,
    Square: lambda row: row.name,
    Check: lambda row: f"check {row.code}, {row.where}",
    BarRow: lambda row: f"bar of {row.material}",
    Step: lambda row: f"step {row.n}",
    PlaceRow: lambda row: f"{row.item} in {row.part}, {row.face}",
    Tightening: lambda row: f"thread {row.thread}",
    CutSection: lambda row: row.material,
    BandedRow: lambda row: f"part {row.mark} with its banding",
    Band: lambda row: f"band, {row.edge}",
    Offcut: lambda row: _offcut(row.material, row.length, row.width),
    SheetRow: lambda row: f"sheet {row.n} of {row.material}",
    SheetCutRow: lambda row: f"cut {row.n}",
    StopSetting: lambda row: f"stop for {', '.join(row.marks)}",
    Setup: lambda row: f"set-up “{row.title}”",
    Setting: lambda row: row.name,
    Stands: lambda row: "casters",
    Sag: lambda row: ", ".join(
        word for word in (row.kind, row.where, "load spread" if row.spread else "load in the middle") if word
    ),
    Stability: lambda row: f"{row.face} face",
    Holds: lambda row: row.group,
    Sway: lambda row: f"the frame {DIRECTIONS[row.direction]}",
    LooseTravel: lambda row: ", ".join(row.marks),
    LoadCase: lambda row: f"{row.name}, {row.where}",
    OnTheFloor: lambda row: "the empty bench",
    Handling: lambda row: row.name,
    FitRow: lambda row: f"{row.name}, {row.where}",
    FitSize: lambda row: row.name,
    Movement: lambda row: row.name,
    CutterRow: lambda row: row.work,
    TimeRow: lambda row: row.operation,
    Mass: lambda row: "",
}
