"""A solved bench: placed parts with their machining, and the joints between bars. All lengths exact millimetres."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from generator.bench.joints.facts import Joining
from generator.bench.layout import Layout
from generator.bench.piece import Joint, Notch, Operation, Part
from generator.bench.place import End, Item, Level, Place, Side
from generator.bench.role import Role
from generator.bench.stands.facts import Stand
from generator.calculators.drawers import DrawerSizes
from generator.calculators.reliefs import ReliefTemplate
from generator.calculators.top_grid import Line
from generator.findings import Finding
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec


@dataclass(frozen=True)
class PlacedDrawer:
    """A drawer in its bay, heights above the frame's underside.

    `slide_front` and the `stations` of the slide's holes are measured back from the front's face; `spacer` is the
    block under its slide.
    """

    bay: str
    number: int
    sizes: DrawerSizes
    slide_front: Fraction
    stations: tuple[Fraction, ...]
    spacer: Fraction

    @property
    def place(self) -> Place:
        """Where its boards are."""
        return Place(bay=self.bay, item=Item("drawer", self.number))

    @property
    def name(self) -> str:
        """What the drawer is called as one body."""
        return f"drawer {self.bay}.{self.number}"

    def slide_name(self, end: End) -> str:
        """What one of its two slides is called as a body."""
        return f"slide {self.bay}.{self.number} {end}"


@dataclass(frozen=True)
class PlacedTote:
    """A tote on its runners, heights above the frame's underside. `kind` names the spec's tote."""

    bay: str
    number: int
    kind: str
    bottom: Fraction
    top: Fraction
    runner_top: Fraction
    runner_width: Fraction

    @property
    def place(self) -> Place:
        """Where it hangs."""
        return Place(bay=self.bay, item=Item("tote", self.number))

    @property
    def name(self) -> str:
        """What the tote is called as a body."""
        return f"tote {self.bay}.{self.number}"


@dataclass(frozen=True)
class PlacedShelf:
    """A shelf between its walls: `top` and `cleat_top` above the frame's underside, numbered as in the stack."""

    bay: str
    number: int
    top: Fraction
    length: Fraction
    depth: Fraction
    cleat_top: Fraction

    @property
    def place(self) -> Place:
        """Where it lies."""
        return Place(bay=self.bay, item=Item("shelf", self.number))


@dataclass(frozen=True)
class OpenSpace:
    """A space that the stack leaves empty; `bottom` above the frame's underside."""

    bay: str
    number: int
    bottom: Fraction
    height: Fraction


@dataclass(frozen=True)
class Storage:
    """What fills the bays, each kind in the order of bays, from below."""

    drawers: tuple[PlacedDrawer, ...]
    totes: tuple[PlacedTote, ...]
    shelves: tuple[PlacedShelf, ...]
    open: tuple[OpenSpace, ...]


@dataclass(frozen=True)
class Grid:
    """Hole centres in the top from its own left edge (columns) and front edge (rows)."""

    columns: Line
    rows: Line


@dataclass(frozen=True)
class PlacedBracket:
    """A bracket on the inner face of `bar`, its middle at X, Y of the frame; `spare`: a spare nut is with it."""

    bar: str
    face: str
    at: tuple[Fraction, Fraction]
    spare: bool


@dataclass(frozen=True)
class Bench:
    """Everything that follows from the spec by geometry. `findings` are what does not fit but can be shown."""

    loaded: LoadedSpec
    layout: Layout
    parts: tuple[Part, ...]
    joints: tuple[Joint, ...]
    joinings: Mapping[str, Joining]
    storage: Storage
    stand: Stand
    grid: Grid | None
    brackets: tuple[PlacedBracket, ...]
    relief: ReliefTemplate
    findings: tuple[Finding, ...]

    @property
    def spec(self) -> Spec:
        """What the spec wishes, with the values that were measured."""
        return self.loaded.spec

    def in_group(self, *groups: str) -> tuple[Part, ...]:
        """Pieces of these groups, by the words of the figures, in the order of the bench."""
        return tuple(part for part in self.parts if part.group in groups)

    def of(
        self, *roles: Role, end: End | None = None, side: Side | None = None, level: Level | None = None
    ) -> tuple[Part, ...]:
        """Pieces of these roles in the order of the bench, at one end, side or level where one is named."""
        return tuple(
            part
            for part in self.parts
            if part.role in roles
            and end in (None, part.place.end)
            and side in (None, part.place.side)
            and level in (None, part.place.level)
        )


__all__ = [
    "Bench",
    "Grid",
    "Joint",
    "Notch",
    "OpenSpace",
    "Operation",
    "Part",
    "PlacedBracket",
    "PlacedDrawer",
    "PlacedShelf",
    "PlacedTote",
    "Storage",
]
