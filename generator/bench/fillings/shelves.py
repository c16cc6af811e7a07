"""Shelves on cleats, at the heights that the spec says, whatever else is in the stack."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import ClassVar

from generator.bench.fillings.facts import (
    BAY,
    Clearance,
    FillStep,
    Load,
    Off,
    Opening,
    Placed,
    Sagging,
    Slot,
    Solved,
    StickMark,
    bay_of,
)
from generator.bench.fillings.kind import FillingKind, Ways
from generator.bench.fillings.walls import PLAY, both_walls, centred
from generator.bench.layout import BayPlace, Layout, ZonePlace
from generator.bench.panels import panel_rules
from generator.bench.piece import Part
from generator.bench.place import Item, Place
from generator.bench.role import Role
from generator.bench.stands.facts import TermWords
from generator.calculators.assembly import Placing
from generator.calculators.fit_verdicts import LAID_IN
from generator.calculators.shelves import Landing, TiltIn, lands, tilt_in
from generator.geometry import Box, Span
from generator.spec.lookup import sheet, strip
from generator.spec.schema import Spec
from generator.working import constant

#: A shelf's cleat ends this much before the zone's ends, and is this high (mm).
CLEAT_SHORT = constant(10, "a cleat ends before its zone by")
CLEAT_HIGH = constant(40, "height of a cleat")

TILTED_IN = "tilted in through the opening"
ON_CLEATS = "board on two cleats, its load spread"


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
        """Where it lies."""
        return Place(bay=self.bay, item=Item("shelf", self.number))

    @property
    def fills_width(self) -> Span | None:
        """It lies at its key's height beside whatever is there."""
        return None


class Shelves(FillingKind[PlacedShelf]):
    """A board between the walls of its bay."""

    kind, placed, stacks, goes_in = "shelf", PlacedShelf, False, 2
    terms = (TermWords("cleat", "A strip on a wall that a shelf lies on.", ("cleats",)),)
    section = "shelves"
    strips: ClassVar = {Role.SHELF_CLEAT: ("shelves", "cleat")}
    placings: ClassVar = {"early-shelves": "shelves that cannot be tilted in"}

    def place(
        self, spec: Spec, layout: Layout, zone: ZonePlace, bay: BayPlace, slots: Sequence[Slot]
    ) -> Iterator[PlacedShelf]:
        """From below, whatever the order in the stack."""
        offset = panel_rules(spec).fit.offset
        thickness = sheet(spec, spec.shelves.material).thickness
        heights = sorted(item.shelf for item in bay.spec.stack if item.shelf is not None)
        for number, height in enumerate(heights, 1):
            top = layout.levels.base_top + height
            yield PlacedShelf(
                bay.name,
                number,
                top,
                bay.clear + 2 * offset - 2 * PLAY,
                zone.y.size - 2 * PLAY,
                top - thickness,
            )

    def parts(
        self,
        spec: Spec,
        layout: Layout,
        zone: ZonePlace,
        bay: BayPlace,
        placed: Sequence[PlacedShelf],
        all_: Sequence[Placed],
    ) -> Iterator[Part]:
        """The board and a cleat on each wall."""
        offset = panel_rules(spec).fit.offset
        thickness = sheet(spec, spec.shelves.material).thickness
        cleat = strip(spec, spec.shelves.cleat)
        for shelf in placed:
            x = centred(bay, shelf.length)
            y = Span(zone.y.low + PLAY, zone.y.high - PLAY)
            place = shelf.place
            yield Part(
                "SH",
                "shelf",
                Role.SHELF,
                spec.shelves.material,
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
                    spec.shelves.cleat,
                    "strip",
                    Box(wall, y, z),
                    "y",
                    "z",
                    replace(place, wall=side),
                    cleat.thickness,
                )

    def motions(self, bench: Solved, ways: Ways) -> Iterator[Placing]:
        """Tilted in through the finished opening; what cannot be comes before the bay closes."""
        for shelf, part in zip(bench.storage.of(PlacedShelf), bench.of(Role.SHELF), strict=True):
            reason, step = (TILTED_IN, "shelves") if tilts_in(bench, shelf) else ("", "early-shelves")
            body, out, after = ways.bodies[part.mark], ways.out(shelf.bay), ways.walls_of(shelf.bay)
            yield Placing(part.mark, step, (body,), out=(out,), after=after, unproved=reason)

    def steps(self, bench: Solved) -> Iterator[FillStep]:
        """Those that tilt in; those that do not, while the bays are open."""
        pairs = list(zip(bench.storage.of(PlacedShelf), bench.of(Role.SHELF), strict=True))
        tilting = tuple(part for shelf, part in pairs if tilts_in(bench, shelf))
        early = tuple(part for _, part in pairs if part not in tilting)
        if tilting:
            yield FillStep(
                "shelves",
                "Shelves",
                tilting,
                "tilt in",
                ("Tilt each shelf in through its opening and lower it on its cleats.",),
            )
        if early:
            yield FillStep(
                "early-shelves",
                "Shelves that cannot be tilted in later",
                early,
                "",
                (
                    "Push each on the cleats that are there; hold or strap its other end until the end frame brings "
                    "the cleats for it.",
                ),
                ("Count them: once both end frames are on there is no way in.",),
                early=True,
            )

    def openings(self, bench: Solved) -> Iterator[Opening]:
        """The clear height above each: to the next one's underside, or to the opening's top."""
        shelves, levels = bench.storage.of(PlacedShelf), bench.layout.levels
        for shelf in shelves:
            above = [s.cleat_top for s in shelves if s.bay == shelf.bay and s.top > shelf.top]
            top = min(above, default=levels.base_top + levels.opening)
            yield Opening(
                shelf.bay, f"above shelf {shelf.number}", top - shelf.top, shelf.top, top, taken=False
            )

    def marks(self, bench: Solved) -> Iterator[StickMark]:
        """Its cleats."""
        for shelf in bench.storage.of(PlacedShelf):
            at = shelf.cleat_top - bench.layout.levels.base_top
            yield StickMark(shelf.bay, at, f"cleat {shelf.number} top")

    def payload(self, bench: Solved) -> Fraction:
        """So much a shelf."""
        return bench.spec.loads.shelf * len(bench.storage.of(PlacedShelf))

    def loads(self, bench: Solved) -> Iterator[Load]:
        """In the middle of each."""
        for part in bench.of(Role.SHELF):
            yield Load(bench.spec.loads.shelf, (part.box.x.middle, part.box.y.middle, part.box.z.high))

    def sagging(self, bench: Solved) -> Iterator[Sagging]:
        """The longest, on its two cleats."""
        shelves = bench.of(Role.SHELF)
        if not shelves:
            return
        widest = max(shelves, key=lambda part: part.length)
        marks = tuple(part.mark for part in shelves if part.length == widest.length)
        load, long = bench.spec.loads.shelf, widest.length
        yield Sagging("shelf", "the longest", widest, marks, load, long, None, True, ON_CLEATS)

    def clearances(self, bench: Solved) -> Iterator[Clearance]:
        """The longest between its walls."""
        shelves = bench.storage.of(PlacedShelf)
        if not shelves:
            return
        longest = max(shelves, key=lambda each: each.length)
        bay, offset = bay_of(bench, longest.bay)[1], panel_rules(bench.spec).fit.offset
        recess = bay.width + 2 * offset
        yield Clearance(
            "shelf between its walls",
            f"bay {longest.bay}, shelf {longest.number}",
            recess - longest.length,
            (Off("walls, apart", recess, BAY), Off("shelf, length", longest.length, takes=True)),
            LAID_IN,
            "Lay a lath of the shelf's length in first.",
        )


def opening_tilt(bench: Solved, bay: BayPlace, shelf: PlacedShelf) -> TiltIn:
    """The tilt at which a shelf passes between the posts of its bay."""
    spec = bench.spec
    offset, height = panel_rules(spec).fit.offset, bench.layout.levels.opening
    thickness = sheet(spec, spec.shelves.material).thickness
    return tilt_in(shelf.length, thickness, bay.width, bay.width + 2 * offset, height)


def lands_on_cleats(bench: Solved, bay: BayPlace, shelf: PlacedShelf) -> bool:
    """True when the tilted shelf comes down on its cleats. Shelves go in from below; all cleats are there."""
    spec = bench.spec
    thickness = sheet(spec, spec.shelves.material).thickness
    recess = bay.width + 2 * panel_rules(spec).fit.offset
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
    cleat = strip(spec, spec.shelves.cleat).thickness
    return lands(shelf.length, thickness, bay.width, recess, cleat, room)


def tilts_in(bench: Solved, shelf: PlacedShelf) -> bool:
    """True when a shelf goes in through the finished opening."""
    _, bay = bay_of(bench, shelf.bay)
    return opening_tilt(bench, bay, shelf).possible and lands_on_cleats(bench, bay, shelf)
