"""Hinges with a cup: their hole in the door, their plate on the post. In timber its screws go where its maker says.

On a slotted bar only the axis of the slot takes a screw: there the plate must be one made for it.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.driven import Driven, chosen
from generator.bench.fillings.covers import most_overlay, overlay_of, overlays
from generator.bench.fillings.door_places import PER_LEAF, PlacedDoor
from generator.bench.fillings.facts import Solved
from generator.bench.fillings.walls import from_face
from generator.bench.frames.facts import WorkCard, WorkSetting
from generator.bench.law import GOODS, Law, Verdict, at_least, at_most, by_the_check, said, to_limit
from generator.bench.layout import ZonePlace, bay_of
from generator.bench.piece import Operation
from generator.calculators.doors import ARM
from generator.calculators.wood_screws import fitting, stock
from generator.codes import Code
from generator.findings import Change
from generator.geometry import Box, Span
from generator.provenance import constant
from generator.spec.fillings.doors import Hinge, HingeCup
from generator.spec.load import LoadedSpec

SCREW, PLATE_SCREW = "hinge screw", "plate screw"
CUP_HOLE = "cup hole"
#: Where a plate has its screws behind the door, and how far they are apart, when its card is silent (mm): the line of
#: cabinets, and the pitch of their rows of holes. An encyclopedia and trade pages on the system of 32 mm.
LINE = constant(37, "screws of a hinge's plate behind its door")
PITCH = constant(32, "screws of a hinge's plate from each other")
#: A plate reaches so far beyond its screws (mm). Common practice, no source.
ROUND = constant(8, "how far a hinge's plate reaches beyond its screws")
#: Wood of a post behind these screws (mm). Common practice, no source.
BEHIND_SCREW = constant(10, "wood of a post behind the screws of a hinge's plate")
#: A plate is made for a slot when its screws are this near to the slot's axis (mm). Common practice, no source.
ON_AXIS = constant(1, "how far a plate's screws may be off the axis of the slot")
#: What a cup hole leaves of the door (mm). Common practice, no source.
SKIN = constant(2, "wood that a cup hole leaves")
#: Wood between the cup hole and the edge of the door (mm). Catalogues of hinges with cups of 35 mm.
RIM = (
    constant(3, "least wood beside a cup hole"),
    constant(6, "most wood beside a cup hole"),
)
#: A cup hinge can be set to either side by so much (mm). Common practice, no source.
SET = constant(2, "how far a cup hinge can be set to either side")
#: An overlay door turns a little past its own edge: its gap is no smaller (mm). Common practice, no source.
LEAST_GAP = constant(2, "least gap beside a door on cup hinges")
#: Screws of cups and plates are this long at most (mm). Common practice, no source.
MOST_SCREW = Fraction(16)

PLATE = Law(
    Code.HINGE_PLATE, "error", "The screws of the hinges' plates hold in the posts",
    "The screws of the hinges' plates do not hold in the posts", "Use a hinge with another plate.",
    "Beside the slot of a bar, or behind its post, a screw holds nothing.", by_the_check,
    quantity="screws of the plate behind the front",
)  # fmt: skip
CUP = Law(
    Code.HINGE_CUP, "error", "The cup holes do not come through", "The cup holes come through",
    "Use a thicker board for the doors, or hinges with a lower cup.",
    "The drill's point shows on the face of the door.", GOODS, quantity="wood that the cup hole leaves",
)  # fmt: skip
EDGE = Law(
    Code.HINGE_EDGE, "warning", "The cup holes are as far from the edge as usual",
    "The cup holes are nearer to the edge, or further from it, than usual",
    "Drill the cup hole {} to {} from the edge.",
    "Nearer, the edge breaks out. Further, the door does not open.", to_limit, lengths=RIM,
    quantity="wood between cup hole and edge",
)  # fmt: skip
OVERLAY = Law(
    Code.HINGE_OVERLAY, "error", "The hinges bring the doors where they are planned",
    "The hinges bring the doors to another place than planned", "Use hinges for this overlay.",
    "A door hits its post or its neighbour, or leaves a gap.", by_the_check,
    quantity="how far the door covers its post",
)  # fmt: skip
LAWS = (PLATE, CUP, EDGE, OVERLAY)


def plate_of(card: Hinge) -> tuple[Fraction, Fraction]:
    """Its screws behind the door, and how far they are apart (mm)."""
    return card.plate or (LINE, PITCH)


def plate_line(loaded: LoadedSpec) -> Fraction:
    """Screws of the plates behind the front of the posts (mm): behind an inset door by its thickness as well."""
    behind = plate_of(loaded.goods.hinge)[0]
    return behind if overlays(loaded) else behind + loaded.goods.sheets[loaded.spec.doors.material].thickness


def cup_holes(cup: HingeCup, zone: ZonePlace, door: PlacedDoor) -> Iterator[Operation]:
    """One a hinge, in the face that looks into the bay."""
    in_from = cup.from_edge + cup.diameter / 2
    across = in_from if door.hinge_side == "left" else door.x.size - in_from
    face = "front" if zone.opens == "rear" else "rear"
    for height in door.hinges:
        yield Operation(CUP_HOLE, face, (height, across), cup.diameter, cup.depth, "for a hinge")


def arm_boxes(bench: Solved, door: PlacedDoor) -> Iterator[tuple[str, tuple[Box, ...]]]:
    """Name of each hinge with its arm and plate, on the post, behind the door."""
    zone, bay = bay_of(bench.layout, door.bay)
    behind = Fraction(0) if overlays(bench.loaded) else door.thickness
    y = from_face(bench.layout, zone, behind, plate_line(bench.loaded) + ROUND)
    left, half = door.hinge_side == "left", plate_of(bench.goods.hinge)[1] / 2 + ROUND
    x = Span(bay.x.low, bay.x.low + ARM) if left else Span(bay.x.high - ARM, bay.x.high)
    for number, height in enumerate(door.hinges, 1):
        middle = door.z.low + height
        yield door.hinge_name(number), (Box(x, y, Span(middle - half, middle + half)),)


def cup_screws(bench: Solved) -> Iterator[Driven]:
    """Cups to the doors; plates to posts of timber."""
    doors, card, spec = bench.storage.of(PlacedDoor), bench.goods.hinge, bench.spec
    if not doors:
        return
    count = sum(len(door.hinges) for door in doors) * PER_LEAF
    sizes, path = stock("3.5", spec.units), ("hardware", spec.doors.hinge, "screw")
    for kind, into, place, holds in _held(bench, doors[0]):
        usual = fitting(sizes, card.thickness, into, MOST_SCREW)
        yield Driven(
            kind,
            chosen(card.screw, usual),
            count,
            card.thickness,
            into,
            place,
            path,
            holds=holds,
            usual=usual,
        )


def _held(bench: Solved, door: PlacedDoor) -> Iterator[tuple[str, Fraction, str, str]]:
    yield SCREW, door.thickness, "door's hinge", "doors.material"
    if bench.goods.profile is None:
        yield PLATE_SCREW, bench.layout.section, "hinge's plate", "frame.posts"


def cup_notes(bench: Solved) -> tuple[str, ...]:
    """What is done before a door is hung, and how it is hung."""
    plates = (
        "Bolt the plates to the slot nuts, at the marks for the hinges."
        if bench.goods.profile is not None
        else "Screw the plates to the posts, as far behind the front as their set-up card says."
    )
    return (
        "Press the cup of each hinge into its hole. Set its arm square to the edge of the door.",
        "Drill pilot holes through the hinge and screw it on.",
        plates,
    )


def hung_notes(bench: Solved) -> tuple[str, ...]:
    """How a door with cups is hung and set."""
    posts = "before the posts" if overlays(bench.loaded) else "flush with the front of the posts"
    return (
        f"Hold the door {posts}, and slide its arms onto their plates, the upper one first.",
        "Turn the screws of the hinges until the gap is even.",
    )


def cup_cards(bench: Solved) -> Iterator[WorkCard]:
    """Cup holes by the fence, and the line of the plates."""
    doors, cup = bench.storage.of(PlacedDoor), bench.goods.hinge.cup
    if not doors or cup is None:
        return
    heights: dict[tuple[Fraction, ...], list[str]] = {}
    own = {part.place: part.mark for part in bench.parts}
    for door in doors:
        heights.setdefault(door.hinges, []).append(own[door.place])
    yield WorkCard(
        "cup-hole",
        "Holes for the cups of hinges",
        "drill press with fence and depth stop, and the drill for this cup",
        (
            WorkSetting("Drill", (cup.diameter,), shows="diameter"),
            WorkSetting("Depth stop", (cup.depth,), fine=True, shows="depth"),
            WorkSetting(
                "Fence to the middle of the drill", (cup.from_edge + cup.diameter / 2,), shows="fence"
            ),
            *(
                WorkSetting(f"Middles above the lower end: {', '.join(marks)}", places)
                for places, marks in heights.items()
            ),
            WorkSetting("Screws of the plates behind the front of the posts", (plate_line(bench.loaded),)),
        ),
        (
            "Drill a test hole into scrap of the same board, and press a cup into it.",
            "Lay the door on its outer face. Hold the edge of the hinges against the fence.",
            "Drill the first cup hole of every door. Then set out and drill the others.",
        ),
        "The cup goes in by hand, its rim is flat on the board, and nothing shows on the other face.",
        tuple(own[door.place] for door in doors),
        ("drill", "dust"),
        picture="hole",
    )


def cup_verdicts(bench: Solved) -> Iterator[Verdict]:
    """The hinge against post, door, overlay and gap."""
    spec, card, name = bench.spec, bench.goods.hinge, bench.spec.doors.hinge
    assert card.cup is not None
    yield from _plate(bench)
    thickness = bench.goods.sheets[spec.doors.material].thickness
    yield at_least(CUP, thickness - card.cup.depth, SKIN, name, ("hardware", name, "cup", "depth"))
    path = ("hardware", name, "cup", "from_edge")
    if card.cup.from_edge < RIM[0]:
        yield at_least(EDGE, card.cup.from_edge, RIM[0], name, path)
    else:
        yield at_most(EDGE, card.cup.from_edge, RIM[1], name, path)
    yield from _overlay(bench)


def _plate(bench: Solved) -> Iterator[Verdict]:
    """In the wood of a post, or on the axis of a slot."""
    spec, name, section = bench.spec, bench.spec.doors.hinge, bench.layout.section
    line, path = plate_line(bench.loaded), ("hardware", bench.spec.doors.hinge, "plate")
    other = line - plate_of(bench.goods.hinge)[0]
    if bench.goods.profile is None:
        limit = section - BEHIND_SCREW
        text = said(spec, limit - other, down=True)
        change = Change(f"hardware.{name}.plate", f"[{text}, {said(spec, PITCH)}]")
        advice = f"Use a hinge whose plate has its screws {text} behind the door, or less."
        yield at_most(
            PLATE, line, limit, name, path, advice=advice, remedy=(change,) if limit > other else ()
        )
        return
    axis = section / 2
    change = Change(f"hardware.{name}.plate", f"[{said(spec, axis)}, {said(spec, PITCH)}]")
    yield Verdict(
        PLATE, abs(line - axis) <= ON_AXIS, name, path, line, axis, "at most" if line > axis else "at least",
        remedy=(change,),
        advice=f"Use a hinge with a plate for the slot: its screws {said(spec, axis)} behind the door.",
    )  # fmt: skip


def _overlay(bench: Solved) -> Iterator[Verdict]:
    """As its maker says, and as far as the hinge can be set."""
    spec, card = bench.spec, bench.goods.hinge
    if card.overlay is None:
        return
    planned = overlay_of(bench.loaded) if overlays(bench.loaded) else Fraction(0)
    path = ("hardware", spec.doors.hinge, "overlay")
    wanted = "inset doors" if planned == 0 else f"an overlay of {said(spec, planned)}"
    change = (Change("doors.overlay", said(spec, card.overlay)),)
    can = planned > 0 and 0 < card.overlay <= most_overlay(bench.loaded)
    yield Verdict(
        OVERLAY, abs(card.overlay - planned) <= SET, spec.doors.hinge, path, card.overlay, planned,
        "at most" if card.overlay > planned else "at least", remedy=change if can else (),
        advice=f"Use hinges for {wanted}.",
    )  # fmt: skip
