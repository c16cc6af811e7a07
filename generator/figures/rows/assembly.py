"""The order of assembly: steps, motions, fixings, keys, what is squared (mm, kg)."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from generator.bench.acts import Act
from generator.bench.piece import MEMBERS
from generator.calculators.bodies import Body

Length = Fraction


@dataclass(frozen=True)
class Diagonal:
    """A rectangle to square by: `value` is its diagonal in mm, to be met both ways; `sides` its two sizes."""

    name: str
    value: float
    sides: tuple[Length, Length] = (Fraction(0), Fraction(0))
    flat: tuple[float, ...] = field(default=(), metadata={"silent": True})
    """Where it is in the bench, as a block without thickness; empty where no picture shows it."""


@dataclass(frozen=True)
class Square:
    """Both diagonals of a rectangle, and how much they may differ (mm)."""

    name: str
    value: float
    tolerance: Length


@dataclass(frozen=True)
class ScrewUse:
    """A wood screw of one size (mm): what it goes through, and what is behind that."""

    through: float
    into: float
    shank: float
    length: float
    count: int = 0
    """How many of the bench are for this use."""
    step: str = ""
    """The step that drives them, where another one drives most of their kind."""


@dataclass(frozen=True)
class Fixing:
    """Fasteners that a step uses: `count` of the hardware `item`, the `tool` that drives it, the joints it is for."""

    item: str
    count: int
    tool: str = ""
    joints: tuple[str, ...] = ()
    uses: tuple[ScrewUse, ...] = field(default=(), metadata={"silent": True})
    """Of a wood screw, what each size of it is for."""
    glued: bool = field(default=False, metadata={"silent": True})
    """Joints that glue holds: there is nothing to take but the glue."""


@dataclass(frozen=True)
class PlaceRow:
    """Where something is fixed or cut: in `face` of `part`, `at` (mm) from its left or front end.

    `across` (mm) is how far the row is from the part's left end, where that is not its middle.
    """

    item: str
    part: str
    face: str
    at: tuple[Length, ...]
    across: Length | None = None


@dataclass(frozen=True)
class KeyPlace:
    """A screw and its key (mm across flats): through `face` of `bar`, `at` (mm) from the bar's datum end."""

    screw: str
    bar: str
    face: str
    at: Length
    key: Length


@dataclass(frozen=True)
class Preload:
    """Nuts that must be in a slot before `closed_by` is placed: the slot of `bar` that opens to `face`.

    `spare` of the `count` are for nothing but a loss.
    """

    bar: str
    face: str
    count: int
    purpose: str
    closed_by: str
    spare: int = 0


@dataclass(frozen=True)
class MotionRow:
    """What moves as one in a step, by marks, its way in (`+x` … `-z`, empty: no straight way), and what it joins."""

    name: str
    marks: tuple[str, ...]
    way: str
    into: str
    straight: bool = field(default=True, metadata={"silent": True})
    """Not tilted on the way."""
    called: str = field(default="", metadata={"silent": True})
    """What is written beside it in a picture."""


@dataclass(frozen=True)
class Shape:
    """A piece as the pictures show it, in blocks of low and high corner (mm).

    `seated` is what shows of it in its place, `whole` the piece by itself. `holes` are round ones that go down through
    it: X, Y, Z of the middle of their upper rim, and their diameter.
    """

    mark: str
    kind: str
    seated: tuple[tuple[float, ...], ...]
    whole: tuple[tuple[float, ...], ...]
    holes: tuple[tuple[float, float, float, float], ...] = field(default=(), metadata={"silent": True})

    @property
    def is_small(self) -> bool:
        """Too small to be found in a picture of the whole bench, and hidden in its place."""
        return self.kind == "clip"

    @property
    def is_frame(self) -> bool:
        """A member of the frame."""
        return self.kind in MEMBERS


@dataclass(frozen=True)
class Step:
    """One step of the assembly. `parts` are marks of the pieces that it adds, `direction` the way they move.

    `hold` are points to stop and check at, `cautions` keys of the cautions on the pages. `kg` is the heaviest thing
    that is moved at once, `persons` how many should move it (None: more than four would have to). `nuts` have their
    last chance before this step's end; `final` says what cannot be undone or reached after it. `standing` are the marks
    that are there before it, in the bench or in the sub-assembly `assembly` that the step works on.
    """

    n: int
    title: str
    parts: tuple[str, ...]
    direction: str
    notes: tuple[str, ...]
    hold: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    stage: str = ""
    key: str = ""
    """Stable name for the checklist, never a position."""
    squares: tuple[Square, ...] = ()
    fixings: tuple[Fixing, ...] = ()
    tools: tuple[str, ...] = ()
    persons: int | None = 1
    kg: float = 0.0
    keys: tuple[KeyPlace, ...] = ()
    nuts: tuple[Preload, ...] = ()
    final: tuple[str, ...] = ()
    motions: tuple[MotionRow, ...] = ()
    assembly: str = ""
    standing: tuple[str, ...] = ()
    places: tuple[PlaceRow, ...] = ()
    """Where pockets, tray screws and brackets go."""
    standing_kg: float = 0.0
    """Mass of the whole bench so far, when it is lifted in this step."""
    lies: str = field(default="", metadata={"silent": True})
    """The axis of the bench that points up while its work lies flat (`+x`, `-x`); empty for work that stands."""
    shown: tuple[str, ...] = field(default=(), metadata={"silent": True})
    """Which of the notes are written below its picture too: no line of it can show them."""
    acts: tuple[Act, ...] = field(default=(), metadata={"silent": True})
    """What small pictures of their own show."""


@dataclass(frozen=True)
class Assembly:
    """Steps in order. `proved`: geometry found a way for every piece; `blocked` says what blocks the others.

    `minutes` are those of one person, without what glue and coats need to set.
    """

    proved: bool
    steps: tuple[Step, ...]
    blocked: tuple[str, ...] = ()
    shapes: tuple[Shape, ...] = ()
    solids: tuple[Body, ...] = field(default=(), metadata={"silent": True})
    """The bodies of the proof but for screws, to be turned and taken apart; no figures of their own."""
    screws: tuple[Body, ...] = field(default=(), metadata={"silent": True})
    """Those of joints, for who looks into one; so are the nuts in slots."""
    nuts: tuple[Body, ...] = field(default=(), metadata={"silent": True})
    brackets: tuple[Body, ...] = field(default=(), metadata={"silent": True})
    """What holds the top, owned by its member."""
    minutes: float = 0.0
    test_load: Fraction = field(default=Fraction(0), metadata={"silent": True})
    """What the load test puts on the top (kg): the load that the spec gives it."""
