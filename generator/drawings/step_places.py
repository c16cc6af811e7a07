"""Where a piece goes that no slot and no mark of its own places: how far from the edges of what it is fixed to."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from generator.bench.fillings.screw_rules import FIXED_IN_BAY
from generator.drawings.dimensions import Ruler
from generator.drawings.step_arrows import bounds
from generator.drawings.step_motions import DrawnMotion
from generator.figures.model import Figures
from generator.figures.rows.assembly import Shape

#: What an edge or face is called by the axis along which it is the first.
FIRST_EDGE = ("left", "front", "bottom")
#: The kind of shapes that lie on a wall.
STRIP = "strip"
#: Nearer than this is touching (mm).
TOUCH = 1.0


def placed_lines(figures: Figures, move: DrawnMotion, there: Sequence[Shape], ruler: Ruler) -> Iterator[str]:
    """`226 from front` and `12 from bottom` of a strip on a wall; height and setback of what is in a bay."""
    if len(move.shapes) != 1 or not move.motion.way:
        return
    shape, axis = move.shapes[0], "xyz".index(move.motion.way[1])
    box = bounds(shape.whole)
    if shape.kind == STRIP:
        wall = next((bounds(each.whole) for each in there if _holds(each, box, axis)), None)
        for across in (i for i in range(3) if i != axis and wall):
            assert wall
            yield f"{_text(box[across] - wall[across], ruler)} from {FIRST_EDGE[across]}"
    if shape.kind == FIXED_IN_BAY:
        yield from _in_bay(figures, move, box, ruler)


def _holds(wall: Shape, box: Sequence[float], axis: int) -> bool:
    """Whether a board has a box on one of its faces across an axis."""
    own = bounds(wall.whole)
    beside = all(own[i] < box[i + 3] and box[i] < own[i + 3] for i in range(3) if i != axis)
    return (
        wall.kind == "board"
        and beside
        and min(abs(own[axis] - box[axis + 3]), abs(own[axis + 3] - box[axis])) < TOUCH
    )


def _in_bay(figures: Figures, move: DrawnMotion, box: Sequence[float], ruler: Ruler) -> Iterator[str]:
    """How far it is above the rail that the bay's height begins on, and behind the face that it comes in by."""
    below = [float(bay.bottom) for bay in figures.layout.bays if float(bay.bottom) <= box[2] + TOUCH]
    frame = bounds([block for shape in figures.assembly.shapes if shape.is_frame for block in shape.whole])
    if below:
        yield f"{_text(box[2] - max(below), ruler)} above rail"
    back = box[1] - frame[1] if move.motion.way == "+y" else frame[4] - box[4]
    yield f"{_text(back, ruler)} behind face"


def _text(length: float, ruler: Ruler) -> str:
    return ruler.text(Fraction(length).limit_denominator(1000))
