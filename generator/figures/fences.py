"""The sheets of one material at the saw: every cut in the order in which the fence is set, for all sheets together."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from generator.calculators.fence_order import FenceCut, FenceOrder, fence_order
from generator.calculators.sheets import CutSheet, CutTree, PlacedPiece
from generator.figures.model import FenceSetting, SheetCutRow, SheetPieceRow

Lying = Callable[[PlacedPiece], SheetPieceRow]
"""A piece of the plan as the part that it is, with its own exact sizes."""


@dataclass(frozen=True)
class Fences:
    """Settings in order, and the cuts of each sheet in the order in which they are made."""

    settings: tuple[FenceSetting, ...]
    cuts: tuple[tuple[SheetCutRow, ...], ...]
    order: FenceOrder


def fences(material: str, sheets: Sequence[CutSheet], lying: Lying) -> Fences:
    """Cut all sheets of a material together, with as few settings of the fence as are found."""
    order = fence_order([replace(sheet, tree=_exact(sheet.tree, lying)) for sheet in sheets])
    cuts: list[list[SheetCutRow]] = [[] for _ in sheets]
    settings = []
    for cut in order.first:
        cuts[cut.sheet].append(_row(cut, lying))
    for n, batch in enumerate(order.batches, 1):
        for cut in batch.cuts:
            cuts[cut.sheet].append(_row(cut, lying))
        made = tuple((cut.sheet + 1, cut.number) for cut in batch.cuts)
        marks = _marks([piece for cut in batch.cuts for piece in _sized(cut.tree)], lying)
        settings.append(FenceSetting(material, n, batch.setting, made, marks))
    return Fences(tuple(settings), tuple(tuple(rows) for rows in cuts), order)


def _sized(tree: CutTree) -> Iterator[PlacedPiece]:
    """The pieces that the first cut of a tree gives their size: its near part is as wide as they are."""
    if tree.cut is None or tree.first is None:
        return
    upright, near = tree.cut.upright, tree.first.area
    for piece in tree.first.pieces():
        if (piece.area.width == near.width) if upright else (piece.area.height == near.height):
            yield piece


def _marks(pieces: Sequence[PlacedPiece], lying: Lying) -> tuple[str, ...]:
    """Their marks, each once, in the order of the bench."""
    ordered = sorted(pieces, key=lambda piece: piece.piece)
    return tuple(dict.fromkeys(lying(piece).mark for piece in ordered))


def _exact(tree: CutTree, lying: Lying) -> CutTree:
    """The same cuts, the fence set to the parts' own sizes: the plan itself is made to the next tenth."""
    if tree.cut is None:
        return tree
    own = [lying(piece) for piece in _sized(tree)]
    sizes = [row.l if tree.cut.upright else row.w for row in own]
    return replace(
        tree,
        cut=replace(tree.cut, setting=max(sizes, default=tree.cut.setting)),
        first=_inner(tree.first, lying),
        second=_inner(tree.second, lying),
    )


def _inner(tree: CutTree | None, lying: Lying) -> CutTree | None:
    return None if tree is None else _exact(tree, lying)


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
        _marks(list(_sized(cut.tree)), lying),
        saw.by_track,
    )
