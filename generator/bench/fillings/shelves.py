"""Shelves on cleats, at the heights that the spec says, whatever else is in the stack."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import ClassVar

from generator.bench.fillings.facts import (
    BAY,
    Clearance,
    FillingPicture,
    FillStep,
    Load,
    Off,
    Opening,
    Placed,
    Sagging,
    Seen,
    Solved,
    StackSlot,
    StickMark,
)
from generator.bench.fillings.kind import FillingKind, Ways
from generator.bench.fillings.shelf_boards import CLEAT_HIGH, PlacedShelf, shelf_parts, tilts_in
from generator.bench.fillings.shelf_laws import LAWS, SAG_SHELF, shelf_verdicts
from generator.bench.fillings.walls import PLAY
from generator.bench.frames.panels import panel_rules
from generator.bench.law import Verdict
from generator.bench.layout import BayPlace, Layout, ZonePlace, bay_of
from generator.bench.piece import Part
from generator.bench.role import Role
from generator.bench.terms import TermWords
from generator.calculators.assembly import Motion
from generator.calculators.fit_verdicts import LAID_IN
from generator.geometry import Span
from generator.spec.load import LoadedSpec

TILTED_IN = "tilted in through the opening"
ON_CLEATS = "board on two cleats, its load spread"


class ShelfFilling(FillingKind[PlacedShelf]):
    """A board between the walls of its bay."""

    kind, placed, stacks, goes_in = "shelf", PlacedShelf, False, 2
    terms = (TermWords("cleat", "A strip on a wall. It carries a shelf.", ("cleats",)),)
    sections = ("shelves",)
    fixed = (("a shelf is shorter than its recess and its zone by", 2 * PLAY),)
    strips: ClassVar = {Role.SHELF_CLEAT: ("shelves", "cleat")}
    boards: ClassVar = {Role.SHELF: ("shelves",)}
    free_edges: ClassVar = {
        (Role.SHELF, "front"): "open edge of the shelf",
        (Role.SHELF, "rear"): "is in front of the wall",
    }
    seen_edges: ClassVar = {Role.SHELF.value: "open"}
    laws = LAWS
    step_names: ClassVar = {"early-shelves": "shelves that cannot be tilted in"}

    def place(
        self, loaded: LoadedSpec, layout: Layout, zone: ZonePlace, bay: BayPlace, slots: Sequence[StackSlot]
    ) -> Iterator[PlacedShelf]:
        """From below, whatever the order in the stack."""
        offset = panel_rules(loaded).fit.offset
        thickness = loaded.goods.sheets[loaded.spec.shelves.material].thickness
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
        loaded: LoadedSpec,
        layout: Layout,
        zone: ZonePlace,
        bay: BayPlace,
        placed: Sequence[PlacedShelf],
        all_: Sequence[Placed],
    ) -> Iterator[Part]:
        """The board and a cleat on each wall."""
        for shelf in placed:
            yield from shelf_parts(loaded, zone, bay, shelf)

    def motions(self, bench: Solved, ways: Ways) -> Iterator[Motion]:
        """Tilted in through the finished opening; what cannot be comes before the bay closes."""
        for shelf, part in zip(bench.storage.of(PlacedShelf), bench.of(Role.SHELF), strict=True):
            reason, step = (TILTED_IN, "shelves") if tilts_in(bench, shelf) else ("", "early-shelves")
            body, out, after = ways.bodies[part.mark], ways.out(shelf.bay), ways.walls_of(shelf.bay)
            yield Motion(part.mark, step, (body,), out=(out,), after=after, unproved=reason)

    def steps(self, bench: Solved) -> Iterator[FillStep]:
        """Those that tilt in; those that do not, while the bays are open."""
        pairs = list(zip(bench.storage.of(PlacedShelf), bench.of(Role.SHELF), strict=True))
        tilting = tuple(part for shelf, part in pairs if tilts_in(bench, shelf))
        early = tuple(part for _, part in pairs if part not in tilting)
        if tilting:
            how = ("Tilt each shelf in through its opening.", "Lower it onto its cleats.")
            yield FillStep("shelves", "Shelves", tilting, "tilt in", how, shown=how)
        if early:
            yield FillStep(
                "early-shelves",
                "Shelves that cannot be tilted in later",
                early,
                "",
                (
                    "Rest each shelf on the cleats that are there.",
                    "Hold or strap its other end until the end frame with its cleats is on.",
                ),
                ("Count these shelves. They cannot go in once both end frames are on.",),
                early=True,
            )

    def openings(self, bench: Solved) -> Iterator[Opening]:
        """The clear height above each: to the next one's underside, or to the opening's top."""
        shelves, levels = bench.storage.of(PlacedShelf), bench.layout.levels
        for shelf in shelves:
            above = [s.cleat_top for s in shelves if s.bay == shelf.bay and s.top > shelf.top]
            top = min(above, default=levels.base_top + levels.opening)
            yield Opening(shelf.bay, f"above shelf {shelf.number}", top - shelf.top, shelf.top, top)

    def pictures(self, bench: Solved) -> Iterator[FillingPicture]:
        """The front edge on its cleats, which are dashed."""
        thick = bench.goods.strips[bench.spec.shelves.cleat].thickness
        for shelf in bench.storage.of(PlacedShelf):
            n, cleat = shelf.number, Span(shelf.cleat_top - CLEAT_HIGH, shelf.cleat_top)
            yield FillingPicture(
                shelf.bay,
                f"Shelf {n}",
                (
                    Seen(bay_of(bench.layout, shelf.bay)[1].clear, shelf.takes, "fill-wood"),
                    Seen(thick, cleat, "hidden", walls=True),
                ),
                ((shelf.cleat_top, f"cleat {n} top"), (shelf.top, f"shelf {n} top")),
                f"Shelf {n}: top at {{}}.",
                (shelf.top,),
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
        yield Sagging(
            "shelf",
            "the longest",
            widest,
            marks,
            load,
            long,
            None,
            True,
            ON_CLEATS,
            SAG_SHELF,
            ("shelves", "material"),
        )

    def judge(self, bench: Solved) -> Iterator[Verdict]:
        """Heights, and the way in."""
        return shelf_verdicts(bench)

    def clearances(self, bench: Solved) -> Iterator[Clearance]:
        """The longest between its walls."""
        shelves = bench.storage.of(PlacedShelf)
        if not shelves:
            return
        longest = max(shelves, key=lambda each: each.length)
        bay, offset = bay_of(bench.layout, longest.bay)[1], panel_rules(bench.loaded).fit.offset
        recess = bay.width + 2 * offset
        yield Clearance(
            "shelf between its walls",
            f"bay {longest.bay}, shelf {longest.number}",
            recess - longest.length,
            (Off("walls, apart", recess, BAY), Off("shelf, length", longest.length, takes=True)),
            LAID_IN,
            "Try a lath as long as the shelf first.",
        )
