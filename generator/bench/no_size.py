"""Pieces that cannot be cut: those of no size, and those that their own notches eat up.

They follow from sizes that are each allowed, so they are found on the placed parts, before any planner sees them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.bench.joints import joining
from generator.bench.layout import Layout, bay_of
from generator.bench.piece import Part
from generator.bench.place import in_words
from generator.calculators.spacing import Share
from generator.codes import Code
from generator.findings import Finding, Severity
from generator.geometry import AXES, FACES
from generator.spec.load import LoadedSpec

#: The axes of a bench by the key of its outside size.
KEYS = {"x": "length", "y": "depth", "z": "height"}
#: What would still be called a piece (mm); a size that only just works is no advice. Common practice, no source.
SMALLEST = Fraction(20)


@dataclass(frozen=True)
class _Key:
    """The key that a size follows from, one to one, and its value (mm)."""

    path: tuple[str | int, ...]
    value: Fraction


def without_size(loaded: LoadedSpec, layout: Layout, parts: Sequence[Part]) -> Iterator[Finding]:
    """One finding a group and direction, with a value of the key that makes its smallest part a piece again."""
    smallest: dict[tuple[str, str, tuple[str | int, ...]], tuple[Part, _Key]] = {}
    for part in parts:
        for axis in AXES:
            if part.box.span(axis).size > 0:
                continue
            key = _key(loaded, layout, part, axis)
            kept = smallest.setdefault((part.group, axis, key.path), (part, key))[0]
            if part.box.span(axis).size < kept.box.span(axis).size:
                smallest[part.group, axis, key.path] = (part, key)
    for (group, axis, path), (part, key) in smallest.items():
        size = part.box.span(axis).size
        yield Finding(
            Code.NO_SIZE,
            Severity.ERROR,
            f"{part.mark} ({group}, {in_words(part.place)}) would be {loaded.say(size)} {_WAYS[axis]}",
            loaded.where(*path),
            found=f"{path[-1]} {loaded.say(key.value)}",
            allowed=f"{loaded.say(key.value + SMALLEST - size)} or more",
        )


_WAYS = {"x": "from left to right", "y": "from front to rear", "z": "high"}


def _key(loaded: LoadedSpec, layout: Layout, part: Part, axis: str) -> _Key:
    """The key of the bay or zone that the part is in where that has a size of its own, else that of the bench."""
    spec = loaded.spec
    # a trim piece is in front of its zone: what has a bay says so
    zone, own = bay_of(layout, part.place.bay) if part.place.bay else (None, None)
    zone = zone or next((each for each in layout.zones if each.y.contains_middle(part.box.y)), None)
    if zone is not None and axis == "y" and not isinstance(spec.zones[zone.index].depth, Share):
        return _Key(("zones", zone.index, "depth"), zone.y.size)
    middle = part.box.x.middle
    # a piece of negative size may be beside its own bay
    bay = own or (min(zone.bays, key=lambda each: abs(each.x.middle - middle)) if zone else None)
    if bay is not None and axis == "x" and not isinstance(bay.spec.width, Share):
        return _Key(("zones", bay.zone, "bays", bay.index, "width"), bay.width)
    return _Key(("bench", KEYS[axis]), {"x": layout.length, "y": layout.depth, "z": layout.height}[axis])


def eaten_by_notches(loaded: LoadedSpec, layout: Layout, parts: Sequence[Part]) -> Iterator[Finding]:
    """Panels whose corner notches meet: nothing would be left of that edge. The worst one is reported."""
    eaten = [part for part in parts if part.notches and _too_much(part) >= 0]
    if not eaten:
        return
    part = max(eaten, key=_too_much)
    over, notch = _too_much(part), max(max(each.along, each.across) for each in part.notches)
    fixing = joining(loaded.goods, loaded.spec.frame.joints.default)
    # the part of a notch that is beyond the crossing bar's own width is the fault of what is in the slot
    if fixing.in_slot and fixing.in_slot.length > layout.section:
        path: tuple[str | int, ...] = ("hardware", fixing.fastener, fixing.in_slot.key)
        allowed = f"a {fixing.called} of {loaded.say(layout.section)} (the bar's width) or less"
    else:
        path = ("panels", "notch_clearance")
        allowed = f"notches {loaded.say(over / 2 + SMALLEST)} smaller, or a panel as much larger"
    yield Finding(
        Code.NO_SIZE,
        Severity.ERROR,
        f"the notches of {part.mark} ({part.group}, {in_words(part.place)}) are {loaded.say(notch)} each and meet",
        loaded.where(*path),
        found=f"a panel of {loaded.say(part.length)} x {loaded.say(part.width)}",
        allowed=allowed,
    )


def _too_much(part: Part) -> Fraction:
    """By how much two notches on one edge are longer than the edge (mm); negative when some of it is left."""
    found = [Fraction(-1)]
    for edge in {edge for notch in part.notches for edge in notch.corner.split()}:
        own = [notch for notch in part.notches if edge in notch.corner.split()]
        if edge in FACES[part.along]:
            found.append(sum((notch.across for notch in own), Fraction(0)) - part.width)
        else:
            found.append(sum((notch.along for notch in own), Fraction(0)) - part.length)
    return max(found)
