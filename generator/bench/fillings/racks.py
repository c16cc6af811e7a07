"""Racks: upright boards in the grooves of a board below and one above, with equal slots between them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import ClassVar

from generator.bench.fillings.facts import (
    FillingPicture,
    FillStep,
    Load,
    Opening,
    Placed,
    Sagging,
    Seen,
    Solved,
    StackSlot,
    StickMark,
)
from generator.bench.fillings.kind import FillingKind, Ways
from generator.bench.fillings.shelf_boards import CLEAT_HIGH, CLEAT_SHORT
from generator.bench.fillings.walls import PLAY, both_walls, ceiling, centred
from generator.bench.frames.panels import panel_rules
from generator.bench.law import Case, Law, Verdict, at_least, bay_path
from generator.bench.layout import BayPlace, Layout, ZonePlace, bay_of
from generator.bench.piece import Operation, Part
from generator.bench.place import Item, Place
from generator.bench.remedies import thicker
from generator.bench.role import Role
from generator.bench.terms import TermWords
from generator.calculators.assembly import Motion
from generator.calculators.shelves import tilt_in
from generator.codes import Code
from generator.findings import Change, Finding
from generator.geometry import Box, Span
from generator.provenance import constant
from generator.spec.fillings import StackItem
from generator.spec.load import LoadedSpec

#: Depth of the grooves, and what an upright is lower than they allow (mm). Common practice, no source.
GROOVE = constant(6, "depth of the grooves of a rack")
SHORT = constant(1, "an upright of a rack is lower than its grooves allow by")
#: A groove that is deeper than half of its board splits it: boards from here on (mm). Common practice, no source.
LEAST_BOARD = 2 * GROOVE
#: A slot through which a hand holds what is in it (mm). Common practice, no source.
LEAST_SLOT = constant(20, "least slot of a rack")
TILTED_IN = "tilted in through the opening"
ON_CLEATS = "board on two ends, its load spread"


def _thicker_board(case: Case) -> tuple[Change, ...]:
    return case.length(("materials", case.spec.shelves.material, "thickness"), case.limit)


SAG = Law(
    Code.SAG_RACK, "warning", "The rack's lower board is stiff enough", "The rack's lower board sags too far",
    "Use a thicker board, a narrower bay, or a lighter load.", "The uprights come out of their upper grooves.",
    thicker(lambda spec: spec.shelves.material),
    quantity="sag in the middle, loaded for years",
)  # fmt: skip
SLOT = Law(
    Code.RACK_SLOT, "warning", "The rack's slots are wide enough for a hand", "The rack's slots are too narrow",
    "Use fewer slots, or widen the bay.", "What is in a narrow slot cannot be taken out.",
    "the slots share in the bay's width: how many there are is the maker's choice",
    quantity="width of a slot",
)  # fmt: skip
BOARD = Law(
    Code.RACK_BOARD, "error", "The rack's boards are twice as thick as their grooves are deep",
    "The rack's boards are too thin for their grooves", "Use a thicker board for the shelves.",
    "The board breaks along the groove.", _thicker_board,
    quantity="thickness of the boards",
)  # fmt: skip


CLEATS = Law(
    Code.RACK_CLEATS, "error", "There is space under the rack for its cleats",
    "There is no space under the rack for its cleats", "Put an open space of at least {} under the rack.",
    "Nothing would carry the rack's lower board.",
    "an open space is an item too, and takes its height from the rest of the stack", lengths=(CLEAT_HIGH,),
    quantity="height under the rack",
)  # fmt: skip


@dataclass(frozen=True)
class PlacedRack:
    """A rack in its bay: heights above the frame's underside, the width of a slot, the thickness of its boards (mm)."""

    bay: str
    number: int
    bottom: Fraction
    height: Fraction
    slots: int
    slot: Fraction
    board: Fraction
    on_rails: bool

    @property
    def place(self) -> Place:
        """Where its boards are."""
        return Place(bay=self.bay, item=Item("rack", self.number))

    @property
    def fills_width(self) -> Span | None:
        """Its boards and their cleats reach from wall to wall."""
        below = Fraction(0) if self.on_rails else CLEAT_HIGH
        return Span(self.bottom - below, self.bottom + self.height)

    @property
    def takes(self) -> Span | None:
        """All of its height."""
        return Span(self.bottom, self.bottom + self.height)


class RackFilling(FillingKind[PlacedRack]):
    """Upright boards between two that lie."""

    kind, placed, goes_in = "rack", PlacedRack, 3
    sections = ("shelves",)
    coated: ClassVar = {"rack board": "shelves", "rack upright": "shelves"}
    seen_edges: ClassVar = {"rack board": "open", "rack upright": "open"}
    laws = (SAG, SLOT, BOARD, CLEATS)
    terms = (
        TermWords("rack", "Upright boards in a bay, with slots between them for sheet goods.", ("racks",)),
        TermWords("upright", "An upright board of a rack, held by two grooves.", ("uprights",)),
    )
    fixed = (
        ("the grooves of a rack are deep by", GROOVE),
        ("an upright of a rack is lower than its grooves allow by", SHORT),
    )
    step_names: ClassVar = {"early-racks": "boards of racks that cannot be tilted in"}

    def alone(
        self,
        loaded: LoadedSpec,
        layout: Layout,
        bay: BayPlace,
        items: Sequence[StackItem],
        faults: list[Finding],
    ) -> list[StackSlot] | None:
        """A single rack of a share fills the opening, without gaps."""
        wanted = items[0].rack
        if len(items) > 1 or wanted is None or isinstance(wanted, Fraction):
            return None
        return [StackSlot(items[0], layout.levels.base_top, layout.levels.opening)]

    def place(
        self, loaded: LoadedSpec, layout: Layout, zone: ZonePlace, bay: BayPlace, slots: Sequence[StackSlot]
    ) -> Iterator[PlacedRack]:
        """The bay's width less the uprights, in equal slots."""
        board = loaded.goods.sheets[loaded.spec.shelves.material].thickness
        for number, slot in enumerate(slots, 1):
            count = slot.item.slots
            clear = (bay.clear - (count - 1) * board) / count
            # the lowest thing in its bay lies on the rails: cleats under it have no room there
            base = layout.levels.base_top
            on_rails = slot.bottom <= base + loaded.spec.drawers.gap
            bottom = base if on_rails else slot.bottom
            height = min(slot.bottom + slot.height, ceiling(layout, bay)) - bottom
            yield PlacedRack(bay.name, number, bottom, height, count, clear, board, on_rails)

    def refusals(
        self, loaded: LoadedSpec, bay: BayPlace, slots: Sequence[StackSlot], placed: Sequence[PlacedRack]
    ) -> Iterator[Finding]:
        """Racks without space in them."""
        for rack, slot in zip(placed, slots, strict=True):
            index = next(i for i, each in enumerate(bay.spec.stack) if each is slot.item)
            at = ("zones", bay.zone, "bays", bay.index, "stack", index)
            if rack.slots < 2:
                yield loaded.fault(
                    Code.NO_SIZE, f"the rack in bay {bay.name} would have no uprights", *at, "slots",
                    found=str(rack.slots), allowed="2 slots or more; a bay without uprights takes shelves",
                )  # fmt: skip
            if rack.slot <= 0:
                yield loaded.fault(
                    Code.NO_SIZE, f"the slots of the rack in bay {bay.name} would be {loaded.say(rack.slot)} wide",
                    *at, "slots", found=str(rack.slots), allowed="fewer slots, or a wider bay",
                )  # fmt: skip
            if rack.height <= 4 * rack.board:
                yield loaded.fault(
                    Code.NO_SIZE, f"the rack in bay {bay.name} would have no space between its boards", *at, "rack",
                    found=loaded.say(rack.height), allowed=f"more than {loaded.say(4 * rack.board)}",
                )  # fmt: skip

    def parts(
        self,
        loaded: LoadedSpec,
        layout: Layout,
        zone: ZonePlace,
        bay: BayPlace,
        placed: Sequence[PlacedRack],
        all_: Sequence[Placed],
    ) -> Iterator[Part]:
        """The lower and the upper board with their cleats, and the uprights from the left."""
        for rack in placed:
            yield from _boards(loaded, zone, bay, rack)
            yield from _uprights(loaded, zone, bay, rack)

    def motions(self, bench: Solved, ways: Ways) -> Iterator[Motion]:
        """Both boards onto their cleats, then the uprights along their grooves."""
        for rack in bench.storage.of(PlacedRack):
            out, walls = ways.out(rack.bay), ways.walls_of(rack.bay)
            boards = [part for part in self._of(bench, rack) if part.own_group == "rack board"]
            reason, step = (TILTED_IN, "racks") if _tilts(bench, rack) else ("", "early-racks")
            for part in boards:
                yield Motion(
                    part.mark, step, (ways.bodies[part.mark],), out=(out,), after=walls, unproved=reason
                )
            after = tuple(part.mark for part in boards)
            for part in self._of(bench, rack):
                if part.own_group == "rack upright":
                    yield Motion(part.mark, "racks", (ways.bodies[part.mark],), out=(out,), after=after)

    def steps(self, bench: Solved) -> Iterator[FillStep]:
        """Boards and uprights; boards that do not tilt in, while the bays are open."""
        early = tuple(
            part
            for rack in bench.storage.of(PlacedRack)
            if not _tilts(bench, rack)
            for part in self._of(bench, rack)
            if part.own_group == "rack board"
        )
        here = tuple(part for part in _pieces(bench) if part not in early)
        if here:
            yield FillStep(
                "racks",
                "Racks",
                here,
                "from the open face",
                (
                    "Tilt the boards in.",
                    "Lower them onto their cleats, grooves towards each other.",
                    "Slide each upright into its two grooves from the open face, flush with the boards' front edges.",
                ),
                ("All slots are of one width, and each upright moves by hand.",),
            )
        if early:
            yield FillStep(
                "early-racks",
                "Boards of racks that cannot be tilted in later",
                early,
                "",
                (
                    "Rest each board on the cleats that are there, grooves towards each other.",
                    "Hold or strap its other end until the end frame with its cleats is on.",
                ),
                early=True,
            )

    def openings(self, bench: Solved) -> Iterator[Opening]:
        """The height between the boards."""
        for rack in bench.storage.of(PlacedRack):
            low, high = rack.bottom + rack.board, rack.bottom + rack.height - rack.board
            yield Opening(rack.bay, f"rack {rack.number}, between its boards", high - low, low, high)

    def pictures(self, bench: Solved) -> Iterator[FillingPicture]:
        """Both boards and the uprights."""
        for rack in bench.storage.of(PlacedRack):
            bay, n = bay_of(bench.layout, rack.bay)[1], rack.number
            low = Span(rack.bottom, rack.bottom + rack.board)
            high = Span(rack.bottom + rack.height - rack.board, rack.bottom + rack.height)
            between = Span(low.high, high.low)
            middles = [left + rack.board / 2 - bay.clear / 2 for left in _lefts(rack)]
            yield FillingPicture(
                rack.bay,
                f"Rack {n}",
                (
                    Seen(bay.clear, low, "fill-wood"),
                    Seen(bay.clear, high, "fill-wood"),
                    *(Seen(rack.board, between, "fill-wood", aside=aside) for aside in middles),
                ),
                ((low.low, f"rack {n} bottom"), (high.high, f"rack {n} top")),
                f"Rack {n}: {rack.slots} slots, from {{}} to {{}}.",
                (low.low, high.high),
            )

    def marks(self, bench: Solved) -> Iterator[StickMark]:
        """Undersides of its boards, where its cleats end."""
        datum = bench.layout.levels.base_top
        for rack in bench.storage.of(PlacedRack):
            yield StickMark(rack.bay, rack.bottom - datum, f"rack {rack.number} lower board, underside")
            upper = rack.bottom + rack.height - rack.board - datum
            yield StickMark(rack.bay, upper, f"rack {rack.number} upper board, underside")

    def payload(self, bench: Solved) -> Fraction:
        """As much as a shelf, a rack."""
        return bench.spec.loads.shelf * len(bench.storage.of(PlacedRack))

    def loads(self, bench: Solved) -> Iterator[Load]:
        """On the lower board."""
        for rack in bench.storage.of(PlacedRack):
            lower, _ = (part for part in self._of(bench, rack) if part.own_group == "rack board")
            box = lower.box
            yield Load(bench.spec.loads.shelf, (box.x.middle, box.y.middle, box.z.high))

    def sagging(self, bench: Solved) -> Iterator[Sagging]:
        """The longest lower board."""
        boards = [part for part in _pieces(bench) if part.own_group == "rack board"]
        if boards:
            widest = max(boards, key=lambda part: part.length)
            marks = tuple(part.mark for part in boards if part.length == widest.length)
            yield Sagging(
                "rack board", "the longest", widest, marks, bench.spec.loads.shelf, widest.length, None, True,
                ON_CLEATS, SAG, ("shelves", "material"),
            )  # fmt: skip

    def judge(self, bench: Solved) -> Iterator[Verdict]:
        """Slots and boards."""
        for rack in bench.storage.of(PlacedRack):
            bay = bay_of(bench.layout, rack.bay)[1]
            where, path = f"bay {rack.bay}, rack {rack.number}", (*bay_path(bay), "stack")
            yield at_least(SLOT, rack.slot, LEAST_SLOT, where, path)
            yield at_least(BOARD, rack.board, LEAST_BOARD, where, ("shelves", "material"))
            if not rack.on_rails:
                yield at_least(CLEATS, rack.bottom - _below(bench, rack), CLEAT_HIGH, where, path)

    def _of(self, bench: Solved, rack: PlacedRack) -> list[Part]:
        return [part for part in _pieces(bench) if part.place == rack.place]


def _below(bench: Solved, rack: PlacedRack) -> Fraction:
    """Upper end of what is under a rack from wall to wall, or of the base rails (mm)."""
    ends = [
        other.fills_width.high
        for other in bench.storage.items
        if other.bay == rack.bay
        and other is not rack
        and other.fills_width
        and other.fills_width.low < rack.bottom
    ]
    return max((*ends, bench.layout.levels.base_top))


def _pieces(bench: Solved) -> list[Part]:
    own = ("rack board", "rack upright")
    return [part for part in bench.of(Role.FILLING) if part.own_group in own]


def _tilts(bench: Solved, rack: PlacedRack) -> bool:
    """Whether a board passes between the posts; below it there is as much height as in the opening."""
    bay = bay_of(bench.layout, rack.bay)[1]
    recess = bay.width + 2 * panel_rules(bench.loaded).fit.offset
    return tilt_in(recess - 2 * PLAY, rack.board, bay.width, recess, bench.layout.levels.opening).possible


def _lefts(rack: PlacedRack) -> Iterator[Fraction]:
    """Left faces of the uprights from the bay's left side (mm)."""
    for number in range(1, rack.slots):
        yield number * rack.slot + (number - 1) * rack.board


def _boards(loaded: LoadedSpec, zone: ZonePlace, bay: BayPlace, rack: PlacedRack) -> Iterator[Part]:
    offset, material = panel_rules(loaded).fit.offset, loaded.spec.shelves.material
    length = bay.clear + 2 * offset - 2 * PLAY
    x, y = centred(bay, length), Span(zone.y.low + PLAY, zone.y.high - PLAY)
    left = bay.x.middle - bay.clear / 2 - x.low
    grooves = tuple(
        Operation(
            "groove", "inside", (left + at + rack.board / 2, y.size / 2), (rack.board, y.size), GROOVE,
            "for an upright",
        )
        for at in _lefts(rack)
    )  # fmt: skip
    top = rack.bottom + rack.height
    for z in (Span(rack.bottom, rack.bottom + rack.board), Span(top - rack.board, top)):
        yield Part(
            "RB", "rack board", Role.FILLING, material, "sheet", Box(x, y, z), "x", "y", rack.place, rack.board,
            operations=grooves, own_group="rack board",
        )  # fmt: skip
        if not (rack.on_rails and z.low == rack.bottom):
            yield from _cleats(loaded, zone, bay, rack, z.low)


def _cleats(
    loaded: LoadedSpec, zone: ZonePlace, bay: BayPlace, rack: PlacedRack, top: Fraction
) -> Iterator[Part]:
    offset, name = panel_rules(loaded).fit.offset, loaded.spec.shelves.cleat
    thick = loaded.goods.strips[name].thickness
    y, z = Span(zone.y.low + CLEAT_SHORT, zone.y.high - CLEAT_SHORT), Span(top - CLEAT_HIGH, top)
    for side, wall in both_walls(bay, offset, thick):
        place = replace(rack.place, wall=side)
        yield Part(
            "SC", "shelf cleat", Role.SHELF_CLEAT, name, "strip", Box(wall, y, z), "y", "z", place, thick
        )


def _uprights(loaded: LoadedSpec, zone: ZonePlace, bay: BayPlace, rack: PlacedRack) -> Iterator[Part]:
    y = Span(zone.y.low + PLAY, zone.y.high - PLAY)
    low = rack.bottom + rack.board - GROOVE + SHORT / 2
    z = Span(low, low + rack.height - 2 * rack.board + 2 * GROOVE - SHORT)
    for at in _lefts(rack):
        left = bay.x.middle - bay.clear / 2 + at
        yield Part(
            "RU", "rack upright", Role.FILLING, loaded.spec.shelves.material, "sheet",
            Box(Span(left, left + rack.board), y, z), "z", "y", rack.place, rack.board, own_group="rack upright",
        )  # fmt: skip
