"""A solved bench: placed parts with their machining, and the joints between bars. All lengths exact millimetres."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from generator.bench.fillings.storage import Storage
from generator.bench.finish import Coated
from generator.bench.frames.facts import SwayFacts
from generator.bench.joints.facts import Joining
from generator.bench.layout import Layout
from generator.bench.neighbour import Neighbour
from generator.bench.piece import Joint, Notch, Operation, Part
from generator.bench.place import End, Level, Side
from generator.bench.proof import Assembled
from generator.bench.role import Role
from generator.bench.stands.facts import Stand
from generator.bench.tops.facts import Grid, PlacedBracket
from generator.bench.tops.features import Feature
from generator.calculators.reliefs import ReliefTemplate
from generator.findings import Finding
from generator.spec.chosen import ChosenGoods
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec


@dataclass(frozen=True)
class Suited:
    """A bench that suits one bar of another length: the key (`path`) that changes, and what becomes of all parts."""

    path: str
    planned: Fraction
    value: Fraction
    parts: tuple[Part, ...] = ()
    why_not: str = ""


@dataclass(frozen=True)
class Bench:
    """Everything that follows from the spec by geometry. `findings` are what does not fit but can be shown."""

    loaded: LoadedSpec
    layout: Layout
    parts: tuple[Part, ...]
    joints: tuple[Joint, ...]
    joinings: Mapping[str, Joining]
    storage: Storage
    sway: SwayFacts
    stand: Stand
    grid: Grid | None
    brackets: tuple[PlacedBracket, ...]
    features: tuple[Feature, ...]
    """What is let into the top."""
    relief: ReliefTemplate
    findings: tuple[Finding, ...]
    coats: tuple[Coated, ...] = ()
    """What the spec has coated."""
    neighbours: tuple[Neighbour, ...] = ()
    """The benches that are bolted to it."""
    proof: Assembled | None = None
    """The order of assembly, where wishes of the spec had to be proved with it."""
    planned: Bench | None = None
    """As the plan has it, where the record measured bays: where a measured frame really is, nobody knows, so the
    order is proved by the plan."""
    written: tuple[Part, ...] = ()
    """The parts with nothing measured, where the record measured something and the plan alone makes a bench."""
    suited: Mapping[str, Suited] = field(default_factory=dict)
    """Mark of a bar that was cut off its length -> the bench that suits it."""

    @property
    def spec(self) -> Spec:
        """What the spec wishes, with the values that were measured."""
        return self.loaded.spec

    @property
    def goods(self) -> ChosenGoods:
        """The cards of what it is made of."""
        return self.loaded.goods

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
    "Operation",
    "Part",
    "PlacedBracket",
    "Storage",
]
