"""The cut list for a spreadsheet: one row a distinct part, lengths in millimetres with a decimal point."""

from __future__ import annotations

from generator.figures.model import Figures
from generator.figures.rows.parts import PartRow
from generator.units.format import plain
from generator.writers.csv_text import csv_text

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
    "banding_mm",
    "mass_kg",
)


def cut_list_csv(figures: Figures) -> str:
    """RFC 4180 text with a heading line."""
    return csv_text(HEADINGS, map(_row, figures.parts))


def _row(part: PartRow) -> tuple[object, ...]:
    return (
        part.mark,
        " ".join(part.marks),
        part.name,
        part.material,
        part.count,
        plain(part.cut_size[0]),
        plain(part.cut_size[1]),
        plain(part.thickness),
        "; ".join(f"{edge} {plain(size)}" for edge, size in part.tongues.items()),
        "; ".join(f"{n.corner} {plain(n.along)} x {plain(n.across)}" for n in part.notches),
        "; ".join(f"{edge} {plain(size)}" for edge, size in part.bands.items()),
        round(part.mass, 3),
    )
