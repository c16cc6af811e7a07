"""The sheets of one material at the saw: every cut in the order in which the fence is set, for all sheets together."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from generator.calculators.cutting.sheets import (
    CutSheet,
    CutTree,
    FenceCut,
    FenceOrder,
    PlacedPiece,
    fence_order,
)
from generator.figures.rows.cutting import FenceSetting, SheetCutRow, SheetPieceRow
from generator.figures.sawn import sized

Lying = Callable[[PlacedPiece], SheetPieceRow]
"""A piece of the plan as the part that it is, with its own exact sizes."""
Late = Callable[[CutTree], bool]
"""Whether a part of a sheet holds nothing but pieces that are cut when every bay is measured."""


@dataclass(frozen=True)
class Fences:
    """Settings in order, and the cuts of each sheet in the order in which they are made."""

    settings: tuple[FenceSetting, ...]
    cuts: tuple[tuple[SheetCutRow, ...], ...]
    order: FenceOrder


def fences(material: str, sheets: Sequence[CutSheet], lying: Lying, late: Late) -> Fences:
    """Cut all sheets of a material together, with as few settings of the fence as are found; what waits comes last."""
    order = fence_order(sheets, late)
    cuts: list[list[SheetCutRow]] = [[] for _ in sheets]
    settings = []
    for cut in order.first:
        cuts[cut.sheet].append(_row(cut, lying))
    for n, batch in enumerate(order.batches, 1):
        for cut in batch.cuts:
            cuts[cut.sheet].append(_row(cut, lying))
        made = tuple((cut.sheet + 1, cut.number) for cut in batch.cuts)
        pieces = [piece for cut in batch.cuts for piece in sized(cut.tree)]
        early = (
            () if batch.late else _marks([each for each in pieces if late(CutTree(each.area, each))], lying)
        )
        marks = _marks(pieces, lying)
        settings.append(FenceSetting(material, n, batch.setting, made, marks, batch.late, early))
    return Fences(tuple(settings), tuple(tuple(rows) for rows in cuts), order)


def _marks(pieces: Sequence[PlacedPiece], lying: Lying) -> tuple[str, ...]:
    """Their marks, each once, in the order of the bench."""
    ordered = sorted(pieces, key=lambda piece: piece.piece)
    return tuple(dict.fromkeys(lying(piece).mark for piece in ordered))


def _row(cut: FenceCut, lying: Lying) -> SheetCutRow:
    saw = cut.tree.cut
    assert saw is not None
    area = saw.area
    return SheetCutRow(
        cut.number,
        saw.upright,
        saw.at,
        saw.setting,
        saw.stage,
        area.x,
        area.y,
        area.width,
        area.height,
        cut.parent,
        cut.near,
        _marks(list(sized(cut.tree)), lying),
        saw.by_track,
    )
