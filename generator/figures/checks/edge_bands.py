"""Checks of edge banding: it is on edges that are free, wide and long enough, and goes on the way the card says."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.bench.edge_bands import in_spec, said_of
from generator.bench.law import GOODS, Case, Law
from generator.bench.model import Bench, Part
from generator.codes import Code
from generator.figures.checks.check_result import CheckResult, at_least, at_most, check_result
from generator.figures.edge_bands import band_lengths
from generator.findings import Change, dotted
from generator.geometry import AXES, FACES, Box, Span
from generator.provenance import constant

#: Common practice, no source (mm): what is trimmed off the band's width, and the thickest that an iron heats through.
TRIMMED = constant(1, "what is trimmed off the width of edge banding")
IRONED = constant(1, "thickest edge banding for an iron")
#: How far beyond an edge another piece is looked for (mm).
BESIDE = Fraction(1, 10)
#: An edge is covered when more than this part of it is.
COVERED = Fraction(1, 2)


def _with_glue(case: Case) -> tuple[Change, ...]:
    return (Change(dotted((*case.path[:-1], "on_by")), "glue"),)


BAND_CAPTURED = Law(
    Code.BAND_CAPTURED, "error", "Banding is on edges that are free",
    "Banding is on an edge that is in a slot or groove, or against another piece", "Leave this edge bare.",
    "The band is too thick for the slot, and holds no glue joint.", "the check works out the edges that are left",
)  # fmt: skip
BAND_NARROW = Law(
    Code.BAND_NARROW, "error", "The banding is wider than its boards are thick",
    "The banding is too narrow for the thickness of a board", "Take a wider banding.",
    "A strip of the edge stays bare.", GOODS, quantity="width of the banding",
)  # fmt: skip
BAND_ROLL = Law(
    Code.BAND_ROLL, "error", "Each band is one piece", "A band is longer than a roll of banding",
    "Take a longer roll.", "A band in two pieces shows its joint and lifts there.", GOODS,
    quantity="length of the longest band",
)  # fmt: skip
BAND_IRON = Law(
    Code.BAND_IRON, "warning", "An iron heats the banding through", "The banding is too thick for an iron",
    "Put it on with glue and clamps.", "The glue on its back does not melt, and the band comes off.", _with_glue,
    quantity="thickness of the banding",
)  # fmt: skip


def band_checks(bench: Bench) -> Iterator[CheckResult]:
    """Each banded board, then the goods."""
    card, name = bench.goods.banding, bench.spec.edges.banding
    banded = [part for part in bench.parts if part.bands]
    if card is None or name is None or not banded:
        return
    for part in banded:
        hidden = [edge for edge in part.bands if _covered(bench, part, edge)]
        said = said_of(bench.loaded, part)
        path = ("edges", "boards", said) if said else ("edges", "sides")
        left = in_spec([edge for edge in part.bands if edge not in hidden])
        where = f"{part.mark}, {', '.join(hidden or part.bands)}"
        remedy = (Change(dotted(("edges", "boards", part.mark)), left),) if hidden else ()
        yield check_result(BAND_CAPTURED, not hidden, where, path, remedy=remedy)
    thickest = max(banded, key=lambda part: part.thickness)
    card_path = ("hardware", name)
    yield at_least(
        BAND_NARROW, card.width, thickest.thickness + TRIMMED, f"{thickest.mark}, {thickest.group}",
        (*card_path, "width"),
    )  # fmt: skip
    yield at_most(BAND_ROLL, max(band_lengths(bench)), card.roll, name, (*card_path, "roll"))
    if card.on_by == "iron":
        yield at_most(BAND_IRON, card.thickness, IRONED, name, (*card_path, "thickness"))


def _covered(bench: Bench, part: Part, edge: str) -> bool:
    """Whether other pieces are on more than half of an edge, or around it."""
    axis = next(axis for axis, ends in FACES.items() if edge in ends)
    low = edge == FACES[axis][0]
    span = part.box.span(axis)
    beyond = Span(span.low - BESIDE, span.low) if low else Span(span.high, span.high + BESIDE)
    slab = Box(*(beyond if each == axis else part.box.span(each) for each in AXES))
    area = sum((_shared(slab, other.box) for other in bench.parts if other.mark != part.mark), Fraction(0))
    return edge in part.tongues or area > COVERED * _shared(slab, slab)


def _shared(one: Box, other: Box) -> Fraction:
    """The volume that two boxes have in common (mm³)."""
    volume = Fraction(1)
    for axis in AXES:
        volume *= max(Fraction(0), Fraction(one.span(axis).overlap(other.span(axis))))
    return volume
