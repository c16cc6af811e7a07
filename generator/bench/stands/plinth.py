"""A plinth: boards on edge, screwed to plates of the same sheet that are bolted below the frame.

The boards stand inside the bolts, which can be reached from the space for toes. So all of them have the same setback;
a board under the middle of its bar would cover the slot.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import ClassVar

from generator.bench.acts import LOWERING
from generator.bench.driven import EDGE_SIZES, Driven, wood_screw_name
from generator.bench.frames.facts import BuiltFrame, Seat
from generator.bench.frames.slotted import slotted
from generator.bench.law import Verdict, at_least, at_most
from generator.bench.layout import Below, Layout
from generator.bench.piece import Operation, Part
from generator.bench.place import SIDES, Place
from generator.bench.role import Role
from generator.bench.stands.facts import (
    Bolt,
    Judges,
    LoadOnOne,
    LoadRule,
    Silhouette,
    Stand,
    StandGoods,
    StandWords,
    StepWords,
)
from generator.bench.stands.plates import COACH_SCREWS, CORNERS, OnPlates, Spot, corner_spots, pilots
from generator.bench.stands.plinth_laws import BEARS, HOLLOW, LAWS, SETBACK, rating, refused
from generator.bench.terms import TermWords
from generator.calculators.fasteners import THREADS, bolt_window, stock_lengths
from generator.calculators.feet import foot_load
from generator.calculators.wood_screws import EDGE_THREAD, into_edge
from generator.findings import Finding
from generator.geometry import Box, Span
from generator.provenance import constant
from generator.spec.goods import Sheet
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec
from generator.spec.stands.plinth import Plinth

KIND, LONG, CROSS, PLATE = "plinth", "plinth long", "plinth cross", "plinth plate"
BOLT, SCREW = "plinth bolt", "plinth screw"
PATH = ("base", "plinth")

#: Between a board and the middle of a bolt beside it: half a washer and play (mm). Common practice, no source.
BESIDE_BOLT = constant(14, "space between a board of the plinth and a bolt")
#: Between the last bolt and the edge of a wooden plate (mm). Common practice, no source.
TO_EDGE = constant(20, "wood between a bolt and the edge of its plate")
#: Thickness of a washer, in diameters of its bolt: that of ISO 7089 for M5 to M10.
WASHER = constant("1/5", "thickness of a washer in diameters", "ISO 7089", "")
#: Coach screws into timber are as thick as this thread.
COACH = "M8"
#: As many washers as hold well under one head.
MOST_WASHERS = 3
#: Distance of the two bolts in a crossing bar (mm), as the seat in the middle of a side has them.
BETWEEN = Fraction(100)
#: Screws in each joint of two boards, and in each board below a plate.
PER_JOINT = 2

WORDS = StandWords(
    one="corner of the plinth",
    many="places on the plinth",
    plates="plinth plates",
    stage="Top grid and plinth",
    whole="is carried empty, or lifted with a hoist",
    rail="bar that runs on over its plates, half the loaded bench on each long rail",
    rail_two="bar that rests on two plates, half the loaded bench on each long rail",
    tip_line="The tipping line is the outer face of the plinth.",
    without="without its plinth",
    heading="Plinth",
    title="Plinth",
    plates_title="Plinth plates",
    low="a low corner: put a wedge below its board",
)
STEP = StepWords(
    key="plinth",
    motion="plinth",
    title="Plinth, from below",
    direction="up",
    notes=(
        "Leave the bench on its blocks while you fit these.",
        "Bolt the plates below the frame, with washers.",
        "Screw the long boards of the plinth to the ends of the others: drill first, then drive.",
        "Set the plinth under the plates, as far from each side.",
        "Screw the plates down to the boards, from inside the frame.",
        f"{LOWERING}, then onto the floor.",
        "Drive wedges below the boards until the top is level, lengthways and across.",
        "Cut the wedges off and fix them with glue.",
    ),
    cautions=("lift", "tip"),
    blocks="Set the base rails on level blocks, higher than the plinth.",
    carried="the frame, onto its plinth",
)


class OnPlinth(OnPlates):
    """Two long boards, a board at each end, and one beside each base cross-member."""

    kind = KIND
    laws = LAWS
    usual_masses: ClassVar = {BOLT: "0.02", SCREW: "0.004"}
    terms = (
        TermWords("plinth", "Boards on edge that a bench stands on, set back to leave space for toes.", ()),
    )
    cautions: ClassVar = {
        "tip": (
            "warning",
            "A bench on a plinth can tip",
            "Open one drawer at a time until the tip test is done, and write the limit on the bench. "
            "Never climb on it.",
        )
    }
    step_key, motion = STEP.key, STEP.motion

    def chosen(self, spec: Spec) -> bool:
        """Where the spec has one."""
        return spec.base.plinth is not None

    def refusals(self, loaded: LoadedSpec) -> Iterator[Finding]:
        """What no plinth can be built under, or of."""
        yield from refused(loaded)

    def height(self, loaded: LoadedSpec) -> Below:
        """All of it is the plinth."""
        return Below(_plinth(loaded).height, "plinth", "plinth")

    def judge(
        self, loaded: LoadedSpec, layout: Layout, stand: Stand, parts: Sequence[Part]
    ) -> Iterator[Verdict]:
        """The boards beside the bolts, and near the posts that bear on them."""
        setback, section, path = _plinth(loaded).setback, layout.section, (*PATH, "setback")
        yield at_least(SETBACK, setback, section / 2 + BESIDE_BOLT, "boards beside the bolts", path)
        yield at_most(SETBACK, setback, section + 10, "boards below the posts", path)

    def stand(self, loaded: LoadedSpec, layout: Layout, frame: BuiltFrame) -> Stand:
        """Plates below the frame, and the boards below them."""
        spec, plinth, sheet = loaded.spec, _plinth(loaded), _sheet(loaded)
        inner = plinth.setback + sheet.thickness + BESIDE_BOLT
        side = inner + BETWEEN + TO_EDGE
        spots = tuple(corner_spots(spec, layout, inner + BETWEEN / 2))
        seats = tuple(
            frame.seat(spot.place, spot.point, (side, side), _under_heads(loaded)[1]) for spot in spots
        )
        plates = tuple(
            _plate(loaded, number, *each) for number, each in enumerate(zip(spots, seats, strict=True), 1)
        )
        boards = tuple(_boards(loaded, layout, frame))
        points = tuple(_bearing(layout, spot, plinth.setback) for spot in spots)
        screws = _screws(loaded, boards, len(plates))
        return Stand(
            kind=KIND,
            words=WORDS,
            points=points,
            inward=None,
            rating=rating(sheet.thickness, side),
            lumps=(),
            rule=_rule(len(points)),
            step=STEP if loaded.goods.profile is not None else replace(STEP, notes=_into_timber()),
            laws=Judges(BEARS, HOLLOW),
            parts=(*plates, *boards),
            bolts=tuple(
                Bolt(plate.mark, hold.member, hold.at)
                for plate, seat in zip(plates, seats, strict=True)
                for hold in seat.holds
            ),
            fixings=tuple(_fixings(loaded, seats, screws)),
            screws=(screws,),
            machining=tuple(pilots(frame, seats)),
            silhouette=Silhouette(),
            terms=self.terms,
            cautions=self.cautions,
            unused=("base.casters", "base.brakes", "base.plate"),
            path=PATH,
        )


def _into_timber() -> tuple[str, ...]:
    """The words of the step where coach screws hold the plates."""
    first, _, *others = STEP.notes
    return first, COACH_SCREWS, *others


def _plinth(loaded: LoadedSpec) -> Plinth:
    assert loaded.spec.base.plinth is not None
    return loaded.spec.base.plinth


def _sheet(loaded: LoadedSpec) -> Sheet:
    return loaded.goods.sheets[_plinth(loaded).material]


def _bearing(layout: Layout, spot: Spot, setback: Fraction) -> tuple[Fraction, Fraction]:
    """Where the plinth's outer faces are below a plate."""
    x, y = spot.point
    along = {"left": setback, "right": layout.length - setback}.get(spot.place.end, x)
    return along, setback if y < layout.depth / 2 else layout.depth - setback


def _plate(loaded: LoadedSpec, number: int, spot: Spot, seat: Seat) -> Part:
    thickness = _sheet(loaded).thickness
    box = Box(seat.x, seat.y, Span(-thickness, Fraction(0)))
    holes = (
        Operation(
            "through hole", "bottom", (hold.at[0] - box.x.low, hold.at[1] - box.y.low), seat.thread.clearance, None,
            f"bolt to {hold.member}",
        )
        for hold in seat.holds
    )  # fmt: skip
    ports = (
        Operation(
            "port", "bottom", (port.at[0] - box.x.low, port.at[1] - box.y.low), port.size, None,
            f"key to {port.member}",
        )
        for port in seat.ports
    )  # fmt: skip
    return _wood(loaded, f"PIP{number}", PLATE, box, ("x", "y"), spot.place, (*holes, *ports))


def _wood(
    loaded: LoadedSpec,
    mark: str,
    name: str,
    box: Box,
    ways: tuple[str, str],
    place: Place,
    operations: tuple[Operation, ...] = (),
) -> Part:
    along, across = ways
    return Part(
        mark=mark,
        name=name,
        role=Role.STAND,
        own_group=name,
        material=_plinth(loaded).material,
        kind="sheet",
        box=box,
        along=along,
        across=across,
        place=place,
        thickness=_sheet(loaded).thickness,
        operations=operations,
    )


def _boards(loaded: LoadedSpec, layout: Layout, frame: BuiltFrame) -> Iterator[Part]:
    """Long boards at front and rear, between them a board at each end and beside the cross-members."""
    plinth, thick = _plinth(loaded), _sheet(loaded).thickness
    z = Span(-plinth.height, -thick)
    x = Span(plinth.setback, layout.length - plinth.setback)
    y = Span(plinth.setback, layout.depth - plinth.setback)
    rows = (Span(y.low, y.low + thick), Span(y.high - thick, y.high))
    for number, (side, row) in enumerate(zip(SIDES, rows, strict=True), 1):
        yield _wood(loaded, f"PIL{number}", LONG, Box(x, row, z), ("x", "z"), Place(side=side))
    between = Span(rows[0].high, rows[1].low)
    crossing = sorted({part.box.x.middle for part in frame.members if part.role is Role.BASE_CROSS_MEMBER})
    lows = [
        (x.low, Place(end="left")),
        *((at + BESIDE_BOLT, Place(lines=_line(layout, at), level="base")) for at in crossing),
        (x.high - thick, Place(end="right")),
    ]
    for number, (low, place) in enumerate(lows, 1):
        board = Box(Span(low, low + thick), between, z)
        yield _wood(loaded, f"PIC{number}", CROSS, board, ("y", "z"), place)


def _line(layout: Layout, middle: Fraction) -> tuple[int, ...]:
    """The line of posts over a cross-member; none over one that the middle supports asked for."""
    left = middle - layout.section / 2
    return (layout.line_number(left),) if left in layout.lines else ()


def _screws(loaded: LoadedSpec, boards: Sequence[Part], plates: int) -> Driven:
    """Boards to each other, and plates down to the two boards below each."""
    thick = _sheet(loaded).thickness
    screw = into_edge(EDGE_SIZES, loaded.spec.units, thick, thick)
    crossing = sum(board.name == CROSS for board in boards)
    count = PER_JOINT * 2 * (crossing + plates)
    return Driven(
        SCREW, screw, count, thick, EDGE_THREAD * screw.shank + screw.length, "boards of the plinth",
        (*PATH, "material"), thick, holds="base.plinth.material",
    )  # fmt: skip


def _fixings(loaded: LoadedSpec, seats: Sequence[Seat], screws: Driven) -> Iterator[StandGoods]:
    by, count = seats[0].by, sum(len(seat.holds) for seat in seats)
    washers, grip = _under_heads(loaded)
    each = "with a washer each" if washers == 1 else f"with {washers} washers each"
    yield StandGoods(
        BOLT, count, f"plates {by.use}" if by.into == "wood" else f"plates {by.use}, {each}", size=by.size,
        into=by.into, grip=grip, path=(*PATH, "material"), spares=True, key=by.key,
    )  # fmt: skip
    yield StandGoods(
        SCREW, screws.count, "boards to each other, and plates to the boards", size=wood_screw_name(screws.screw),
        spares=True, key="driver",
    )  # fmt: skip


def _under_heads(loaded: LoadedSpec) -> tuple[int, Fraction]:
    """How many washers a bolt needs so that a length that is sold fits its nut, and what it then clamps (mm).

    A coach screw into timber has one.
    """
    thickness, nut = _sheet(loaded).thickness, loaded.goods.slot_nut
    if loaded.goods.profile is None:
        return 1, thickness + THREADS[COACH].diameter * WASHER
    bar = slotted(loaded.goods)
    washer = THREADS[nut.thread].diameter * WASHER
    for count in range(1, MOST_WASHERS + 1):
        grip = thickness + count * washer
        window = bolt_window(
            grip=grip, lip=bar.slot.lip, nut=nut.height, slot_depth=bar.slot.depth,
            lengths=stock_lengths(nut.thread),
        )  # fmt: skip
        if window.length is not None:
            return count, grip
    return 1, thickness + washer


def _load(loaded: float, _: int) -> LoadOnOne:
    found = foot_load(loaded)
    return LoadOnOne(found.each, found.required)


def _rule(count: int) -> LoadRule:
    whole = "four" if count == CORNERS else str(count)
    return LoadRule(
        _load,
        on_paper="on three of its plates",
        standing=f"On one of {whole} plates when three carry, with a quarter for hard loads",
        explained="A stiff frame bears on three plates until wedges below the plinth carry everywhere.",
        summary="the loaded bench on three plates, and a quarter more for hard loads",
        rating="What a board bears below a plate",
        in_the_air="On one plate of a stiff frame, when any other is hollow",
    )
