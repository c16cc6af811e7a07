"""The cut list's sections: one a material, with the totals at their feet."""

from __future__ import annotations

from fractions import Fraction

from generator.bench.model import Bench
from generator.figures.rows.parts import CutSection, PartRow
from generator.spec.goods import Sheet

#: Bars before sheets before strips: the frame is measured before a panel is cut.
_ORDER = ("profile", "timber", "sheet", "strip", "angle")


def cut_sections(bench: Bench, parts: tuple[PartRow, ...]) -> tuple[CutSection, ...]:
    """Totals: pieces, running length (mm), area (mm²)."""
    sections = []
    for material in dict.fromkeys(part.material for part in parts):
        own = [part for part in parts if part.material == material]
        entry = bench.spec.materials.get(material)
        sections.append(
            CutSection(
                material=material,
                kind=own[0].kind,
                marks=tuple(part.mark for part in own),
                pieces=sum(part.count for part in own),
                total_length=sum((part.cut_size[0] * part.count for part in own), Fraction(0)),
                total_area=sum(
                    (part.cut_size[0] * part.cut_size[1] * part.count for part in own), Fraction(0)
                ),
                measured=entry.measured if entry else "",
                rough=_rough(bench.goods.sheets.get(material)),
            )
        )
    return tuple(sorted(sections, key=lambda section: _ORDER.index(section.kind)))


def _rough(sheet: Sheet | None) -> Fraction | None:
    """How thick a material's rough boards are (mm); None for what is bought planed."""
    return sheet.thickness + sheet.planing if sheet is not None and sheet.planing else None
