"""How many screws the part of a step takes that one picture shows, by the rules that the hardware list counts with."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping

from generator.bench.fillings import strip_paths
from generator.bench.fillings.drawer_screws import PER_DRAWER_FRONT
from generator.bench.role import Role
from generator.calculators.fasteners import box_corner_screws
from generator.calculators.shelves import cleat_count
from generator.figures.model import Figures
from generator.figures.rows.parts import PartRow

#: A drawer's side is joined to its front and to its back.
ENDS_OF_A_SIDE = 2


def screws_in(figures: Figures, item: str, marks: Collection[str]) -> int:
    """How many of a screw hold these pieces; none where no rule says it."""
    rules = RULES.get(item, {})
    rows = {mark: row for row in figures.parts for mark in row.marks}
    ruled = ((rules.get(rows[mark].group), rows[mark]) for mark in marks if mark in rows)
    return sum(rule(row) for rule, row in ruled if rule)


def _in_strip(row: PartRow) -> int:
    return cleat_count(row.length)


def _in_box(row: PartRow) -> int:
    return ENDS_OF_A_SIDE * box_corner_screws(row.width)


def _in_face(_: PartRow) -> int:
    return PER_DRAWER_FRONT


#: By the screw, then by what it is counted for.
RULES: Mapping[str, Mapping[str, Callable[[PartRow], int]]] = {
    "strip screw": {role.value: _in_strip for role in strip_paths()},
    "drawer box screw": {Role.DRAWER_SIDE.value: _in_box},
    "drawer front screw": {Role.DRAWER_FACE.value: _in_face},
}
