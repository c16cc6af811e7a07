"""What small pictures show of the cutting: threads in the ends of bars, pockets in walls, edges that are sealed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.bench.acts import NOW, POCKETS, SEAL, TAP, THEN, Act
from generator.bench.model import Part
from generator.figures.rows.assembly import PlaceRow
from generator.figures.tray_screws import faces_of

#: How pockets are cut, and the edges sealed: sentences of the step.
IN_FLAT_WALLS = (
    "Cut the pockets for the tray screws now, while the walls are flat.",
    "Drill at 15 degrees to the face. The screw must come out in the centre of the top edge.",
)
SEAL_EDGES = "Then seal the edges: you cannot reach them in the slots later."


def at_ends(bars: Sequence[Part], deburr: str) -> Iterator[Act]:
    """The threads that are cut into the ends of bars; `deburr` is the step's sentence on what comes with it."""
    taps = (each for bar in bars for each in bar.operations if each.op.startswith("tap"))
    for thread in dict.fromkeys(each.purpose.partition(" for ")[0] for each in taps):
        yield Act(TAP, THEN, f"Tap {thread} straight into the ends that the part sheets name. {deburr}")


def on_boards(pockets: Sequence[PlaceRow]) -> Iterator[Act]:
    """The pockets of walls, where there are any, and the edges; both in words of the step."""
    if pockets:
        yield Act(POCKETS, NOW, f"Pockets in the {faces_of(pockets)}. {IN_FLAT_WALLS[1]}")
    yield Act(SEAL, THEN, SEAL_EDGES)
