"""Edge banding as rows: the boards that have it, their cut sizes and the bands to cut."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from generator.bench.model import Bench, Part
from generator.calculators.edge_bands import band_length
from generator.figures.rows.edge_bands import Band, BandedRow
from generator.figures.rows.parts import PartRow
from generator.geometry import FACES


def banded_rows(bench: Bench, parts: Iterable[PartRow]) -> tuple[BandedRow, ...]:
    """Distinct parts with banding, in the order of the bench."""
    card = bench.goods.banding
    if card is None:
        return ()
    extra = bench.spec.edges.extra
    return tuple(
        BandedRow(
            part.mark, part.marks, part.name, card.thickness, part.cut_size, (part.length, part.width),
            tuple(_bands(part, extra)),
        )
        for part in parts
        if part.bands
    )  # fmt: skip


def _bands(part: Part | PartRow, extra: Fraction) -> Iterator[Band]:
    """Those across the ends go on first; the long ones cover their ends."""
    for axis, edge_length in ((part.along, part.cut_size[1]), (part.across, part.length)):
        for edge in FACES[axis]:
            if edge in part.bands:
                yield Band(edge, band_length(edge_length, extra))


def band_lengths(bench: Bench) -> list[Fraction]:
    """Every band of all pieces (mm)."""
    extra = bench.spec.edges.extra
    return [band.length for part in bench.parts for band in _bands(part, extra)]
