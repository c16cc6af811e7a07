"""Templates at full scale: drilling strips for hole patterns that come again, notches, cut-outs, plates, the relief."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from fractions import Fraction

from generator.bench.tops.features import RECESS
from generator.drawings.bar_faces import side_faces
from generator.drawings.dimensions import Ruler
from generator.drawings.extent import Extent
from generator.drawings.letter_sizes import TEXT
from generator.drawings.paper import Paper, Scale
from generator.drawings.part_marks import marks_of
from generator.drawings.profile import stations
from generator.drawings.sheet import Content, Heading, Stamp, room
from generator.drawings.strips import INSET, PAPER_LIMIT, MarkingStrip, Position, StripHole, strip_sheets
from generator.drawings.templates import (
    TemplateBlock,
    cut_out_block,
    flow,
    notch_block,
    plate_block,
    relief_block,
)
from generator.drawings.tiled import HEAD, LargeOpening, PatchPainter, patches
from generator.drawings.top_grid import lines
from generator.figures.model import Figures
from generator.figures.rows.parts import OperationRow, PartRow
from generator.geometry import FACES
from generator.prints.print import Print

LONGEST_STRIP = PAPER_LIMIT * 3 / 2
"""Patterns that reach further are set out from the story stick."""
TAIL = Fraction(15)
"""How far a strip runs past its last hole, in mm."""
REPEATED = 2
"""From this many equal faces or pieces on, a template is worth its paper."""
PITCHES = 5
"""At most this many columns or rows of the top's holes are on their strip."""

DOCUMENT = "Templates"

Opening = tuple[tuple[Fraction, Fraction], bool, Fraction]
"""Size of a cut-out, whether it is open to the part's edge, radius of its corners."""


def contents(figures: Figures, ruler: Ruler, paper: Paper, stamp: Stamp) -> Sequence[Content]:
    """Blocks first, then the strips."""
    free = room(paper, full_scale=True)
    blocks = flow(all_blocks(figures, ruler, stamp.scale(lying=False), free.width), free)
    heading = Heading(DOCUMENT, "Notches, cut-outs, plates, relief", datum="Every block names its own edges.")
    sheets = [Content(canvas, heading, "Templates at full scale", full_scale=True) for canvas in blocks]
    strips = [*drilling_strips(figures, ruler), *top_strips(figures)]
    return [
        *sheets,
        *large_sheets(figures, ruler, free, stamp.scale(lying=False)),
        *strip_sheets(strips, ruler, paper, stamp, DOCUMENT),
    ]


# --- strips


def drilling_strips(figures: Figures, ruler: Ruler) -> list[MarkingStrip]:
    """One strip for every pattern of holes that is on two faces or pieces at least."""
    patterns: dict[tuple[OperationRow, ...], list[tuple[PartRow, str]]] = defaultdict(list)
    for row in figures.parts:
        if row.is_bar:
            for face in side_faces(row):
                if holes := tuple(unplaced(op) for op in row.operations if op.face == face):
                    patterns[tuple(sorted(holes, key=order))].append((row, face))
    strips: list[MarkingStrip] = []
    for holes, places in patterns.items():
        reach = max(op.at[0] for op in holes) + TAIL
        if reach <= LONGEST_STRIP and sum(row.count for row, _ in places) >= REPEATED:
            strips.append(
                drilling_strip(holes, places, min(reach, places[0][0].length), len(strips) + 1, ruler)
            )
    return strips


def unplaced(operation: OperationRow) -> OperationRow:
    """An operation as any face could bear it."""
    return OperationRow(operation.op, "", operation.at, operation.size, operation.depth, "")


def order(operation: OperationRow) -> tuple[Fraction, Fraction, str, str]:
    """Sorts along the bar."""
    return (*operation.at, operation.op, str(operation.size))


def drilling_strip(
    holes: tuple[OperationRow, ...],
    places: Sequence[tuple[PartRow, str]],
    length: Fraction,
    number: int,
    ruler: Ruler,
) -> MarkingStrip:
    """The strip of one pattern, as wide as the bar's face."""
    row = places[0][0]
    where: dict[str, list[str]] = defaultdict(list)
    for part, face in places:
        where[marks_of(part)].append(face)
    lies_on = "; ".join(f"{marks}: {', '.join(faces)}" for marks, faces in where.items())
    ends = sorted({FACES[part.along][0] for part, _ in places})
    positions = [Position(at, words, "centre") for at, words in stations(holes, ruler, row.width / 2)]
    return MarkingStrip(
        f"Drilling strip {number}",
        f"{' or '.join(ends)} end",
        lies_on,
        length,
        tuple(positions),
        band=float(row.width),
        holes=tuple(
            StripHole(op.at[0], op.at[1], op.size) for op in sorted(holes, key=breadth, reverse=True)
        ),
    )


def breadth(operation: OperationRow) -> Fraction:
    """The greatest size of an operation: the widest is drawn first."""
    return max(operation.size) if isinstance(operation.size, tuple) else operation.size


def top_strips(figures: Figures) -> list[MarkingStrip]:
    """The first columns and rows of the top's holes, to pick the pitch from."""
    grid = figures.top
    if not grid.holes:
        return []
    found = []
    for name, margin, count, edge in (
        ("columns", grid.margin_x, grid.columns, "left edge of the top"),
        ("rows", grid.margin_y, grid.rows, "front edge of the top"),
    ):
        places = lines(margin, grid.pitch, min(count, PITCHES))
        positions = tuple(Position(at, f"{name[:-1]} {n}", "centre") for n, at in enumerate(places, 1))
        found.append(MarkingStrip(f"Top holes, {name}", edge, "the top", places[-1] + TAIL, positions))
    return found


# --- blocks


def all_blocks(figures: Figures, ruler: Ruler, scale: Scale, width: float) -> list[TemplateBlock]:
    """Every template that is no strip, the largest first, so that rows are filled."""
    blocks = [*notches(figures, ruler, scale), *cut_outs(figures, ruler, scale, width)]
    blocks += plates(figures, ruler, scale, width)
    if figures.relief is not None and figures.joints.reliefs:
        blocks.append(relief_block(figures.relief, figures.layout.section, ruler, scale))
    return sorted(blocks, key=lambda block: (-block.height, -block.width))


def notches(figures: Figures, ruler: Ruler, scale: Scale) -> list[TemplateBlock]:
    """One template a size of notch."""
    found: dict[tuple[Fraction, Fraction], dict[str, list[str]]] = {}
    for row in figures.parts:
        for notch in row.notches:
            parts = found.setdefault((notch.along, notch.across), {})
            parts.setdefault(marks_of(row), []).append(notch.corner)
    return [
        notch_block(
            *size,
            "; ".join(f"{marks}: {', '.join(corners)}" for marks, corners in parts.items()),
            ruler,
            scale,
        )
        for size, parts in found.items()
    ]


def cut_outs(figures: Figures, ruler: Ruler, scale: Scale, width: float) -> list[TemplateBlock]:
    """One template a size of cut-out or recess that fits on a sheet, apart for those at an edge."""
    return [
        cut_out_block(size, edge, where, ruler, scale, corner)
        for (size, edge, corner), where in opened(figures).items()
        if fits(size, scale, width)
    ]


def opened(figures: Figures) -> dict[Opening, str]:
    """Sizes of the cut-outs and recesses in boards, with the parts and what each is for."""
    found: dict[Opening, dict[str, list[str]]] = {}
    for row in figures.parts:
        for op in row.operations:
            if row.is_board and (op.depth is None or op.op == RECESS) and isinstance(op.size, tuple):
                parts = found.setdefault((op.size, row.at_edge(op), op.corner), {})
                parts.setdefault(marks_of(row), []).append(op.purpose)
    return {
        key: "; ".join(f"{marks}: {', '.join(what)}" for marks, what in parts.items())
        for key, parts in found.items()
    }


def large_sheets(figures: Figures, ruler: Ruler, free: Extent, scale: Scale) -> list[Content]:
    """Cut-outs and recesses that are larger than a sheet, on sheets to join. Paper is true up to a limit."""
    found = []
    for (size, edge, corner), where in opened(figures).items():
        if fits(size, scale, free.width) or max(size) > PAPER_LIMIT:
            continue
        large = LargeOpening(f"Cut-out {ruler.size(*size)}", where, size, corner, edge)
        for patch in patches(large, (free.width - 2 * INSET, free.height - HEAD), scale):
            heading = Heading(DOCUMENT, large.name, datum="0 is the upper left corner of the opening.")
            canvas = PatchPainter(patch, ruler, free, scale).draw()
            title = f"{large.name}, sheet {patch.n} of {patch.of}"
            found.append(Content(canvas, heading, title, full_scale=True))
    return found


def fits(size: tuple[Fraction, Fraction], scale: Scale, width: float) -> bool:
    """Whether a piece so large, with lettering beside it, goes on a sheet whichever way it lies."""
    return max(size) * Fraction(max(scale.x, scale.y)) + Fraction(TEXT) <= width


def plates(figures: Figures, ruler: Ruler, scale: Scale, width: float) -> list[TemplateBlock]:
    """Drilled plates that come again and fit on a sheet."""
    return [
        plate_block((row.length, row.width), row.operations, f"{marks_of(row)}: {row.name}", ruler, scale)
        for row in figures.parts
        if row.is_board
        and row.count >= REPEATED
        and row.operations
        and all(op.depth is None and not isinstance(op.size, tuple) for op in row.operations)
        and fits((row.length, row.width), scale, width)
    ]


PRINT = Print("templates", "Templates", "full scale: drilling strips, notches, cut-outs, plates", contents)
