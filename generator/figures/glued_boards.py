"""Boards of solid wood that are glued up from strips: what is ripped, and what comes of it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from math import ceil

from generator.bench.model import Bench, Part
from generator.figures.rows.parts import GluedBoard, PartRow
from generator.figures.rows.setting_out import Setting, Setup
from generator.geometry import AXES, Box, Span
from generator.provenance import constant
from generator.spec.goods import Sheet

#: What is planed off each edge of a strip before it is glued, and how far clamps are apart (mm). Common practice.
EDGE = constant(1, "planed off each edge of a strip before it is glued")
CLAMPS_APART = constant(200, "clamps on a glued-up board are apart")


def cut_parts(bench: Bench, name: str) -> list[Part]:
    """The parts of a sheet material as they are cut from its stock: what is glued up is several strips of one mark."""
    sheet = bench.goods.sheets.get(name)
    own = [part for part in bench.parts if part.material == name]
    if sheet is None or sheet.strip is None:
        return own
    return [strip for part in own for strip in _strips(part, sheet)]


def _strips(part: Part, sheet: Sheet) -> Iterator[Part]:
    row = _glued(part, sheet)
    sizes = dict(zip((_grain_axis(part), _cross_axis(part)), row.strip, strict=True))
    low = {axis: part.box.span(axis).low for axis in AXES}
    spans = (
        Span(low[axis], low[axis] + sizes[axis]) if axis in sizes else part.box.span(axis) for axis in AXES
    )
    strip = replace(part, box=Box(*spans), bands={}, notches=(), operations=(), tongues={})
    yield from [strip] * row.strips


def _grain_axis(part: Part) -> str:
    return part.across if part.grain == "width" else part.along


def _cross_axis(part: Part) -> str:
    return part.along if part.grain == "width" else part.across


def _glued(part: Part, sheet: Sheet) -> GluedBoard:
    """How one board is glued up; sizes are along its grain, then across it."""
    assert sheet.strip is not None
    length, width = part.cut_size[::-1] if part.grain == "width" else part.cut_size
    glued = (length + sheet.oversize[0], width + sheet.oversize[1])
    count = ceil(glued[1] / sheet.strip)
    strip = (glued[0], glued[1] / count + 2 * EDGE)
    clamps = ceil(glued[0] / CLAMPS_APART) + 1
    return GluedBoard(part.material, (part.mark,), count, strip, glued, (length, width), clamps)


def glued_boards(bench: Bench) -> tuple[GluedBoard, ...]:
    """A row for all boards that are glued up alike."""
    found: dict[tuple[str, tuple[Fraction, Fraction]], GluedBoard] = {}
    for part in bench.parts:
        sheet = bench.goods.sheets.get(part.material)
        if sheet is None or sheet.strip is None:
            continue
        row = _glued(part, sheet)
        kept = found.get((row.material, row.finished))
        found[row.material, row.finished] = (
            replace(kept, marks=(*kept.marks, part.mark)) if kept is not None else row
        )
    return tuple(found.values())


def glued_cards(bench: Bench, rows: Sequence[PartRow]) -> Iterator[Setup]:
    """One card a material: strips, their edges, and the boards that come of them."""
    names = {row.material: row.made_of for row in rows}
    boards = glued_boards(bench)
    for number, name in enumerate(dict.fromkeys(board.material for board in boards), 1):
        own = [board for board in boards if board.material == name]
        yield Setup(
            0,
            f"glued-board-{number}",
            f"Boards glued up from strips: {names[name]}",
            "table saw with fence, planer or long plane for the edges, clamps",
            tuple(
                setting
                for board in own
                for marks in [", ".join(board.marks)]
                for setting in (
                    Setting(f"Strips a board: {marks}", text=str(board.strips)),
                    Setting(f"Strip as ripped, length × width: {marks}", board.strip),
                    Setting(f"Board as glued up, length × width: {marks}", board.glued),
                    Setting(f"Board as cut, along and across the grain: {marks}", board.finished),
                    Setting(f"Clamps, above and below in turn: {marks}", text=str(board.clamps)),
                )
            ),
            (
                "Rip the strips by the sheet plan. Leave them on sticks for a day, then plane both edges straight.",
                "Lay them side by side with the better faces up, and draw a triangle over all joints.",
                "Close the joints dry with one clamp. No light may show.",
                "Glue one edge of each joint, and close the joints by hand before the clamps.",
                "Wait as long as the glue asks. Then plane both faces, and cut the board to its size.",
            ),
            "Dry, one clamp in the middle closes each joint over its whole length.",
            tuple(mark for board in own for mark in board.marks),
            cautions=("kickback", "dust"),
        )


__all__ = ["cut_parts", "glued_boards", "glued_cards"]
