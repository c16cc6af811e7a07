"""The top board and its grid of holes."""

from __future__ import annotations

from fractions import Fraction

from generator.bench.layout import Layout
from generator.bench.model import Grid, Operation, Part
from generator.bench.place import Place
from generator.bench.role import Role
from generator.calculators.top_grid import clear_distance, hole_line
from generator.geometry import Box, Span
from generator.spec.lookup import sheet
from generator.spec.schema import Spec


def top_grid(spec: Spec, layout: Layout) -> Grid | None:
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


def top_part(spec: Spec, layout: Layout, grid: Grid | None) -> Part:
    """The board over the whole frame with its overhang. Holes are from its own left front corner."""
    overhang, thickness = spec.top.overhang, sheet(spec, spec.top.material).thickness
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
