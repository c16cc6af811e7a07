"""What a kind of filling says of itself and of a bench; what it does not say, it does not have."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction
from typing import Protocol

from generator.bench.driven import Driven, Path
from generator.bench.fillings.bolted import BoltWay
from generator.bench.fillings.facts import (
    Block,
    Clearance,
    EdgesSeen,
    Effect,
    FillingGoods,
    FillingPicture,
    FillStep,
    Load,
    Need,
    Opening,
    P,
    Placed,
    PlacedPull,
    Sagging,
    Sliding,
    SlotBolt,
    Solved,
    StackSlot,
    StickMark,
    Swelling,
    Swing,
    Thing,
    ToMeasure,
)
from generator.bench.frames.facts import WorkCard
from generator.bench.law import Law, Verdict
from generator.bench.layout import BayPlace, Layout, ZonePlace
from generator.bench.on_boards import SetOut
from generator.bench.piece import Part
from generator.bench.role import Role
from generator.bench.terms import TermWords
from generator.calculators.assembly import Motion
from generator.calculators.bodies import Body
from generator.calculators.collisions import Direction
from generator.calculators.fasteners import BoltWindow
from generator.calculators.spacing import Share
from generator.findings import Finding
from generator.spec.fillings import StackItem
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec


class Ways(Protocol):
    """What the order of the work knows when the bays are filled."""

    @property
    def bodies(self) -> Mapping[str, Body]:
        """All bodies by their names."""

    def out(self, bay: str) -> Direction:
        """The way out of a bay, through its open face."""

    def walls_of(self, bay: str) -> tuple[str, ...]:
        """The dividers that carry strips of a bay: they come before what lies on the strips."""


class FillingKind(Protocol[P]):
    """A kind of filling. Kinds inherit from it: what a kind does not say, it does not have."""

    @property
    def kind(self) -> str:
        """The trade's word for it, and the key of an item in a stack."""

    @property
    def placed(self) -> type[P]:
        """The values that it places."""

    @property
    def one(self) -> str:
        """What one of it is called."""
        return self.kind

    @property
    def stacks(self) -> bool:
        """Whether an item takes its share of the opening; else it is at the height that its key says."""
        return True

    @property
    def goes_in(self) -> int:
        """Its turn when the bays are filled; kinds of one turn go in the order of the tuple."""
        return 0

    @property
    def step_names(self) -> Mapping[str, str]:
        """Key of a step -> what a report of the proof calls it, where that is not the key."""
        return {}

    @property
    def held(self) -> tuple[str, ...]:
        """Keys of steps whose pieces hang by themselves in what is there."""
        return ()

    @property
    def sections(self) -> tuple[str, ...]:
        """Sections of the spec that it reads: where no kind on the bench does, their defaults are no assumptions."""
        return ()

    @property
    def fixed(self) -> tuple[tuple[str, Fraction], ...]:
        """What is fixed in its making, as words that end before the number, and that number (mm)."""
        return ()

    @property
    def bought(self) -> tuple[FillingGoods, ...]:
        """Every kind of goods that it can need, for the tables."""
        return ()

    @property
    def laws(self) -> tuple[Law, ...]:
        """Every check that it judges by itself, for the tables."""
        return ()

    @property
    def terms(self) -> tuple[TermWords, ...]:
        """Its words in the glossary."""
        return ()

    @property
    def cautions(self) -> Mapping[str, tuple[str, str, str]]:
        """Key -> level, title, text, for its steps and laws."""
        return {}

    @property
    def boards(self) -> Mapping[Role, Path]:
        """Roles of its boards whose edges must be held, with the key of each."""
        return {}

    @property
    def coated(self) -> Mapping[str, str]:
        """Its own groups of boards, with the key of `finish` that coats each."""
        return {}

    @property
    def seen_edges(self) -> Mapping[str, EdgesSeen]:
        """Groups of its boards whose edges are seen: all four, or the one at the open face of the bay."""
        return {}

    @property
    def free_edges(self) -> Mapping[tuple[Role, str], str]:
        """Edges of these that need neither groove nor support, and why."""
        return {}

    @property
    def strips(self) -> Mapping[Role, Path]:
        """Roles of what it fixes to walls, with the key that chooses each."""
        return {}

    def takes(self, item: StackItem) -> bool:
        """Whether an item of a stack is of this kind."""
        return getattr(item, self.kind) is not None

    def wanted(self, spec: Spec, item: StackItem) -> Fraction | Share:
        """The height of an item that stacks."""
        wanted: Fraction | Share = getattr(item, self.kind)
        return wanted

    def alone(
        self,
        loaded: LoadedSpec,
        layout: Layout,
        bay: BayPlace,
        items: Sequence[StackItem],
        faults: list[Finding],
    ) -> list[StackSlot] | None:
        """Where items are in a stack of this kind alone; None when they fill the opening as any others."""
        return None

    def place(
        self, loaded: LoadedSpec, layout: Layout, zone: ZonePlace, bay: BayPlace, slots: Sequence[StackSlot]
    ) -> Iterator[P]:
        """The items of one bay, from below. `slots` are its own; empty for a kind that does not stack."""

    def refusals(
        self, loaded: LoadedSpec, bay: BayPlace, slots: Sequence[StackSlot], placed: Sequence[P]
    ) -> Iterator[Finding]:
        """Items of one bay that cannot be made, where its stack fills the opening."""
        yield from ()

    def parts(
        self,
        loaded: LoadedSpec,
        layout: Layout,
        zone: ZonePlace,
        bay: BayPlace,
        placed: Sequence[P],
        all_: Sequence[Placed],
    ) -> Iterator[Part]:
        """Boards and strips of one bay's items, each marked by the letters of its group; `all_` fill the bay."""
        yield from ()

    def bodies(self, bench: Solved) -> Iterator[Body]:
        """Bought things without a part that the proof of the order moves; each is placed once."""
        yield from ()

    def body_goods(self, spec: Spec) -> Mapping[str, Path]:
        """First word of its bodies' names -> the key of the goods that they follow from."""
        return {}

    def motions(self, bench: Solved, ways: Ways) -> Iterator[Motion]:
        """How its bodies go in: all that it has but strips on walls."""
        yield from ()

    def needs(self, bench: Solved) -> Iterator[Need]:
        """Bought goods but screws."""
        yield from ()

    def screws(self, bench: Solved) -> Iterator[Driven]:
        """Wood screws but those that hold its strips on walls."""
        yield from ()

    def steps(self, bench: Solved) -> Iterator[FillStep]:
        """The steps that put its pieces and goods in."""
        yield from ()

    def cards(self, bench: Solved) -> Iterator[WorkCard]:
        """Set-ups of machines for its pieces, beside the usual ones."""
        yield from ()

    def uses(self, bench: Solved) -> Iterator[tuple[str, str]]:
        """Entries of the spec that it takes something from: section and name."""
        yield from ()

    def assumed(self, bench: Solved) -> Iterator[tuple[str, Fraction, str]]:
        """Values that it takes where the spec is silent: key, value, why."""
        yield from ()

    def openings(self, bench: Solved) -> Iterator[Opening]:
        """Clear heights, for the list of openings."""
        yield from ()

    def blocks(self, bench: Solved) -> Iterator[Block]:
        """Spacer blocks that it is set out by."""
        yield from ()

    def to_measure(self, bench: Solved) -> Iterator[ToMeasure]:
        """Sizes of its goods that a reader measures before the first cut."""
        yield from ()

    def effects(self, bench: Solved) -> Iterator[Effect]:
        """What these sizes decide."""
        yield from ()

    def pictures(self, bench: Solved) -> Iterator[FillingPicture]:
        """Each as one sees it in its opening."""
        yield from ()

    def marks(self, bench: Solved) -> Iterator[StickMark]:
        """What is set out on the walls of its bays."""
        yield from ()

    def payload(self, bench: Solved) -> Fraction | int | None:
        """What all of it may carry (kg); None for what carries nothing."""
        return None

    def loads(self, bench: Solved) -> Iterator[Load]:
        """Loads in their places, but those that slide out."""
        yield from ()

    def sliding(self, bench: Solved) -> Iterator[Sliding]:
        """What is pulled out of its bay."""
        yield from ()

    def sagging(self, bench: Solved) -> Iterator[Sagging]:
        """Boards that sag under their load."""
        yield from ()

    def swelling(self, bench: Solved) -> Iterator[Swelling]:
        """What moves with the seasons where room is short."""
        yield from ()

    def clearances(self, bench: Solved) -> Iterator[Clearance]:
        """Fits with what may be off in them."""
        yield from ()

    def pulls(self, bench: Solved) -> Iterator[PlacedPull]:
        """What its faces are opened by."""
        yield from ()

    def set_out(self, bench: Solved) -> Iterator[SetOut]:
        """What is marked on its own boards before something is fixed there."""
        yield from ()

    def slot_bolts(self, bench: Solved) -> Iterator[SlotBolt]:
        """What it holds by nuts in the slots of bars."""
        yield from ()

    def bolt_ways(self, bench: Solved) -> Iterator[BoltWay]:
        """The ways of the keys to the bolts that are proved."""
        yield from ()

    def bolt_windows(self, bench: Solved) -> Iterator[tuple[str, BoltWindow, Path]]:
        """The bolts of its brackets into slot nuts: what they are, their lengths, the key of what they clamp."""
        yield from ()

    def swings(self, bench: Solved) -> Iterator[Swing]:
        """What turns about a pin."""
        yield from ()

    def things(self, bench: Solved) -> Iterator[Thing]:
        """Bought things without a part, as the elevations show them."""
        yield from ()

    def hanging(self, bench: Solved) -> Iterator[str]:
        """Names of what its strips do not carry."""
        yield from ()

    def judge(self, bench: Solved) -> Iterator[Verdict]:
        """Its laws of geometry on the bench as it is."""
        yield from ()
