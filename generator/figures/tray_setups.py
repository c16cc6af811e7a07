"""The set-up card of the half laps at the joints of a tray in pieces."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from generator.bench.frames.trays import HALF_LAP
from generator.figures.rows.parts import PartRow
from generator.figures.rows.setting_out import Setting, Setup
from generator.figures.saw_setups import marks_of, names_of


def tray_setups(rows: Sequence[PartRow]) -> Iterator[Setup]:
    """One card: all laps are of one width and depth; none where the tray is whole."""
    laps = [(row, op) for row in rows for op in row.operations if op.op == HALF_LAP]
    if not laps:
        return
    first = laps[0][1]
    assert isinstance(first.size, tuple) and first.depth is not None
    yield Setup(
        0,
        "half-lap",
        "Half laps of the tray",
        "router table or saw with a rabbet cutter, feather board above, fence",
        (
            Setting("Half lap, from the edge of the board", (first.size[0],), fine=True),
            Setting("Half lap, depth: half of the sheet", (first.depth,), fine=True),
            *(
                Setting(
                    f"{names_of((row,))}, {op.purpose}", text=f"{end_of(row, op.at[0])} edge, {op.face} face"
                )
                for row, op in laps
            ),
        ),
        (
            "Take two scraps of the same sheet. Cut a half lap in each and lay one on the other.",
            "Raise or lower the cutter by half of the step between the two faces.",
            "Mark the face and the edge of each lap on its board. Then cut all of them at this setting.",
        ),
        "Both scraps together are as thick as one, and their faces are flush.",
        marks_of({row.mark: row for row, _ in laps}.values()),
        cautions=("kickback", "dust"),
    )


def end_of(row: PartRow, at: Fraction) -> str:
    """The end of a board at which a lap is."""
    return "left" if at < row.length / 2 else "right"
