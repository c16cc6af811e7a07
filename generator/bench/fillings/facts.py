"""What a kind of filling gives to a bench, as facts: values that can be used without knowing which kind gave them.

Floors above collect facts from all kinds, by type and in their order; none of them names a kind. A kind gives what it
has and leaves out the rest: whatever is not said below means nothing.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Protocol, TypeVar

from generator.bench.driven import Driven, Path
from generator.bench.law import Law
from generator.bench.layout import BayPlace, Layout, ZonePlace
from generator.bench.piece import Part
from generator.bench.place import End, Level, Place, Side
from generator.bench.role import Role
from generator.bench.stands.facts import TermWords, Verdict
from generator.calculators.assembly import Placing
from generator.calculators.bodies import Body
from generator.calculators.collisions import Direction
from generator.calculators.spacing import Share
from generator.findings import Finding
from generator.geometry import Span
from generator.spec.fillings import StackItem
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec


@dataclass(frozen=True)
class Slot:
    """One item of a stack at its height above the frame's underside (mm); a set of like items is one slot."""

    item: StackItem
    bottom: Fraction
    height: Fraction


class Placed(Protocol):
    """One thing in its bay, numbered from below among its kind."""

    @property
    def bay(self) -> str:
        """Name of its bay."""

    @property
    def number(self) -> int:
        """From 1."""

    @property
    def place(self) -> Place:
        """Where its pieces are."""

    @property
    def fills_width(self) -> Span | None:
        """Heights at which it needs the bay from wall to wall, so that no strip passes it; None for what does not."""


P = TypeVar("P", bound=Placed)


@dataclass(frozen=True)
class Filled:
    """What fills the bays: kind after kind, each in the order of bays, from below."""

    items: tuple[Placed, ...]

    def of(self, placed: type[P]) -> tuple[P, ...]:
        """The items of one kind."""
        return tuple(item for item in self.items if isinstance(item, placed))


class Solved(Protocol):
    """A solved bench, as far as a kind looks at it."""

    @property
    def spec(self) -> Spec:
        """What the spec wishes."""

    @property
    def layout(self) -> Layout:
        """Bays, zones, levels."""

    @property
    def storage(self) -> Filled:
        """What fills the bays."""

    @property
    def parts(self) -> tuple[Part, ...]:
        """All pieces."""

    def of(
        self, *roles: Role, end: End | None = None, side: Side | None = None, level: Level | None = None
    ) -> tuple[Part, ...]:
        """Pieces of these roles."""


def bay_of(bench: Solved, name: str) -> tuple[ZonePlace, BayPlace]:
    """A bay by its name, with its zone."""
    return next((zone, bay) for zone in bench.layout.zones for bay in zone.bays if bay.name == name)


class Ways(Protocol):
    """What the order of the work knows when the bays are filled."""

    @property
    def bodies(self) -> Mapping[str, Body]:
        """All bodies by their names."""

    def out(self, bay: str) -> Direction:
        """The way out of a bay, through its open face."""

    def walls_of(self, bay: str) -> tuple[str, ...]:
        """The dividers that carry strips of a bay: they come before what lies on the strips."""


@dataclass(frozen=True)
class Bought:
    """A kind of goods that a filling needs, and the step that uses it, with its tool.

    `mass` is the usual one where no card says it (kg). A wood screw's `use` is what the list of hardware says of it;
    `lists_uses`: the list tells its sizes use by use.
    """

    kind: str
    step: str
    tool: str = ""
    mass: str = ""
    use: str = ""
    screw: bool = False
    lists_uses: bool = False


@dataclass(frozen=True)
class Need:
    """Bought goods by the piece: `item` is a name under `hardware`, `size` says it with `{}` for the `sizes` (mm)."""

    kind: str
    item: str
    count: int
    use: str
    size: str = "{}"
    sizes: tuple[Fraction, ...] = ()


@dataclass(frozen=True)
class FillStep:
    """A step of the work in whole sentences; an `early` one comes before the end frames close the bays."""

    key: str
    title: str
    parts: tuple[Part, ...]
    direction: str
    notes: tuple[str, ...]
    hold: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    early: bool = False


@dataclass(frozen=True)
class Opening:
    """A clear height in a bay, `bottom` to `top` above the frame's underside (mm), by its name on the list.

    `taken`: by a thing.
    """

    bay: str
    name: str
    height: Fraction
    bottom: Fraction
    top: Fraction
    taken: bool = True


@dataclass(frozen=True)
class StickMark:
    """A mark on the stick of a bay, `at` above the top of the base rail (mm): an edge, or a centre."""

    bay: str
    at: Fraction
    label: str
    kind: str = "edge"


@dataclass(frozen=True)
class Load:
    """What the spec lets a thing carry (kg), in its place at X, Y, Z of the frame (mm)."""

    mass: Fraction
    at: tuple[Fraction, Fraction, Fraction]


@dataclass(frozen=True)
class Sliding:
    """A thing that is pulled out of its bay by `travel` (mm) with its `load` (kg), which lies in the piece `rests_in`.

    `on` names the pair of slides under `hardware`. The rest are its words: itself, its kind's own masses together, the
    part of the slides that stays, and the names of both parts of a pair in the workings.
    """

    item: Placed
    name: str
    on: str
    travel: Fraction
    load: Fraction
    rests_in: Role
    together: str
    stays: str
    moving: str
    staying: str


@dataclass(frozen=True)
class Sagging:
    """A board under a spread load (kg), the worst of its kind: on two ends `long` apart, or held at four edges `short`
    and `long` apart (mm). `own_mass`: its own counts as well.
    """

    kind: str
    where: str
    part: Part
    marks: tuple[str, ...]
    load: Fraction
    long: Fraction
    short: Fraction | None
    own_mass: bool
    model: str


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
        """Whether an item takes its share of the opening; else it lies at the height that its key says."""
        return True

    @property
    def goes_in(self) -> int:
        """Its turn when the bays are filled; kinds of one turn go in the order of the tuple."""
        return 0

    @property
    def placings(self) -> Mapping[str, str]:
        """Key of a step -> what a report of the proof calls it, where that is not the key."""
        return {}

    @property
    def held(self) -> tuple[str, ...]:
        """Keys of steps whose pieces hang by themselves in what is there."""
        return ()

    @property
    def section(self) -> str:
        """The section of the spec that nothing else reads: without an item its defaults are no assumptions."""
        return ""

    @property
    def bought(self) -> tuple[Bought, ...]:
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
    ) -> list[Slot] | None:
        """Where items stand in a stack of this kind alone; None when they fill the opening as any others."""
        return None

    def place(
        self, spec: Spec, layout: Layout, zone: ZonePlace, bay: BayPlace, slots: Sequence[Slot]
    ) -> Iterator[P]:
        """The items of one bay, from below. `slots` are its own; empty for a kind that does not stack."""

    def refusals(
        self, loaded: LoadedSpec, bay: BayPlace, slots: Sequence[Slot], placed: Sequence[P]
    ) -> Iterator[Finding]:
        """Items of one bay that cannot be made, where its stack fills the opening."""
        yield from ()

    def parts(
        self,
        spec: Spec,
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

    def motions(self, bench: Solved, ways: Ways) -> Iterator[Placing]:
        """How its bodies go in: all that it has but strips on walls."""
        yield from ()

    def needs(self, bench: Solved) -> Iterator[Need]:
        """Bought goods but screws."""
        yield from ()

    def screws(self, bench: Solved) -> Iterator[Driven]:
        """Wood screws but those that hold its strips on walls."""
        yield from ()

    def steps(self, bench: Solved) -> Iterator[FillStep]:
        """How its pieces and goods go in, told."""
        yield from ()

    def uses(self, bench: Solved) -> Iterator[tuple[str, str]]:
        """Entries of the spec that it takes something from: section and name."""
        yield from ()

    def openings(self, bench: Solved) -> Iterator[Opening]:
        """Clear heights, for the list of openings."""
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

    def judge(self, bench: Solved) -> Iterator[Verdict]:
        """Its laws of geometry on the bench as it is."""
        yield from ()
