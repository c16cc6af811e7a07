"""What a bench stands on, as facts: values that can be used without knowing which kind of stand gave them.

Three rules, so that a second kind costs no module above:

1. A fact is a number, a place, a part, or a whole sentence in the kind's own words. No floor above puts a noun of the
   kind into a sentence of its own: "the frame, onto its " + noun fails at the second kind.
2. What needs loads (kg) cannot be judged on the bench floor. It travels as a law (its words) and a rule (a calculator);
   the figures fill in the numbers.
3. What is judged by geometry alone is a method of the kind over the bench as it is, not a value stored when it was
   solved: tests and the record change parts of a solved bench and must see the verdict change.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any, Literal, Protocol

from generator.bench.driven import Driven
from generator.bench.frames.facts import BuiltFrame, Point
from generator.bench.law import Law, Verdict
from generator.bench.layout import Below, Layout
from generator.bench.piece import Operation, Part
from generator.bench.terms import TermWords
from generator.calculators.bodies import Block, Body
from generator.findings import Finding
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec

Path = tuple[str | int, ...]
"""A key path of the spec."""

# `Below(floor_to_frame, parts, lower)` is in bench/layout.py, because the layout is solved before any stand can be
# placed: the height of the stand, and the words "caster, plate" and "casters, plate" for a height sum that fails.


# ---- checks that the kind judges


@dataclass(frozen=True)
class Judges:
    """The laws that need the loads, which are known above the bench floor."""

    rating: Law
    in_the_air: Law


# ---- what is bought, bolted and drilled


@dataclass(frozen=True)
class Bolt:
    """One bolt of `plate` into the bottom slot of `member`, at X, Y of the frame; no member: no bar above it."""

    plate: str
    member: str
    at: Point


@dataclass(frozen=True)
class Lump:
    """Bought things that are no parts but weigh: one of `item` (a name under `hardware`) at each point.

    `below` is how far under the frame their mass is (mm); a plain number: nothing that is printed rests on it.
    """

    item: str
    points: tuple[Point, ...]
    below: float
    called: str


@dataclass(frozen=True)
class StandGoods:
    """Bought goods by the piece, used in the stand's step.

    `item` is a name under `hardware`, whose `kind` is then given too, or the trade's own name for it. `sizes` are
    those of a piece (mm), `lots` what of the count differs: (count, in which way). `into` is what holds a screw and
    `grip` what it clamps (mm): the stock length, the check of the bolt's window and the count of nuts follow above.
    `path` is the key that changes the grip. `key` is the tool by its name; `nut` is the key of the nuts' screws.
    """

    item: str
    count: int
    use: str
    kind: str = ""
    size: str = ""
    sizes: tuple[Fraction, ...] = ()
    lots: tuple[tuple[int, str], ...] = ()
    into: Literal["", "slot nut", "wood", "thread"] = ""
    grip: Fraction = Fraction(0)
    path: Path = ()
    spares: bool = False
    key: str = ""


# ---- the order of the work


@dataclass(frozen=True)
class StepWords:
    """The step in which the stand comes on, in whole sentences.

    `motion` is its name in a report of the proof, `blocks` the line in the step of the base rails, `carried` what is
    lifted. `lowers`: the bench leaves its blocks after it, so the whole mass counts for the lift.
    """

    key: str
    motion: str
    title: str
    direction: str
    notes: tuple[str, ...]
    cautions: tuple[str, ...]
    blocks: str
    carried: str
    lowers: bool = True
    before: tuple[str, ...] = ()
    """Notes that come first: what is done to the pieces before they are fitted."""


# ---- pictures


@dataclass(frozen=True)
class Picture:
    """Blocks that a scene shows together with the piece `on` (its mark): what is no body of the proof."""

    on: str
    blocks: tuple[Block, ...]
    says: str = ""
    """What sets it apart from its like, for a label."""


@dataclass(frozen=True)
class Silhouette:
    """What a view shows at each point, in mm up from the floor and sideways from the point.

    Circles are (height of the middle, radius, style), polygons (corners, style); `order` says which is laid first.
    A kind that needs no more than this has no drawing module.
    """

    circles: tuple[tuple[float, float, str], ...] = ()
    polygons: tuple[tuple[tuple[tuple[float, float], ...], str], ...] = ()
    order: tuple[Literal["circle", "polygon"], ...] = ()


# ---- words and catalogue


@dataclass(frozen=True)
class Measure:
    """A value of the goods that a reader measures: its label on two pages, its key, and what it changes."""

    before: str
    label: str
    key: str
    value: Fraction
    head: str
    changes: str


@dataclass(frozen=True)
class LoadOnOne:
    """Loads on one (kg): standing, and as it must be rated."""

    each: float
    required: float


@dataclass(frozen=True)
class LoadRule:
    """The rule for the load on one, and how the pages state it.

    `load` is a calculator marked with `@rule`, of (loaded mass in kg, count): its docstring and source are what the
    page of workings prints, so a pair of numbers (divisor, factor) is not enough.
    """

    load: Callable[[float, int], LoadOnOne]
    on_paper: str
    standing: str
    explained: str
    summary: str
    rating: str
    in_the_air: str


@dataclass(frozen=True)
class StandWords:
    """The stand in prose. Each field is used by one page; whole phrases, so that grammar stays with the kind."""

    one: str
    many: str
    plates: str
    stage: str
    whole: str
    rail: str
    rail_two: str
    tip_line: str
    without: str
    heading: str
    title: str
    plates_title: str
    brakes: str = ""
    low: str = ""
    """What is done where the bench is low, beside its picture; empty where nothing can be."""


@dataclass(frozen=True)
class AlsoCarries:
    """What carries the loaded bench at another time, one at each point: its law, its rule, what one may carry (kg)."""

    law: Law
    load: Callable[[float, int], LoadOnOne]
    rating: Fraction
    points: tuple[Point, ...]
    silhouette: Silhouette
    called: str
    path: Path


# ---- the whole


@dataclass(frozen=True)
class Stand:
    """Everything that a stand gives to a bench; `Bench.stand`.

    `points` serve the load, the tipping, the base rails' supports, the balance and the drawings.
    """

    kind: str
    words: StandWords
    points: tuple[Point, ...]
    inward: Fraction | None
    """How far from its point a stand may touch the floor, inwards at worst (mm): the trail of a caster. None where it
    stands on its point."""
    rating: Fraction
    lumps: tuple[Lump, ...]
    """Masses without a part. Their items are also the cards that the bench rests on, for "Assumed"."""
    rule: LoadRule
    step: StepWords
    laws: Judges
    parts: tuple[Part, ...] = ()
    """Pieces with a part sheet."""
    bodies: tuple[Body, ...] = ()
    """Bought things that the proof of the order moves; each placed once, in the stand's step, leaving downwards."""
    bolts: tuple[Bolt, ...] = ()
    fixings: tuple[StandGoods, ...] = ()
    machining: tuple[tuple[str, Operation], ...] = ()
    """What it asks of bars: mark and operation. Set-ups, drills, taps and sheets take it up by themselves."""
    screws: tuple[Driven, ...] = ()
    """Wood screws between its own pieces, for the checks; they are bought as one of its `fixings`."""
    pictures: tuple[Picture, ...] = ()
    silhouette: Silhouette = field(default_factory=Silhouette)
    measures: tuple[Measure, ...] = ()
    how_to_measure: tuple[tuple[str, str], ...] = ()
    terms: tuple[TermWords, ...] = ()
    cautions: Mapping[str, tuple[str, str, str]] = field(default_factory=dict)
    """Key -> level, title, text; laid over the house's cautions."""
    unused: tuple[str, ...] = ()
    """Keys of the spec that this kind does not read: their defaults are no assumptions."""
    goods: Mapping[str, Any] = field(default_factory=dict)
    """Keys of `goods` in figures.json that are older than this room; null where a kind has no such value."""
    path: Path = ("base",)
    holding: int | None = None
    """How many of its points hold by friction with the brakes on; None: all of them."""
    rolls_on: Fraction | None = None
    """Diameter of what it rolls on (mm); None where it does not roll."""
    rolls: bool = False
    """Whether the bench can be rolled."""
    others: tuple[AlsoCarries, ...] = ()
    """What carries it while it does not stand on its points."""

    @property
    def in_nuts(self) -> tuple[StandGoods, ...]:
        """What is bolted into slot nuts."""
        return tuple(each for each in self.fixings if each.into == "slot nut")


class StandKind(Protocol):
    """A kind of stand. Properties are what tables need at import; methods are called in this order by `solve`.

    Attributes are read-only properties: a plain attribute makes a tuple of two laws another type than one of six.
    """

    @property
    def kind(self) -> str:
        """The trade's word for it."""

    @property
    def laws(self) -> tuple[Law, ...]:
        """Every check that it brings, for the tables."""

    @property
    def usual_masses(self) -> Mapping[str, str]:
        """Kind of bought goods -> usual mass (kg) where a card says none."""

    @property
    def terms(self) -> tuple[TermWords, ...]:
        """Its words in the glossary."""

    @property
    def step_key(self) -> str:
        """Key of its step in the order of the work."""

    @property
    def motion(self) -> str:
        """What a report of the proof calls its step."""

    def chosen(self, spec: Spec) -> bool:
        """Whether this spec takes it; the default kind is last in the tuple and says yes."""

    def refusals(self, loaded: LoadedSpec) -> Iterator[Finding]:
        """Faults that can be found from the spec alone; each finding carries its reason (`why`)."""

    def height(self, loaded: LoadedSpec) -> Below:
        """Before the layout: from the floor to the frame's underside."""

    def lines(self, spec: Spec, layout: Layout) -> tuple[Fraction, ...]:
        """Before the bars: left edges of base cross-members that it needs where the layout has no line."""

    def stand(self, loaded: LoadedSpec, layout: Layout, frame: BuiltFrame) -> Stand:
        """After the joints: the facts. What is above a plate, and what holds it there, is asked of `frame.seat`."""

    def judge(
        self, loaded: LoadedSpec, layout: Layout, stand: Stand, parts: Sequence[Part]
    ) -> Iterator[Verdict]:
        """Above, when checks are made: laws of geometry on the stand's parts as they are now."""
