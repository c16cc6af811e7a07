"""A tote in its bay, and the runners that it hangs on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from generator.bench.fillings.covers import Cover, beside
from generator.bench.fillings.walls import PLAY, both_walls
from generator.bench.frames.panels import panel_rules
from generator.bench.layout import BayPlace, ZonePlace
from generator.bench.piece import Part
from generator.bench.place import ENDS, Item, Place
from generator.bench.role import Role
from generator.calculators import totes as tote_rules
from generator.geometry import Box, Span
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec


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
    cover: Cover | None = None
    """What closes its bay."""

    @property
    def place(self) -> Place:
        """Where it hangs."""
        return Place(bay=self.bay, item=Item("tote", self.number))

    @property
    def name(self) -> str:
        """What the tote is called as a body."""
        return f"tote {self.called}"

    @property
    def called(self) -> str:
        """What a picture calls it."""
        return f"{self.bay}.{self.number}"

    @property
    def fills_width(self) -> Span | None:
        """Its runners are as high as it is."""
        return Span(self.bottom, self.top)

    @property
    def takes(self) -> Span:
        """From its floor to its rim."""
        return Span(self.bottom, self.top)


def runner_parts(loaded: LoadedSpec, zone: ZonePlace, bay: BayPlace, tote: PlacedTote) -> Iterator[Part]:
    """A runner on each wall."""
    offset = panel_rules(loaded).fit.offset
    material = runner_material(loaded.spec, tote.kind)
    thickness = loaded.goods.strips[material].thickness
    for index, side in enumerate(ENDS):
        wide = tote.runner_width + beside(tote.cover, side)
        _, wall = both_walls(bay, offset, wide)[index]
        y = Span(zone.y.low + PLAY, zone.y.high - PLAY)
        yield Part(
            "TR",
            "tote runner",
            Role.TOTE_RUNNER,
            material,
            "strip",
            Box(wall, y, Span(tote.runner_top - thickness, tote.runner_top)),
            "y",
            "x",
            replace(tote.place, wall=side),
            thickness,
        )


def default_runner_gap(rim_width: Fraction, body_width: Fraction) -> Fraction:
    """The gap (mm) that a tote card leaves out: the middle of the range that carries it."""
    return sum(tote_rules.runner_gap_range(rim_width, body_width), Fraction(0)) / 2


def runner_material(spec: Spec, tote: str) -> str:
    """Name of the strip that a tote's runners are cut from; by default that of the packing."""
    return spec.totes[tote].runner or spec.drawers.packing
