"""A story stick in the step picture that sets posts by it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from generator.drawings.step_arrows import bounds
from generator.drawings.step_motions import DrawnMotion
from generator.figures.model import Figures
from generator.figures.rows.assembly import MotionRow, Shape

#: How the words of a step name a story stick, how thick and high one is drawn, and how far before its rail: against
#: it, it would look like a part of it (mm).
STICK, STICK_SIZE, BEFORE = "X stick", (20.0, 40.0), 60.0


def shown_stick(figures: Figures, there: Sequence[Shape]) -> Iterator[DrawnMotion]:
    """The stick of the front rail, before the outside of the rail, flush with its left end and its top."""
    rails = {shape.mark: bounds(shape.whole) for shape in there if shape.is_frame}
    for stick in figures.sticks:
        rail = next((rails[mark] for mark in stick.lies_on.split(" and ") if mark in rails), None)
        if stick.along == "x" and stick.marks and rail:
            thick, high = STICK_SIZE
            block = (
                rail[0],
                rail[1] - BEFORE - thick,
                rail[5] - high,
                rail[0] + float(stick.length),
                rail[1] - BEFORE,
                rail[5],
            )
            shape = Shape(stick.name, "board", (block,), (block,))
            name = f"{stick.name} stick"
            motion = MotionRow(name, (stick.name,), "", "bench", called=name)
            said = ("against the rail", "its left end at the end of the rail", "posts at its marks")
            yield DrawnMotion(motion, (shape,), (0.0, 0.0, 0.0), said)
            return
