"""What a frame gives, as facts: its members, how they are joined, and what it offers to whatever is under it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, Protocol

from generator.bench.joints.facts import DrillCard, Joining
from generator.bench.law import Law, Verdict
from generator.bench.layout import Layout
from generator.bench.piece import Joint, Part
from generator.bench.place import End, Level, Place, Side
from generator.bench.role import Role
from generator.bench.terms import TermWords
from generator.calculators.bodies import Body
from generator.calculators.fasteners import Thread
from generator.findings import Finding
from generator.geometry import Span
from generator.spec.chosen import ChosenGoods
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec

Point = tuple[Fraction, Fraction]
"""X and Y of the frame (mm)."""


@dataclass(frozen=True)
class Hold:
    """Where a screw from below holds: X, Y of the frame, in `member` (its mark); no member: nothing is above it."""

    at: Point
    member: str


@dataclass(frozen=True)
class Port:
    """What a plate must leave open: a hole of `size` at X, Y of the frame, for the key to the screw of `member`."""

    at: Point
    size: Fraction
    member: str


@dataclass(frozen=True)
class HeldBy:
    """What holds a plate: in what it holds, how that is said behind "plates", its size, the tool that turns it.

    An empty `size` follows from what it clamps. `key` is the tool by its name; `nut` is the key of the nuts' screws.
    `pilot` is the hole (diameter, depth in mm) that it needs in the member.
    """

    into: Literal["slot nut", "wood"]
    use: str
    size: str = ""
    key: str = "nut"
    pilot: tuple[Fraction, Fraction] | None = None


@dataclass(frozen=True)
class Seat:
    """What the frame offers to a plate under it: where it is, what holds it, in what and by which thread."""

    x: Span
    y: Span
    holds: tuple[Hold, ...]
    by: HeldBy
    thread: Thread
    ports: tuple[Port, ...]


Direction = Literal["long", "cross"]
"""A way in which a frame sways: along its length, or from front to back."""


@dataclass(frozen=True)
class SwayJoint:
    """A joint that turns when the frame sways: the end of `member` (its mark, its face).

    `fasteners` are names of the spec's hardware, more than one if they turn one after the other. `spans` are the one
    or two bays of the lying member beside the joint, from post axis to post axis (mm). `across` is where its plane is:
    Y of a row for `long`, X of an end for `cross` (mm). `corner` is the place of a bracket that would hold it, as the
    spec names it; empty where none goes.
    """

    direction: Direction
    member: str
    end: str
    fasteners: tuple[str, ...]
    spans: tuple[Fraction, ...]
    across: Fraction = Fraction(0)
    corner: str = ""


@dataclass(frozen=True)
class LoosePanel:
    """A panel that its slots alone hold in a frame that sways: its clear opening, and the least gap at an edge (mm).

    Brackets can fix it at its `edges`; `across` is where it is, as that of a joint (mm).
    """

    direction: Direction
    mark: str
    height: Fraction
    width: Fraction
    gap: Fraction
    edges: int = 4
    across: Fraction = Fraction(0)


@dataclass(frozen=True)
class SwayFacts:
    """What a frame sways by: it leans as a whole over `height`, from where it stands to its top (mm).

    `axes` is the distance of the axes of its lowest and highest lying bars (mm): over it a panel's opening leans.
    """

    height: Fraction
    axes: Fraction
    joints: tuple[SwayJoint, ...]
    panels: tuple[LoosePanel, ...]


class Framed(Protocol):
    """What a frame needs of a solved bench."""

    @property
    def loaded(self) -> LoadedSpec:
        """The spec and its goods."""

    @property
    def layout(self) -> Layout:
        """Its sums."""

    @property
    def parts(self) -> tuple[Part, ...]:
        """Every piece."""

    @property
    def joints(self) -> tuple[Joint, ...]:
        """Every end of a member on the side of another."""

    @property
    def joinings(self) -> Mapping[str, Joining]:
        """What joins two members, by its name in the spec."""

    def of(
        self, *roles: Role, end: End | None = None, side: Side | None = None, level: Level | None = None
    ) -> tuple[Part, ...]:
        """Pieces of these roles."""


class BuiltFrame(Protocol):
    """The members of a bench, machined and joined. `loose` are ends (part, face) that meet nothing."""

    @property
    def members(self) -> tuple[Part, ...]:
        """Every member, in the order of the cut list."""

    @property
    def joints(self) -> tuple[Joint, ...]:
        """Every end of a member on the side of another."""

    @property
    def loose(self) -> tuple[tuple[Part, str], ...]:
        """Ends (part, face) that should meet a member and do not."""

    def seat(self, place: Place, point: Point, size: Point, grip: Fraction | None = None) -> Seat:
        """What is above a plate of `size` [X, Y] in a corner or in the middle of a long side, and what holds it.

        `point` is the middle of what it carries, `grip` what its screws go through (mm) where that is no `base.plate`.
        """


@dataclass(frozen=True)
class WorkSetting:
    """One line of a set-up: what is set, to what lengths (mm) or words; `fine` ones are measured with calipers.

    `shows` is what its lengths are in the picture of the card.
    """

    name: str
    values: tuple[Fraction, ...] = ()
    text: str = ""
    fine: bool = False
    shows: str = ""


@dataclass(frozen=True)
class WorkCard:
    """A set-up that a frame needs for its members: the machine, its settings, the test piece, when that passes."""

    key: str
    title: str
    tool: str
    settings: tuple[WorkSetting, ...]
    act: tuple[str, ...]
    passes: str
    marks: tuple[str, ...]
    cautions: tuple[str, ...]
    first: bool = False
    """Done before anything is cut."""
    picture: str = ""
    """The sort of its picture, which has what its settings show; empty for a card without one."""


@dataclass(frozen=True)
class StepSays:
    """A step of the assembly in the frame's own words, in place of the usual ones. None keeps what is usual.

    `squared_as` is the key of another step whose diagonals this one measures too: glue sets before that one comes.
    """

    title: str | None = None
    direction: str | None = None
    notes: tuple[str, ...] | None = None
    hold: tuple[str, ...] | None = None
    cautions: tuple[str, ...] | None = None
    squared_as: str = ""


@dataclass(frozen=True)
class GlueUp:
    """What is glued in one go: its step, its joints (member, end), its clamps, minutes of work, and those to wait.

    `open_time` is how long the glue stays open (minutes), `act` how it goes on, in whole sentences. `reach` is how far
    its longest clamp must open (mm): over the timbers, and pads. Of the clamps, `across` are set across the faces of
    laps, the rest in line with their timbers.
    """

    step: str
    joints: tuple[tuple[str, str], ...]
    clamps: int
    minutes: Fraction
    open_time: Fraction
    wait: Fraction
    act: tuple[str, ...]
    reach: Fraction
    across: int = 0


class FrameKind(Protocol):
    """A kind of frame. The methods are called in this order by `solve`, those from `judge` on above it."""

    @property
    def kind(self) -> str:
        """The trade's word for it."""

    @property
    def laws(self) -> tuple[Law, ...]:
        """Every check that it brings, for the tables."""

    @property
    def terms(self) -> tuple[TermWords, ...]:
        """Its words in the glossary."""

    @property
    def drill_cards(self) -> tuple[DrillCard, ...]:
        """The set-up of each hole that it drills for others than its joints."""

    @property
    def usual_masses(self) -> Mapping[str, str]:
        """Kind of bought goods -> usual mass (kg) where a card says none."""

    @property
    def cautions(self) -> Mapping[str, tuple[str, str, str]]:
        """Key -> level, title and text of a caution at its own work."""

    @property
    def in_nuts(self) -> bool:
        """Whether what is bolted to a member holds in nuts; otherwise screws hold in its wood."""

    @property
    def cut_joints(self) -> bool:
        """Whether its joints are cut into the members themselves."""

    @property
    def unused(self) -> tuple[str, ...]:
        """Beginnings of the key paths that say nothing in such a frame."""

    def chosen(self, spec: Spec) -> bool:
        """Whether this spec takes it; the default kind is last in the tuple and says yes."""

    def refusals(self, loaded: LoadedSpec) -> Iterator[Finding]:
        """Faults that can be found from the spec alone."""

    def members(self, loaded: LoadedSpec, layout: Layout, below: tuple[Fraction, ...]) -> tuple[Part, ...]:
        """After the layout: every member; `below` are left edges of base cross-members that the stand needs."""

    def walls(self, loaded: LoadedSpec, layout: Layout) -> tuple[Part, ...]:
        """After the layout: what closes the frame, and the tray."""

    def joined(
        self, loaded: LoadedSpec, layout: Layout, members: Sequence[Part], walls: Sequence[Part]
    ) -> BuiltFrame:
        """The members with what their joints, the walls and the clamps ask of them."""

    def sway(self, layout: Layout, frame: BuiltFrame, walls: Sequence[Part]) -> SwayFacts:
        """The joints and panels that decide how far it sways."""

    def body(self, goods: ChosenGoods, member: Part) -> Body:
        """A member as a solid."""

    def mass(self, goods: ChosenGoods, member: Part) -> float:
        """Mass of a member (kg), without what is cut out of it."""

    def judge(self, bench: Framed) -> Iterator[Verdict]:
        """Its laws on the bench as it is now."""

    def cards(self, bench: Framed) -> Iterator[WorkCard]:
        """The set-ups of its members beyond saw, taps and drills, in the order of the work."""

    def says(self, bench: Framed) -> Mapping[str, StepSays | None]:
        """Key of a step -> its own words for it; None for a step that this frame does not have."""

    def glue_ups(self, bench: Framed) -> tuple[GlueUp, ...]:
        """What is glued, in the order of the work."""

    def tools(self, bench: Framed) -> tuple[str, ...]:
        """What it is built with beyond the usual tools, each a line of the list."""
