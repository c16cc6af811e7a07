"""A top of one board with its grid of holes, held to the upper bars by brackets."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from generator.bench.layout import Layout
from generator.bench.piece import Operation, Part
from generator.bench.place import Place
from generator.bench.role import Role
from generator.bench.tops.brackets import top_brackets
from generator.bench.tops.facts import BuiltTop, Grid
from generator.calculators.top_grid import clear_distance, hole_line
from generator.codes import Code
from generator.findings import Finding
from generator.geometry import Box, Span
from generator.spec.load import LoadedSpec
from generator.spec.schema import Spec

#: Holes in one top.
MOST_HOLES = 5000


class Board:
    """One board over the whole frame."""

    kind = "board"

    def chosen(self, spec: Spec) -> bool:
        """The top that a spec takes when it names none."""
        return True

    def refusals(self, loaded: LoadedSpec) -> Iterator[Finding]:
        """A grid that nobody would drill is a slip of the pen, and would fill the manual."""
        holes, bench = loaded.spec.top.holes, loaded.spec.bench
        if holes is None:
            return
        beyond = 2 * loaded.spec.top.overhang
        count = int((bench.length + beyond) / holes.pitch) * int((bench.depth + beyond) / holes.pitch)
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
        grid = _grid(loaded.spec, layout)
        return BuiltTop((_board(loaded, layout, grid),), grid, top_brackets(loaded, layout, bars, grid))


def _grid(spec: Spec, layout: Layout) -> Grid | None:
    """Hole positions from the top's own left front corner, without those over a bar. None for a plain top."""
    holes, overhang, half = spec.top.holes, spec.top.overhang, layout.section / 2
    if holes is None:
        return None
    clear = clear_distance(layout.section, holes.diameter, holes.keep_clear)
    across = [line + half for line in (Fraction(0), *layout.lines, layout.length - layout.section)]
    along = [half, layout.depth - half]
    return Grid(
        hole_line(
            layout.length + 2 * overhang, holes.edge, holes.pitch, [x + overhang for x in across], clear
        ),
        hole_line(layout.depth + 2 * overhang, holes.edge, holes.pitch, [y + overhang for y in along], clear),
    )


def _board(loaded: LoadedSpec, layout: Layout, grid: Grid | None) -> Part:
    """The board over the whole frame with its overhang. Holes are from its own left front corner."""
    spec, thickness = loaded.spec, loaded.goods.top.thickness
    overhang = spec.top.overhang
    box = Box(
        Span(-overhang, layout.length + overhang),
        Span(-overhang, layout.depth + overhang),
        Span(layout.levels.frame_height, layout.levels.frame_height + thickness),
    )
    return Part(
        mark="TOP",
        name="top",
        role=Role.TOP,
        material=spec.top.material,
        kind="sheet",
        box=box,
        along="x",
        across="y",
        place=Place(level="top"),
        thickness=thickness,
        operations=_holes(spec, grid),
    )


def _holes(spec: Spec, grid: Grid | None) -> tuple[Operation, ...]:
    if grid is None or spec.top.holes is None:
        return ()
    diameter = spec.top.holes.diameter
    return tuple(
        Operation("hole", "top", (x, y), diameter, None, "dog hole")
        for x in grid.columns.kept
        for y in grid.rows.kept
    )
