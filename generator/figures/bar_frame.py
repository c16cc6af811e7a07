"""A plane of the frame's bars as a plane frame: what a side of the bench and what lies across it have in common.

Its joints turn as easily as their cards allow. Bars are as long as their axes, and plates below stiffen nothing, so
that the frame sags more than the real one.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from math import hypot
from typing import Literal

import numpy as np

from generator.bench.model import Bench
from generator.bench.piece import Joint, Part
from generator.calculators.plane_frame import Bed, FrameBar, Matrix, Place, PlaneFrame
from generator.figures.sway import IN_BASE_UNITS

#: A node at least every so many millimetres of a lying bar: there its load is, and its sag is read.
STATION = 80
#: Decimals of a sag (mm): what is behind them depends on the machine that solved the frame.
DECIMALS = 5

Along = Literal["x", "y"]


@dataclass(frozen=True)
class BarFrame:
    """A plane that was solved. `lying` are the nodes of each lying bar by its mark, in order along it.

    `places` are the places of all nodes along the plane and above the frame's underside (mm), `flexibility` how far
    each goes down under 1 N at each (mm/N).
    """

    places: tuple[Place, ...]
    lying: Mapping[str, tuple[int, ...]]
    flexibility: Matrix

    def sag(self, loads: Mapping[int, float], mark: str) -> float:
        """The deepest sag (mm) of a lying bar under loads down (N) at nodes, rounded to `DECIMALS`."""
        down = sum(force * self.flexibility[node] for node, force in loads.items())
        assert isinstance(down, np.ndarray)
        return round(max(float(down[node]) for node in self.lying[mark]), DECIMALS)

    def at(self, node: int) -> float:
        """Place of a node along the plane (mm)."""
        return self.places[node][0]

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

    def nearest(self, place: float, mark: str) -> int:
        """The node of a lying bar that is nearest to a place along it."""
        return min(self.lying[mark], key=lambda node: abs(self.at(node) - place))

    def gives(self, places: Sequence[Place]) -> Matrix:
        """How far the nodes nearest to these places go down under 1 N at each (mm/N)."""
        nodes = [
            min(range(len(self.places)), key=lambda n: hypot(self.places[n][0] - x, self.places[n][1] - z))
            for x, z in places
        ]
        return np.asarray(self.flexibility[np.ix_(nodes, nodes)], dtype=np.float64)


@dataclass(frozen=True)
class BarPlane:
    """Bars of a plane by their marks. `also` are points of a bar where something else meets it."""

    bench: Bench
    along: Along
    bars: Mapping[str, Part]
    also: Mapping[str, frozenset[Place]]

    def solved(
        self, supports: frozenset[Place], beds: Sequence[tuple[tuple[Place, ...], Matrix]]
    ) -> BarFrame:
        """The plane on its supports and beds, each of which is at points that are among `also`."""
        points = {mark: set(self.also.get(mark, ())) for mark in self.bars}
        springs: dict[tuple[str, Place], float] = {}
        for joint in self._joints():
            at = self._meeting(joint)
            points[joint.member].add(at)
            points[joint.crossing].add(at)
            springs[joint.member, at] = self._stiffness(joint)
        for mark, bar in self.bars.items():
            if lies(bar):
                points[mark] |= set(_stations(sorted(points[mark])))
        nodes = sorted({at for each in points.values() for at in each})
        number = {at: place for place, at in enumerate(nodes)}
        bars = tuple(
            self._bar(bar, sorted(points[mark]), number, springs)
            for mark, bar in self.bars.items()
            if len(points[mark]) > 1
        )
        frame = PlaneFrame(
            tuple(nodes),
            bars,
            tuple(sorted(number[at] for at in supports)),
            tuple(Bed(tuple(number[at] for at in places), gives) for places, gives in beds),
        )
        lying = {
            mark: tuple(number[at] for at in sorted(points[mark]))
            for mark, bar in self.bars.items()
            if lies(bar)
        }
        return BarFrame(tuple(nodes), lying, frame.settlements([{node: 1.0} for node in range(len(nodes))]))

    def _joints(self) -> Iterator[Joint]:
        """Those between two bars of the plane."""
        for joint in self.bench.joints:
            if joint.member in self.bars and joint.crossing in self.bars:
                yield joint

    def _stiffness(self, joint: Joint) -> float:
        return float(min(self.bench.joinings[joint.fastener].stiffness)) * float(IN_BASE_UNITS)

    def _meeting(self, joint: Joint) -> Place:
        one, other = self.bars[joint.member], self.bars[joint.crossing]
        lying, post = (one, other) if lies(one) else (other, one)
        return float(post.box.span(self.along).middle), float(lying.box.z.middle)

    def _bar(
        self,
        bar: Part,
        points: list[Place],
        number: Mapping[Place, int],
        springs: Mapping[tuple[str, Place], float],
    ) -> FrameBar:
        members = self.bench.goods.members
        beam = members.lying if lies(bar) else members.upright
        modulus = float(beam.modulus)
        return FrameBar(
            tuple(number[at] for at in points),
            modulus * float(beam.second_moment),
            modulus * float(beam.area),
            (springs.get((bar.mark, points[0])), springs.get((bar.mark, points[-1]))),
            float(beam.shear),
        )


def joined_bars(bench: Bench) -> Iterator[Part]:
    """Every bar that is joined to another."""
    marks = {joint.member for joint in bench.joints} | {joint.crossing for joint in bench.joints}
    yield from (part for part in bench.parts if part.mark in marks and (lies(part) or stands(part)))


def lies(bar: Part) -> bool:
    """Whether a bar is level."""
    return bar.box.z.size < max(bar.box.x.size, bar.box.y.size)


def stands(bar: Part) -> bool:
    """Whether a bar is upright."""
    return bar.box.z.size > max(bar.box.x.size, bar.box.y.size)


def beside(bar: Part, axis: Along, place: Fraction) -> Fraction:
    """How far a place is from what is above a bar's length (mm)."""
    span = bar.box.span(axis)
    return max(span.low - place, place - span.high, Fraction(0))


def _stations(points: list[Place]) -> Iterator[Place]:
    """Points between those of a lying bar, at least one every `STATION` and one in each middle."""
    for (a, z), (b, _) in pairwise(points):
        parts = 2 * max(1, round((b - a) / STATION / 2))
        yield from ((a + (b - a) * part / parts, z) for part in range(1, parts))
