"""Socket strips and hose ports in boards: their cut-outs, their rims, and the room that they need behind the board."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.bench.openings import called, named, services
from generator.bench.piece import Part
from generator.bench.regions import Region
from generator.calculators.collisions import Direction
from generator.findings import Steps
from generator.geometry import AXES, Box, Span
from generator.spec.load import LoadedSpec
from generator.spec.services import HosePort, SocketStrip

#: The way out of a board, by the axis across it and whether the rim is on its high face.
_OUT: Mapping[tuple[str, bool], Direction] = {
    ("x", False): "-x", ("x", True): "+x", ("y", False): "-y", ("y", True): "+y", ("z", False): "-z", ("z", True): "+z",
}  # fmt: skip
#: Thickness of a rim under its screws (mm). Common practice, no source.
RIM = Fraction(2)


@dataclass(frozen=True)
class LetIn:
    """One in its board: its key, its way out, the block of its rim before the board, and what it takes behind it."""

    name: str
    item: str
    board: Part
    card: SocketStrip | HosePort
    rim: Box
    behind: Box
    out: Direction
    path: Steps


def let_in(loaded: LoadedSpec, parts: Sequence[Part]) -> Iterator[LetIn]:
    """Each service in each board that its key names."""
    for path, each, card in services(loaded):
        hole, rim = Region.about(each.at, card.shape.outside), Region.about(each.at, card.rim)
        for board in named(each.board, parts):
            before, behind = _block(board, rim, -RIM), _block(board, hole, card.depth)
            name, out = (
                f"{called(loaded, each, card)} in {board.mark}",
                _OUT[_thin(board), _faces_high(board)],
            )
            yield LetIn(name, each.item, board, card, before, behind, out, path)


def _block(board: Part, region: Region, deep: Fraction) -> Box:
    """What is over a region of a board, from the face of the rim `deep` into the board, or so far before it (mm).

    At the ends and the back of the bench the rim is outside.
    """
    thin = _thin(board)
    own = board.box.span(thin)
    face, inner = (own.high, own.high - deep) if _faces_high(board) else (own.low, own.low + deep)
    spans = {thin: Span(min(face, inner), max(face, inner))}
    for axis, span in ((board.along, region.x), (board.across, region.y)):
        datum = board.box.span(axis).low
        spans[axis] = Span(datum + span.low, datum + span.high)
    return Box(*(spans[axis] for axis in AXES))


def _thin(board: Part) -> str:
    """The axis across its thickness."""
    return next(axis for axis in AXES if axis not in (board.along, board.across))


def _faces_high(board: Part) -> bool:
    """Whether the rim is on the right, rear or upper face: the outside of the bench, where one of them is."""
    return not (board.place.end == "left" or board.place.side == "front")
