"""A step of the assembly in isometric: what stands there in neutral tints, what is added in its own, with arrows.

New pieces also have bolder outlines, so that grey print tells them apart. Small things in slots are left out.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise, product
from math import hypot

from generator.calculators.collisions import OPPOSITE
from generator.drawings.canvas import (
    SMALL_TEXT,
    Canvas,
    Drawing,
    Point,
    Text,
    around,
    line_height,
    text_width,
)
from generator.drawings.dimensions import ARROW, ARROW_HALF
from generator.drawings.isometric import Face, Solid, project, visible_faces
from generator.figures.model import Figures, Motion, Shape, Step

#: The largest picture (mm of paper); smaller scenes are not blown up beyond this scale.
PICTURE_WIDTH, PICTURE_HEIGHT, LARGEST_SCALE = 165.0, 115.0, 0.2
#: How far a piece stands off its place: this part of its size, within these bounds (mm of the bench). What is
#: lowered in stands off by more, so that it does not lie on what is below it.
STAND_OFF, NEAREST, LOWERED, FARTHEST = 0.45, 110.0, 200.0, 330.0
#: Pieces nearer than this touch (mm).
TOUCH = 1.5
#: A face carries a mark when it is this many times as large.
LETTERED = 3.0
#: Where on a face its mark may stand, as parts of its two sides.
SPOTS = (0.5, 0.3, 0.7, 0.15, 0.85)
#: A point whose turn about a face's edge is smaller lies on that edge (mm²).
EDGE = 1e-3
#: The lip lines of a slot lie this part of the section from its middle.
LIP_LINES = 0.11
#: An arrow that pushes from behind is this part of the way long.
PUSH = 0.6
#: More arrows than this tell nothing more.
MOST_ARROWS = 12

_MATERIALS = {
    "bar": "bar",
    "board": "wood",
    "strip": "wood",
    "trim": "dark",
    "plate": "dark",
    "clip": "dark",
    "slide": "dark",
    "tote": "tote",
}
#: Axis of the frame and sign for the scene's a and b: from the front right, or from the back left.
_VIEWS = {"front": ((1, -1), (0, 1)), "back": ((1, 1), (0, -1))}

_WAYS = {str(way): way for way in OPPOSITE}


@dataclass(frozen=True)
class Moving:
    """A motion as drawn: its pieces' blocks at the place where they stand off, and by how much."""

    motion: Motion
    shapes: tuple[Shape, ...]
    offset: tuple[float, float, float]


def draw_step(figures: Figures, step: Step) -> Drawing | None:
    """The picture of a step; None for one that adds nothing to be seen."""
    shapes = {shape.mark: shape for shape in figures.assembly.shapes}
    moves = shown_motions(step, shapes)
    if not moves:
        return None
    standing = [shapes[mark] for mark in step.standing if mark in shapes]
    if moves[0].motion.into not in ("bench", step.assembly):
        standing = []
    moving = list(_apart(moves, standing))
    view, faces = _best_view(standing, moving)
    canvas = Canvas()
    scale = _paint(canvas, faces)
    _arrows(canvas, moving, faces, view, scale)
    seen = {face.solid.name for face in faces}
    named = [move for move in moving if seen & set(move.motion.marks) and move.shapes[0].kind != "slide"]
    _labels(canvas, named, faces, scale)
    title = f"Step {step.n}: {step.title}"
    return canvas.finish(f"step-{step.key}", title, _description(step, moving))


def draw_whole(figures: Figures) -> Drawing:
    """The finished bench from its front right."""
    canvas = Canvas()
    _paint(canvas, visible_faces(list(_solids(figures.assembly.shapes, (), "front"))))
    return canvas.finish("whole-bench", "The finished bench", figures.spec.title)


def shown_motions(step: Step, shapes: Mapping[str, Shape]) -> list[Moving]:
    """The motions into the bench or the one sub-assembly; of several like ones the first is shown for all."""
    seen = [motion for motion in step.motions if any(mark in shapes for mark in motion.marks)]
    if not seen:
        return []
    homes = [motion.into for motion in seen]
    home = step.assembly or ("bench" if "bench" in homes else homes[0])
    return [
        Moving(motion, tuple(shapes[mark] for mark in motion.marks if mark in shapes), (0.0, 0.0, 0.0))
        for motion in seen
        if motion.into == home
    ]


def _apart(moves: Sequence[Moving], standing: Sequence[Shape]) -> Iterator[Moving]:
    """Each motion stood off its place; what comes first and touches nothing stays where it belongs."""
    around_it = [block for shape in standing for block in shape.whole]
    for move in moves:
        own = [block for shape in move.shapes for block in shape.whole]
        if move.motion.way and any(_touch(one, other) for one in own for other in around_it):
            axis, sign = "xyz".index(move.motion.way[1]), 1 if move.motion.way[0] == "-" else -1
            size = max(b[axis + 3] for b in own) - min(b[axis] for b in own)
            offset = [0.0, 0.0, 0.0]
            offset[axis] = sign * min(max(STAND_OFF * size, LOWERED if axis == 2 else NEAREST), FARTHEST)
            move = replace(move, offset=(offset[0], offset[1], offset[2]))
        around_it += own
        yield move


def _best_view(standing: Sequence[Shape], moving: Sequence[Moving]) -> tuple[str, list[Face]]:
    """From the front right, unless more of what is added shows from the back left."""
    views = {}
    for view in _VIEWS:
        faces = visible_faces(list(_solids(standing, moving, view)))
        seen = {face.solid.name for face in faces if face.solid.new}
        views[view] = (sum(not seen.isdisjoint(move.motion.marks) for move in moving), faces)
        if views[view][0] == len(moving):
            break
    best = max(views, key=lambda view: views[view][0])
    return best, views[best][1]


def _touch(one: Sequence[float], other: Sequence[float]) -> bool:
    return all(
        one[axis] - other[axis + 3] < TOUCH and other[axis] - one[axis + 3] < TOUCH for axis in range(3)
    )


def _moved(block: Sequence[float], offset: Sequence[float]) -> tuple[float, ...]:
    return tuple(value + offset[index % 3] for index, value in enumerate(block))


def in_scene(block: Sequence[float], view: str) -> tuple[float, ...]:
    """A block of the frame in the scene's axes."""
    low, high = [], []
    for axis, sign in _VIEWS[view]:
        ends = sorted((sign * block[axis], sign * block[axis + 3]))
        low.append(ends[0])
        high.append(ends[1])
    return (*low, block[2], *high, block[5])


def _solids(standing: Sequence[Shape], moving: Sequence[Moving], view: str) -> Iterator[Solid]:
    for shape in standing:
        for block in shape.seated:
            yield _solid(shape, block, view, new=False)
    for move in moving:
        for shape in move.shapes:
            blocks = shape.whole if any(move.offset) or shape.kind == "clip" else shape.seated
            for block in blocks:
                yield _solid(shape, _moved(block, move.offset), view, new=True)


def _solid(shape: Shape, block: Sequence[float], view: str, *, new: bool) -> Solid:
    placed = in_scene(block, view)
    ridge = -1
    if shape.kind == "bar":
        ridge = max(range(3), key=lambda axis: placed[axis + 3] - placed[axis])
    return Solid(shape.mark, placed, _MATERIALS.get(shape.kind, "dark"), new, ridge)


def _paint(canvas: Canvas, faces: Sequence[Face]) -> float:
    """Draw all faces that show; the scale (paper to bench) that they were drawn at."""
    extent = around(corner for face in faces for corner in face.corners)
    scale = min(PICTURE_WIDTH / extent.width, PICTURE_HEIGHT / extent.height, LARGEST_SCALE)
    shared = _shared_blocks(faces)
    for face in faces:
        corners = [_scaled(corner, scale) for corner in face.corners]
        tint = "new" if face.solid.new else face.solid.material
        edges = "iso-edge-new" if face.solid.new else "iso-edge"
        mates = [block for block in shared.get(face.solid.name, ()) if block != face.solid.block]
        canvas.polygon(corners, f"iso-{tint}-{face.side}")
        if mates:
            for start, end in _outline(face, mates):
                canvas.line(_scaled(project(start), scale), _scaled(project(end), scale), edges)
        else:
            canvas.polygon(corners, edges)
        _lip_lines(canvas, face, scale)
    return scale


def _scaled(point: Point, scale: float) -> Point:
    return (point[0] * scale, point[1] * scale)


def _shared_blocks(faces: Sequence[Face]) -> dict[str, set[tuple[float, ...]]]:
    found: dict[str, set[tuple[float, ...]]] = {}
    for face in faces:
        found.setdefault(face.solid.name, set()).add(face.solid.block)
    return {name: blocks for name, blocks in found.items() if len(blocks) > 1}


def _outline(
    face: Face, mates: Sequence[Sequence[float]]
) -> Iterator[tuple[tuple[float, ...], tuple[float, ...]]]:
    """Edges of a face without the seams to other blocks of the same piece that go on in its plane."""
    block, normal = face.solid.block, face.axis
    level = [mate for mate in mates if abs(mate[normal + 3] - block[normal + 3]) < 0.01]
    for along in (axis for axis in range(3) if axis != normal):
        across = 3 - normal - along
        for end in (0, 1):
            place = block[across + 3 * end]
            covered = [
                (mate[along], mate[along + 3])
                for mate in level
                if abs(mate[across + 3 * (1 - end)] - place) < 0.01
            ]
            for low, high in _open_runs(block[along], block[along + 3], covered):
                points = []
                for value in (low, high):
                    point = [0.0, 0.0, 0.0]
                    point[normal], point[across], point[along] = block[normal + 3], place, value
                    points.append(tuple(point))
                yield points[0], points[1]


def _open_runs(
    low: float, high: float, covered: Sequence[tuple[float, float]]
) -> Iterator[tuple[float, float]]:
    marks = sorted({low, high, *(min(max(v, low), high) for run in covered for v in run)})
    for start, stop in pairwise(marks):
        middle = (start + stop) / 2
        if not any(a < middle < b for a, b in covered):
            yield start, stop


def _lip_lines(canvas: Canvas, face: Face, scale: float) -> None:
    """Two lines along each long face of a bar are enough to read it as a slotted one."""
    block, ridge = face.solid.block, face.solid.ridge
    if ridge < 0 or face.axis == ridge:
        return
    across = 3 - ridge - face.axis
    middle, width = (block[across] + block[across + 3]) / 2, block[across + 3] - block[across]
    for side in (-1, 1):
        ends = []
        for value in (block[ridge], block[ridge + 3]):
            point = [0.0, 0.0, 0.0]
            point[face.axis], point[ridge] = block[face.axis + 3], value
            point[across] = middle + side * width * LIP_LINES
            ends.append(_scaled(project(point), scale))
        canvas.line(ends[0], ends[1], "iso-slot")


def _leading_corners(blocks: Sequence[Sequence[float]], way: str, view: str) -> list[Point]:
    """Corners of the leading end on the outline of what moves: an arrow from there does not cross it.

    The lowest on paper come first.
    """
    axis, end = "xyz".index(way[1]), 1 if way[0] == "+" else 0
    front = max(b[axis + 3] for b in blocks) if end else min(b[axis] for b in blocks)
    points = []
    for block in (b for b in blocks if abs(b[axis + 3 * end] - front) < 1.0):
        scene = in_scene(block, view)
        for corner in product((0, 1), repeat=3):
            # the nearest and the farthest corner of a block lie inside its outline
            if len(set(corner)) > 1 and _is_leading(view, axis, end, corner):
                points.append(project([scene[i + 3 * high] for i, high in enumerate(corner)]))
    return sorted(points, key=lambda point: -point[1])


def _is_leading(view: str, axis: int, end: int, corner: tuple[int, ...]) -> bool:
    if axis == 2:
        return corner[2] == end
    place = next(i for i, (own, _) in enumerate(_VIEWS[view]) if own == axis)
    sign = _VIEWS[view][place][1]
    return corner[place] == (end if sign > 0 else 1 - end)


def _arrows(canvas: Canvas, moving: Sequence[Moving], faces: Sequence[Face], view: str, scale: float) -> None:
    """From each piece that stands off towards its place, where it can be seen and does not cross the piece."""
    shown = [move for move in moving if any(move.offset)]
    for move in shown[:MOST_ARROWS]:
        blocks = [_moved(block, move.offset) for shape in move.shapes for block in shape.whole]
        corners = _leading_corners(blocks, move.motion.way, view)
        own = set(move.motion.marks)
        start = next((corner for corner in corners if not _is_covered(corner, own, faces)), None)
        shift = project([-sign * move.offset[axis] for axis, sign in (*_VIEWS[view], (2, 1))])
        if start is None:
            # the leading end is out of sight: push from behind
            corners = _leading_corners(blocks, OPPOSITE[_WAYS[move.motion.way]], view)
            pushes = (
                ((x - shift[0] * PUSH, y - shift[1] * PUSH), (x, y))
                for x, y in corners
                if not _is_covered((x, y), own, faces)
            )
            push = next((each for each in pushes if not _hides(each[0], faces)), None)
            if push is None:
                continue
            start, tip = push
        else:
            tip = (start[0] + shift[0] * 0.92, start[1] + shift[1] * 0.92)
        _arrow(canvas, _scaled(start, scale), _scaled(tip, scale))


def _hides(point: Point, faces: Sequence[Face]) -> bool:
    """True when something new shows at a point, so that an arrow there would hide it."""
    return any(face.solid.new and _contains(face.corners, point) for face in faces)


def _is_covered(point: Point, own: set[str], faces: Sequence[Face]) -> bool:
    """True when no face of the piece shows at a point, or one of another piece is painted over it there."""
    mine = [i for i, face in enumerate(faces) if face.solid.name in own and _reaches(face.corners, point)]
    if not mine:
        return True
    later = faces[max(mine) + 1 :]
    return any(_contains(face.corners, point) for face in later if face.solid.name not in own)


def _contains(corners: Sequence[Point], point: Point) -> bool:
    turns = _turns(corners, point)
    return all(turn > EDGE for turn in turns) or all(turn < -EDGE for turn in turns)


def _reaches(corners: Sequence[Point], point: Point) -> bool:
    """True for a point within a face and for one on its edge."""
    turns = _turns(corners, point)
    return all(turn > -EDGE for turn in turns) or all(turn < EDGE for turn in turns)


def _turns(corners: Sequence[Point], point: Point) -> list[float]:
    return [
        (x1 - x0) * (point[1] - y0) - (y1 - y0) * (point[0] - x0)
        for (x0, y0), (x1, y1) in zip(corners, (*corners[1:], corners[0]), strict=True)
    ]


def _arrow(canvas: Canvas, start: Point, tip: Point) -> None:
    length = hypot(tip[0] - start[0], tip[1] - start[1])
    if length < ARROW * 1.2:
        return
    ux, uy = (tip[0] - start[0]) / length, (tip[1] - start[1]) / length
    first = (start[0] + ux * 0.8, start[1] + uy * 0.8)
    neck = (tip[0] - ux * ARROW, tip[1] - uy * ARROW)
    canvas.line(first, tip, "iso-halo")
    canvas.line(first, neck, "iso-arrow")
    wide = 1.5 * ARROW_HALF
    canvas.polygon(
        (tip, (neck[0] - uy * wide, neck[1] + ux * wide), (neck[0] + uy * wide, neck[1] - ux * wide)), "arrow"
    )


def _labels(canvas: Canvas, moving: Sequence[Moving], faces: Sequence[Face], scale: float) -> None:
    """The mark of each thing that moves, on it or beside it, where it shows and where no other text is."""
    for move in moving:
        words, own = _words(move.motion.name), set(move.motion.marks)
        mine = [face for face in faces if face.solid.name in own]
        corners = [corner for face in mine for corner in face.corners]
        shown = [corner for corner in corners if not _is_covered(corner, own, faces)]
        corners = [_scaled(corner, scale) for corner in shown or corners]
        for text in (*_on_faces(words, mine, faces, scale), *_beside(words, corners)):
            if canvas.text_if_free(text):
                break


def _words(name: str) -> str:
    for kind in ("drawer ", "tote "):
        name = name.removeprefix(kind)
    for more in (" with its strips", " with its posts", " with its clips"):
        name = name.removesuffix(more)
    return name


def _on_faces(words: str, mine: Sequence[Face], faces: Sequence[Face], scale: float) -> Iterator[Text]:
    """On a board's face that can carry it, where it shows, the largest first; bars are too narrow."""
    own = {face.solid.name for face in mine}
    needed = LETTERED * text_width(words, SMALL_TEXT) * line_height(SMALL_TEXT)
    boards = [face for face in mine if face.solid.ridge < 0]
    for face in sorted(boards, key=lambda each: -_area(each.corners)):
        if _area(face.corners) * scale**2 < needed:
            return
        reach = text_width(words, SMALL_TEXT) / 2 / scale
        for x, y in _spots(face):
            if not any(_is_covered((x + shift, y), own, faces) for shift in (-reach, 0.0, reach)):
                yield Text(
                    (x * scale, y * scale + SMALL_TEXT / 2), words, SMALL_TEXT, "middle", style="iso-mark"
                )


def _spots(face: Face) -> Iterator[Point]:
    """The middle of a face, then places farther and farther from it."""
    (x0, y0), (x1, y1), _, (x3, y3) = face.corners
    grid = sorted(product(SPOTS, SPOTS), key=lambda spot: abs(spot[0] - 0.5) + abs(spot[1] - 0.5))
    for u, v in grid:
        yield (x0 + u * (x1 - x0) + v * (x3 - x0), y0 + u * (y1 - y0) + v * (y3 - y0))


def _area(corners: Sequence[Point]) -> float:
    pairs = zip(corners, (*corners[1:], corners[0]), strict=True)
    return abs(sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs)) / 2


def _beside(words: str, corners: Sequence[Point]) -> Iterator[Text]:
    """Beside the outermost corners of what moves: above, left, right, below."""
    gap, half = 1.2, SMALL_TEXT / 2
    top, bottom = min(corners, key=lambda p: p[1]), max(corners, key=lambda p: p[1])
    left, right = min(corners), max(corners)
    for (x, y), anchor in (
        ((top[0], top[1] - gap), "middle"),
        ((left[0] - gap, left[1] + half), "end"),
        ((right[0] + gap, right[1] + half), "start"),
        ((bottom[0], bottom[1] + SMALL_TEXT + gap), "middle"),
        ((left[0] - gap, left[1] + half + 2 * SMALL_TEXT), "end"),
        ((right[0] + gap, right[1] + half + 2 * SMALL_TEXT), "start"),
    ):
        yield Text((x, y), words, SMALL_TEXT, anchor, style="iso-mark")


def _description(step: Step, moving: Sequence[Moving]) -> str:
    names = ", ".join(move.motion.name for move in moving)
    where = f" in the {step.assembly}" if step.assembly else ""
    direction = f" {step.direction}." if step.direction else ""
    return f"Added{where}: {names}.{direction}"
