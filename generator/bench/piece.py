"""One piece with its machining, and a joint between two. All lengths exact millimetres."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from generator.bench.place import Place
from generator.bench.role import Role
from generator.calculators.fits import TongueFit
from generator.geometry import AXES, FACES, Box, Span

#: What a member's end is called that goes into another timber, among the operations there.
TENONS = ("tenon", "lap", "bridle tenon", "bridle prong")
#: What takes each of them, and what a bolt or screw goes through.
MORTISES = ("mortise", "lap notch", "open mortise", "prong notch")
BOLT_HOLES = ("bolt hole", "screw hole")
#: Glued faces of those whose glue alone bears a twist, at each: a tenon has its shoulders and its mortise too.
GLUED_FACES = {"lap": 1, "bridle tenon": 2, "bridle prong": 1}
#: A pocket in a member's side for a sloping screw.
POCKET = "screw pocket"
#: What the members of a frame are made as, as bodies.
MEMBERS = frozenset({"bar", "timber"})


@dataclass(frozen=True)
class Operation:
    """One act of machining. `at` is the centre, from the part's datum end (left, front, bottom), then across.

    `size` is a diameter or (along, across); `depth` None goes through.
    """

    op: str
    face: str
    at: tuple[Fraction, Fraction]
    size: Fraction | tuple[Fraction, Fraction]
    depth: Fraction | None
    purpose: str
    corner: Fraction = Fraction(0)
    """Radius of the corners of a rectangle (mm)."""
    aside: Fraction = Fraction(0)
    """In an end: how far it is from the middle of the other side of the section (mm)."""


@dataclass(frozen=True)
class Notch:
    """A rectangle out of the corner `corner` ("front bottom"): `along` the part's first size, `across` its second."""

    corner: str
    along: Fraction
    across: Fraction
    reason: str


def without_bands(size: Fraction, axis: str, bands: Mapping[str, Fraction]) -> Fraction:
    """A size along an axis less the bands at its ends (mm)."""
    for edge in FACES[axis]:
        if edge in bands:
            size = size - bands[edge]
    return size


def with_horns(length: Fraction, horns: Mapping[str, Fraction]) -> Fraction:
    """A length and what is left on it until the glue has set (mm)."""
    for horn in horns.values():
        length = length + horn
    return length


class Shaped:
    """What is cut from goods: by their kind it is held, sawn and drawn."""

    kind: str

    @property
    def is_bar(self) -> bool:
        """A member of the frame: a slotted bar or a timber."""
        return self.kind in ("profile", "timber")

    @property
    def is_board(self) -> bool:
        """A piece of a sheet."""
        return self.kind == "sheet"


@dataclass(frozen=True)
class Part(Shaped):
    """One piece. `box` is its outside with tongues; `along` and `across` are the axes of its first and second size.

    `place` says where it sits.
    """

    mark: str
    name: str
    role: Role
    material: str
    kind: str
    box: Box
    along: str
    across: str
    place: Place
    thickness: Fraction
    tongues: Mapping[str, Fraction] = field(default_factory=dict)
    notches: tuple[Notch, ...] = ()
    operations: tuple[Operation, ...] = ()
    fit: TongueFit | None = None
    own_group: str = ""
    """What a piece of its kind is called as a group, where that is not its role."""
    metal: bool = False
    """A sheet part that is cut on the saw for metal, and drawn as metal."""
    waits: bool = False
    """Cut when the frame stands and every bay is measured. Common practice."""
    style: str = ""
    """How it is drawn, where its goods do not say it."""
    planed: bool = False
    """A strip that is planed to its thickness."""
    tenons: Mapping[str, Fraction] = field(default_factory=dict)
    """End face -> length of the tenon there, which the box holds (mm)."""
    mitres: tuple[str, ...] = ()
    """End faces that are cut at 45 degrees through the thickness; the length is that of the outer face."""
    bands: Mapping[str, Fraction] = field(default_factory=dict)
    """Edge -> thickness of the banding on it, which the box holds (mm)."""
    floating: tuple[str, ...] = ()
    """Edges of a panel of solid wood that move in their grooves, or at their gap, with the seasons."""
    grain: str = ""
    """Which of its sizes the grain follows: length or width; none for a board without grain, empty for no board."""
    horns: Mapping[str, Fraction] = field(default_factory=dict)
    """End face -> wood that it is cut longer there until the glue has set, which the box does not hold (mm)."""

    @property
    def group(self) -> str:
        """The words for its group, for the reader; what a piece is for is its role."""
        return self.own_group or self.role.value

    @property
    def shoulders(self) -> Box:
        """The box without its tenons."""
        if not self.tenons:
            return self.box
        span, (low, high) = self.box.span(self.along), FACES[self.along]
        own = Span(
            span.low + self.tenons.get(low, Fraction(0)), span.high - self.tenons.get(high, Fraction(0))
        )
        return Box(*(own if axis == self.along else self.box.span(axis) for axis in AXES))

    @property
    def length(self) -> Fraction:
        """Outside along the first size, with tongues (mm)."""
        return self.box.span(self.along).size

    @property
    def width(self) -> Fraction:
        """Outside along the second size, with tongues (mm)."""
        return self.box.span(self.across).size

    @property
    def cut_size(self) -> tuple[Fraction, Fraction]:
        """Both sizes as they are cut: without the banding that comes on, with the horns that are sawn off (mm)."""
        return with_horns(without_bands(self.length, self.along, self.bands), self.horns), without_bands(
            self.width, self.across, self.bands
        )


@dataclass(frozen=True)
class Joint:
    """A butt joint: the end of `member` on the face of `crossing`.

    `fastener` names the spec's hardware; `at` is the key's or screw's place on the crossing bar from its datum end,
    `face` the face where it enters. `end` is the member's end face. `aside` is how far its screw is from the member's
    axis along the crossing bar, where another would meet it (mm).
    """

    member: str
    end: str
    crossing: str
    kind: str
    fastener: str
    at: Fraction
    face: str
    aside: Fraction = Fraction(0)
