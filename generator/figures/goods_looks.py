"""What bought goods look like at their size: by their card, else by the size in the list, which follows from it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction

from generator.calculators.fasteners import THREADS, WASHERS
from generator.calculators.screw_heads import NONE, head
from generator.calculators.wood_screws import SHANKS
from generator.figures.rows.hardware import HardwareRow
from generator.spec.item import Look, Outline, ScrewOutline
from generator.units.sizes import INCH

_NUMBER = r"\d+ \d+/\d+|\d+/\d+|\d+(?:\.\d+)?"
_SCREW = re.compile(rf"(?<![\w./-])(#\d+|M\d+|\d+/\d+-\d+|\d+-\d+|{_NUMBER}) ?x ?({_NUMBER})(?![\w/])")
_SIDES = re.compile(rf"(?<![\w./-])({_NUMBER}) x ({_NUMBER})")
#: What is a screw, by the end of its name; the size of all else is that of a plate, a sleeve or a disc.
_SCREWS = ("screw", "bolt")
#: Outside diameter of the washer under the head of a bolt, in diameters: ISO 7089, within half a millimetre.
_WASHER = 2


def looks_of(row: HardwareRow, card: Sequence[Look], units: str) -> tuple[Look, ...]:
    """The looks of a line of the hardware list. Sizes of a bench in inches are in inches where no thread says more."""
    screws = tuple(_screws(row, units))
    if any(isinstance(look, ScrewOutline) for look in card):
        return tuple(card)
    if row.kind.endswith(_SCREWS) or (screws and card):
        return (*screws, *(look for look in card if isinstance(look, Outline)))
    return tuple(card) or tuple(_plain(row, units))


def _screws(row: HardwareRow, units: str) -> Iterator[ScrewOutline]:
    """Each size of a screw once."""
    words = f"{row.size} {row.item} {row.kind} {row.for_}"
    is_screw = row.kind.endswith(_SCREWS)
    found_sizes = dict.fromkeys(_SCREW.findall(row.size))
    threads = [each for each in found_sizes if each[0] in THREADS]
    # beside a bolt, other sizes are those of its washer
    for size, length in threads or found_sizes:
        wood = size not in THREADS
        if wood and not is_screw:
            continue
        inches = units == "in" if wood and not size.startswith("#") else not size.startswith("M")
        if wood and size in SHANKS and not size.startswith("#"):
            inches = False
        shank = THREADS[size].diameter if not wood else SHANKS.get(size) or _mm(size, inches)
        found = head(words, size, shank, wood=wood and size in SHANKS)
        yield ScrewOutline(
            f"{size} × {length}",
            shank,
            _mm(length, inches),
            Fraction(0) if wood else THREADS[size].pitch,
            found.sort if found else NONE,
            (found.width, found.height) if found else (shank, Fraction(0)),
            wood,
        )


def _plain(row: HardwareRow, units: str) -> Iterator[Outline]:
    """What has no card: a washer by its thread, else the first two sizes of the list."""
    for thread, washer in WASHERS.items():
        if row.size == washer.name:
            outside = _WASHER * THREADS[thread].diameter
            inside = Fraction(row.size.split()[0]) if thread.startswith("M") else THREADS[thread].clearance
            hole = (outside / 2, outside / 2, inside)
            yield Outline("from above", (outside, outside), (hole,), disc=True)
            return
    if found := _SIDES.search(row.size):
        across, up = (_mm(size, units == "in") for size in found.groups())
        yield Outline("its first two sizes", (across, up))


def _mm(text: str, inches: bool) -> Fraction:
    return sum((Fraction(each) for each in text.split()), Fraction(0)) * (INCH if inches else 1)
