"""A wood screw in its place: which, how many, through what, into what."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.bench.role import Role
from generator.calculators.wood_screws import WoodScrew
from generator.spec.fields import Screw
from generator.units.format import format_inch, format_mm

Path = tuple[str | int, ...]

#: Sizes of screws into the edge of a board, thickest first. Common practice, no source.
EDGE_SIZES = ("4", "3.5", "3")


@dataclass(frozen=True)
class Driven:
    """Like screws of one use: `count` of `screw` go `through` (mm) and hold on `into` (mm). `kind` is the trade's name.

    `edge` is the thickness (mm) of the board whose edge they go into, `place` what a finding names, `role` that of the
    strips that they hold and `mark` the first of these, `path` the key that chooses them; `told` is the use as a list
    of sizes has it. `holds` is the key of the sheet that they hold on to; `usual` what the tool takes where the spec
    asks for another; `shows` that a point that comes out spoils the bench's face; `in_end` that they are in end
    grain of solid wood.
    """

    kind: str
    screw: WoodScrew
    count: int
    through: Fraction
    into: Fraction
    place: str
    path: Path
    edge: Fraction | None = None
    role: Role | None = None
    mark: str = ""
    told: str = ""
    holds: str = "panels.material"
    usual: WoodScrew | None = None
    shows: bool = False
    in_end: bool = False
    head: str = ""
    """Its head in the words of a shop, where only one sort does."""
    step: str = ""
    """The step that drives them, where another one drives most of their kind."""

    @property
    def name(self) -> str:
        """As it is sold: `4x25`, `#6 x 1`."""
        return wood_screw_name(self.screw)


def wood_screw_name(screw: WoodScrew) -> str:
    """As it is sold: `4x25`, `#6 x 1`."""
    if screw.size.startswith("#"):
        return f"{screw.size} x {format_inch(screw.length)}"
    return f"{screw.size}x{format_mm(screw.length)}"


def chosen(screw: Screw | None, default: WoodScrew) -> WoodScrew:
    """What the spec asks for, else what follows from the boards."""
    return default if screw is None else WoodScrew(screw.thread, screw.shank, screw.length)
