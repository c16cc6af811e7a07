"""Laws of the doors: what carries them, what they need of the frame, how they are opened and kept shut."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.fillings import pulls
from generator.bench.fillings.cup_hinges import LAWS as CUP_LAWS
from generator.bench.fillings.cup_hinges import LEAST_GAP, cup_verdicts
from generator.bench.fillings.door_leaves import boards, pull_on
from generator.bench.fillings.door_places import GROUP, PlacedDoor
from generator.bench.fillings.facts import Solved
from generator.bench.frames.slotted import slotted
from generator.bench.law import Case, Law, Verdict, at_least, at_most, bay_path, by_the_check, said, to_limit
from generator.bench.layout import bay_of
from generator.bench.role import Role
from generator.calculators.doors import BEHIND, WIDE
from generator.calculators.fasteners import BoltWindow, bolt_window, stock_lengths
from generator.codes import Code
from generator.findings import Change
from generator.provenance import constant, inexact
from generator.spec.chosen import ChosenGoods

#: Space in the gap beside the leaf of a hinge (mm). Common practice, no source.
BESIDE_LEAF = constant("1/2", "space beside a hinge's leaf in the gap")
#: The pin is at the front of the bars: its leaf, screwed to the slot's axis, leaves no more than this before it (mm).
PIN = constant(8, "how much narrower than the bar a hinge's leaf may be")
#: A pair of hinges is the measure of a rating.
PAIR = 2


def _pair(case: Case) -> tuple[Change, ...]:
    zone, bay = int(case.path[1]), int(case.path[3])
    door = case.spec.zones[zone].bays[bay].door
    if door is None or door.hinge == "pair":
        return ()
    return (Change(f"zones[{zone}].bays[{bay}].door.hinge", "pair"),)


RATING = Law(
    Code.HINGE_RATING, "error", "The hinges carry their door", "The hinges are not rated for their door",
    "Use hinges of a higher rating, or a lighter door.", "An overloaded hinge bends, and the door falls.", by_the_check,
    quantity="mass of the door",
)  # fmt: skip
WIDTH = Law(
    Code.DOOR_WIDTH, "warning", "The door is narrow enough", "The door is wide", "Use a pair of doors.",
    "A wide door sags, and it needs free floor as wide as itself.", _pair,
    quantity="width of the door",
)  # fmt: skip
SHAPE = Law(
    Code.DOOR_SHAPE, "note", "The door is higher than it is wide", "The door is wider than it is high",
    "Use a pair of doors, or narrower bays.", "The wider the door, the harder it pulls on its upper hinge.", _pair,
    quantity="width of the door",
)  # fmt: skip
LEAF = Law(
    Code.HINGE_LEAF, "error", "The hinge reaches from the front to the slot of its post",
    "The hinge does not suit the slot of its post", "Use a hinge with a leaf {} to {} wide.",
    "The pin must be at the front of the post, and the screws at the middle of its slot.", by_the_check,
    quantity="width of the hinge's leaf",
)  # fmt: skip
GAP = Law(
    Code.DOOR_GAP, "error", "The hinge has space in the gap", "The gap is too narrow for the hinge",
    "Make the gap wider, or use another hinge.", "The door does not close, or its edge rubs.", to_limit,
    quantity="width of the gap",
)  # fmt: skip
NUT = Law(
    Code.HINGE_NUT, "error", "The hinge's machine screw fits its slot nut",
    "The hinge's machine screw does not fit its slot nut", "Use a screw that fits.",
    "It does not go into the nut, or it hits the bottom of the slot.", by_the_check,
    quantity="shortest screw that fills its nut",
)  # fmt: skip
BEHIND_DOOR = Law(
    Code.DOOR_BEHIND, "error", "The door is clear of what is behind it", "The door is too thick for what is behind it",
    "Use a thinner board for the doors.", "Shelves and racks begin behind the posts, and the door hits them.",
    "which board is thinner is a choice among materials",
    quantity="space behind the door",
)  # fmt: skip
CLOSED = Law(
    Code.DOOR_CATCH, "note", "Every door is kept shut", "Nothing keeps these doors shut as they should be",
    "Choose a catch; on a bench that rolls, one with `latch: true`.",
    "A butt hinge lets its door swing open. A magnet or a spring lets go when the bench rolls over an edge.",
    by_the_check,
)  # fmt: skip
OPENED = Law(
    Code.DOOR_PULL, "note", "Every door has a pull or a grip", "Nothing opens these doors",
    "Choose a pull or an edge grip.", "A closed door leaves no edge to hold.",
    lambda _: (Change("hardware.pull.use", "pull 128"), Change("doors.pull", "pull")),
)  # fmt: skip
LAWS = (RATING, WIDTH, SHAPE, LEAF, GAP, NUT, BEHIND_DOOR, CLOSED, OPENED, *CUP_LAWS)


def frame_window(goods: ChosenGoods) -> BoltWindow:
    """Machine screw through the hinge's leaf or plate into the slot nut."""
    bar, nut = slotted(goods), goods.slot_nut
    return bolt_window(
        grip=goods.hinge.thickness, lip=bar.slot.lip, nut=nut.height, slot_depth=bar.slot.depth,
        lengths=stock_lengths(nut.thread),
    )  # fmt: skip


def frame_screw(goods: ChosenGoods) -> str:
    """The hinge's machine screw as it is sold: its own, or the one that fits the nut."""
    if goods.hinge.frame_screw is not None:
        return goods.hinge.frame_screw.text
    thread, length = goods.slot_nut.thread, frame_window(goods).length
    return f"{thread}, no stock length fits" if length is None else pulls.screw_name(thread, length)


def door_verdicts(bench: Solved) -> Iterator[Verdict]:
    """Each door by itself, then what all have in common."""
    doors = bench.storage.of(PlacedDoor)
    if not doors:
        return
    for door in doors:
        yield from _carried(bench, door)
    yield from _hinge(bench) if bench.goods.hinge.cup is None else cup_verdicts(bench)
    yield _gap(bench)
    if bench.goods.profile is not None:
        yield from _nut(bench)
    yield from _behind(bench)
    yield _caught(bench)
    yield from _pulls(bench)


def _behind(bench: Solved) -> Iterator[Verdict]:
    """The boards of the bay that are nearest to its door."""
    for bay, (_, board) in {door.bay: (door, board) for door, board in boards(bench)}.items():
        others = [part for part in bench.parts if part.place.bay == bay and part.own_group != GROUP]
        spaces = [-part.box.y.overlap(board.box.y) for part in others if part.role is not Role.TRAY_TRIM]
        if spaces:
            path = (*bay_path(bay_of(bench.layout, bay)[1]), "door")
            yield at_least(BEHIND_DOOR, min(spaces), BEHIND, f"bay {bay}", path)


def _carried(bench: Solved, door: PlacedDoor) -> Iterator[Verdict]:
    spec, card = bench.spec, bench.goods.hinge
    path = (*bay_path(bay_of(bench.layout, door.bay)[1]), "door")
    if card.rating is not None:
        # each hinge beyond the first two carries its share as well
        carries = inexact(card.rating) * len(door.hinges) / PAIR
        needed = bench.loaded.weight(door.mass * PAIR / len(door.hinges), up=True)
        at = ("hardware", spec.doors.hinge, "rating")
        remedy = (Change(f"hardware.{spec.doors.hinge}.rating", needed),)
        yield Verdict(
            RATING, door.mass <= carries, door.name, at, door.mass, carries, remedy=remedy, unit="kg",
            advice=f"Use hinges rated {needed} or more a pair, or a lighter door.",
        )  # fmt: skip
    yield at_most(WIDTH, door.x.size, WIDE, door.name, path)
    yield at_most(SHAPE, door.x.size, door.z.size, door.name, path)


def _hinge(bench: Solved) -> Iterator[Verdict]:
    """The leaf against the bar's slot."""
    spec, card = bench.spec, bench.goods.hinge
    assert card.leaf is not None
    name, section = spec.doors.hinge, bench.layout.section
    tall, wide = card.leaf
    fits = section - PIN
    advice = f"Use a hinge with a leaf {said(spec, fits)} to {said(spec, section, down=True)} wide."
    remedy = (Change(f"hardware.{name}.leaf", f"[{said(spec, tall)}, {said(spec, section - PIN / 2)}]"),)
    path = ("hardware", name, "leaf")
    if wide > section:
        yield at_most(LEAF, wide, section, name, path, advice=advice, remedy=remedy)
    else:
        yield at_least(LEAF, wide, fits, name, path, advice=advice, remedy=remedy)


def _gap(bench: Solved) -> Verdict:
    """What is in the gap: a leaf, or the edge of a door that turns a little past its own line."""
    card = bench.goods.hinge
    needed = LEAST_GAP if card.cup is not None else card.thickness + BESIDE_LEAF
    return at_least(GAP, bench.spec.doors.gap, needed, bench.spec.doors.hinge, ("doors", "gap"))


def _nut(bench: Solved) -> Iterator[Verdict]:
    """The machine screw through leaf or plate, in its slot nut."""
    card, goods, name = bench.goods.hinge, bench.goods, bench.spec.doors.hinge
    window = frame_window(goods)
    screw, path = card.frame_screw, ("hardware", name, "frame_screw")
    if screw is None:
        limit = window.length or window.longest
        yield Verdict(NUT, window.length is not None, name, path, window.shortest, limit)
        return
    ok = screw.thread == goods.slot_nut.thread and window.shortest <= screw.length <= window.longest
    fitting = Verdict(NUT, ok, f"{name}, {screw.text}", path)
    if window.length is not None:
        usual = pulls.screw_name(goods.slot_nut.thread, window.length)
        fitting = Verdict(
            NUT, ok, f"{name}, {screw.text}", path, remedy=(Change(f"hardware.{name}.frame_screw", usual),),
            advice=f"Use {usual}.",
        )  # fmt: skip
    yield fitting


def _caught(bench: Solved) -> Verdict:
    card, name = bench.goods.catch, bench.spec.doors.catch
    if card is None and bench.goods.hinge.cup is not None and not bench.stand.rolls:
        return Verdict(CLOSED, True, "all doors", ("doors", "hinge"))
    if card is not None and bench.stand.rolls and not card.latch:
        return Verdict(
            CLOSED, False, "a bench that rolls", ("doors", "catch"),
            remedy=(Change(f"hardware.{name}.latch", "true"),),
        )  # fmt: skip
    remedy = (Change("hardware.latch.use", "latch"), Change("doors.catch", "latch"))
    return Verdict(CLOSED, card is not None, "all doors", ("doors", "catch"), remedy=remedy)


def _pulls(bench: Solved) -> Iterator[Verdict]:
    card, path = bench.goods.door_pull, ("doors", "pull")
    yield Verdict(OPENED, card is not None, "all doors", path)
    for door, board in boards(bench):
        on = pull_on(bench.loaded, door)
        if on is None or card is None:
            continue
        if card.kind == "edge grip":
            yield at_least(
                pulls.FITS, door.x.size, card.size[0] + 2 * pulls.BESIDE_GRIP, f"{board.mark}, width", path
            )
            continue
        for size, way, ats in zip(
            (door.x.size, door.z.size), ("width", "height"), zip(*on[1], strict=True), strict=True
        ):
            free = min(min(at, size - at) for at in ats)
            yield at_least(pulls.FITS, free, pulls.BESIDE_HOLE, f"{board.mark}, {way}", path)
    if card is not None and card.kind == "pull":
        yield from pulls.card_verdicts(bench.spec.doors.pull or "", card, _grips(bench))


def _grips(bench: Solved) -> tuple[Fraction, ...]:
    return tuple(dict.fromkeys(door.thickness for door in bench.storage.of(PlacedDoor)))
