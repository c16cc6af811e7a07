"""Leg room: a bay that stays empty from the floor up, for one who sits at the bench."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.bench.fillings.facts import FillingPicture, Opening, Seen, Solved, StackSlot
from generator.bench.fillings.kind import FillingKind
from generator.bench.fillings.walls import from_face
from generator.bench.law import PLACED, Case, Law, Verdict, at_least, bay_path
from generator.bench.layout import BayPlace, Layout, ZonePlace, bay_of
from generator.bench.place import Place
from generator.bench.remedies import wider_bay
from generator.bench.role import Role
from generator.bench.terms import TermWords
from generator.calculators.leg_room import AT_FEET, AT_KNEES, BETWEEN_STANDS, HEIGHT, WIDTH, depth_at_feet
from generator.codes import Code
from generator.findings import Change
from generator.geometry import Box, Span
from generator.spec.fillings import StackItem
from generator.spec.load import LoadedSpec

NAME = "leg room"


def _higher(case: Case) -> tuple[Change, ...]:
    """The tray's rail higher where the spec places it, else the whole bench."""
    rail = case.spec.tray.end_rail_bottom
    if rail is not None:
        return case.length(("tray", "end_rail_bottom"), rail + case.off)
    return case.length(("bench", "height"), case.spec.bench.height + case.off)


def _deeper(case: Case) -> tuple[Change, ...]:
    """The zone deeper; a single one with the bench."""
    zone = case.layout.zones[int(case.path[1])]
    if len(case.layout.zones) == 1:
        return case.length(("bench", "depth"), case.spec.bench.depth + case.off)
    return case.length(("zones", zone.index, "depth"), zone.y.size + case.off)


def _for_feet(case: Case) -> tuple[Change, ...]:
    """The bench deeper where feet pass under what is behind, else the zone."""
    if case.value > case.layout.section + case.layout.zones[int(case.path[1])].y.size:
        return case.length(("bench", "depth"), case.spec.bench.depth + case.off)
    return _deeper(case)


TOO_NARROW = Law(
    Code.KNEE_WIDTH, "warning", "The leg room is wide enough", "The leg room is too narrow",
    "Widen the bay.", "Knees and elbows hit the posts when you turn on the chair.", wider_bay,
    quantity="width between the posts",
)  # fmt: skip
TOO_LOW = Law(
    Code.KNEE_HEIGHT, "warning", "The leg room is high enough", "The leg room is too low",
    "Raise the tray, or the bench.", "Thighs do not fit under the tray.", _higher,
    quantity="height from the floor to the tray or its trim",
)  # fmt: skip
TOO_SHALLOW = Law(
    Code.KNEE_DEPTH, "warning", "The leg room is deep enough for the knees",
    "The leg room is too shallow for the knees", "Deepen the zone.",
    "Knees hit the wall behind, so you sit away from the work.", _deeper,
    quantity="depth at the knees, from the open face",
)  # fmt: skip
FEET = Law(
    Code.KNEE_FEET, "note", "The leg room is deep enough for stretched legs",
    "The leg room is too shallow for stretched legs", "Make the bench deeper.",
    "Feet that cannot go forward make a long time on the chair tiring.", _for_feet,
    quantity="depth at the feet, from the open face",
)  # fmt: skip
STANDS = Law(
    Code.KNEE_STANDS, "note", "Both feet fit between the supports", "The supports leave little space for the feet",
    "Widen the bay, or put a bay between the leg room and the end of the bench.",
    "Toes hit the support.", wider_bay,
    quantity="width at the floor, between the supports",
)  # fmt: skip
CROSSED = Law(
    Code.KNEE_CROSSED, "error", "Nothing crosses the leg room", "A part crosses the leg room",
    "Move the part out of the leg room.", "Knees hit it.", PLACED,
)  # fmt: skip


@dataclass(frozen=True)
class LegRoom:
    """The space for the legs in a bay: its box from the floor up, and how deep it is at the feet (mm)."""

    bay: str
    box: Box
    at_feet: Fraction
    number: int = 1

    @property
    def place(self) -> Place:
        """Its bay."""
        return Place(bay=self.bay)

    @property
    def fills_width(self) -> Span | None:
        """No strip passes it."""
        return self.box.z

    @property
    def takes(self) -> Span | None:
        """All of its bay."""
        return self.box.z


class KneeSpace(FillingKind[LegRoom]):
    """Nothing, where legs go."""

    kind, placed, one = "knee", LegRoom, NAME
    laws = (TOO_NARROW, TOO_LOW, TOO_SHALLOW, FEET, STANDS, CROSSED)
    terms = (
        TermWords(
            NAME, "A bay without a base rail at its open face, empty from the floor to the tray.", ("knee space",)
        ),
        TermWords(
            "knee post", "A post beside leg room. It runs down to the underside of the frame.", ("knee posts",)
        ),
    )  # fmt: skip

    @property
    def stacks(self) -> bool:
        """It is the whole bay."""
        return False

    def takes(self, item: StackItem) -> bool:
        """It is no item of a stack."""
        return False

    def place(
        self, loaded: LoadedSpec, layout: Layout, zone: ZonePlace, bay: BayPlace, slots: Sequence[StackSlot]
    ) -> Iterator[LegRoom]:
        """One, by the key of the bay."""
        if not bay.spec.knee:
            return
        levels, section = layout.levels, layout.section
        y = from_face(layout, zone, Fraction(0), section + zone.y.size)
        single = len(layout.zones) == 1
        below = levels.floor_to_frame + (0 if single else levels.base_top)
        beyond = layout.depth if single else layout.depth - section
        top = levels.base_top + levels.opening
        box = Box(bay.x, y, Span(-levels.floor_to_frame, top))
        yield LegRoom(bay.name, box, depth_at_feet(y.size, below, beyond))

    def openings(self, bench: Solved) -> Iterator[Opening]:
        """From the floor up."""
        for room in bench.storage.of(LegRoom):
            yield Opening(room.bay, NAME, room.box.z.size, room.box.z.low, room.box.z.high)

    def pictures(self, bench: Solved) -> Iterator[FillingPicture]:
        """The space, dashed, with the posts that end at the frame's underside."""
        for room in bench.storage.of(LegRoom):
            z = room.box.z
            yield FillingPicture(
                room.bay, NAME, (Seen(bay_of(bench.layout, room.bay)[1].clear, z, "hidden"),),
                ((Fraction(0), "frame underside"),), "Leg room from the floor, {} high.", (z.high,), room=0,
                note="Dashed: leg room. No base rail is there.",
            )  # fmt: skip

    def judge(self, bench: Solved) -> Iterator[Verdict]:
        """Its sizes, and what is in it."""
        for room in bench.storage.of(LegRoom):
            zone, bay = bay_of(bench.layout, room.bay)
            name, path, box = f"bay {room.bay}", bay_path(bay), room.box
            deep = ("zones", zone.index, "depth")
            yield at_least(TOO_NARROW, bay.clear, WIDTH, name, (*path, "width"))
            yield at_least(TOO_LOW, box.z.size, HEIGHT, name, ("tray", "end_rail_bottom"))
            yield at_least(TOO_SHALLOW, box.y.size, AT_KNEES, name, deep)
            yield at_least(FEET, room.at_feet, AT_FEET, name, deep)
            yield at_least(STANDS, _between_stands(bench, box), BETWEEN_STANDS, name, (*path, "width"))
            inside = [
                part.mark for part in bench.parts if part.role is not Role.STAND and part.box.overlaps(box)
            ]
            yield Verdict(CROSSED, not inside, ", ".join((name, *inside)), (*path, "knee"))


def _between_stands(bench: Solved, box: Box) -> Fraction:
    """What plates and stands at its sides leave of the width at the floor (mm)."""
    found = [part.box.x for part in bench.parts if part.role is Role.STAND and _reaches(part.box, box)]
    for picture in bench.stand.pictures:
        for x0, y0, _, x1, y1, _ in picture.blocks:
            block = Box(
                Span(Fraction(x0), Fraction(x1)),
                Span(Fraction(y0), Fraction(y1)),
                Span(box.z.low, Fraction(0)),
            )
            if _reaches(block, box):
                found.append(block.x)
    left = max((x.high for x in found if x.middle < box.x.middle), default=box.x.low)
    right = min((x.low for x in found if x.middle > box.x.middle), default=box.x.high)
    return right - left


def _reaches(one: Box, room: Box) -> bool:
    return one.x.overlap(room.x) > 0 and one.y.overlap(room.y) > 0
