"""What a sheet plan takes and what it gives: pieces, sheets, every cut as a tree, and what is short.

Lengths in any one unit (exact), prices in any one currency (exact).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True)
class SheetPiece:
    """`count` pieces of one size. One that `turns` may lie either way (no grain, or grain of no matter)."""

    width: Fraction
    height: Fraction
    count: int
    turns: bool = False


@dataclass(frozen=True)
class Area:
    """A rectangle on a sheet, from the sheet's own lower left corner."""

    x: Fraction
    y: Fraction
    width: Fraction
    height: Fraction

    def meets(self, other: Area) -> bool:
        """Whether both have an area in common; edges do not count."""
        return (
            self.x < other.x + other.width
            and other.x < self.x + self.width
            and self.y < other.y + other.height
            and other.y < self.y + self.height
        )


@dataclass(frozen=True)
class SheetStock:
    """Sheets of one size; `limit` None is as many as needed, a number what is on hand.

    No piece may have any of its `defects`.
    """

    width: Fraction
    height: Fraction
    price: Fraction = Fraction(1)
    limit: int | None = None
    defects: tuple[Area, ...] = ()


@dataclass(frozen=True)
class BreakDown:
    """The longest part that goes to the fence, and by how much a part is left too long for its final cut there.

    `kerf` is that of the saw that breaks sheets down; None where it is that of the saw with the fence.
    """

    longest: Fraction
    allowance: Fraction = Fraction(0)
    kerf: Fraction | None = None

    def wider(self, fence: Fraction) -> Fraction:
        """By how much it takes more than the saw with the fence; below 0 for a thinner blade."""
        return Fraction(0) if self.kerf is None else self.kerf - fence


@dataclass(frozen=True)
class ShopRules:
    """What a saw operator asks of a plan: what a cut leaves at least, and how long a part that is fed is at least.

    Every finished edge has a cut of its own with the fence at the piece's size.
    """

    least_left: Fraction
    least_feed: Fraction


@dataclass(frozen=True)
class PlacedPiece:
    """A piece (its place in the list that was given) where it lies; the area's sizes are as it lies."""

    piece: int
    area: Area
    turned: bool


@dataclass(frozen=True)
class SawCut:
    """One cut through `area` from edge to edge: upright at x or level at y, the blade from `at` to `at` + `kerf`.

    `stage` counts the changes of direction up to this cut, from 1. `setting` is the size that the fence leaves
    between it and the blade: the side of the cut nearer to the origin. A cut `by_track` breaks a part down that is
    too long for the fence.
    """

    area: Area
    upright: bool
    at: Fraction
    stage: int
    setting: Fraction
    by_track: bool = False
    kerf: Fraction = Fraction(0)


@dataclass(frozen=True)
class CutTree:
    """What becomes of an area: a piece, an off-cut, or two areas by a cut. A side that is all kerf is None."""

    area: Area
    piece: PlacedPiece | None = None
    cut: SawCut | None = None
    first: CutTree | None = None
    second: CutTree | None = None

    def cuts(self) -> Iterator[SawCut]:
        """Every cut, each before those in the parts that it makes."""
        if self.cut is not None:
            yield self.cut
        for part in (self.first, self.second):
            if part is not None:
                yield from part.cuts()

    def pieces(self) -> Iterator[PlacedPiece]:
        """Every piece."""
        if self.piece is not None:
            yield self.piece
        for part in (self.first, self.second):
            if part is not None:
                yield from part.pieces()

    def offcuts(self) -> Iterator[Area]:
        """Every part that is neither a piece nor cut further."""
        if self.piece is None and self.cut is None:
            yield self.area
        for part in (self.first, self.second):
            if part is not None:
                yield from part.offcuts()


@dataclass(frozen=True)
class CutSheet:
    """One sheet: the place of its stock in the list that was given, and its cuts after the edges are trimmed."""

    stock: int
    tree: CutTree

    @property
    def pieces(self) -> tuple[PlacedPiece, ...]:
        """The pieces in the order of the cuts."""
        return tuple(self.tree.pieces())

    @property
    def cuts(self) -> tuple[SawCut, ...]:
        """The cuts in an order that the saw can follow, stage by stage: the sheet is turned as seldom as can be."""
        return tuple(sorted(self.tree.cuts(), key=lambda cut: cut.stage))

    @property
    def offcuts(self) -> tuple[Area, ...]:
        """The off-cuts, the largest first."""
        return tuple(sorted(self.tree.offcuts(), key=lambda a: (-a.width * a.height, a.x, a.y)))


@dataclass(frozen=True)
class SheetShortage:
    """A piece that no sheet holds (`sheets` 0), or `count` of it that no sheet was found for.

    What is enough: a sheet of at least `needs`, or `sheets` more sheets of that size.
    """

    piece: int
    count: int
    short_by: Fraction
    needs: tuple[Fraction, Fraction]
    sheets: int


@dataclass(frozen=True)
class SheetPlan:
    """A plan, or (with `shortages`) none. `bound` <= the cost of every plan in these stages; `proved` when equal.

    `clean_cost` is what the cheapest plan within the operator's rules costs: None where none was found or asked for.
    """

    sheets: tuple[CutSheet, ...]
    cost: Fraction
    bound: Fraction
    proved: bool
    shortages: tuple[SheetShortage, ...] = ()
    clean_cost: Fraction | None = None

    @property
    def gap(self) -> Fraction:
        """By how much of the bound the plan may be dearer than the cheapest (0 when proved)."""
        return (self.cost - self.bound) / self.bound if self.bound else Fraction(0)
