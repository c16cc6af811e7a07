"""Doors before the bays: between the posts on butt hinges or before them on hinges with a cup."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from typing import ClassVar

from generator.bench.box_body import block_about
from generator.bench.driven import Driven, Path, chosen
from generator.bench.fillings import pulls
from generator.bench.fillings.covers import most_overlay, overlay_of, overlays
from generator.bench.fillings.cup_hinges import (
    PLATE_SCREW,
    SCREW,
    cup_cards,
    cup_notes,
    cup_screws,
    hung_notes,
)
from generator.bench.fillings.door_laws import LAWS, door_verdicts, frame_screw
from generator.bench.fillings.door_leaves import (
    boards,
    bows,
    door_part,
    door_pulls,
    hinge_boxes,
    post_of,
    screw_heights,
    turning,
)
from generator.bench.fillings.door_places import PER_LEAF, PlacedDoor, placed_doors
from generator.bench.fillings.facts import (
    BAY,
    Clearance,
    FillingGoods,
    FillingPicture,
    FillStep,
    Need,
    Off,
    Placed,
    PlacedPull,
    Seen,
    SlotBolt,
    Solved,
    StackSlot,
    StickMark,
    Swing,
    Thing,
    ToMeasure,
)
from generator.bench.fillings.kind import FillingKind, Ways
from generator.bench.frames.facts import WorkCard
from generator.bench.law import Verdict, bay_path
from generator.bench.layout import BayPlace, Layout, ZonePlace, bay_of
from generator.bench.piece import Part
from generator.bench.terms import TermWords
from generator.calculators.assembly import Motion
from generator.calculators.bodies import Body
from generator.calculators.doors import ARM, BEHIND, BESIDE, FREE, LEAST_HEIGHT
from generator.calculators.fit_verdicts import SWINGS
from generator.calculators.wood_screws import fitting, stock
from generator.codes import Code
from generator.findings import Finding
from generator.geometry import Span
from generator.provenance import constant
from generator.spec.fillings import StackItem
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec

KEY, HINGE, BOLT, CATCH = "doors", "hinge", "hinge bolt", "catch"
EACH = "one a door"
#: What is done with butt hinges before a door is hung, and how it is hung.
_LEAVES = (
    "Lay a hinge on its marks: its holes must agree with them.",
    "Screw the hinge to the outer face of the door.",
)
_HUNG = (
    "Put strips as thick as the gap on the base rail.",
    "Set the door on the strips, flush with the front of the posts.",
    "Bolt its upper hinge to the slot nuts.",
    "Bolt the other hinges.",
    "Move the nuts in the slot until the gap is even.",
)
#: A good shop keeps this (mm). Common practice, no source.
CUT = constant("0.5", "how far a door's width may be off")


class DoorFilling(FillingKind[PlacedDoor]):
    """A board that turns before all that its bay holds."""

    kind, placed, goes_in = "door", PlacedDoor, 4
    sections = ("doors",)
    laws = LAWS
    coated: ClassVar = {"door": "doors"}
    seen_edges: ClassVar = {"door": "all"}
    terms = (
        TermWords("door", "A board on hinges that closes a bay.", ("doors",)),
        TermWords("butt hinge", "Two metal leaves that turn about one pin.", ("butt hinges",)),
        TermWords("cup hinge", "A hinge with a round cup in a hole of its door.", ("cup hinges",)),
        TermWords("overlay", "How far a door covers the post beside its opening."),
        TermWords("catch", "A magnet or latch that keeps a door shut.", ("catches",)),
    )
    cautions: ClassVar = {
        KEY: (
            "caution",
            "Fingers in a door",
            "Keep fingers out of the gap at the hinges. Shut and latch all doors before the bench rolls.",
        )
    }
    fixed = (
        ("what is behind a door begins behind it by", BEHIND),
        ("what passes an open door keeps clear of it by", BESIDE),
        ("the arm of a cup hinge reaches into its bay by", ARM),
    )
    bought = (
        FillingGoods(HINGE, KEY, mass="0.06"),
        FillingGoods(BOLT, KEY, "hexagon key", mass="0.006"),
        FillingGoods(CATCH, KEY, "screwdriver", mass="0.02"),
        FillingGoods(pulls.PULL, KEY, use=EACH),
        FillingGoods(pulls.SCREW, KEY, "screwdriver", use="pull to door"),
        FillingGoods(SCREW, KEY, "screwdriver", use="hinges to doors", screw=True),
        FillingGoods(PLATE_SCREW, KEY, "screwdriver", use="plates of hinges to posts", screw=True),
    )

    @property
    def stacks(self) -> bool:
        """It is before the stack."""
        return False

    def takes(self, item: StackItem) -> bool:
        """It is no item of a stack."""
        return False

    def place(
        self, loaded: LoadedSpec, layout: Layout, zone: ZonePlace, bay: BayPlace, slots: Sequence[StackSlot]
    ) -> Iterator[PlacedDoor]:
        """One or two, by the key of the bay."""
        return placed_doors(loaded, layout, bay)

    def refusals(
        self, loaded: LoadedSpec, bay: BayPlace, slots: Sequence[StackSlot], placed: Sequence[PlacedDoor]
    ) -> Iterator[Finding]:
        """Hinges that miss the slot, and doors of no size."""
        at = ("zones", bay.zone, "bays", bay.index, "door")
        for door in placed[:1]:
            yield from _unhung(loaded, bay)
            if door.z.size < LEAST_HEIGHT:
                yield loaded.fault(
                    Code.NO_SIZE, f"the door of bay {bay.name} is too low for two hinges", *at,
                    found=loaded.say(door.z.size), allowed=f"{loaded.say(LEAST_HEIGHT)} or more",
                )  # fmt: skip
            if door.x.size < LEAST_HEIGHT:
                yield loaded.fault(
                    Code.NO_SIZE, f"the door of bay {bay.name} is too narrow", *at,
                    found=loaded.say(door.x.size), allowed=f"{loaded.say(LEAST_HEIGHT)} or more",
                )  # fmt: skip
            grip = loaded.goods.door_pull
            if grip is not None and grip.kind == "edge grip" and grip.size[1] >= door.z.size:
                yield loaded.fault(
                    Code.NO_SIZE, f"the edge grip would cut through the door of bay {bay.name}", *at,
                    found=f"a grip {loaded.say(grip.size[1])} deep",
                    allowed=f"a grip less than {loaded.say(door.z.size)} deep",
                )  # fmt: skip

    def parts(
        self,
        loaded: LoadedSpec,
        layout: Layout,
        zone: ZonePlace,
        bay: BayPlace,
        placed: Sequence[PlacedDoor],
        all_: Sequence[Placed],
    ) -> Iterator[Part]:
        """One board each."""
        for door in placed:
            yield door_part(loaded, layout, zone, door)

    def bodies(self, bench: Solved) -> Iterator[Body]:
        """Both leaves of each hinge of the closed door."""
        for door in bench.storage.of(PlacedDoor):
            for name, leaves in hinge_boxes(bench, door):
                yield Body(name, name, HINGE, tuple(block_about(leaf) for leaf in leaves))

    def body_goods(self, spec: Spec) -> Mapping[str, Path]:
        """Its hinges."""
        return {HINGE: ("hardware", spec.doors.hinge)}

    def motions(self, bench: Solved, ways: Ways) -> Iterator[Motion]:
        """Each with its hinges, into its opening."""
        for door, board in boards(bench):
            names = [board.mark, *(name for name, _ in hinge_boxes(bench, door))]
            yield Motion(
                board.mark, KEY, tuple(ways.bodies[name] for name in names), out=(ways.out(door.bay),)
            )

    def slot_bolts(self, bench: Solved) -> Iterator[SlotBolt]:
        """Those of the hinges, in the posts."""
        if bench.goods.profile is None:
            return
        for door in bench.storage.of(PlacedDoor):
            post, face = post_of(bench, door)
            for height in screw_heights(bench.loaded, door):
                yield SlotBolt(post.mark, face, door.z.low + height, "hinges")

    def needs(self, bench: Solved) -> Iterator[Need]:
        """Hinges with their machine screws, pulls, catches."""
        doors, rules, goods = bench.storage.of(PlacedDoor), bench.spec.doors, bench.goods
        if not doors:
            return
        count, card = sum(len(door.hinges) for door in doors), goods.hinge
        if card.leaf is not None:
            yield Need(HINGE, rules.hinge, count, "doors to posts", "leaf {}", card.leaf)
        elif card.cup is not None:
            yield Need(HINGE, rules.hinge, count, "doors to posts", "cup {}", (card.cup.diameter,))
        if goods.profile is not None:
            bolts = "hinges to slot nuts; countersunk"
            yield Need(BOLT, BOLT, count * PER_LEAF, bolts, frame_screw(goods))
        if goods.door_pull is not None and goods.door_pull.kind == "pull":
            grips = [door.thickness for door in doors]
            yield from pulls.goods_of(goods.door_pull, str(rules.pull), grips, EACH, "pull to door")
        if rules.catch:
            yield Need(CATCH, rules.catch, len(doors), EACH)

    def screws(self, bench: Solved) -> Iterator[Driven]:
        """Hinges to the doors' faces."""
        doors, card, spec = bench.storage.of(PlacedDoor), bench.goods.hinge, bench.spec
        if card.cup is not None:
            yield from cup_screws(bench)
            return
        if not doors:
            return
        usual = fitting(stock("4", spec.units), card.thickness, doors[0].thickness)
        count = sum(len(door.hinges) for door in doors) * PER_LEAF
        yield Driven(
            SCREW, chosen(card.screw, usual), count, card.thickness, doors[0].thickness, "door's hinge",
            ("hardware", spec.doors.hinge, "screw"), holds="doors.material", usual=usual,
        )  # fmt: skip

    def steps(self, bench: Solved) -> Iterator[FillStep]:
        """Hinges, then door by door."""
        pieces = tuple(board for _, board in boards(bench))
        if not pieces:
            return
        yield FillStep(
            KEY, "Doors", pieces, "from the open face",
            (
                *(_LEAVES if bench.goods.hinge.cup is None else cup_notes(bench)),
                *_of_pull(bench),
                *(_HUNG if bench.goods.hinge.cup is None else hung_notes(bench)),
                *(("Screw the catch to the edge that opens.",) if bench.goods.catch else ()),
            ),
            ("The gap is even all round, and the door turns without rubbing.",),
            (KEY,),
        )  # fmt: skip

    def uses(self, bench: Solved) -> Iterator[tuple[str, str]]:
        """Its hinge, pull and catch."""
        if bench.storage.of(PlacedDoor):
            rules = bench.spec.doors
            yield from (("hardware", name) for name in (rules.hinge, rules.pull, rules.catch) if name)

    def marks(self, bench: Solved) -> Iterator[StickMark]:
        """Hinges, on the post."""
        datum = bench.layout.levels.base_top
        for door in bench.storage.of(PlacedDoor):
            for number, height in enumerate(door.hinges, 1):
                label = f"hinge {number} of door {door.number}"
                yield StickMark(door.bay, door.z.low + height - datum, label, "centre")

    def pictures(self, bench: Solved) -> Iterator[FillingPicture]:
        """The outline of what closes a bay, dashed, before what it hides."""
        doors = bench.storage.of(PlacedDoor)
        for bay in dict.fromkeys(door.bay for door in doors):
            own = [door for door in doors if door.bay == bay]
            z, x = own[0].z, Span(own[0].x.low, own[-1].x.high)
            sides = " and ".join(door.hinge_side for door in own)
            yield FillingPicture(
                bay, "", (Seen(x.size, z, "hidden"),), (), f"Door from {{}} to {{}}, hinges on the {sides}.",
                (z.low, z.high), note="Dashed: doors.",
            )  # fmt: skip

    def to_measure(self, bench: Solved) -> Iterator[ToMeasure]:
        """The leaves of its hinges, or their cups."""
        if bench.storage.of(PlacedDoor):
            card, path = bench.goods.hinge, f"hardware.{bench.spec.doors.hinge}"
            if card.cup is not None:
                before, key = "Hinge: depth of the cup", f"{path}.cup.depth"
                yield ToMeasure(before, "Hinge, cup", key, card.cup.depth, fine=True)
                return
            yield ToMeasure(
                "Hinge: thickness of a leaf", "Hinge, leaf", f"{path}.thickness", card.thickness, fine=True
            )

    def clearances(self, bench: Solved) -> Iterator[Clearance]:
        """The gaps across each opening."""
        if overlays(bench.loaded):
            return
        widths: dict[tuple[Fraction, int], list[PlacedDoor]] = {}
        for door in bench.storage.of(PlacedDoor):
            own = [each for each in bench.storage.of(PlacedDoor) if each.bay == door.bay]
            widths.setdefault((door.x.size, len(own)), []).append(door)
        for (width, count), doors in widths.items():
            clear = bay_of(bench.layout, doors[0].bay)[1].clear
            bays = ", ".join(dict.fromkeys(door.bay for door in doors))
            yield Clearance(
                "doors in their opening, all gaps across", f"bay {bays}", clear - count * width,
                (Off("bay, width", clear, BAY), *(Off("door, width", width, CUT),) * count), SWINGS,
                "Measure the opening at three heights, and cut the doors by the smallest.",
            )  # fmt: skip

    def swings(self, bench: Solved) -> Iterator[Swing]:
        """Each about its pin."""
        for door, board in boards(bench):
            path = (*bay_path(bay_of(bench.layout, door.bay)[1]), "door", "hinge")
            before = -min(board.box.y.low, bench.layout.depth - board.box.y.high, Fraction(0))
            reach = door.x.size + before + FREE
            yield Swing(board.mark, door.name, turning(bench, door, board), door.z, reach, path)

    def pulls(self, bench: Solved) -> Iterator[PlacedPull]:
        """One a door."""
        return door_pulls(bench)

    def things(self, bench: Solved) -> Iterator[Thing]:
        """Bow pulls before the doors."""
        return bows(bench)

    def assumed(self, bench: Solved) -> Iterator[tuple[str, Fraction, str]]:
        """How far overlay doors cover their posts, where only the hinge says it."""
        if bench.storage.of(PlacedDoor) and overlays(bench.loaded) and bench.spec.doors.overlay is None:
            yield (
                "doors.overlay",
                overlay_of(bench.loaded),
                "as the hinge brings them, or what the posts allow",
            )

    def cards(self, bench: Solved) -> Iterator[WorkCard]:
        """The holes for cups."""
        return cup_cards(bench)

    def judge(self, bench: Solved) -> Iterator[Verdict]:
        """Its laws."""
        return door_verdicts(bench)


def _of_pull(bench: Solved) -> tuple[str, ...]:
    card = bench.goods.door_pull
    if card is None:
        return ()
    if card.kind == "edge grip":
        return ("Cut the grip out of the upper edge and round it.",)
    return ("Drill the holes of the pull and screw it on from the rear.",)


def _unhung(loaded: LoadedSpec, bay: BayPlace) -> Iterator[Finding]:
    """Hinges that do not suit the doors' place, and doors that cover more than there is."""
    rules, hinge = loaded.spec.doors, loaded.goods.hinge
    if overlays(loaded) and hinge.cup is None:
        yield loaded.fault(
            Code.HINGE_KIND, f"overlay doors need a cup hinge, and `{rules.hinge}` has leaves", "doors", "hinge",
            found="a hinge with leaves", allowed="a hinge with a `cup`",
            advice="Use a hinge with a cup, or `mount: inset`.",
        )  # fmt: skip
    if not overlays(loaded) and hinge.cup is not None and loaded.goods.profile is not None:
        yield loaded.fault(
            Code.HINGE_KIND, f"inset doors need a butt hinge here, and `{rules.hinge}` has a cup", "doors", "hinge",
            found="a hinge with a cup", allowed="a hinge with a `leaf`",
            advice="The plate of a cup hinge would be beside the slot of its post. Use a butt hinge, or "
            "`mount: overlay`.",
        )  # fmt: skip
    if rules.overlay is not None and not overlays(loaded):
        yield loaded.fault(
            Code.NOT_A_CHOICE, "inset doors cover nothing", "doors", "overlay",
            found=f"overlay {loaded.say(rules.overlay)}, mount inset", allowed="`mount: overlay`, or no `overlay`",
        )  # fmt: skip
    most = _room_to_cover(loaded, bay)
    if overlays(loaded) and overlay_of(loaded) > most:
        yield loaded.fault(
            Code.NO_SIZE, f"the door of bay {bay.name} covers more than its posts leave it", "doors", "overlay",
            found=loaded.say(overlay_of(loaded)), allowed=f"{loaded.say(most)} or less",
        )  # fmt: skip


def _room_to_cover(loaded: LoadedSpec, bay: BayPlace) -> Fraction:
    """The whole post; where the next bay has a door too, half of it less half the gap (mm)."""
    bays = loaded.spec.zones[bay.zone].bays
    beside = (bays[index].door for index in (bay.index - 1, bay.index + 1) if 0 <= index < len(bays))
    return most_overlay(loaded) if any(beside) else loaded.goods.members.section
