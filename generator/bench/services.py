"""Socket strips and hose ports in boards: their cut-outs, their rims, and the room that they need behind the board."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.bench.openings import named, services
from generator.bench.piece import Part
from generator.bench.regions import Region
from generator.findings import Steps
from generator.geometry import AXES, Box, Span
from generator.spec.load import LoadedSpec
from generator.spec.services import HosePort, SocketStrip

#: Thickness of a rim under its screws (mm). Common practice, no source.
RIM = Fraction(2)


@dataclass(frozen=True)
class LetIn:
    """One in its board: its key, and the blocks that its rim takes before the board, and it itself behind the rim."""

    name: str
    item: str
    board: Part
    card: SocketStrip | HosePort
    rim: Box
    behind: Box
    path: Steps


def let_in(loaded: LoadedSpec, parts: Sequence[Part]) -> Iterator[LetIn]:
    """Each service in each board that its key names."""
    for path, each, card in services(loaded):
        hole, rim = Region.about(each.at, card.shape.outside), Region.about(each.at, card.rim)
        for board in named(each.board, parts):
            before, behind = _block(board, rim, -RIM), _block(board, hole, card.depth)
            yield LetIn(f"{card.kind} in {board.mark}", each.item, board, card, before, behind, path)


def _block(board: Part, region: Region, deep: Fraction) -> Box:
    """What is over a region of a board, from the face of the rim `deep` into the board, or so far before it (mm).

    At the ends and the back of the bench the rim is outside.
    """
    thin = next(axis for axis in AXES if axis not in (board.along, board.across))
    own = board.box.span(thin)
    face, inner = (own.high, own.high - deep) if _faces_high(board) else (own.low, own.low + deep)
    spans = {thin: Span(min(face, inner), max(face, inner))}
    for axis, span in ((board.along, region.x), (board.across, region.y)):
        datum = board.box.span(axis).low
        spans[axis] = Span(datum + span.low, datum + span.high)
    return Box(*(spans[axis] for axis in AXES))


def _faces_high(board: Part) -> bool:
    """Whether the rim is on the right, rear or upper face: the outside of the bench, where one of them is."""
    return not (board.place.end == "left" or board.place.side == "front")
