"""The card of a step: what to take to the bench for it, and what it only tightens."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from generator.figures.model import Figures
from generator.figures.rows.assembly import Fixing, Step
from generator.figures.rows.parts import PartRow


@dataclass(frozen=True)
class TakeLine:
    """One line of what a step takes: like parts by their marks, a sub-assembly by its name, or bought pieces.

    `names` are as many as are taken; `built` is the step that finished a sub-assembly. Of what is bought, `count` and
    the name of the hardware `item`. `glued` are joints that it takes glue for.
    """

    names: tuple[str, ...] = ()
    part: PartRow | None = None
    built: Step | None = None
    item: str = ""
    count: int = 0
    glued: int = 0


@dataclass(frozen=True)
class StepCard:
    """What a step takes, in the order of the work, and which fasteners it tightens that are there already."""

    takes: tuple[TakeLine, ...]
    tightens: tuple[Fixing, ...]


def cards(figures: Figures) -> list[StepCard]:
    """One card for each step of the assembly, in order."""
    steps = figures.assembly.steps
    rows = {mark: row for row in figures.parts for mark in row.marks}
    kinds = {shape.mark: shape.kind for shape in figures.assembly.shapes if not shape.is_small}
    items = {joint: fixing.item for step in steps for fixing in step.fixings for joint in fixing.joints}
    made: dict[str, Step] = {}
    there: set[str] = set()
    found = []
    for step in steps:
        pieces = [*_pieces(step, made, there, rows)]
        new = [mark for motion in step.motions for mark in motion.marks if mark not in there]
        there.update(new)
        fitted = [mark for mark in new if mark in items]
        parts = {each.part.name for each in pieces if each.part}
        old = {fixing.item for fixing in step.fixings if fixing.joints and there >= set(fixing.joints)}
        bought = _counted([items[mark] for mark in fitted])
        bought |= {
            fixing.item: fixing.count
            for fixing in step.fixings
            if fixing.item not in old | parts and not fixing.glued
        }
        goods = [kinds[mark] for mark in new if mark not in rows and mark in kinds]
        bought |= {kind: count for kind, count in _counted(goods).items() if not _named(kind, bought)}
        glued = sum(fixing.count for fixing in step.fixings if fixing.glued)
        takes = (
            *pieces,
            *(TakeLine(item=item, count=count) for item, count in bought.items()),
            *((TakeLine(glued=glued),) if glued else ()),
        )
        tightens = tuple(fixing for fixing in step.fixings if fixing.item in old)
        found.append(StepCard(takes, tightens))
        made |= {motion.into: step for motion in step.motions}
    return found


def _pieces(
    step: Step, made: dict[str, Step], there: set[str], rows: dict[str, PartRow]
) -> Iterator[TakeLine]:
    """Sub-assemblies that move as one, then parts that were not there before, one line for each name and size."""
    alike: dict[tuple[object, ...], dict[str, PartRow]] = {}
    for motion in step.motions:
        if motion.name in made:
            yield TakeLine((motion.name,), built=made[motion.name])
            continue
        for mark in motion.marks:
            if mark in rows and mark not in there:
                row = rows[mark]
                alike.setdefault((row.group, row.length, row.width, row.thickness), {})[mark] = row
    for marks in alike.values():
        yield TakeLine(tuple(sorted(marks, key=_number)), part=next(iter(marks.values())))


def _number(mark: str) -> tuple[str, int]:
    """By its letters, then by its number."""
    letters = mark.rstrip("0123456789")
    return letters, int(mark[len(letters) :] or 0)


def _counted(names: Sequence[str]) -> dict[str, int]:
    return {name: names.count(name) for name in dict.fromkeys(names)}


def _named(kind: str, bought: dict[str, int]) -> bool:
    """Whether the goods of a step have this kind already, under the name of the thing itself."""
    return any(kind in item for item in bought)
