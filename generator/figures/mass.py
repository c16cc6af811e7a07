"""Masses by group, the load on what the bench stands on."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from generator.bench.fasteners import fastener_name
from generator.bench.fillings import FILLINGS
from generator.bench.fillings.kind import FillingKind
from generator.bench.frames import FRAMES
from generator.bench.joints import JOINTS
from generator.bench.model import Bench
from generator.bench.stands import STANDS
from generator.figures.hardware import card_of
from generator.figures.rows.hardware import HardwareRow, PlateBolt
from generator.figures.rows.masses import Mass, StandFacts, Stands
from generator.figures.rows.parts import PartRow
from generator.provenance import constant, inexact

#: Masses of bought parts that no card states (kg a piece; kg a pair for slides of 500 mm). Common practice.
SMALL_PARTS = {
    name: inexact(constant(kilograms, f"usual mass: {name}", unit="kg"))
    for name, kilograms in (
        *(pair for kind in JOINTS for pair in kind.usual_masses.items()),
        *(pair for kind in FRAMES for pair in kind.usual_masses.items()),
        ("slot nut", "0.012"),
        *((each.kind, each.mass) for kind in FILLINGS for each in kind.bought if each.mass),
        *(pair for kind in STANDS for pair in kind.usual_masses.items()),
        ("top bracket", "0.05"),
        ("bracket", "0.05"),
        ("top bracket bolt", "0.011"),
        ("vise", "12"),
        ("vise bolt", "0.08"),
    )
}
#: The slides for which that mass holds (mm); longer ones weigh more in proportion.
USUAL_SLIDE = constant(500, "length of a slide of usual mass")
#: One wood screw of any kind (kg).
WOOD_SCREW = inexact(constant("0.002", "usual mass: wood screw", unit="kg"))
_WOOD_SCREWS = (
    "top bracket wood screw",
    "bracket rail screw",
    *(each.kind for kind in FILLINGS for each in kind.bought if each.screw),
    "strip screw",
    "trim screw",
    "pocket screw",
    "tray screw",
)


#: What is bought by the roll and counted with the boards that it is on.
_ON_BOARDS = frozenset({"edge banding"})

#: A stiff frame is steady on three: then the load on each follows from statics.
STEADY = 3


def piece_of_hardware(bench: Bench, row: HardwareRow) -> float:
    """Mass of one piece of bought hardware (kg): from its card, else the usual mass of its kind."""
    if row.kind in _ON_BOARDS:
        return 0.0
    card = card_of(bench.spec, row)
    if card is not None and card.mass is not None:
        return inexact(card.mass)
    if row.kind in _WOOD_SCREWS:
        return WOOD_SCREW
    usual = SMALL_PARTS.get(row.kind, 0.0)
    slide = bench.goods.slides.get(row.item) if card else None
    return usual * slide.length / USUAL_SLIDE if slide else usual


def moving_masses(bench: Bench, parts: Sequence[PartRow], rows: Sequence[HardwareRow]) -> dict[str, float]:
    """Mass (kg) of what the proof moves, by its name: pieces, fasteners that move with their bar, hung goods."""
    fixings = ((joint, bench.joinings[joint.fastener]) for joint in bench.joints)
    found = {mark: row.mass for row in parts for mark in row.marks}
    found |= {
        fastener_name(joint, each): SMALL_PARTS[each.kind] for joint, each in fixings if each.looks == "clip"
    }
    bought = {row.item: row for row in rows if card_of(bench.spec, row)}
    for kind in FILLINGS:
        for (section, item), names in _hung(bench, kind).items():
            if section == "hardware" and item in bought:
                # a pair is two bodies, which share its mass
                each = piece_of_hardware(bench, bought[item]) * bought[item].count / len(names)
                found |= dict.fromkeys(names, each)
    return found


def _hung(bench: Bench, kind: FillingKind[Any]) -> dict[tuple[str, str], list[str]]:
    """Section and name of goods -> the bodies that are made of them."""
    paths = kind.body_goods(bench.spec)
    found: dict[tuple[str, str], list[str]] = {}
    for body in kind.bodies(bench):
        section, *names = paths[body.name.split(" ")[0]]
        found.setdefault((str(section), str(names[0]) if names else ""), []).append(body.name)
    return found


def mass_of(row: PartRow, count: int) -> float:
    """Mass of `count` pieces of a part (kg)."""
    return row.mass * count if count > 1 else row.mass


def mass(bench: Bench, parts: tuple[PartRow, ...], rows: tuple[HardwareRow, ...]) -> Mass:
    """Empty, and loaded with everything that the spec lets it carry (kg)."""
    spec = bench.spec
    groups: dict[str, float] = {}
    for part in parts:
        groups[part.group] = groups.get(part.group, 0) + mass_of(part, part.count)
    for row in rows:
        kind = row.kind if card_of(spec, row) else "screws and bolts"
        kilograms = piece_of_hardware(bench, row) * row.count
        if kilograms:
            groups[kind] = groups.get(kind, 0) + kilograms
    empty = sum(groups.values())
    return Mass(empty, empty + payload(bench), groups)


def payload(bench: Bench) -> float:
    """What the loads of the spec add up to (kg)."""
    spec = bench.spec
    loads: Fraction = spec.loads.top
    for kind in sorted(FILLINGS, key=lambda kind: kind.goes_in):
        own = kind.payload(bench)
        if own is not None:
            loads = loads + own
    return inexact(loads)


def stand_facts(bench: Bench, on: Stands, weight: Mass) -> StandFacts:
    """What the bench stands on, whatever it is; the load on one is an even share."""
    count = inexact(constant(len(bench.stand.points), "what the bench stands on", "counted", ""))
    return StandFacts(
        bench.stand.kind, bench.stand.points, weight.loaded / count, on.required, on.count == STEADY
    )


def stands(bench: Bench, weight: Mass) -> Stands:
    """Load on one of what the loaded bench stands on (kg), against its rating, and where they and their bolts are."""
    stand = bench.stand
    load = stand.rule.load(weight.loaded, len(stand.points))
    return Stands(
        load_each=load.each,
        required=load.required,
        count=len(stand.points),
        rating=inexact(stand.rating),
        positions=stand.points,
        bolts=tuple(PlateBolt(bolt.plate, bolt.member, bolt.at) for bolt in stand.bolts),
    )
