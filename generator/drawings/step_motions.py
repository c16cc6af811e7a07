"""What moves in a step picture, and how far off its place it is drawn."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from generator.drawings.dimensions import Ruler
from generator.drawings.eye import Axis
from generator.figures.model import Figures
from generator.figures.rows.assembly import MotionRow, Shape, Step

#: How far a piece is drawn off its place: this part of its size, within these bounds (mm of the bench). What is
#: lowered in stands off by more, so that it does not lie on what is below it.
STAND_OFF, NEAREST, LOWERED, FARTHEST = 0.45, 110.0, 200.0, 330.0
#: Pieces nearer than this touch (mm).
TOUCH = 1.5
#: What holds a top, in the list of a step's places.
BRACKET = "top bracket"


@dataclass(frozen=True)
class DrawnMotion:
    """A motion as drawn: its pieces' blocks, moved off their place, and by how much."""

    motion: MotionRow
    shapes: tuple[Shape, ...]
    offset: tuple[float, float, float]
    lines: tuple[str, ...] = ()
    """What is said of it below its name, where that is no part's group and size."""
    has_size: bool = False
    """Whether one of these is a length."""
    brief: tuple[str, ...] = ()
    """What of that is said where there is little room."""


def shown_motions(step: Step, shapes: Mapping[str, Shape]) -> list[DrawnMotion]:
    """The motions into the bench or the one sub-assembly; of several like ones the first is shown for all."""
    seen = [motion for motion in step.motions if any(mark in shapes for mark in motion.marks)]
    if not seen:
        return []
    homes = [motion.into for motion in seen]
    home = step.assembly or ("bench" if "bench" in homes else homes[0])
    return [
        DrawnMotion(motion, tuple(shapes[mark] for mark in motion.marks if mark in shapes), (0.0, 0.0, 0.0))
        for motion in seen
        if motion.into == home
    ]


def brackets_of(figures: Figures, step: Step, ruler: Ruler) -> list[DrawnMotion]:
    """The brackets that a step puts below the top, in their places along the bars."""
    brackets = figures.assembly.brackets
    if not brackets or not any(place.item == BRACKET for place in step.places):
        return []
    shapes = tuple(Shape(body.name, "plate", body.blocks, body.blocks) for body in brackets)
    name = f"{len(brackets)} × {BRACKET}"
    motion = MotionRow(name, tuple(body.name for body in brackets), "", "bench", called=name)
    lines = list(_along_bars(figures, step, ruler))
    return [DrawnMotion(motion, shapes, (0.0, 0.0, 0.0), tuple(lines), True)]


def _along_bars(figures: Figures, step: Step, ruler: Ruler) -> Iterator[str]:
    """From which end of which bar its brackets are measured, and on which of its faces they are."""
    bars = {shape.mark: shape.whole for shape in figures.assembly.shapes}
    found: dict[tuple[str, tuple[Fraction, ...]], list[str]] = {}
    for place in (place for place in step.places if place.item == BRACKET):
        blocks = bars.get(place.part, ())
        long = [max(b[i + 3] for b in blocks) - min(b[i] for b in blocks) for i in range(3)] if blocks else []
        end = "front" if long and long[1] == max(long) else "left"
        found.setdefault((end, place.at), []).append(f"{place.part} {place.face} face")
    for (end, at), faces in found.items():
        yield f"{', '.join(faces)}: {', '.join(map(ruler.text, at))} from {end} end"


def apart(moves: Sequence[DrawnMotion], standing: Sequence[Shape], up: Axis) -> Iterator[DrawnMotion]:
    """Each motion moved off its place; what comes first and touches nothing stays where it belongs."""
    around_it = [block for shape in standing for block in shape.whole]
    for move in moves:
        own = [block for shape in move.shapes for block in shape.whole]
        held = move.shapes[0].is_small or any(touch(one, other) for one in own for other in around_it)
        if move.motion.way and around_it and held:
            axis, sign = "xyz".index(move.motion.way[1]), 1 if move.motion.way[0] == "-" else -1
            size = max(b[axis + 3] for b in own) - min(b[axis] for b in own)
            offset = [0.0, 0.0, 0.0]
            offset[axis] = sign * min(max(STAND_OFF * size, LOWERED if axis == up[0] else NEAREST), FARTHEST)
            move = replace(move, offset=(offset[0], offset[1], offset[2]))
        around_it += own
        yield move


def touch(one: Sequence[float], other: Sequence[float]) -> bool:
    """Whether two blocks are as near as if they touched."""
    return all(
        one[axis] - other[axis + 3] < TOUCH and other[axis] - one[axis + 3] < TOUCH for axis in range(3)
    )


def moved(block: Sequence[float], offset: Sequence[float]) -> tuple[float, ...]:
    """A block off its place."""
    return tuple(value + offset[index % 3] for index, value in enumerate(block))
