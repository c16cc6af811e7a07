"""Heads of screws and bolts as they are sold: how wide and how high, by thread and sort (mm).

Button heads: ISO 7380-1, table 1. Hexagon heads: ISO 4014, coach screws as DIN 571 with the head of their size.
Countersunk heads: ISO 10642 and usual wood screws, twice the shank at 90 degrees. Pan heads: ISO 7045. From memory.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.calculators.fasteners import CAP_HEADS, INCH, THREADS
from generator.provenance import constant


@dataclass(frozen=True)
class Head:
    """A head by its sort, its greatest width and its height (mm); a countersunk one is within the screw's length."""

    sort: str
    width: Fraction
    height: Fraction


def _table(sort: str, source: str, rows: str, unit: Fraction = Fraction(1)) -> dict[str, Head]:
    """Rows are `thread width height`."""
    found = {}
    for row in rows.split(", "):
        thread, width, height = row.split()
        sizes = (Fraction(width) * unit, Fraction(height) * unit)
        found[thread] = Head(sort, *(constant(s, f"{sort} head of {thread}", source) for s in sizes))
    return found


BUTTON, HEXAGON, CAP, COUNTERSUNK, PAN, NONE = "button", "hexagon", "cap", "countersunk", "pan", "none"
BUTTON_HEADS = _table(
    BUTTON, "ISO 7380-1, not checked against the text",
    "M4 7.6 2.2, M5 9.5 2.75, M6 10.5 3.3, M8 14 4.4, M10 17.5 5.5, M12 21 6.6",
) | _table(
    BUTTON, "ASME B18.3, not checked against the text",
    "10-24 0.361 0.101, 10-32 0.361 0.101, 1/4-20 0.437 0.132, 5/16-18 0.547 0.166, 3/8-16 0.656 0.199", INCH,
)  # fmt: skip
#: Across flats; a width across corners would need the screw turned.
HEXAGON_HEADS = _table(
    HEXAGON, "ISO 4014, not checked against the text",
    "M4 7 2.8, M5 8 3.5, M6 10 4, M8 13 5.3, M10 16 6.4, M12 18 7.5",
) | _table(
    HEXAGON, "ASME B18.2.1, not checked against the text",
    "10-24 0.3125 0.12, 10-32 0.3125 0.12, 1/4-20 0.4375 0.1563, 5/16-18 0.5 0.2031, 3/8-16 0.5625 0.2344", INCH,
)  # fmt: skip
#: Widths of heads in shanks, and heights.
SUNK, PAN_WIDE, PAN_HIGH = (
    constant(2, "width of a countersunk head, in shanks", unit=""),
    constant(2, "width of a pan head, in shanks", unit=""),
    constant("3/5", "height of a pan head, in shanks", unit=""),
)


def head(words: str, thread: str, shank: Fraction, *, wood: bool) -> Head | None:
    """The head of a screw by the words of its line on a list; None where they do not say it.

    A wood screw is countersunk where nothing else is said. `shank` is in mm.
    """
    if "button" in words:
        return BUTTON_HEADS.get(thread)
    if "pan head" in words:
        return Head(PAN, shank * PAN_WIDE, shank * PAN_HIGH)
    if "countersunk" in words or "flat head" in words:
        return Head(COUNTERSUNK, shank * SUNK, shank * (SUNK - 1) / 2)
    if "cap screw" in words and thread in CAP_HEADS:
        return Head(CAP, CAP_HEADS[thread], shank)
    if "hexagon" in words or "coach" in words:
        return _hexagon(thread, shank)
    return Head(COUNTERSUNK, shank * SUNK, shank * (SUNK - 1) / 2) if wood else None


def _hexagon(thread: str, shank: Fraction) -> Head | None:
    """That of the thread, or of the thread as thick as a coach screw."""
    near = (
        each for name, each in HEXAGON_HEADS.items() if abs(THREADS[name].diameter - shank) < Fraction(1, 2)
    )
    return HEXAGON_HEADS.get(thread) or next(near, None)
