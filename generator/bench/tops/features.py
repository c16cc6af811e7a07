"""What is let into a top: where it is, which wood it takes away, and what must stay clear of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from generator.bench.layout import Layout
from generator.bench.openings import CUT_OUT, no_feature, too_round
from generator.bench.piece import Operation
from generator.bench.regions import Pair, Region
from generator.codes import Code
from generator.findings import Finding, Steps
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec
from generator.spec.tops.features import Cutout, TopSlot

RECESS, SLOT = "recess", "slot"


@dataclass(frozen=True)
class Feature:
    """One thing that is let into the top; `at` and `size` from the finished top's left front corner (mm).

    `region` is what it takes in plan; `through` the part of it that goes through the board. `rest` is the wood that is
    left below it, None where nothing is. `diameter` is given for a round one. `path` is its place in the spec.
    """

    name: str
    kind: str
    at: Pair
    size: Pair
    path: Steps
    region: Region
    operations: tuple[Operation, ...]
    through: Region | None = None
    rest: Fraction | None = None
    corner: Fraction = Fraction(0)
    diameter: Fraction | None = None
    along: str = ""

    @property
    def depth(self) -> Fraction | None:
        """Depth of its recess or slot; None where all of it goes through."""
        return next((op.depth for op in self.operations if op.depth is not None), None)

    @property
    def opening(self) -> Pair | None:
        """Size of the opening within a ledge."""
        sizes = [op.size for op in self.operations if op.op == CUT_OUT]
        return sizes[0] if len(self.operations) > 1 and isinstance(sizes[0], tuple) else None

    def clears(self, at: Pair, reach: Fraction) -> bool:
        """Whether it stays `reach` away from a point of the top."""
        if self.diameter is not None:
            apart = sum(((a - b) ** 2 for a, b in zip(at, self.at, strict=True)), Fraction(0))
            return apart >= (reach + self.diameter / 2) ** 2
        squared = self.region.squared_from(at)
        return squared > 0 and squared >= reach * reach


def features(loaded: LoadedSpec, layout: Layout) -> tuple[Feature, ...]:
    """All that is let into the top, in the order of the spec."""
    spec, thickness = loaded.spec, loaded.goods.top.thickness
    size = finished_size(spec, layout)
    return (
        *(_cutout(each, index, thickness) for index, each in enumerate(spec.top.cutouts)),
        *(_slot(each, index, thickness, size) for index, each in enumerate(spec.top.slots)),
    )


def finished_size(spec: Spec, layout: Layout) -> Pair:
    """Length and depth of the finished top with its overhang (mm)."""
    over = spec.top.overhang
    return layout.length + over.along, layout.depth + over.across


def _cutout(card: Cutout, index: int, thickness: Fraction) -> Feature:
    path: Steps = ("top", "cutouts", index)
    if card.diameter is not None:
        size = (card.diameter, card.diameter)
        hole = Operation(CUT_OUT, "top", card.at, card.diameter, None, card.name)
        region = Region.about(card.at, size)
        return Feature(card.name, CUT_OUT, card.at, size, path, region, (hole,), region, None,
                       diameter=card.diameter)  # fmt: skip
    assert card.size is not None
    whole = Region.about(card.at, card.size)
    if not card.ledge:
        cut = Operation(CUT_OUT, "top", card.at, card.size, None, card.name, card.corner)
        return Feature(card.name, CUT_OUT, card.at, card.size, path, whole, (cut,), whole, None, card.corner)
    opening = (card.size[0] - 2 * card.ledge, card.size[1] - 2 * card.ledge)
    inner = max(card.corner - card.ledge, Fraction(0))
    acts = (
        Operation(RECESS, "top", card.at, card.size, card.depth, card.name, card.corner),
        Operation(CUT_OUT, "top", card.at, opening, None, card.name, inner),
    )
    through = Region.about(card.at, opening)
    rest = thickness - card.depth
    return Feature(card.name, CUT_OUT, card.at, card.size, path, whole, acts, through, rest, card.corner)


def _slot(card: TopSlot, index: int, thickness: Fraction, top: Pair) -> Feature:
    path: Steps = ("top", "slots", index)
    lengthways = card.along == "x"
    at = (top[0] / 2, card.at) if lengthways else (card.at, top[1] / 2)
    size = (top[0], card.width) if lengthways else (card.width, top[1])
    cut = Operation(SLOT, "top", at, size, card.depth, card.name)
    return Feature(card.name, SLOT, at, size, path, Region.about(at, size), (cut,), None,
                   thickness - card.depth, along=card.along)  # fmt: skip


# ---- what no top can have


def refused(loaded: LoadedSpec) -> Iterator[Finding]:
    """Names that come twice, ledges that meet, corners that are rounder than their opening, cuts through the board."""
    top, thickness = loaded.spec.top, loaded.goods.top.thickness
    yield from _twice(loaded)
    for index, card in enumerate(top.cutouts):
        path = ("top", "cutouts", index)
        if card.size is not None:
            least = min(card.size)
            yield from too_round(loaded, card, path)
            if 2 * card.ledge >= least:
                yield no_feature(
                    loaded, "no opening is left within the ledge", (*path, "ledge"), card.ledge, least / 2
                )
        if card.ledge and card.depth >= thickness:
            yield no_feature(
                loaded, "the recess goes through the top", (*path, "depth"), card.depth, thickness
            )
    for index, slot in enumerate(top.slots):
        if slot.depth >= thickness:
            path = ("top", "slots", index)
            yield no_feature(loaded, "the slot goes through the top", (*path, "depth"), slot.depth, thickness)


def _twice(loaded: LoadedSpec) -> Iterator[Finding]:
    seen: set[str] = set()
    for key in ("cutouts", "slots"):
        for index, card in enumerate(getattr(loaded.spec.top, key)):
            if card.name in seen:
                yield loaded.fault(
                    Code.NAME_TWICE, "two things in the top have the same name", "top", key, index, "name",
                    found=card.name, allowed="a name that nothing else in the top has",
                )  # fmt: skip
            seen.add(card.name)
