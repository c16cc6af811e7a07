"""What a fastener between two bars does, as facts: plain values that need no knowledge of the kind that gave them.

Depths are measured from the member's end into the crossing bar (mm); negative ones are inside the member.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, Protocol, TypeVar

from generator.bench.law import Law, Verdict
from generator.bench.terms import TermWords
from generator.spec.fields import Screw
from generator.spec.goods import Profile
from generator.spec.item import HardwareItem
from generator.spec.members import Members

C_contra = TypeVar("C_contra", bound=HardwareItem, contravariant=True)
#: What it is told of the members that it joins: the slotted bar's card, or the sizes of timbers.
M_contra = TypeVar("M_contra", bound=Profile | Members, contravariant=True)


#: How the stiffness of any joint is measured: a key of its card, and the way.
MEASURED_STIFFNESS = (
    "stiffness",
    "Join two off-cuts at a right angle and clamp one. Pull the free end of the other and read how far it moves. "
    "Force × arm² ÷ movement is the stiffness, with kN and m. First take off what the bar itself bends.",
)


@dataclass(frozen=True)
class Hole:
    """A hole in the crossing bar on the joint's axis; `depth` None goes through. `purpose` precedes the member.

    `timed` is the row of `calculators/costs` that it counts in, where it does not go with another.
    """

    op: str
    size: Fraction
    depth: Fraction | None
    purpose: str
    timed: str = ""
    for_key: bool = False
    """Whether a key comes through it: what covers it needs a port."""


@dataclass(frozen=True)
class Solid:
    """A block of the fastener between two depths, `along` the crossing bar by `across` it (mm)."""

    depths: tuple[float, float]
    along: float
    across: float
    far: bool = False
    """Its depths count from the far face of what the member meets; negative ones are inside it."""


@dataclass(frozen=True)
class JointGoods:
    """What a joint takes of a kind of goods, `count` of it.

    `item` is its name under `hardware` or on the list; `sizes` (mm) follow the word `size`. `taken` says when a step
    takes it beside the fastener itself: `with` it, or `before` it, as the member goes in; empty: it is a part of it.
    """

    kind: str
    item: str
    use: str
    size: str
    sizes: tuple[Fraction, ...] = ()
    count: int = 1
    taken: Literal["", "with", "before"] = ""


@dataclass(frozen=True)
class InSlot:
    """What is in the crossing bar's slot: its length along the slot, how deep it reaches, what is left below (mm).

    `fit` is what the space left is called, `stacked` what takes the depth, `off` how far that may be off (mm), and
    `test` tries it. `key` is the key of the card that says the length.
    """

    length: Fraction
    stack: Fraction
    left: Fraction
    fit: str
    stacked: str
    off: Fraction
    test: str
    key: str


@dataclass(frozen=True)
class DrillCard:
    """The set-up of a hole in bars: one card for each size of `op`, with its stops on each face.

    `size` and `depth` are what its settings are called, depth empty where it goes through; `first` is the hole that is
    drilled before it on the same axis, `first_size` what its setting is called, `fence` what the fence is set from.
    `to_slot`: a hole without a depth
    goes no further than to the joint's slot.
    """

    op: str
    key: str
    title: str
    tool: str
    size: str
    act: tuple[str, ...]
    passes: str
    depth: str = ""
    first: str = ""
    first_size: str = ""
    to_slot: bool = False
    fence: str = "Fence: from the bar's edge to the centre of the slot"


@dataclass(frozen=True)
class TenonSizes:
    """Thickness of a tenon, its longest length, its length in a lying member, the shoulder at its edges (mm).

    A `lapped` one is half of its timber, flush outside or above, and what takes it is open there. A `bridled` one is
    as wide as its timber; its thickness 0 is a third of what both timbers have in common.
    """

    thickness: Fraction
    length: Fraction
    stub: Fraction
    shoulder: Fraction
    lapped: bool = False
    bridled: bool = False


@dataclass(frozen=True)
class InEnd:
    """A screw in a member's end: its `hole` in the other timber, its `pilot` hole, its length, how deep its head is."""

    hole: Fraction
    pilot: Fraction
    length: Fraction
    recess: Fraction


@dataclass(frozen=True)
class Sloped:
    """Screws that slope out of pockets in a member's side, through its end (mm).

    `hole` is the screw's thickness, `setting` what the jig is set to: the screw leaves the end half of it from the
    pocket's face. The pocket, `drill` wide, `begins` that far from the end, `reach`es on and is `deep`; `before` is the
    wood before the head along the screw. In the other timber it goes `beyond`, straight in, and drifts sideways.
    """

    hole: Fraction
    drill: Fraction
    setting: Fraction
    before: Fraction
    begins: Fraction
    reach: Fraction
    deep: Fraction
    beyond: Fraction
    drift: Fraction


@dataclass(frozen=True)
class CrossNut:
    """A round nut across the member, its middle `from_end`; the bolt's hole goes on `beyond` it (mm).

    `hole` is the bolt's, `recess` (diameter, depth) that of washer and head in the far face of the other timber.
    """

    hole: Fraction
    recess: tuple[Fraction, Fraction]
    washer: Fraction
    diameter: Fraction
    length: Fraction
    from_end: Fraction
    beyond: Fraction


@dataclass(frozen=True)
class Glue:
    """A glue by its name; minutes until the clamps must be tight, and until they come off. `act` is how it goes on."""

    name: str
    open_time: Fraction
    clamp_time: Fraction
    act: str


@dataclass(frozen=True)
class Joining:
    """What one entry of the spec's hardware does at every joint that names it.

    `many` is what several are called, `called` the fastener as a body: "clip", "screw". `looks` says how pictures show
    it: as a clip, until it is out of sight in its slot, or not at all, as a screw. `engaged` is the screw's length in
    the member's bore and `key` the width across flats of its key, which comes in from `key_from`. `in_slot` is None
    where the crossing bar's slot stays free. A fastener that is `fitted` goes onto the member before the bars meet;
    any other goes in when both are there, and `unproved` says why its way is not proved. Without a screw its `key`
    is 0, and no key turns it. A negative `key_from` counts from the far face.
    """

    fastener: str
    kind: str
    many: str
    called: str
    looks: Literal["clip", "screw"]
    screw: Screw | None
    engaged: Fraction
    key: Fraction
    key_from: float
    holes: tuple[Hole, ...]
    solids: tuple[Solid, ...]
    bought: tuple[JointGoods, ...]
    stiffness: tuple[Fraction, Fraction]
    """How hard one joint is to turn about an axis that sways: least and most (kN·m/rad)."""
    in_slot: InSlot | None = None
    slides_along: bool = False
    """Whether the bars can be closed by sliding the member along the crossing bar's slot."""
    across: bool = False
    """Whether its screw is across the crossing bar: it shuts the way of a key at the same place."""
    fitted: bool = False
    unproved: str = ""
    face_to_face: Law | None = None
    """The law that two of it break where they face each other across a bar."""
    end: str = "tap"
    """The operation in the member's end that it cannot be without."""
    tenon: TenonSizes | None = None
    cross: CrossNut | None = None
    driven: InEnd | None = None
    sloped: Sloped | None = None
    light: bool = False
    """Whether it is too soft to be all that holds a post upright."""
    places: tuple[Fraction, ...] = (Fraction(0),)
    """Where its screws are along the crossing bar, from the middle of the joint (mm)."""
    glue: Glue | None = None
    pocket: str = ""
    """What takes the member's end in the other timber; empty where it only butts."""
    closing: tuple[str, ...] = ()
    """How a joint that is not glued is closed, in whole sentences."""
    tool: str = ""
    """What closes it, where that is no hexagon key."""

    @property
    def screwed(self) -> bool:
        """Whether screws that hold in the wood close it."""
        return self.driven is not None or self.sloped is not None


class JointKind(Protocol[C_contra, M_contra]):
    """A kind of joint between two members. `name` is what the spec calls a card, `bar` the frame's."""

    @property
    def joins(self) -> str:
        """The kind of material whose members it joins."""

    @property
    def kind(self) -> str:
        """The trade's word for it, as the spec's card says."""

    @property
    def many(self) -> str:
        """What several are called on a page."""

    @property
    def terms(self) -> tuple[TermWords, ...]:
        """Its words in the glossary."""

    @property
    def drill_cards(self) -> tuple[DrillCard, ...]:
        """The set-up of each hole that it needs, in the order of the work."""

    @property
    def how_to_measure(self) -> tuple[tuple[str, str], ...]:
        """Each key of its card, and how its value is taken."""

    @property
    def laws(self) -> tuple[Law, ...]:
        """Every check that it brings, for the tables."""

    @property
    def usual_masses(self) -> Mapping[str, str]:
        """Kind of bought goods -> usual mass (kg) where a card says none."""

    def joining(self, name: str, card: C_contra, bar: M_contra) -> Joining:
        """What a card does at every joint."""

    def holds(self, name: str, card: C_contra, bar: M_contra) -> Iterator[Verdict]:
        """Whether what it holds by is there: room in the slot, thread in the bore, metal under a head."""

    def suits(self, name: str, card: C_contra, bar: M_contra) -> Iterator[Verdict]:
        """Whether its pieces go into the bar and suit each other."""
