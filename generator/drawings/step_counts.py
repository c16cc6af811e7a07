"""How many screws the part of a step takes that one picture shows, by the rules that the hardware list counts with."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from generator.bench.fillings.screw_rules import NEAR, RULES, spread
from generator.drawings.dimensions import Ruler
from generator.figures.model import Figures
from generator.figures.rows.assembly import Step


def screws_in(figures: Figures, item: str, marks: Collection[str]) -> int:
    """How many of a screw hold these pieces; none where no rule says it."""
    rules = RULES.get(item, {})
    rows = {mark: row for row in figures.parts for mark in row.marks}
    ruled = ((rules.get(rows[mark].group), rows[mark]) for mark in marks if mark in rows)
    return sum(rule(row.length, row.width) for rule, row in ruled if rule)


def unequal_screws(figures: Figures, step: Step) -> Mapping[str, str]:
    """`5 trim screws` by the mark of each piece, where pieces of a step have different numbers of one screw."""
    found: dict[str, str] = {}
    for item in (each.item for each in step.fixings):
        counts = {motion.called: screws_in(figures, item, (motion.called,)) for motion in step.motions}
        counts = {mark: count for mark, count in counts.items() if count}
        if len(set(counts.values())) > 1:
            found |= {mark: f"{count} {item}s" for mark, count in counts.items()}
    return found


def spread_words(figures: Figures, item: str, marks: Collection[str], ruler: Ruler) -> str:
    """`30 from each end, 140 apart` of a screw in these pieces; only how far from the ends where the pieces differ."""
    rows = {mark: row for row in figures.parts for mark in row.marks}
    own = (rows[mark] for mark in marks if mark in rows)
    found = {spread(item, row.group, row.length, row.width) for row in own} - {None}
    if not found:
        return NEAR.get(item, "")
    from_where, first, apart = next(each for each in found if each)
    between = f", {ruler.text(apart)} apart" if len(found) == 1 else ", evenly between"
    return f"{ruler.text(first)} from {from_where}{between}"
