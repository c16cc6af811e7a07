"""Defects of a board in a list file: rectangles that no piece may have any of."""

from __future__ import annotations

from fractions import Fraction

from generator.calculators.cutting.sheets import Area
from generator.codes import Code
from generator.spec.field_reader import Entry, FieldReader

MOST_DEFECTS = 40
"""The most defects of one board."""

_FORM = "a list of [along, across, length, width], such as [[600, 40, 80, 60]]"


def read_defects(
    reader: FieldReader, entry: Entry, board: tuple[Fraction, Fraction], clear: Fraction
) -> tuple[Area, ...]:
    """The defects of a `board` (its sides), each with `clear` around it (mm); faulty ones are noted and left out."""
    place, listed = entry.get("defects", ((), None))
    if listed is None:
        return ()
    if not isinstance(listed, list) or len(listed) > MOST_DEFECTS:
        reader.fault(Code.NOT_AN_ENTRY, place, f"a board has up to {MOST_DEFECTS} defects", "", _FORM)
        return ()
    found = []
    for index, each in enumerate(listed):
        if not isinstance(each, list) or len(each) != 4:
            reader.fault(Code.NOT_AN_ENTRY, (*place, index), "this is not a defect", str(each), _FORM)
            continue
        x, y, width, height = (
            reader.length((*place, index, at), text, zero=at < 2) for at, text in enumerate(each)
        )
        if x >= board[0] or y >= board[1]:
            reader.fault(
                Code.OUT_OF_RANGE, (*place, index), "this defect is not on its board", str(each),
                "a lower left corner on the board",
            )  # fmt: skip
            continue
        found.append(Area(x - clear, y - clear, width + 2 * clear, height + 2 * clear))
    return tuple(found)
