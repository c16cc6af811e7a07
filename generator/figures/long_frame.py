"""The long side of a frame of bars as a plane frame on its supports: rails, posts, and all else between them there.

Its joints turn as easily as their cards allow. Bars are as long as their axes, and plates below stiffen nothing, so
that the frame sags more than the real one.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

import numpy as np

from generator.bench.model import Bench
from generator.bench.piece import Part
from generator.bench.place import Side
from generator.bench.role import Role
from generator.calculators.plane_frame import FrameBar, Matrix, Place, PlaneFrame
from generator.figures.sway import IN_BASE_UNITS

#: A node at least every so many millimetres of a rail: there its load is, and its sag is read.
STATION = 80
#: Decimals of a sag (mm): what is behind them depends on the machine that solved the frame.
DECIMALS = 5


@dataclass(frozen=True)
class LongFrame:
    """The frame of one side. `lying` are the nodes of each lying bar by its mark, in order from the left.

    `places` are X of all nodes (mm), `flexibility` how far each goes down under 1 N at each (mm/N).
    """

    places: tuple[float, ...]
    lying: Mapping[str, tuple[int, ...]]
    flexibility: Matrix

    def sag(self, loads: Mapping[int, float], mark: str) -> float:
        """The deepest sag (mm) of a lying bar under loads down (N) at nodes, rounded to `DECIMALS`."""
        down = sum(force * self.flexibility[node] for node, force in loads.items())
        assert isinstance(down, np.ndarray)
        return round(max(float(down[node]) for node in self.lying[mark]), DECIMALS)

    def at(self, node: int) -> float:
        """X of a node (mm)."""
        return self.places[node]

    def spread(self, total: float, mark: str) -> dict[int, float]:
        """A load (N) spread evenly over a lying bar, each node with its share of the length."""
        nodes = self.lying[mark]
        places = [self.at(node) for node in nodes]
        edges = [places[0], *((a + b) / 2 for a, b in pairwise(places)), places[-1]]
        length = places[-1] - places[0]
        return {
            node: total * (high - low) / length
            for node, (low, high) in zip(nodes, pairwise(edges), strict=True)
        }

    def nearest(self, x: float, mark: str) -> int:
        """The node of a lying bar that is nearest to a place."""
        return min(self.lying[mark], key=lambda node: abs(self.at(node) - x))


def long_frame(bench: Bench, side: Side) -> LongFrame:
    """The frame of the front or the rear side."""
    rails = bench.of(Role.LONG_RAIL, side=side)
    row = rails[0].box.y.middle
    marks = {joint.member for joint in bench.joints} | {joint.crossing for joint in bench.joints}
    bars = [part for part in bench.parts if part.mark in marks and part.box.y.middle == row]
    return _Builder(bench, {bar.mark: bar for bar in bars if _lies(bar) or _stands(bar)}, row).built()


def _beside(bar: Part, x: Fraction) -> Fraction:
    """How far a place is from what is above a bar's length (mm)."""
    return max(bar.box.x.low - x, x - bar.box.x.high, Fraction(0))


def _lies(bar: Part) -> bool:
    return bar.box.x.size > max(bar.box.y.size, bar.box.z.size)


def _stands(bar: Part) -> bool:
    return bar.box.z.size > max(bar.box.x.size, bar.box.y.size)


@dataclass
class _Builder:
    """Bars by their marks, and the points that each runs through: where it meets another, its supports, stations."""

    bench: Bench
    bars: dict[str, Part]
    row: Fraction

    def built(self) -> LongFrame:
        points: dict[str, set[Place]] = {mark: set() for mark in self.bars}
        springs: dict[tuple[str, Place], float] = {}
        for member, crossing, stiffness in self._joints():
            at = self._meeting(self.bars[member], self.bars[crossing])
            points[member].add(at)
            points[crossing].add(at)
            springs[member, at] = stiffness
        resting = [(mark, at) for mark, at in self._supports()]
        for mark, at in resting:
            points[mark].add(at)
        for mark, bar in self.bars.items():
            if _lies(bar):
                points[mark] |= set(_stations(sorted(points[mark])))
        nodes = sorted({at for each in points.values() for at in each})
        number = {at: place for place, at in enumerate(nodes)}
        frame = PlaneFrame(
            tuple(nodes),
            tuple(
                self._bar(
                    bar, sorted(points[mark]), number, {at: k for (m, at), k in springs.items() if m == mark}
                )
                for mark, bar in self.bars.items()
                if len(points[mark]) > 1
            ),
            tuple(sorted({number[at] for _, at in resting})),
        )
        return LongFrame(
            tuple(x for x, _ in nodes),
            {
                mark: tuple(number[at] for at in sorted(points[mark]))
                for mark, bar in self.bars.items()
                if _lies(bar)
            },
            frame.settlements([{node: 1.0} for node in range(len(nodes))]),
        )

    def _joints(self) -> Iterator[tuple[str, str, float]]:
        for joint in self.bench.joints:
            if joint.member in self.bars and joint.crossing in self.bars:
                softest = min(self.bench.joinings[joint.fastener].stiffness)
                yield joint.member, joint.crossing, float(softest) * float(IN_BASE_UNITS)

    def _meeting(self, one: Part, other: Part) -> Place:
        lying, post = (one, other) if _lies(one) else (other, one)
        return float(post.box.x.middle), float(lying.box.z.middle)

    def _supports(self) -> Iterator[tuple[str, Place]]:
        """Each stand of this side under the lowest bar above it, or under the foot of the nearest post."""
        middle = self.bench.layout.depth / 2
        low = [bar for bar in self.bars.values() if bar.role is Role.LONG_RAIL and bar.place.level == "base"]
        for x, y in self.bench.stand.points:
            if (y < middle) != (self.row < middle):
                continue
            above = min(low or self.bars.values(), key=lambda bar: _beside(bar, x))
            at = min(max(x, above.box.x.low), above.box.x.high)
            if _lies(above):
                yield above.mark, (float(at), float(above.box.z.middle))
            else:
                yield above.mark, (float(above.box.x.middle), float(above.box.z.low))

    def _bar(
        self, bar: Part, points: list[Place], number: dict[Place, int], springs: dict[Place, float]
    ) -> FrameBar:
        members = self.bench.goods.members
        beam = members.lying if _lies(bar) else members.upright
        modulus = float(beam.modulus)
        return FrameBar(
            tuple(number[at] for at in points),
            modulus * float(beam.second_moment),
            modulus * float(beam.area),
            (springs.get(points[0]), springs.get(points[-1])),
            float(beam.shear),
        )


def _stations(points: list[Place]) -> Iterator[Place]:
    """Points between those of a lying bar, at least one every `STATION` and one in each middle."""
    for (a, z), (b, _) in pairwise(points):
        parts = 2 * max(1, round((b - a) / STATION / 2))
        yield from ((a + (b - a) * part / parts, z) for part in range(1, parts))
