"""Another bench that is bolted to this one: where it is, the bolts between both, and how the two specs agree."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from generator.calculators.bodies import Block
from generator.calculators.joining import JoiningBoltSize
from generator.geometry import Box, Span
from generator.spec.joining import Join, JoiningBolt, SideOfBench

if TYPE_CHECKING:
    from generator.bench.fillings.facts import Solved

Point = tuple[Fraction, Fraction, Fraction]
#: X and Y after so many quarter turns to the left: (factor of x, factor of y) for each.
_QUARTERS = (((1, 0), (0, 1)), ((0, -1), (1, 0)), ((-1, 0), (0, -1)), ((0, 1), (-1, 0)))


@dataclass(frozen=True)
class Turned:
    """From one bench's coordinates into another's: quarter turns to the left about Z, then a move (mm)."""

    quarters: int
    by: Point

    def point(self, at: Point) -> Point:
        """A point of the one in the other's coordinates."""
        (a, b), (c, d) = _QUARTERS[self.quarters]
        x, y, z = at
        return (a * x + b * y + self.by[0], c * x + d * y + self.by[1], z + self.by[2])

    def box(self, box: Box) -> Box:
        """A box of the one in the other's coordinates."""
        low = self.point((box.x.low, box.y.low, box.z.low))
        high = self.point((box.x.high, box.y.high, box.z.high))
        return Box(*(Span(min(a, b), max(a, b)) for a, b in zip(low, high, strict=True)))

    def flat(self, x: float, y: float) -> tuple[float, float]:
        """A point in plan, in floats."""
        (a, b), (c, d) = _QUARTERS[self.quarters]
        return (a * x + b * y + float(self.by[0]), c * x + d * y + float(self.by[1]))

    def block(self, block: Block) -> Block:
        """A block of the proof in the other's coordinates."""
        one, two = self.flat(block[0], block[1]), self.flat(block[3], block[4])
        rise = float(self.by[2])
        return (
            min(one[0], two[0]), min(one[1], two[1]), block[2] + rise,
            max(one[0], two[0]), max(one[1], two[1]), block[5] + rise,
        )  # fmt: skip

    def back(self) -> Turned:
        """The other way."""
        quarters = -self.quarters % 4
        x, y, z = Turned(quarters, (Fraction(0), Fraction(0), Fraction(0))).point(self.by)
        return Turned(quarters, (-x, -y, -z))


@dataclass(frozen=True)
class JoinBolt:
    """A bolt through `member` of this bench and `facing` of the other (their marks).

    `at` is where its axis leaves the outside of this frame (mm). `along` and `across` are where its hole is on the
    member, from the datum end and from the edge. `grip` is all that it goes through, without washers.
    """

    member: str
    facing: str
    at: Point
    along: Fraction
    across: Fraction
    grip: Fraction
    size: JoiningBoltSize


@dataclass(frozen=True)
class Neighbour:
    """A bench at a side of this one. `index` is its place in the list `join`.

    `other` is that bench alone, `turned` brings it into this one's coordinates. `apart` is the distance of both frames,
    `gap` that of both tops, `step` how much higher the other top is (mm). `first`: this bench is the datum, and lists
    what is bought.
    `bolts` are those that have a place; `slotted`: their washers press on
    slots at both ends. `wrong` is what the other spec should say, empty where both agree.
    """

    index: int
    join: Join
    name: str
    other: Solved
    other_side: SideOfBench
    turned: Turned
    apart: Fraction
    gap: Fraction
    step: Fraction
    first: bool
    same_spec: bool
    bolts: tuple[JoinBolt, ...]
    hole: Fraction
    card: JoiningBolt
    slotted: bool
    wrong: str = ""

    @property
    def lengths(self) -> Sequence[tuple[JoiningBoltSize, int]]:
        """Each size of bolt and how many of it."""
        counts: dict[JoiningBoltSize, int] = {}
        for each in self.bolts:
            counts[each.size] = counts.get(each.size, 0) + 1
        return tuple(sorted(counts.items(), key=lambda pair: pair[0].shortest))
