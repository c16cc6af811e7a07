"""A frame of timber: posts that run through, members with tenons and bolts, panels in machined grooves."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import ClassVar

from generator.bench.frames import timber_words
from generator.bench.frames.bars import frame_parts
from generator.bench.frames.butt_joints import find_joints
from generator.bench.frames.facts import (
    BuiltFrame,
    Framed,
    GlueUp,
    HeldBy,
    Point,
    Seat,
    StepSays,
    SwayFacts,
    WorkCard,
)
from generator.bench.frames.floating import FLOATING_LAWS, floated, judge_floating
from generator.bench.frames.panels import panel_parts
from generator.bench.frames.seats import seat
from generator.bench.frames.swaying import sway_facts
from generator.bench.frames.timber_bodies import timber_body
from generator.bench.frames.timber_bolts import set_aside
from generator.bench.frames.timber_cards import timber_cards
from generator.bench.frames.timber_glue import glue_ups
from generator.bench.frames.timber_grooves import panel_grooves
from generator.bench.frames.timber_horns import with_horns
from generator.bench.frames.timber_joints import machined, placed_again, tenons
from generator.bench.frames.timber_laws import LAWS, judge_timber, timber_refusals
from generator.bench.frames.timber_pockets import with_ways
from generator.bench.frames.timber_seats import clear_seat
from generator.bench.frames.timber_tools import tools
from generator.bench.frames.trays import tray_parts
from generator.bench.joints import joinings
from generator.bench.joints.facts import DrillCard
from generator.bench.law import Law, Verdict
from generator.bench.layout import Layout
from generator.bench.piece import Joint, Part
from generator.bench.place import Place
from generator.bench.terms import TermWords
from generator.bench.volumes import worked_volume
from generator.calculators.bodies import Body
from generator.calculators.fasteners import THREADS
from generator.calculators.mass import solid_mass
from generator.findings import Finding
from generator.provenance import constant
from generator.spec.chosen import ChosenGoods
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec
from generator.units.format import format_inch, format_mm
from generator.units.sizes import INCH

#: How deep a coach screw holds in diameters, and the part of its shank that its pilot hole has. Common practice.
HOLDS = constant(7, "depth of a coach screw in the timber in diameters", unit="")
PILOT = constant("0.65", "pilot hole of a coach screw as a part of its shank", unit="")
#: Coach screws that are sold (mm), and those in inches.
STOCK = tuple(Fraction(length) for length in (50, 60, 70, 80, 90, 100, 120))
STOCK_INCH = tuple(INCH * Fraction(half, 2) for half in range(4, 11))


@dataclass(frozen=True)
class TimberFrame:
    """Timbers, machined and joined."""

    loaded: LoadedSpec
    layout: Layout
    members: tuple[Part, ...]
    joints: tuple[Joint, ...]
    loose: tuple[tuple[Part, str], ...]

    def seat(self, place: Place, point: Point, size: Point, grip: Fraction | None = None) -> Seat:
        """A plate flush with the frame's outside, two coach screws in each of two crossing members."""
        inch = self.loaded.spec.units == "in"
        thread = THREADS["5/16-18" if inch else "M8"]
        grip = self.loaded.spec.base.plate.thickness if grip is None else grip
        needed = grip + thread.diameter * HOLDS
        length = next((each for each in (STOCK_INCH if inch else STOCK) if each >= needed), needed)
        size_words = f"5/16 x {format_inch(length, 8)} in" if inch else f"8 x {format_mm(length)}"
        held = HeldBy(
            "wood",
            "to the undersides of the lowest timbers; coach screws with washers",
            size_words,
            "spanner for the coach screws",
            (thread.diameter * PILOT, length - grip),
        )
        found = seat(self.loaded, self.layout, self.members, self.joints, (place, point, size), held, thread)
        middle = (self.layout.length / 2, self.layout.depth / 2)
        taken = with_ways(self.members, self.joints, joinings(self.loaded.goods))
        return clear_seat(found, taken, middle)


class TimberFrames:
    """The frame of timber."""

    kind = "timber"
    laws: tuple[Law, ...] = (*LAWS, *FLOATING_LAWS)
    terms: tuple[TermWords, ...] = timber_words.TERMS
    drill_cards: tuple[DrillCard, ...] = (
        DrillCard(
            "pilot hole", "pilot", "Pilot holes for coach screws", "drill press or hand drill with depth stop", "Drill",
            (
                "Mark the holes through the drilled plate, or measure them from the datum end.",
                "Rub the screws with wax before you drive them.",
            ),
            "A screw goes in by spanner without splitting a test piece.",
            depth="Depth", fence="Fence: from the edge",
        ),
    )  # fmt: skip
    usual_masses: ClassVar[dict[str, str]] = {}
    cautions = timber_words.CAUTIONS
    in_nuts = False
    cut_joints = True
    unused: tuple[str, ...] = ("frame.slot_nut", "frame.material", "frame.clamp_access")

    def chosen(self, spec: Spec) -> bool:
        """Only where the spec asks for it."""
        return spec.frame.system == self.kind

    def refusals(self, loaded: LoadedSpec) -> Iterator[Finding]:
        """Sections, joints and directions that do not go together."""
        yield from timber_refusals(loaded)

    def members(self, loaded: LoadedSpec, layout: Layout, below: tuple[Fraction, ...]) -> tuple[Part, ...]:
        """Posts, rails and members of the three levels, as long as the space that they are in."""
        return frame_parts(loaded, layout, below)

    def walls(self, loaded: LoadedSpec, layout: Layout) -> tuple[Part, ...]:
        """Boards in grooves, those of solid wood with room to move; the tray and its trim."""
        walls = (*panel_parts(loaded, layout), *tray_parts(loaded, layout))
        return tuple(floated(loaded, wall) for wall in walls)

    def joined(
        self, loaded: LoadedSpec, layout: Layout, members: Sequence[Part], walls: Sequence[Part]
    ) -> BuiltFrame:
        """Tenons and mortises, holes of bolts, grooves of panels."""
        fixings = joinings(loaded.goods)
        joints, loose = find_joints(loaded.spec, members, fixings)
        joints = set_aside(members, joints, fixings, loaded.goods.members.groove)
        step = INCH / 16 if loaded.spec.units == "in" else Fraction(1)
        cut = tenons(members, joints, fixings, walls, step)
        grooves = tuple(panel_grooves(loaded.goods.members, members, walls, cut))
        timbers = machined(members, joints, fixings, (cut, grooves))
        horned = with_horns(timbers, joints, fixings, loaded.spec.frame.horns)
        return TimberFrame(loaded, layout, horned, placed_again(joints, timbers), loose)

    def sway(self, layout: Layout, frame: BuiltFrame, walls: Sequence[Part]) -> SwayFacts:
        """Posts that turn against rails and end members; the panels are loose in their grooves."""
        return sway_facts(layout, frame, walls)

    def body(self, goods: ChosenGoods, member: Part) -> Body:
        """A timber with its tenons, mortises, grooves and holes."""
        return timber_body(member)

    def mass(self, goods: ChosenGoods, member: Part) -> float:
        """By the density of its wood and what tenons, mortises, grooves and holes leave of it."""
        return solid_mass(worked_volume(member), goods.timbers[member.material].density)

    def judge(self, bench: Framed) -> Iterator[Verdict]:
        """Tenons long enough, bolts of the right length, glue that stays open."""
        yield from judge_timber(bench)
        yield from judge_floating(bench)

    def cards(self, bench: Framed) -> Iterator[WorkCard]:
        """Mortises, tenons, grooves."""
        yield from timber_cards(bench)

    def says(self, bench: Framed) -> Mapping[str, StepSays | None]:
        """Glue and clamps instead of clips and slots."""
        return timber_words.steps(bench)

    def tools(self, bench: Framed) -> tuple[str, ...]:
        """Clamps as many and as long as the largest glue-up needs, and what cuts the joints."""
        return tools(bench)

    def glue_ups(self, bench: Framed) -> tuple[GlueUp, ...]:
        """End frames, base, top grid."""
        return glue_ups(bench)
