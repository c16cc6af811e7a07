"""Checks of openings in boards: wood to tongues and edges, to notches and other machining, and what is beside them."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from generator.bench.fillings.panel_brackets import by_panel
from generator.bench.law import Law, by_the_check, said
from generator.bench.model import Bench
from generator.bench.openings import PlacedOpening, openings
from generator.bench.piece import Part
from generator.bench.regions import Pair, Region, nearest_place
from generator.bench.role import Role
from generator.codes import Code
from generator.figures.checks.check_result import CheckResult, at_least
from generator.findings import Change, dotted
from generator.geometry import AXES, FACES, Span
from generator.provenance import constant
from generator.units.sizes import INCH

#: Common practice, no source (mm).
TO_EDGE = constant(10, "wood between an opening and its board's edge or tongue")
TO_CUTS = constant(10, "wood between an opening and other machining of its board")
BESIDE = constant(3, "clear of what is fixed to the board")
#: What is nearer to a face of the board than this is at it (mm).
AT_FACE = Fraction(3)

OPENING_EDGE = Law(
    Code.OPENING_EDGE, "error", "Wood is left between openings and the edges of their boards",
    "Too little wood is left between an opening and an edge or tongue of its board", "Move the opening inwards.",
    "The strip at the edge breaks, and the tongue with it.", by_the_check,
    quantity="wood to the edge or tongue; below 0 it is beyond it",
)  # fmt: skip
OPENING_CUT = Law(
    Code.OPENING_CUT, "error", "Wood is left between openings and other machining",
    "An opening is too close to a notch, hole or cut-out of its board", "Move the opening.",
    "The web between the two breaks out.", by_the_check,
    quantity="wood between the two; below 0 they overlap",
)  # fmt: skip
OPENING_BLOCKED = Law(
    Code.OPENING_BLOCKED, "error", "Nothing covers an opening in a board",
    "A bar, strip, board or bracket covers an opening", "Move the opening.",
    "What should pass through the opening meets a piece, or the piece has no wood for its screws.", by_the_check,
    quantity="distance to that piece; below 0 it covers the opening",
)  # fmt: skip


@dataclass(frozen=True)
class _Board:
    """A board with what an opening in it keeps clear of, all from its datum corner."""

    inside: Region
    cuts: tuple[tuple[str, Region], ...]
    beside: tuple[tuple[str, Region], ...]

    def free(self, region: Region) -> bool:
        """Whether an opening there keeps all its distances."""
        return (
            _to_edge(self.inside, region) >= TO_EDGE
            and all(region.apart(cut) >= TO_CUTS for _, cut in self.cuts)
            and all(region.apart(other) >= BESIDE for _, other in self.beside)
        )


def opening_checks(bench: Bench) -> Iterator[CheckResult]:
    """Each opening against its board's edges, machining and neighbours, with a place that is free."""
    by_mark = {part.mark: part for part in bench.parts}
    plain = [part for part in bench.parts if part.role is not Role.TOP]
    for each in openings(bench.loaded, plain):
        part, path = by_mark[each.board], (*each.path, "at")
        board = _board(bench, part, each)
        remedy = () if board.free(each.region) else _moved(bench, board, each)
        edge = _to_edge(board.inside, each.region)
        yield at_least(OPENING_EDGE, edge, TO_EDGE, each.name, path, remedy=remedy if edge < TO_EDGE else ())
        for law, limit, others in (
            (OPENING_CUT, TO_CUTS, board.cuts),
            (OPENING_BLOCKED, BESIDE, board.beside),
        ):
            if others:
                free, name = min((each.region.apart(region), name) for name, region in others)
                yield at_least(law, free, limit, f"{each.name}, {name}", path,
                               remedy=remedy if free < limit else ())  # fmt: skip


def _to_edge(inside: Region, region: Region) -> Fraction:
    """Wood between a rectangle and the nearest edge of the one around it (mm)."""
    return min(
        min(own.low - around.low, around.high - own.high)
        for own, around in ((region.x, inside.x), (region.y, inside.y))
    )


def _board(bench: Bench, part: Part, each: PlacedOpening) -> _Board:
    spans = []
    for axis, size in ((part.along, part.length), (part.across, part.width)):
        low, high = FACES[axis]
        none = Fraction(0)
        spans.append(Span(part.tongues.get(low, none), size - part.tongues.get(high, none)))
    cuts = [
        (f"{op.op} {op.purpose}", Region.about(op.at, _pair(op.size)))
        for op in part.operations
        if op != each.operation
    ]
    cuts += [
        (f"notch {notch.corner}", _notch(part, notch.corner, (notch.along, notch.across)))
        for notch in part.notches
    ]
    return _Board(Region(*spans), tuple(cuts), (*_beside(bench, part), *_bolted_on(bench, part)))


def _pair(size: Fraction | Pair) -> Pair:
    return size if isinstance(size, tuple) else (size, size)


def _notch(part: Part, corner: str, size: Pair) -> Region:
    spans = []
    for axis, whole, own in ((part.along, part.length, size[0]), (part.across, part.width, size[1])):
        at_high = FACES[axis][1] in corner.split()
        spans.append(Span(whole - own, whole) if at_high else Span(Fraction(0), own))
    return Region(*spans)


def _beside(bench: Bench, part: Part) -> Iterator[tuple[str, Region]]:
    """Pieces at a face of the board or around its edge, as they are seen on it."""
    thin = next(axis for axis in AXES if axis not in (part.along, part.across))
    plane = part.box.span(thin)
    for other in bench.parts:
        if other is part or plane.overlap(other.box.span(thin)) < -AT_FACE:
            continue
        spans = []
        for axis in (part.along, part.across):
            own, datum = other.box.span(axis), part.box.span(axis).low
            spans.append(Span(own.low - datum, own.high - datum))
        yield other.mark, Region(*spans)


def _bolted_on(bench: Bench, part: Part) -> Iterator[tuple[str, Region]]:
    """Legs of brackets on the board: their screws hold in it."""
    low = tuple(float(part.box.span(axis).low) for axis in AXES)
    high = tuple(float(part.box.span(axis).high) for axis in AXES)
    thin = next(n for n, axis in enumerate(AXES) if axis not in (part.along, part.across))
    for panel, brackets in by_panel(bench):
        for each in brackets if panel.mark == part.mark else ():
            for block in each.body.blocks:
                if block[thin] <= high[thin] and low[thin] <= block[thin + 3]:
                    sides = (AXES.index(part.along), AXES.index(part.across))
                    spans = (
                        Span(Fraction(block[n] - low[n]), Fraction(block[n + 3] - low[n])) for n in sides
                    )
                    yield each.body.name, Region(*spans)


def _moved(bench: Bench, board: _Board, each: PlacedOpening) -> tuple[Change, ...]:
    """The nearest free place, as a change; none where the board has no such place."""
    size = (each.region.x.size, each.region.y.size)
    step = INCH / 64 if bench.spec.units == "in" else Fraction(1)
    inside = board.inside
    rims = [
        Region(Span(edge, edge), Span(other, other))
        for edge, other in ((inside.x.low, inside.y.low), (inside.x.high, inside.y.high))
    ]
    obstacles = [(rim, TO_EDGE) for rim in rims]
    obstacles += [(region, TO_CUTS) for _, region in board.cuts] + [
        (region, BESIDE) for _, region in board.beside
    ]
    at = each.operation.at
    place = nearest_place(at, size, obstacles, lambda there: board.free(Region.about(there, size)), step)
    if place is None:
        return ()
    return (Change(dotted((*each.path, "at")), f"[{', '.join(said(bench.spec, value) for value in place)}]"),)
