"""A shelf in its bay, its board and cleats, and whether it comes in by its opening."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from generator.bench.fillings.facts import Solved
from generator.bench.fillings.walls import PLAY, both_walls, centred
from generator.bench.frames.panels import panel_rules
from generator.bench.layout import BayPlace, ZonePlace, bay_of
from generator.bench.piece import Part
from generator.bench.place import Item, Place
from generator.bench.role import Role
from generator.calculators.shelves import Landing, TiltIn, lands, tilt_in
from generator.geometry import Box, Span
from generator.provenance import constant
from generator.spec.load import LoadedSpec

#: A shelf's cleat ends this much before the zone's ends, and is this high (mm).
CLEAT_SHORT = constant(10, "a cleat ends before its zone by")
CLEAT_HIGH = constant(40, "height of a cleat")


@dataclass(frozen=True)
class PlacedShelf:
    """A shelf between its walls: `top` and `cleat_top` above the frame's underside, numbered as in the stack."""

    bay: str
    number: int
    top: Fraction
    length: Fraction
    depth: Fraction
    cleat_top: Fraction

    @property
    def place(self) -> Place:
        """Where it is."""
        return Place(bay=self.bay, item=Item("shelf", self.number))

    @property
    def fills_width(self) -> Span:
        """The board and its cleats reach from wall to wall."""
        return Span(self.cleat_top - CLEAT_HIGH, self.top)

    @property
    def takes(self) -> Span:
        """Its board."""
        return Span(self.cleat_top, self.top)


def shelf_parts(loaded: LoadedSpec, zone: ZonePlace, bay: BayPlace, shelf: PlacedShelf) -> Iterator[Part]:
    """The board, and a cleat on each wall."""
    offset = panel_rules(loaded).fit.offset
    thickness = loaded.goods.sheets[loaded.spec.shelves.material].thickness
    cleat = loaded.goods.strips[loaded.spec.shelves.cleat]
    x = centred(bay, shelf.length)
    y = Span(zone.y.low + PLAY, zone.y.high - PLAY)
    place = shelf.place
    yield Part(
        "SH",
        "shelf",
        Role.SHELF,
        loaded.spec.shelves.material,
        "sheet",
        Box(x, y, Span(shelf.top - thickness, shelf.top)),
        "x",
        "y",
        place,
        thickness,
    )
    for side, wall in both_walls(bay, offset, cleat.thickness):
        y = Span(zone.y.low + CLEAT_SHORT, zone.y.high - CLEAT_SHORT)
        z = Span(shelf.cleat_top - CLEAT_HIGH, shelf.cleat_top)
        yield Part(
            "SC",
            "shelf cleat",
            Role.SHELF_CLEAT,
            loaded.spec.shelves.cleat,
            "strip",
            Box(wall, y, z),
            "y",
            "z",
            replace(place, wall=side),
            cleat.thickness,
        )


def opening_tilt(bench: Solved, bay: BayPlace, shelf: PlacedShelf) -> TiltIn:
    """The tilt at which a shelf passes between the posts of its bay."""
    spec = bench.spec
    offset, height = panel_rules(bench.loaded).fit.offset, bench.layout.levels.opening
    thickness = bench.goods.sheets[spec.shelves.material].thickness
    return tilt_in(shelf.length, thickness, bay.width, bay.width + 2 * offset, height)


def lands_on_cleats(bench: Solved, bay: BayPlace, shelf: PlacedShelf) -> bool:
    """True when the tilted shelf comes down on its cleats. Shelves go in from below; all cleats are there."""
    spec = bench.spec
    thickness = bench.goods.sheets[spec.shelves.material].thickness
    recess = bay.width + 2 * panel_rules(bench.loaded).fit.offset
    levels = bench.layout.levels
    ceiling = levels.base_top + levels.opening
    others = [other for other in bench.storage.of(PlacedShelf) if other.bay == shelf.bay]
    floor = max((other.top for other in others if other.top < shelf.top), default=levels.base_top)
    next_up = min((other.cleat_top for other in others if other.top > shelf.top), default=None)
    room = Landing(
        above=float(ceiling - shelf.cleat_top),
        passing=float(ceiling - floor),
        gap=None if next_up is None else float(next_up - CLEAT_HIGH - shelf.cleat_top),
    )
    cleat = bench.goods.strips[spec.shelves.cleat].thickness
    return lands(shelf.length, thickness, bay.width, recess, cleat, room)


def tilts_in(bench: Solved, shelf: PlacedShelf) -> bool:
    """True when a shelf goes in through the finished opening."""
    _, bay = bay_of(bench.layout, shelf.bay)
    return opening_tilt(bench, bay, shelf).possible and lands_on_cleats(bench, bay, shelf)
