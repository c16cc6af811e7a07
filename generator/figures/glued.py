"""What glue makes one for good: its size against the door, and the boards that it holds captive."""

from __future__ import annotations

from collections.abc import Sequence

from generator.bench.glued import GluedBody, glued_bodies
from generator.bench.model import Bench
from generator.calculators.bodies import Body
from generator.calculators.collisions import way_out
from generator.calculators.lifting import passes
from generator.figures.rows.joinery import GluedRow


def glued_rows(bench: Bench, solids: Sequence[Body]) -> tuple[GluedRow, ...]:
    """The bodies that never come apart again, the largest first. `solids` are those of the proof."""
    by_name, door = {body.name: body for body in solids}, bench.spec.limits.door
    boards = [body for body in solids if body.kind == "board"]
    rows = []
    for body in glued_bodies([part for part in bench.parts if part.is_bar], bench.joints, bench.joinings):
        own = [by_name[mark] for mark in body.marks if mark in by_name]
        captive = tuple(board.name for board in boards if way_out((board,), own, ()) is None)
        rows.append(GluedRow(body.marks, body.size, passes(body.size, door), captive))
    return tuple(sorted(rows, key=lambda row: -row.sizes[0] * row.sizes[1] * row.sizes[2]))


def all_pass(bench: Bench, bodies: Sequence[GluedBody]) -> bool:
    """Whether each of these bodies goes through the door."""
    return all(passes(body.size, bench.spec.limits.door) for body in bodies)
