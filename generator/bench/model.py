"""A solved bench: placed parts with their machining, and the joints between bars. All lengths exact millimetres."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from generator.bench.layout import Layout
from generator.calculators.casters import CasterLoad
from generator.calculators.drawers import DrawerSizes
from generator.calculators.fits import TongueFit
from generator.calculators.reliefs import ReliefTemplate
from generator.calculators.top_grid import Line
from generator.findings import Finding
from generator.geometry import Box


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


@dataclass(frozen=True)
class Notch:
    """A rectangle out of the corner `corner` ("front bottom"): `along` the part's first size, `across` its second."""

    corner: str
    along: Fraction
    across: Fraction
    reason: str


@dataclass(frozen=True)
class Part:
    """One piece. `box` is its outside with tongues; `along` and `across` are the axes of its first and second size.

    `where` says in the reader's words where it sits; `line` is its place in the row of its group.
    """

    mark: str
    name: str
    group: str
    material: str
    kind: str
    box: Box
    along: str
    across: str
    where: str
    thickness: Fraction
    tongues: Mapping[str, Fraction] = field(default_factory=dict)
    notches: tuple[Notch, ...] = ()
    operations: tuple[Operation, ...] = ()
    fit: TongueFit | None = None

    @property
    def length(self) -> Fraction:
        """Outside along the first size, with tongues (mm)."""
        return self.box.span(self.along).size

    @property
    def width(self) -> Fraction:
        """Outside along the second size, with tongues (mm)."""
        return self.box.span(self.across).size


@dataclass(frozen=True)
class Joint:
    """A butt joint: the end of `member` on the face of `crossing`.

    `fastener` names the spec's hardware; `at` is the key's or screw's place on the crossing bar from its datum end,
    `face` the face where it enters. `end` is the member's end face.
    """

    member: str
    end: str
    crossing: str
    kind: str
    fastener: str
    at: Fraction
    face: str


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


@dataclass(frozen=True)
class PlacedShelf:
    """A shelf between its walls: `top` and `cleat_top` above the frame's underside, numbered as in the stack."""

    bay: str
    number: int
    top: Fraction
    length: Fraction
    depth: Fraction
    cleat_top: Fraction


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
class PlateBolt:
    """One bolt of a caster plate into the bottom slot of `member`, at X, Y of the frame."""

    plate: str
    member: str
    at: tuple[Fraction, Fraction]


@dataclass(frozen=True)
class Grid:
    """Hole centres in the top from its own left edge (columns) and front edge (rows)."""

    columns: Line
    rows: Line


@dataclass(frozen=True)
class Bench:
    """Everything that follows from the spec by geometry. `findings` are what does not fit but can be shown."""

    layout: Layout
    parts: tuple[Part, ...]
    joints: tuple[Joint, ...]
    storage: Storage
    casters: tuple[tuple[Fraction, Fraction], ...]
    plate_bolts: tuple[PlateBolt, ...]
    grid: Grid | None
    relief: ReliefTemplate
    findings: tuple[Finding, ...]

    def in_group(self, *groups: str) -> tuple[Part, ...]:
        """Pieces of these groups in the order of the bench; none for a group that does not occur."""
        return tuple(part for part in self.parts if part.group in groups)


__all__ = [
    "Bench",
    "CasterLoad",
    "Grid",
    "Joint",
    "Notch",
    "OpenSpace",
    "Operation",
    "Part",
    "PlacedDrawer",
    "PlacedShelf",
    "PlacedTote",
    "PlateBolt",
    "Storage",
]
