"""A door in the opening of its bay: its board with the marks of hinges and pull, its hinges, and how it turns."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Literal

from generator.bench.fillings.covers import overlays
from generator.bench.fillings.cup_hinges import arm_boxes, cup_holes, plate_of
from generator.bench.fillings.door_places import GROUP, PlacedDoor
from generator.bench.fillings.facts import PlacedPull, Point, Solved, Thing
from generator.bench.fillings.walls import from_face
from generator.bench.layout import Layout, ZonePlace, bay_of
from generator.bench.piece import Operation, Part
from generator.bench.role import Role
from generator.calculators.fasteners import THREADS
from generator.calculators.swing import Turning, rectangle
from generator.geometry import Box, Span
from generator.provenance import constant
from generator.spec.load import LoadedSpec

#: The drill that marks a screw of a hinge (mm), and how deep it goes in the door. Common practice, no source.
PILOT, PILOT_DEPTH = constant(2, "pilot hole of a hinge"), constant(8, "depth of a hinge's pilot hole")
#: A pull is so far from the edge that opens, at this part of the door's height. Common practice, no source.
FROM_EDGE = constant(50, "distance of a door's pull from its edge")
UP = Fraction(2, 3)
#: Height of a bow as it is drawn (mm).
DRAWN = Fraction(10)


def door_part(loaded: LoadedSpec, layout: Layout, zone: ZonePlace, door: PlacedDoor) -> Part:
    """The board, upright, with the marks of its hinges and what its pull needs."""
    front = -door.thickness if overlays(loaded) else Fraction(0)
    y = from_face(layout, zone, front, front + door.thickness)
    acts = (*_hinge_marks(loaded, layout, zone, door), *_of_pull(loaded, door))
    return Part(
        "DO", "door", Role.FILLING, loaded.spec.doors.material, "sheet", Box(door.x, y, door.z), "z", "x",
        door.place, door.thickness, operations=acts, own_group=GROUP, waits=True, style="fill-front",
    )  # fmt: skip


def screw_heights(loaded: LoadedSpec, door: PlacedDoor) -> tuple[Fraction, ...]:
    """Screws of all hinges in the post, above the door's lower end (mm): in a leaf at its quarters, or in a plate."""
    card = loaded.goods.hinge
    quarter = card.leaf[0] / 4 if card.leaf is not None else plate_of(card)[1] / 2
    return tuple(hinge + side * quarter for hinge in door.hinges for side in (-1, 1))


def _hinge_marks(
    loaded: LoadedSpec, layout: Layout, zone: ZonePlace, door: PlacedDoor
) -> Iterator[Operation]:
    """Holes for cups; or marks as far from the pin as the axis of the post's slot, on the face that looks out."""
    if loaded.goods.hinge.cup is not None:
        yield from cup_holes(loaded.goods.hinge.cup, zone, door)
        return
    in_from = layout.section / 2 - loaded.spec.doors.gap / 2
    across = in_from if door.hinge_side == "left" else door.x.size - in_from
    face = "rear" if zone.opens == "rear" else "front"
    for height in screw_heights(loaded, door):
        yield Operation("pilot hole", face, (height, across), PILOT, PILOT_DEPTH, "hinge")


def pull_on(loaded: LoadedSpec, door: PlacedDoor) -> tuple[Point, tuple[Point, ...]] | None:
    """Middle and holes of its pull from the door's lower left corner; None without a pull. A grip has no holes."""
    card = loaded.goods.door_pull
    if card is None:
        return None
    width, height = door.x.size, door.z.size
    inward = FROM_EDGE + card.size[0] / 2 if card.kind == "edge grip" else FROM_EDGE
    x = width - inward if door.hinge_side == "left" else inward
    if card.kind == "edge grip":
        return (x, height), ()
    z = height * UP
    return (x, z), ((x, z - card.holes / 2), (x, z + card.holes / 2))


def _of_pull(loaded: LoadedSpec, door: PlacedDoor) -> Iterator[Operation]:
    card, on = loaded.goods.door_pull, pull_on(loaded, door)
    if card is None or on is None:
        return
    (x, _), holes = on
    if card.kind == "edge grip":
        wide, deep = card.size
        yield Operation("cut-out", "front", (door.z.size - deep / 2, x), (deep, wide), None, "edge grip")
        return
    thread = THREADS[card.screw.thread]
    for at_x, at_z in holes:
        purpose = f"{thread.name} for the pull"
        yield Operation("through hole", "front", (at_z, at_x), thread.clearance, None, purpose)


def door_pulls(bench: Solved) -> Iterator[PlacedPull]:
    """Pulls of all doors."""
    for door, board in boards(bench):
        on = pull_on(bench.loaded, door)
        if on is not None:
            yield PlacedPull(board.mark, *on)


def boards(bench: Solved) -> Iterator[tuple[PlacedDoor, Part]]:
    """Each door with its board."""
    own = {part.place: part for part in bench.of(Role.FILLING) if part.own_group == GROUP}
    for door in bench.storage.of(PlacedDoor):
        yield door, own[door.place]


def bows(bench: Solved) -> Iterator[Thing]:
    """Bow pulls before their doors, upright."""
    card = bench.goods.door_pull
    if card is None or card.kind != "pull":
        return
    for door, board in boards(bench):
        on = pull_on(bench.loaded, door)
        assert on is not None
        middle, height = board.box.x.low + on[0][0], board.box.z.low + on[0][1]
        zone, _ = bay_of(bench.layout, door.bay)
        front = -door.thickness if overlays(bench.loaded) else Fraction(0)
        y = from_face(bench.layout, zone, front - card.projection, front)
        half = card.holes / 2
        low = (middle - DRAWN / 2, y.low, height - half)
        yield Thing(low, (middle + DRAWN / 2, y.high, height + half), "fill-dark")


def post_of(bench: Solved, door: PlacedDoor) -> tuple[Part, Literal["left", "right"]]:
    """The post that its hinges are bolted to, and the face that looks into the bay."""
    zone, bay = bay_of(bench.layout, door.bay)
    line = bay.left_line if door.hinge_side == "left" else bay.right_line
    y = from_face(bench.layout, zone, Fraction(0), bench.layout.section)
    posts = bench.of(Role.CORNER_POST, Role.INNER_POST, Role.KNEE_POST, Role.END_SPINE_POST)
    post = next(post for post in posts if (post.box.x.low, post.box.y.low) == (line, y.low))
    return post, "right" if door.hinge_side == "left" else "left"


def pin_of(bench: Solved, door: PlacedDoor) -> tuple[Fraction, Fraction]:
    """The pin from above (mm): in the middle of the gap, on the front; of an overlay door before its edge.

    No pin of a cup hinge stands still. An overlay door that turns about this one is where its hinge brings it when it
    is open, and clears its post on the way.
    """
    zone, _ = bay_of(bench.layout, door.bay)
    if overlays(bench.loaded):
        before = -(door.thickness + bench.spec.doors.gap)
        return (
            door.x.low if door.hinge_side == "left" else door.x.high,
            from_face(bench.layout, zone, before, before).low,
        )
    half = bench.spec.doors.gap / 2
    x = door.x.low - half if door.hinge_side == "left" else door.x.high + half
    face = from_face(bench.layout, zone, Fraction(0), Fraction(0)).low
    return x, face


def turning(bench: Solved, door: PlacedDoor, board: Part) -> Turning:
    """The door from above, about its pin."""
    zone, _ = bay_of(bench.layout, door.bay)
    pin = pin_of(bench, door)
    x, y = ((float(span.low), float(span.high)) for span in (board.box.x, board.box.y))
    way = (1 if door.hinge_side == "right" else -1) * (-1 if zone.opens == "rear" else 1)
    angle = float(bench.goods.hinge.opening)
    return Turning(rectangle(x, y), (float(pin[0]), float(pin[1])), way, angle)


def hinge_boxes(bench: Solved, door: PlacedDoor) -> Iterator[tuple[str, tuple[Box, ...]]]:
    """Name of each hinge with its two leaves: one in the gap, on the post; one on the face of the door. Or its arm."""
    loaded, layout = bench.loaded, bench.layout
    card, half = loaded.goods.hinge, layout.section / 2
    if card.leaf is None:
        yield from arm_boxes(bench, door)
        return
    zone, bay = bay_of(layout, door.bay)
    tall, wide = card.leaf
    inside = from_face(layout, zone, half - wide / 2, half + wide / 2)
    outside = from_face(layout, zone, -card.thickness, Fraction(0))
    left = door.hinge_side == "left"
    post = bay.x.low if left else bay.x.high
    in_gap = Span(post, post + card.thickness) if left else Span(post - card.thickness, post)
    centre = pin_of(bench, door)[0] + (half if left else -half)
    on_door = Span(centre - wide / 2, centre + wide / 2)
    for number, height in enumerate(door.hinges, 1):
        z = Span(door.z.low + height - tall / 2, door.z.low + height + tall / 2)
        yield door.hinge_name(number), (Box(in_gap, inside, z), Box(on_door, outside, z))
