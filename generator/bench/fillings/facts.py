"""What a kind of filling gives to a bench, as facts: values that can be used without knowing which kind gave them.

Floors above collect facts from all kinds, by type and in their order; none of them names a kind. A kind gives what it
has and leaves out the rest: whatever is not said below means nothing.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, Protocol, TypeVar

from generator.bench.acts import Act
from generator.bench.law import Law
from generator.bench.layout import Layout
from generator.bench.neighbour import Neighbour
from generator.bench.piece import Part
from generator.bench.place import End, Level, Place, Side
from generator.bench.role import Role
from generator.bench.stands.facts import Stand
from generator.calculators.fit_verdicts import Feel
from generator.calculators.swing import Turning
from generator.findings import Steps
from generator.geometry import Span
from generator.provenance import constant
from generator.spec.chosen import ChosenGoods
from generator.spec.fillings import StackItem
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec


@dataclass(frozen=True)
class StackSlot:
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

    @property
    def takes(self) -> Span | None:
        """Heights at which nothing else has room in its bay; None for what is not a thing."""


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
    def loaded(self) -> LoadedSpec:
        """The spec with its goods."""

    @property
    def spec(self) -> Spec:
        """What the spec wishes."""

    @property
    def goods(self) -> ChosenGoods:
        """The cards of what it is made of."""

    @property
    def layout(self) -> Layout:
        """Bays, zones, levels."""

    @property
    def storage(self) -> Filled:
        """What fills the bays."""

    @property
    def parts(self) -> tuple[Part, ...]:
        """All pieces."""

    @property
    def stand(self) -> Stand:
        """What it stands on."""

    @property
    def neighbours(self) -> tuple[Neighbour, ...]:
        """The benches that are bolted to it."""

    def of(
        self, *roles: Role, end: End | None = None, side: Side | None = None, level: Level | None = None
    ) -> tuple[Part, ...]:
        """Pieces of these roles."""


@dataclass(frozen=True)
class FillingGoods:
    """A kind of goods that a filling needs, and the step that uses it, with its tool.

    `mass` is the usual one where no card says it (kg). A wood screw's `use` is what the list of hardware says of it;
    `lists_uses`: the list gives its sizes use by use.
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
    """Whole sentences; an `early` one comes before end frames close the bays, the `last` on the tested bench."""

    key: str
    title: str
    parts: tuple[Part, ...]
    direction: str
    notes: tuple[str, ...]
    hold: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    early: bool = False
    last: bool = False
    shown: tuple[str, ...] = ()  # which of the notes are written below its picture too
    acts: tuple[Act, ...] = ()


@dataclass(frozen=True)
class Opening:
    """A clear height in a bay, `bottom` to `top` above the frame's underside (mm), by its name on the list."""

    bay: str
    name: str
    height: Fraction
    bottom: Fraction
    top: Fraction


@dataclass(frozen=True)
class StickMark:
    """A mark on the stick of a bay, `at` above the top of the base rail (mm): an edge, or a centre."""

    bay: str
    at: Fraction
    label: str
    kind: str = "edge"


@dataclass(frozen=True)
class Block:
    """A pair of spacer blocks of a length (mm) that things of one kind rest on: what they are for, and for which."""

    length: Fraction
    use: str
    item: Placed


Point = tuple[Fraction, Fraction]
"""Along and across a face, from its lower left corner (mm)."""
EdgesSeen = Literal["all", "open"]
"""Edges of a board that are seen: all four, or the one at the open face of its bay."""


@dataclass(frozen=True)
class PlacedPull:
    """A pull or grip on the face `part` (its mark): its middle and the centres of its holes; a grip has none."""

    part: str
    at: Point
    holes: tuple[Point, ...]


@dataclass(frozen=True)
class Thing:
    """A block of something bought in the elevations: its low and high corner in the frame (mm), and how it is drawn."""

    low: tuple[Fraction, Fraction, Fraction]
    high: tuple[Fraction, Fraction, Fraction]
    style: str


@dataclass(frozen=True)
class SlotBolt:
    """A bolt into a nut in the slot of the bar `bar` (its mark) that opens to `face`, `at` along that axis (mm).

    `use` names what it holds, in the plural.
    """

    bar: str
    face: str
    at: Fraction
    use: str


@dataclass(frozen=True)
class Swing:
    """A thing that turns about an upright pin, over the heights `z` (mm): its piece, and the key that places it.

    Open, it needs so much free floor from its pin: `reach` (mm).
    """

    part: str
    name: str
    turning: Turning
    z: Span
    reach: Fraction
    path: Steps


@dataclass(frozen=True)
class ToMeasure:
    """A size of bought goods that a reader measures first: its label on two pages, its key; `fine`: by calipers."""

    before: str
    label: str
    key: str
    value: Fraction
    fine: bool = False


@dataclass(frozen=True)
class Effect:
    """What changes when some goods are of another size: their name, the key, and what then becomes another."""

    head: str
    key: str
    changes: str


@dataclass(frozen=True)
class Seen:
    """A rectangle of a thing as one sees it in its opening: so wide in the middle of the bay, or at both `walls` (mm).

    It is `aside` of the middle to the right (mm). `z` is above the frame's underside; `style` says how it is drawn,
    `tapers` that it is narrower below.
    """

    width: Fraction
    z: Span
    style: str
    walls: bool = False
    tapers: bool = False
    aside: Fraction = Fraction(0)


@dataclass(frozen=True)
class FillingPicture:
    """A thing in the drawing of its opening; heights are above the frame's underside (mm).

    The `name` is in the shape of index `room`, off its `axis` and left of the shape `beside`; without one it is on the
    thing. `face` is what closes the bay: its width and heights. `told` has a `{}` for each height of `tells`; `note`
    explains the lines.
    """

    bay: str
    name: str
    shapes: tuple[Seen, ...]
    heights: tuple[tuple[Fraction, str], ...]
    told: str
    tells: tuple[Fraction, ...]
    room: int | None = None
    beside: int | None = None
    axis: Fraction | None = None
    face: tuple[Fraction, Span] | None = None
    note: str = ""


@dataclass(frozen=True)
class Load:
    """What the spec lets a thing carry (kg), in its place at X, Y, Z of the frame (mm)."""

    mass: Fraction
    at: tuple[Fraction, Fraction, Fraction]


@dataclass(frozen=True)
class Sliding:
    """A thing that is pulled out of its bay by `travel` (mm) with its `load` (kg), in its piece of group `rests_in`.

    `on` names the pair of slides under `hardware`, `rating` what it carries (kg) by its `law`; `load_key` is the key of
    the load. The rest are its words: itself, its kind's own masses together, the part of the slides that stays, and the
    names of both parts of a pair in the workings.
    """

    item: Placed
    name: str
    on: str
    rating: Fraction
    law: Law
    travel: Fraction
    load: Fraction
    load_key: Steps
    rests_in: str
    together: str
    stays: str
    moving: str
    staying: str


@dataclass(frozen=True)
class Sagging:
    """A board under a spread load (kg), the worst of its kind.

    It lies on two ends `long` apart, or is held at four edges `short` and `long` apart (mm). `own_mass`: its own counts
    as well. `law` judges it, `path` is the key of its board.
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
    law: Law
    path: Steps


@dataclass(frozen=True)
class Swelling:
    """Boards and strips side by side that swell with moisture: (material, size) of each (mm), and the room for it."""

    name: str
    where: str
    size: Fraction
    boards: tuple[tuple[str, Fraction], ...]
    strips: tuple[tuple[str, Fraction], ...]
    room: Fraction
    advice: str


@dataclass(frozen=True)
class Off:
    """A size that a clearance is made of (mm), and the `most` that it may be off; None: by ISO 2768-1, class m.

    `takes`: what makes it larger makes the clearance smaller.
    """

    name: str
    value: Fraction
    most: Fraction | None = None
    source: str = "common practice"
    takes: bool = False


@dataclass(frozen=True)
class Clearance:
    """A clearance as drawn (mm), the sizes that it is made of, how it should feel, and how to test it."""

    name: str
    where: str
    nominal: Fraction
    sizes: tuple[Off, ...]
    feel: Feel
    test: str


#: What a good shop keeps (mm). Common practice, no source.
BAY = constant("0.5", "how far a bay's width may be off")
