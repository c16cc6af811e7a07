"""What a top gives, as facts: its boards, where its holes are, and what holds it to the bars below."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import Protocol

from generator.bench.layout import Layout
from generator.bench.piece import Part
from generator.bench.tops.features import Feature
from generator.calculators.top_grid import HoleLine
from generator.findings import Finding
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec


@dataclass(frozen=True)
class Grid:
    """Hole centres in the top from its own left edge (columns) and front edge (rows)."""

    columns: HoleLine
    rows: HoleLine
    left_out: frozenset[tuple[Fraction, Fraction]] = frozenset()
    """Holes that are left out singly, because something is let into the top there."""

    @property
    def holes(self) -> tuple[tuple[Fraction, Fraction], ...]:
        """Centres of the holes that are bored, column by column."""
        grid = ((x, y) for x in self.columns.kept for y in self.rows.kept)
        return tuple(at for at in grid if at not in self.left_out)


@dataclass(frozen=True)
class PlacedBracket:
    """A bracket on the inner face of `bar`, its middle at X, Y of the frame; `spare`: a spare nut is with it."""

    bar: str
    face: str
    at: tuple[Fraction, Fraction]
    spare: bool


@dataclass(frozen=True)
class BuiltTop:
    """Everything that a top gives to a bench. `grid` is None for a top without holes."""

    parts: tuple[Part, ...]
    grid: Grid | None
    brackets: tuple[PlacedBracket, ...]
    features: tuple[Feature, ...] = ()


class TopKind(Protocol):
    """A kind of top."""

    @property
    def kind(self) -> str:
        """The trade's word for it."""

    def chosen(self, spec: Spec) -> bool:
        """Whether this spec takes it; the default kind is last in the tuple and says yes."""

    def refusals(self, loaded: LoadedSpec) -> Iterator[Finding]:
        """Faults that can be found from the spec alone."""

    def top(self, loaded: LoadedSpec, layout: Layout, bars: Sequence[Part]) -> BuiltTop:
        """After the joints: the facts, over the bars as they are machined."""
