"""What a frame gives, as facts: its members, how they are joined, and what it offers to whatever is under it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, Protocol

from generator.bench.layout import Layout
from generator.bench.piece import Joint, Part
from generator.bench.place import Place
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
class Seat:
    """What the frame offers to a plate under it: where it is, what holds it, in what and by which thread."""

    x: Span
    y: Span
    holds: tuple[Hold, ...]
    into: Literal["slot nut"]
    thread: Thread
    ports: tuple[Port, ...]


Direction = Literal["long", "cross"]
"""A way in which a frame sways: along its length, or from front to back."""


@dataclass(frozen=True)
class SwayJoint:
    """A joint that turns when the frame sways: the end of `member` (its mark, its face).

    `fasteners` are names of the spec's hardware, more than one if they turn one after the other. `spans` are the one
    or two bays of the lying member beside the joint, from post axis to post axis (mm).
    """

    direction: Direction
    member: str
    end: str
    fasteners: tuple[str, ...]
    spans: tuple[Fraction, ...]


@dataclass(frozen=True)
class LoosePanel:
    """A panel that nothing fixes in a frame that sways: its clear opening, and the least gap at an edge (mm)."""

    direction: Direction
    mark: str
    height: Fraction
    width: Fraction
    gap: Fraction


@dataclass(frozen=True)
class SwayFacts:
    """What a frame sways by: it leans as a whole over `height`, from where it stands to its top (mm).

    `axes` is the distance of the axes of its lowest and highest lying bars (mm): over it a panel's opening leans.
    """

    height: Fraction
    axes: Fraction
    joints: tuple[SwayJoint, ...]
    panels: tuple[LoosePanel, ...]


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

    def seat(self, place: Place, point: Point, size: Point) -> Seat:
        """What is above a plate of `size` [X, Y] in a corner or in the middle of a long side, and what holds it.

        `point` is the middle of what it carries.
        """


class FrameKind(Protocol):
    """A kind of frame. The methods are called in this order by `solve`."""

    @property
    def kind(self) -> str:
        """The trade's word for it."""

    def chosen(self, spec: Spec) -> bool:
        """Whether this spec takes it; the default kind is last in the tuple and says yes."""

    def refusals(self, loaded: LoadedSpec) -> Iterator[Finding]:
        """Faults that can be found from the spec alone."""

    def members(self, spec: Spec, layout: Layout, below: tuple[Fraction, ...]) -> tuple[Part, ...]:
        """After the layout: every member; `below` are left edges of base cross-members that the stand needs."""

    def walls(self, loaded: LoadedSpec, layout: Layout) -> tuple[Part, ...]:
        """After the layout: what closes the frame, and the tray."""

    def joined(self, loaded: LoadedSpec, layout: Layout, members: Sequence[Part]) -> BuiltFrame:
        """The members with what their joints and the clamps ask of them."""

    def sway(self, layout: Layout, frame: BuiltFrame, walls: Sequence[Part]) -> SwayFacts:
        """The joints and panels that decide how far it sways."""

    def body(self, goods: ChosenGoods, member: Part) -> Body:
        """A member as a solid."""
