"""The check of the room: floor enough at each side for what opens there and for who opens it."""

from __future__ import annotations

from collections.abc import Iterator

from generator.bench.law import Law
from generator.bench.model import Bench
from generator.codes import Code
from generator.figures.checks.check_result import CheckResult, at_least
from generator.figures.room import room_sides

FLOOR = Law(
    Code.ROOM_FLOOR, "warning", "There is enough free floor at this side",
    "There is too little free floor at this side",
    "Move or turn the bench, or use shorter travel or narrower doors.",
    "What opens there hits the wall, or nobody can stand before it.",
    "the room is as it is: where the bench goes and what opens is the maker's choice",
    quantity="free floor from the edge of the top",
)  # fmt: skip


def room_checks(bench: Bench) -> Iterator[CheckResult]:
    """Each side whose free floor the spec says."""
    for row in room_sides(bench):
        yield at_least(FLOOR, row.free, row.needed, f"{row.side}: {row.furthest}", ("room", row.side))
