"""How many screws the part of a step takes that one picture shows, by the rules that the hardware list counts with."""

from __future__ import annotations

from collections.abc import Collection

from generator.bench.fillings.screw_rules import RULES
from generator.figures.model import Figures


def screws_in(figures: Figures, item: str, marks: Collection[str]) -> int:
    """How many of a screw hold these pieces; none where no rule says it."""
    rules = RULES.get(item, {})
    rows = {mark: row for row in figures.parts for mark in row.marks}
    ruled = ((rules.get(rows[mark].group), rows[mark]) for mark in marks if mark in rows)
    return sum(rule(row.length, row.width) for rule, row in ruled if rule)
