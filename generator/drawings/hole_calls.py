"""Call-outs at holes: how wide each kind is, and how many there are, once beside one of them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence

from generator.drawings.canvas import Canvas
from generator.drawings.dimensions import Ruler
from generator.drawings.extent import Extent, Point
from generator.drawings.letter_sizes import SMALL_TEXT
from generator.drawings.shapes import Arc, Text
from generator.figures.rows.parts import OperationRow

CORE = 0.8
"""How wide the core of a thread is drawn, as a part of the thread: less than it is, to tell both lines apart."""
OFF = 0.8
"""Clear mm between a hole and its call-out."""


def size_of(operation: OperationRow, ruler: Ruler) -> str:
    """What a hole is made to: `Ø9`, `M8` for a thread, `40 × 16`."""
    if isinstance(operation.size, tuple):
        return ruler.size(*operation.size)
    return operation.thread or ruler.diameter(operation.size)


def draw_hole(
    canvas: Canvas, centre: Point, radius: float, operation: OperationRow, style: str = "hole"
) -> None:
    """A hole from its face: a thread by its sign, three quarters of a thin circle around the core (ISO 6410-1)."""
    if operation.thread:
        canvas.circle(centre, radius * CORE, style)
        canvas.add(Arc(centre, radius, 0.0, 270.0, "thin"))
    else:
        canvas.circle(centre, radius, style)


def counted(label: str, count: int) -> str:
    """`4× Ø9`; a hole that is alone needs no count."""
    return f"{count}× {label}" if count > 1 else label


def call_holes(
    canvas: Canvas,
    holes: Iterable[tuple[OperationRow, Extent]],
    room: Extent,
    ruler: Ruler,
    *,
    each: bool = False,
) -> None:
    """One call-out for all holes of a size, or at `each` hole, where it touches no hole and no lettering.

    `holes` come with the rectangles that they take on the paper.
    """
    kinds: dict[str, list[Extent]] = defaultdict(list)
    for operation, box in holes:
        if not isinstance(operation.size, tuple):
            kinds[size_of(operation, ruler)].append(box)
    taken = [box for boxes in kinds.values() for box in boxes]
    for label, boxes in kinds.items():
        for box in boxes:
            others = [other for other in taken if other != box]
            written = _write(canvas, label if each else counted(label, len(boxes)), box, others, room)
            if written and not each:
                break


def _write(canvas: Canvas, label: str, hole: Extent, others: Sequence[Extent], room: Extent) -> bool:
    """The call-out off one of the four shoulders of a hole; False where none is free."""
    reach = (hole.right - hole.left) / 2 * 0.71 + OFF
    x, y = hole.centre
    for right, down in ((1, -1), (1, 1), (-1, -1), (-1, 1)):
        at = (x + right * reach, y + down * reach + (SMALL_TEXT if down > 0 else 0.0))
        text = Text(at, label, SMALL_TEXT, "start" if right > 0 else "end")
        if not any(text.extent().overlaps(other) for other in others) and canvas.text_if_free(text, room):
            return True
    return False
