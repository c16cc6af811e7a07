"""The cut list for a spreadsheet: one row a distinct part, lengths in millimetres with a decimal point.

A spreadsheet guesses what a text means: `1e3` would become 1000, `DEC1` a day in December, `=2+2` a sum. Such a text
is written as the formula of a constant, `="1e3"`, which every spreadsheet shows as it was.
"""

from __future__ import annotations

import csv
import io
import re

from generator.figures.model import Figures, PartRow
from generator.units import plain

HEADINGS = (
    "mark",
    "marks",
    "part",
    "material",
    "count",
    "length_mm",
    "width_mm",
    "thickness_mm",
    "tongues_mm",
    "notches_mm",
    "mass_kg",
)


#: Texts that a spreadsheet takes as they are begin with a letter and are neither a month's day nor a truth.
_PLAIN = re.compile(r"[^\W\d_]")
_MONTH = (
    "jan(uary)?|feb(ruary)?|mar(ch)?|apr(il)?|may|june?|july?|aug(ust)?|sept?(ember)?|"
    "oct(ober)?|nov(ember)?|dec(ember)?"
)
_GUESSED = re.compile(rf"({_MONTH})[ ./-]*\d+|true|false|inf|infinity|nan", re.IGNORECASE)


def cut_list_csv(figures: Figures) -> str:
    """RFC 4180 text with a heading line."""
    text = io.StringIO()
    writer = csv.writer(text)
    writer.writerow(HEADINGS)
    writer.writerows([_cell(value) for value in _row(part)] for part in figures.parts)
    return text.getvalue()


def _row(part: PartRow) -> tuple[object, ...]:
    return (
        part.mark,
        " ".join(part.marks),
        part.name,
        part.material,
        part.count,
        plain(part.length),
        plain(part.width),
        plain(part.thickness),
        "; ".join(f"{edge} {plain(size)}" for edge, size in part.tongues.items()),
        "; ".join(f"{n.corner} {plain(n.along)} x {plain(n.across)}" for n in part.notches),
        round(part.mass, 3),
    )


def _cell(value: object) -> object:
    """A number as it is; a text so that it stays one."""
    if not isinstance(value, str) or not value or (_PLAIN.match(value) and not _GUESSED.fullmatch(value)):
        return value
    doubled = value.replace('"', '""')
    return f'="{doubled}"'
