"""What the picture of a step shows that bolts benches together: this one, and each other one drawn off its side."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from generator.drawings.dimensions import Ruler
from generator.drawings.step_arrows import bounds, end_centre
from generator.drawings.step_motions import DrawnMotion
from generator.figures.model import Figures
from generator.figures.rows.assembly import MotionRow, Shape
from generator.figures.rows.joins import JoinRow
from generator.geometry import FACES

Place = tuple[float, ...]
OFF = 420.0
"""How far another bench is drawn off (mm)."""
TOP = 18.0
"""How thick the top of a bench of another spec is drawn (mm)."""
OPPOSITE = dict(FACES.values()) | {high: low for low, high in FACES.values()}


@dataclass(frozen=True)
class Joined:
    """The frame and top of this bench, the others, the way of each with where it is pushed, and where its bolts go."""

    standing: tuple[Shape, ...]
    moves: tuple[DrawnMotion, ...]
    pushes: tuple[tuple[Place, str], ...]
    bolts: tuple[tuple[Place, Place], ...]


def joined(figures: Figures, there: Sequence[Shape], ruler: Ruler) -> Joined:
    """The benches side by side, empty: members and tops alone, each as one block."""
    high = max(bounds(shape.whole)[5] for shape in there)
    own = tuple(_whole(shape) for shape in there if shape.is_frame or bounds(shape.whole)[5] == high)
    moves: list[DrawnMotion] = []
    pushes: list[tuple[Place, str]] = []
    bolts: list[tuple[Place, Place]] = []
    for row in figures.joins:
        axis, sign = _way(row.side)
        offset = [0.0, 0.0, 0.0]
        offset[axis] = sign * OFF
        shapes = tuple(_other(figures, row, own))
        lines = (
            f"{len(row.bolts)} × {row.thread}, upper first",
            f"gap {ruler.text(row.gap)} between the tops" if row.gap else "tops touch",
        )
        name = f"{row.side}: {'next bench' if row.same_spec else row.other}"
        motion = MotionRow(name, tuple(each.mark for each in shapes), "", "bench", called=name)
        place = (offset[0], offset[1], offset[2])
        moves.append(DrawnMotion(motion, shapes, place, lines, bool(row.gap), lines[:1]))
        far = list(
            end_centre(bounds([block for each in shapes for block in each.whole]), axis, high=sign > 0)
        )
        far[axis] += offset[axis]
        pushes.append((tuple(far), f"{'-' if sign > 0 else '+'}{'xyz'[axis]}"))
        bolts += _bolts(figures, row, axis, sign)
    return Joined(own, tuple(moves), tuple(pushes), tuple(bolts))


def _way(side: str) -> tuple[int, int]:
    """The axis across a side of the bench, and which way is out."""
    axis = next(axis for axis, faces in FACES.items() if side in faces)
    return "xyz".index(axis), 1 if side == FACES[axis][1] else -1


def _whole(shape: Shape) -> Shape:
    box = (bounds(shape.whole),)
    return replace(shape, seated=box, whole=box)


def _other(figures: Figures, row: JoinRow, own: Sequence[Shape]) -> Iterator[Shape]:
    """The other bench in its place: this one again, or the edges of a bench of that size where the spec is another."""
    x0, y0, x1, y1 = (float(each) for each in row.outline)
    layout = figures.layout
    size = (float(layout.length), float(layout.depth))
    if row.same_spec and row.other_side == OPPOSITE[row.side] and (x1 - x0, y1 - y0) == size:
        for shape in own:
            blocks = tuple(
                tuple(value + (x0, y0, float(row.step))[index % 3] for index, value in enumerate(block))
                for block in shape.whole
            )
            yield replace(shape, mark=f"{row.side} {shape.mark}", seated=blocks, whole=blocks)
        return
    bar, high = float(layout.section), float(layout.frame_height) + float(row.step)
    posts = [(x, y, 0.0, x + bar, y + bar, high) for x in (x0, x1 - bar) for y in (y0, y1 - bar)]
    rails = [(x0 + bar, y, z, x1 - bar, y + bar, z + bar) for y in (y0, y1 - bar) for z in (0.0, high - bar)]
    ends = [(x, y0 + bar, z, x + bar, y1 - bar, z + bar) for x in (x0, x1 - bar) for z in (0.0, high - bar)]
    for number, block in enumerate((*posts, *rails, *ends)):
        yield Shape(f"{row.side} {number}", "bar", (block,), (block,))
    top = (x0, y0, high, x1, y1, high + TOP)
    yield Shape(f"{row.side} top", "board", (top,), (top,))


def _bolts(figures: Figures, row: JoinRow, axis: int, sign: int) -> Iterator[tuple[Place, Place]]:
    """From each hole of this frame to where the same hole of the other one is drawn."""
    layout = figures.layout
    face = float((layout.length, layout.depth)[axis]) if sign > 0 else 0.0
    for bolt in row.bolts:
        start = [float(bolt.from_corner), float(bolt.from_corner), float(bolt.up)]
        start[axis] = face
        end = list(start)
        end[axis] += sign * (OFF + float(row.apart))
        yield tuple(start), tuple(end)
