"""A frame of slotted bars: butt joints, boards in the slots, nuts in the slots for whatever is bolted on."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import ClassVar

from generator.bench.frames.bar_bodies import bar_body
from generator.bench.frames.bars import frame_parts
from generator.bench.frames.butt_joints import find_joints, machine_joints
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
from generator.bench.frames.panels import panel_parts, tongue_of
from generator.bench.frames.reliefs import machine_reliefs
from generator.bench.frames.seats import seat
from generator.bench.frames.slotted import slotted
from generator.bench.frames.swaying import sway_facts
from generator.bench.frames.trays import tray_parts
from generator.bench.joints import joining, joinings
from generator.bench.joints.facts import DrillCard
from generator.bench.law import Law, Verdict
from generator.bench.layout import Layout
from generator.bench.piece import Joint, Part
from generator.bench.place import Place
from generator.bench.terms import TermWords
from generator.calculators.bodies import Body
from generator.calculators.fasteners import THREADS
from generator.calculators.mass import bar_mass
from generator.codes import Code
from generator.findings import Finding
from generator.spec.chosen import ChosenGoods
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec


@dataclass(frozen=True)
class TSlotFrame:
    """Bars, machined and joined."""

    loaded: LoadedSpec
    layout: Layout
    members: tuple[Part, ...]
    joints: tuple[Joint, ...]
    loose: tuple[tuple[Part, str], ...]

    def seat(self, place: Place, point: Point, size: Point, grip: Fraction | None = None) -> Seat:
        """A plate flush with the frame's outside, two bolts into nuts in each of two crossing bars."""
        thread = THREADS[self.loaded.goods.slot_nut.thread]
        return seat(
            self.loaded, self.layout, self.members, self.joints, (place, point, size), IN_NUTS, thread
        )


#: Plates are bolted into nuts in the bottom slots.
IN_NUTS = HeldBy("slot nut", "into slot nuts; cap screws")


TERMS = (
    TermWords("lip", "The edge beside the mouth of a slot. Nuts and clips pull against it.", ("lips",)),
    TermWords(
        "relief", "An opening cut through the lips of a slot, so that a clamp can enter.", ("reliefs",)
    ),
    TermWords(
        "slot", "The channel along each face of a bar. Its mouth is narrow and its hollow is wider.", ("slots",)
    ),
    TermWords(
        "slot nut", "A nut in the slot of a bar. You bolt things to it.", ("slot nuts",),
        ("slot-nut", "t-nut", "tee nut"),
    ),
)  # fmt: skip


class TSlot:
    """The frame of slotted bars."""

    kind = "t-slot"
    laws: tuple[Law, ...] = ()
    terms: tuple[TermWords, ...] = TERMS
    drill_cards: tuple[DrillCard, ...] = ()
    usual_masses: ClassVar[dict[str, str]] = {}
    cautions: ClassVar[dict[str, tuple[str, str, str]]] = {}
    in_nuts = True
    cut_joints = False
    unused: tuple[str, ...] = ("frame.system", "frame.posts", "frame.rails", "frame.groove")

    def chosen(self, spec: Spec) -> bool:
        """The frame that a spec takes when it names none."""
        return True

    def refusals(self, loaded: LoadedSpec) -> Iterator[Finding]:
        """Bars, joints and boards that do not go together."""
        yield from _closing_joints(loaded)
        yield from _sizes(loaded)
        yield from _wide_holes(loaded)
        yield from _thick_panels(loaded)

    def members(self, loaded: LoadedSpec, layout: Layout, below: tuple[Fraction, ...]) -> tuple[Part, ...]:
        """Posts, rails and members of the three levels, and bars of the spec's own."""
        return frame_parts(loaded, layout, below)

    def walls(self, loaded: LoadedSpec, layout: Layout) -> tuple[Part, ...]:
        """Boards with tongues in the slots, the tray and its trim."""
        return (*panel_parts(loaded, layout), *tray_parts(loaded, layout))

    def joined(
        self, loaded: LoadedSpec, layout: Layout, members: Sequence[Part], walls: Sequence[Part]
    ) -> BuiltFrame:
        """Tapped ends, holes for keys and screws, reliefs for clamps."""
        spec, fixings = loaded.spec, joinings(loaded.goods)
        joints, loose = find_joints(spec, members, fixings)
        bars = machine_joints(members, joints, fixings)
        bars = machine_reliefs(loaded, bars, (layout.length, layout.depth))
        return TSlotFrame(loaded, layout, bars, joints, loose)

    def sway(self, layout: Layout, frame: BuiltFrame, walls: Sequence[Part]) -> SwayFacts:
        """Posts that turn against rails and end members; the panels are loose in their slots."""
        return sway_facts(layout, frame, walls)

    def body(self, goods: ChosenGoods, member: Part) -> Body:
        """A bar with its slots and holes."""
        return bar_body(member, slotted(goods))

    def mass(self, goods: ChosenGoods, member: Part) -> float:
        """By the metre."""
        return bar_mass(member.length, slotted(goods).mass)

    def judge(self, bench: Framed) -> Iterator[Verdict]:
        """None of its own: the checks of the frame know slots."""
        yield from ()

    def cards(self, bench: Framed) -> Iterator[WorkCard]:
        """None beyond saw, taps and drills."""
        yield from ()

    def says(self, bench: Framed) -> Mapping[str, StepSays | None]:
        """The usual words are its own."""
        return {}

    def tools(self, bench: Framed) -> tuple[str, ...]:
        """None beyond the usual ones."""
        return ()

    def glue_ups(self, bench: Framed) -> tuple[GlueUp, ...]:
        """Nothing is glued."""
        return ()


def _closing_joints(loaded: LoadedSpec) -> Iterator[Finding]:
    spec = loaded.spec
    name = spec.frame.joints.long_rails_to_corner_posts
    if spec.frame.through == "rails" and not joining(loaded.goods, name).slides_along:
        clips = [other for other, each in joinings(loaded.goods).items() if each.slides_along]
        yield loaded.fault(
            Code.CLOSING_JOINTS,
            "with rails running through, both end frames close along the rails, and these joints do not slide that way",
            "frame",
            "joints",
            "long_rails_to_corner_posts",
            found=name,
            allowed=f"a joint that slides along the rail: {', '.join(clips)}; or write `through: posts`",
        )


def _sizes(loaded: LoadedSpec) -> Iterator[Finding]:
    spec = loaded.spec
    bar = slotted(loaded.goods)
    tongue = tongue_of(loaded)
    if tongue >= bar.slot.depth or tongue <= 0:
        yield loaded.fault(
            Code.TONGUE_TOO_LONG,
            "this tongue is too long for its slot",
            "panels",
            "tongue",
            found=loaded.say(tongue),
            allowed=f"less than {loaded.say(bar.slot.depth)}",
            advice="2 mm less leaves space under the tongue.",
        )
    if spec.panels.groove_clearance >= bar.slot.opening:
        yield loaded.fault(
            Code.CLEARANCE_TOO_WIDE,
            "this clearance leaves no tongue",
            "panels",
            "groove_clearance",
            found=loaded.say(spec.panels.groove_clearance),
            allowed=f"less than the slot's {loaded.say(bar.slot.opening)}",
        )
    if bar.slot.opening >= bar.section or bar.slot.depth * 2 >= bar.section:
        yield loaded.fault(
            Code.SLOT_TOO_LARGE,
            "two slots of this size do not fit into the bar",
            "materials",
            spec.frame.material,
            "slot",
            found=f"opening {loaded.say(bar.slot.opening)}, depth {loaded.say(bar.slot.depth)}",
            allowed=f"an opening less than {loaded.say(bar.section)} and a depth less than half of it",
        )


def _wide_holes(loaded: LoadedSpec) -> Iterator[Finding]:
    """A joint's hole goes through a bar, so the bar must be wider. One finding a fastener, for its widest hole."""
    spec, section = loaded.spec, slotted(loaded.goods).section
    joints = spec.frame.joints
    for name in dict.fromkeys((joints.default, joints.long_rails_to_corner_posts, joints.inner_post_tops)):
        hole = max(joining(loaded.goods, name).holes, key=lambda each: each.size, default=None)
        if hole and hole.size >= section:
            yield loaded.fault(
                Code.NO_SIZE,
                f"the {hole.op} is as wide as the bar and would cut it in two",
                "hardware",
                name,
                found=loaded.say(hole.size),
                allowed=f"less than {loaded.say(section)}",
                advice="Usual for M8: 9 mm for the screw, 8 mm for its key.",
            )


def _thick_panels(loaded: LoadedSpec) -> Iterator[Finding]:
    """A panel is behind the bars' faces: what carries a drawer is brought out from it."""
    spec, section = loaded.spec, slotted(loaded.goods).section
    tray = (spec.tray.material,) if spec.tray.there else ()
    for name in dict.fromkeys((spec.panels.material, *tray)):
        thickness = loaded.goods.sheets[name].thickness
        if thickness >= section:
            yield loaded.fault(
                Code.PANEL_TOO_THICK,
                "this panel is too thick for the bar that holds it",
                "materials",
                name,
                "thickness",
                found=loaded.say(thickness),
                allowed=f"less than {loaded.say(section)}",
                advice="Use a thinner sheet: 12 mm or 1/2 in is usual.",
            )
