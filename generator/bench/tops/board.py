"""A top of one board with its grid of holes, held to the upper bars by brackets."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from generator.bench.layout import Layout
from generator.bench.piece import Operation, Part
from generator.bench.place import Place
from generator.bench.role import Role
from generator.bench.tops.boards import across_of, board_parts, in_pieces, unfilled
from generator.bench.tops.brackets import top_brackets
from generator.bench.tops.edging import core_of, edging_parts, from_core, taken
from generator.bench.tops.facts import BuiltTop, Grid
from generator.bench.tops.features import Feature, features, finished_size, refused
from generator.bench.tops.vises import no_two_at_a_corner, vises
from generator.calculators.top_grid import clear_distance, hole_line
from generator.codes import Code
from generator.findings import Finding
from generator.geometry import Box, Span
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec

#: What a hole of the grid is for.
DOG_HOLE = "dog hole"
#: Holes in one top.
MOST_HOLES = 5000


class Board:
    """One board over the whole frame."""

    kind = "board"

    def chosen(self, spec: Spec) -> bool:
        """The top that a spec takes when it names none."""
        return True

    def refusals(self, loaded: LoadedSpec) -> Iterator[Finding]:
        """What no top can have let into it; a grid that nobody would drill, which would fill the manual."""
        yield from refused(loaded)
        yield from no_two_at_a_corner(loaded)
        yield from unfilled(loaded, _core_across(loaded))
        holes, bench = loaded.spec.top.holes, loaded.spec.bench
        if holes is None:
            return
        over = loaded.spec.top.overhang
        count = int((bench.length + over.along) / holes.pitch) * int(
            (bench.depth + over.across) / holes.pitch
        )
        if count > MOST_HOLES:
            yield loaded.fault(
                Code.TOO_MANY_HOLES,
                f"this pitch makes about {count} holes in the top",
                "top",
                "holes",
                "pitch",
                found=loaded.say(holes.pitch),
                allowed=f"a larger pitch, for {MOST_HOLES} holes or fewer",
            )

    def top(self, loaded: LoadedSpec, layout: Layout, bars: Sequence[Part]) -> BuiltTop:
        """The board, its grid, and brackets clear of the holes."""
        let_in = (*features(loaded, layout), *vises(loaded, layout))
        grid = _grid(loaded.spec, layout, let_in)
        brackets = top_brackets(loaded, layout, bars, grid, let_in)
        whole = _whole(loaded, layout)
        board = _board(loaded, whole, grid, let_in)
        boards: tuple[Part, ...] = (board,)
        if in_pieces(loaded.spec.top):
            boards = tuple(board_parts(loaded, board.box, board.operations))
        return BuiltTop((*boards, *edging_parts(loaded, whole)), grid, brackets, let_in)


def _core_across(loaded: LoadedSpec) -> Fraction:
    """Size of the core across its boards (mm)."""
    bench, over, off = loaded.spec.bench, loaded.spec.top.overhang, taken(loaded)
    if across_of(loaded.spec.top) == "y":
        return bench.depth + over.across - off.front - off.back
    return bench.length + over.along - off.left - off.right


def _grid(spec: Spec, layout: Layout, let_in: Sequence[Feature]) -> Grid | None:
    """Hole positions from the top's own left front corner, without those over a bar. None for a plain top.

    Holes near something that is let into the top are left out one by one.
    """
    holes, over, half = spec.top.holes, spec.top.overhang, layout.section / 2
    if holes is None:
        return None
    clear = clear_distance(layout.section, holes.diameter, holes.keep_clear)
    across = [line + half for line in (Fraction(0), *layout.lines, layout.length - layout.section)]
    along = [half, layout.depth - half]
    length, width = finished_size(spec, layout)
    columns = hole_line(length, holes.edge, holes.pitch, [x + over.left for x in across], clear)
    rows = hole_line(width, holes.edge, holes.pitch, [y + over.front for y in along], clear)
    reach = holes.diameter / 2 + holes.keep_clear
    taken = {
        (x, y)
        for x in columns.kept
        for y in rows.kept
        if not all(each.clears((x, y), reach) for each in let_in)
    }
    return Grid(columns, rows, frozenset(taken))


def _whole(loaded: LoadedSpec, layout: Layout) -> Box:
    """The finished top over the whole frame with its overhang."""
    over, low = loaded.spec.top.overhang, layout.levels.frame_height
    return Box(
        Span(-over.left, layout.length + over.right),
        Span(-over.front, layout.depth + over.back),
        Span(low, low + loaded.goods.top.thickness),
    )


def _board(loaded: LoadedSpec, whole: Box, grid: Grid | None, let_in: Sequence[Feature]) -> Part:
    """The board within the edging. Its machining is measured from its own left front corner."""
    spec, off = loaded.spec, taken(loaded)
    acts = (*_holes(spec, grid), *(act for each in let_in for act in each.operations))
    return Part(
        mark="TOP",
        name="top",
        role=Role.TOP,
        material=spec.top.material,
        kind="sheet",
        box=core_of(whole, off),
        along="x",
        across="y",
        place=Place(level="top"),
        thickness=loaded.goods.top.thickness,
        operations=tuple(from_core(act, off) for act in acts),
    )


def _holes(spec: Spec, grid: Grid | None) -> tuple[Operation, ...]:
    if grid is None or spec.top.holes is None:
        return ()
    diameter = spec.top.holes.diameter
    return tuple(Operation("hole", "top", (x, y), diameter, None, DOG_HOLE) for x, y in grid.holes)
