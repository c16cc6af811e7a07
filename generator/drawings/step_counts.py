"""How many screws the part of a step takes that one picture shows, by the rules that the hardware list counts with."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping

from generator.bench.fillings.drawer_screws import PER_DRAWER_FRONT
from generator.calculators.fasteners import box_corner_screws
from generator.calculators.shelves import cleat_count
from generator.figures.model import Figures
from generator.figures.rows.parts import PartRow

#: A drawer's side is joined to its front and to its back.
ENDS_OF_A_SIDE = 2
#: The kind of shape of strips, runners and cleats.
STRIP = "strip"


def screws_in(figures: Figures, item: str, marks: Collection[str]) -> int:
    """How many of a screw hold these pieces; none where no rule says it."""
    rule = RULES.get(item)
    rows = {mark: row for row in figures.parts for mark in row.marks}
    strips = {shape.mark for shape in figures.assembly.shapes if shape.kind == STRIP}
    return sum(rule(rows[mark], mark in strips) for mark in marks if mark in rows) if rule else 0


def _in_strip(row: PartRow, is_strip: bool) -> int:
    return cleat_count(row.length) if is_strip else 0


def _in_box(row: PartRow, _: bool) -> int:
    return ENDS_OF_A_SIDE * box_corner_screws(row.width) if row.group == "drawer side" else 0


def _in_face(row: PartRow, _: bool) -> int:
    return PER_DRAWER_FRONT if row.group == "drawer face" else 0


RULES: Mapping[str, Callable[[PartRow, bool], int]] = {
    "strip screw": _in_strip,
    "drawer box screw": _in_box,
    "drawer front screw": _in_face,
}
