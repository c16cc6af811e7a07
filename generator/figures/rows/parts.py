"""Distinct parts with their machining, and what is cut of each material (mm)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from generator.bench.piece import Shaped, with_horns, without_bands
from generator.geometry import FACES

Length = Fraction


@dataclass(frozen=True)
class NotchRow:
    """A rectangle out of a corner. `along` runs with the part's first size, `across` with its second."""

    corner: str
    along: Length
    across: Length
    reason: str = ""


@dataclass(frozen=True)
class OperationRow:
    """One act of machining.

    `at` is measured on the named face: along the part from its datum end (left, front or bottom), then across from the
    lower edge. `size` is a diameter, or (along, across) of a rectangle. `depth` None means through.
    """

    op: str
    face: str
    at: tuple[Length, Length]
    size: Length | tuple[Length, Length]
    depth: Length | None
    purpose: str
    corner: Length = field(default=Fraction(0), metadata={"silent": True})
    """Radius of the corners of a rectangle; for drawings and files of cut paths."""
    aside: Length = field(default=Fraction(0), metadata={"silent": True})
    """In an end: how far it is from the middle of the other side of the section; for drawings."""

    @property
    def thread(self) -> str:
        """The thread that is tapped; empty for any other act."""
        return self.purpose.split(" for ")[0] if self.op.startswith("tap") else ""


@dataclass(frozen=True)
class PlacedRow:
    """Where one piece of a part is in the frame: low corner and size along X, Y, Z."""

    mark: str
    corner: tuple[Length, Length, Length]
    size: tuple[Length, Length, Length]
    where: str = ""
    shown: tuple[tuple[Length, ...], tuple[Length, ...]] = field(default=((), ()), metadata={"silent": True})
    """The same of what is seen in its place: a member without its tenons."""


@dataclass(frozen=True)
class PartRow(Shaped):
    """One distinct part: pieces that are cut and machined the same. `length` and `width` as on the cut list."""

    mark: str
    marks: tuple[str, ...]
    name: str
    group: str
    material: str
    kind: str
    count: int
    length: Length
    width: Length
    thickness: Length
    mass: float
    tongues: Mapping[str, Length] = field(default_factory=dict)
    notches: tuple[NotchRow, ...] = ()
    operations: tuple[OperationRow, ...] = ()
    along: str = "x"
    """Axis of the frame along which `length` is measured."""
    across: str = "y"
    """Axis of the frame along which `width` is measured."""
    tongue_thickness: Length | None = None
    rabbet_depth: Length | None = None
    rabbet_length: Length | None = None
    grain: str = ""
    pieces: tuple[PlacedRow, ...] = ()
    other_hand: str = ""
    """Mark of the part that is this one's mirror image."""
    metal: bool = field(default=False, metadata={"silent": True})
    """Cut and drawn as metal: for tellers and drawings."""
    made_of: str = field(default="", metadata={"silent": True})
    """What its material is, in the words of a shop; for readers, beside its name in the spec."""
    waits: bool = field(default=False, metadata={"silent": True})
    """Cut when every bay is measured."""
    style: str = field(default="", metadata={"silent": True})
    """How it is drawn, where its goods do not say it."""
    planed: bool = field(default=False, metadata={"silent": True})
    """Planed to its thickness."""

    floating: tuple[str, ...] = field(default=(), metadata={"silent": True})
    """Edges of a panel of solid wood that move with the seasons."""
    mitres: tuple[str, ...] = field(default=(), metadata={"silent": True})
    """Ends that are cut at 45 degrees."""
    bands: Mapping[str, Length] = field(default_factory=dict, metadata={"silent": True})
    """Edge -> thickness of its banding; figures.json has it in a section of its own."""
    horns: Mapping[str, Length] = field(default_factory=dict)
    """End -> wood that it is cut longer there; it is sawn off when the glue has set."""

    @property
    def cut_size(self) -> tuple[Length, Length]:
        """Both sizes as they are cut: without the banding that comes on, with the horns that are sawn off."""
        return with_horns(without_bands(self.length, self.along, self.bands), self.horns), without_bands(
            self.width, self.across, self.bands
        )

    @property
    def datum(self) -> tuple[str, str]:
        """From where places on it are measured: its end along it, and the edge across it of a board."""
        return f"{FACES[self.along][0]} end", f"{FACES[self.across][0]} edge" if self.is_board else "edge"

    def at_edge(self, operation: OperationRow) -> bool:
        """True when a rectangle opens to one of the part's long edges."""
        assert isinstance(operation.size, tuple)
        low = operation.at[1] - operation.size[1] / 2
        return low <= 0 or low + operation.size[1] >= self.width


@dataclass(frozen=True)
class GluedBoard:
    """Boards that are glued up alike from so many strips. Sizes are along the grain, then across it (mm).

    `strip` is as ripped, `glued` as it leaves the clamps, `finished` as it is cut then.
    """

    material: str
    marks: tuple[str, ...]
    strips: int
    strip: tuple[Length, Length]
    glued: tuple[Length, Length]
    finished: tuple[Length, Length]
    clamps: int


@dataclass(frozen=True)
class CutSection(Shaped):
    """Distinct parts of one material, by their marks, with totals in mm and mm²."""

    material: str
    kind: str
    marks: tuple[str, ...]
    pieces: int
    total_length: Length
    total_area: Length
    measured: str = ""
    rough: Length | None = None
    """How thick its rough boards are, before they are planed; None for what is bought planed."""
