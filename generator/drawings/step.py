"""A step of the assembly in isometric: what is there already in neutral tints, what is added in its own, with arrows.

New pieces also have bolder outlines, so that they differ in grey print too. Small things in slots are left out.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import product
from math import hypot

from generator.calculators.collisions import OPPOSITE
from generator.drawings.canvas import Canvas, Drawing
from generator.drawings.dimensions import ARROW, ARROW_HALF
from generator.drawings.extent import Point
from generator.drawings.isometric import DrawnBlock, VisibleFace, faces_of, project, visible_faces
from generator.drawings.letter_sizes import SMALL_TEXT, line_height, text_width
from generator.drawings.painted import Painted
from generator.drawings.scene import VIEWS, in_scene, paint, piece_solid, scaled
from generator.drawings.shapes import Text
from generator.drawings.stands import with_stands
from generator.figures.model import Figures
from generator.figures.rows.assembly import MotionRow, Shape, Step

NO_LINKS: Mapping[str, str] = {}

#: How far a piece is drawn off its place: this part of its size, within these bounds (mm of the bench). What is
#: lowered in stands off by more, so that it does not lie on what is below it.
STAND_OFF, NEAREST, LOWERED, FARTHEST = 0.45, 110.0, 200.0, 330.0
#: Pieces nearer than this touch (mm).
TOUCH = 1.5
#: A face carries a mark when it is this many times as large.
LETTERED = 3.0
#: Clear mm between two labels: their halos do not touch, and they are not read as one of two lines.
BETWEEN = 1.5
#: Where on a face its mark may be, as parts of its two sides.
SPOTS = (0.5, 0.3, 0.7, 0.15, 0.85)
#: An arrow that pushes from behind is this part of the way long.
PUSH = 0.6
#: Corners that a step may be seen from, the usual one first.
VIEWS_TRIED = ("front right", "rear left", "front left", "rear right")
#: Of a piece this part of what it would show alone is enough; another corner must show this much of a piece more.
ENOUGH, BETTER = 0.4, 0.25
#: More arrows than this show nothing more.
MOST_ARROWS = 12

_WAYS = {str(way): way for way in OPPOSITE}


@dataclass(frozen=True)
class DrawnMotion:
    """A motion as drawn: its pieces' blocks, moved off their place, and by how much."""

    motion: MotionRow
    shapes: tuple[Shape, ...]
    offset: tuple[float, float, float]


def draw_step(figures: Figures, step: Step, links: Mapping[str, str] = NO_LINKS) -> Drawing | None:
    """The picture of a step; None for one that adds nothing to be seen. `links` lead from a mark to its sheet."""
    shapes = with_stands(figures)
    moves = shown_motions(step, shapes)
    if not moves:
        return None
    standing = [shapes[mark] for mark in step.standing if mark in shapes]
    if moves[0].motion.into not in ("bench", step.assembly):
        standing = []
    moving = list(_apart(moves, standing))
    view, faces = _best_view(standing, moving)
    canvas = Canvas()
    scale = paint(canvas, faces)
    painted = Painted(faces)
    _arrows(canvas, moving, painted, view, scale)
    seen = {face.solid.name for face in faces}
    named = [move for move in moving if seen & set(move.motion.marks) and move.shapes[0].kind != "slide"]
    _labels(canvas, named, painted, scale, links)
    from_where = f"Seen from the {view}." if standing else ""
    _caption(canvas, from_where)
    title = f"Step {step.n}: {step.title}"
    return canvas.finish(f"picture-{step.key}", title, f"{_description(step, moving)} {from_where}".rstrip())


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


def _apart(moves: Sequence[DrawnMotion], standing: Sequence[Shape]) -> Iterator[DrawnMotion]:
    """Each motion moved off its place; what comes first and touches nothing stays where it belongs."""
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


def _best_view(standing: Sequence[Shape], moving: Sequence[DrawnMotion]) -> tuple[str, list[VisibleFace]]:
    """From the front right, unless what is added shows better from another corner."""
    best: tuple[float, str, list[VisibleFace]] | None = None
    for view in VIEWS_TRIED:
        faces = visible_faces(list(_solids(standing, moving, view)))
        shown = _shown(moving, view, faces)
        if best is None or shown > best[0] + BETTER:
            best = shown, view, faces
        if shown > len(moving) - BETTER:
            break
    assert best is not None
    return best[1], best[2]


def _shown(moving: Sequence[DrawnMotion], view: str, faces: Sequence[VisibleFace]) -> float:
    """How many of the pieces show enough; one of which less shows counts for a part."""
    seen: dict[str, float] = {}
    for face in faces:
        if face.solid.new:
            seen[face.solid.name] = seen.get(face.solid.name, 0.0) + face.share * face.area
    found = 0.0
    for move in moving:
        alone = sum(face.area for solid in _solids((), [move], view) for face in faces_of(solid))
        shows = sum(seen.get(mark, 0.0) for mark in move.motion.marks)
        found += min(1.0, float(shows / alone) / ENOUGH)
    return found


def _touch(one: Sequence[float], other: Sequence[float]) -> bool:
    return all(
        one[axis] - other[axis + 3] < TOUCH and other[axis] - one[axis + 3] < TOUCH for axis in range(3)
    )


def _moved(block: Sequence[float], offset: Sequence[float]) -> tuple[float, ...]:
    return tuple(value + offset[index % 3] for index, value in enumerate(block))


def _solids(standing: Sequence[Shape], moving: Sequence[DrawnMotion], view: str) -> Iterator[DrawnBlock]:
    for shape in standing:
        for block in shape.seated:
            yield piece_solid(shape, block, view, new=False)
    for move in moving:
        for shape in move.shapes:
            blocks = shape.whole if any(move.offset) or shape.kind == "clip" else shape.seated
            for block in blocks:
                yield piece_solid(shape, _moved(block, move.offset), view, new=True)


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
            # the nearest and the farthest corner of a block are inside its outline
            if len(set(corner)) > 1 and _is_leading(view, axis, end, corner):
                points.append(project([scene[i + 3 * high] for i, high in enumerate(corner)]))
    return sorted(points, key=lambda point: -point[1])


def _is_leading(view: str, axis: int, end: int, corner: tuple[int, ...]) -> bool:
    if axis == 2:
        return corner[2] == end
    place = next(i for i, (own, _) in enumerate(VIEWS[view]) if own == axis)
    sign = VIEWS[view][place][1]
    return corner[place] == (end if sign > 0 else 1 - end)


def _arrows(canvas: Canvas, moving: Sequence[DrawnMotion], painted: Painted, view: str, scale: float) -> None:
    """From each piece that is drawn off its place, towards it, where it can be seen and does not cross the piece."""
    shown = [move for move in moving if any(move.offset)]
    for move in shown[:MOST_ARROWS]:
        blocks = [_moved(block, move.offset) for shape in move.shapes for block in shape.whole]
        corners = _leading_corners(blocks, move.motion.way, view)
        own = set(move.motion.marks)
        start = _first_free(corners, painted.covers(corners, own))
        shift = project([-sign * move.offset[axis] for axis, sign in (*VIEWS[view], (2, 1))])
        if start is None:
            # the leading end is out of sight: push from behind
            corners = _leading_corners(blocks, OPPOSITE[_WAYS[move.motion.way]], view)
            behind = [(x - shift[0] * PUSH, y - shift[1] * PUSH) for x, y in corners]
            hidden = painted.covers(corners, own)
            tip = _first_free(
                corners, [no or painted.shows_new(at) for no, at in zip(hidden, behind, strict=True)]
            )
            if tip is None:
                continue
            start = (tip[0] - shift[0] * PUSH, tip[1] - shift[1] * PUSH)
        else:
            tip = (start[0] + shift[0] * 0.92, start[1] + shift[1] * 0.92)
        _arrow(canvas, scaled(start, scale), scaled(tip, scale))


def _first_free(points: Sequence[Point], taken: Sequence[bool]) -> Point | None:
    return next((point for point, no in zip(points, taken, strict=True) if not no), None)


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


def _labels(
    canvas: Canvas,
    moving: Sequence[DrawnMotion],
    painted: Painted,
    scale: float,
    links: Mapping[str, str],
) -> None:
    """The mark of each thing that moves, on it or beside it, where it shows and where no other text is."""
    for move in moving:
        words, own = _words(move.motion.name), set(move.motion.marks)
        mine = [face for face in painted.faces if face.solid.name in own]
        corners = [corner for face in mine for corner in face.corners]
        hidden = painted.covers(corners, own)
        shown = [corner for corner, no in zip(corners, hidden, strict=True) if not no]
        corners = [scaled(corner, scale) for corner in shown or corners]
        above, *others = _beside(words, corners)
        others.sort(key=lambda text: _hides_new(text, painted, scale))
        for text in (*_on_faces(words, mine, painted, scale), above, *others):
            if canvas.text_if_free(replace(text, link=links.get(words, "")), clear=BETWEEN):
                break


def _caption(canvas: Canvas, words: str) -> None:
    """Below the picture, at its left."""
    around = canvas.extents()
    canvas.text((around.left, around.bottom + 2 * SMALL_TEXT), words, SMALL_TEXT)


def _words(name: str) -> str:
    for kind in ("drawer ", "tote "):
        name = name.removeprefix(kind)
    for more in (" with its strips", " with its posts", " with its clips"):
        name = name.removesuffix(more)
    return name


def _on_faces(words: str, mine: Sequence[VisibleFace], painted: Painted, scale: float) -> Iterator[Text]:
    """On a board's face that can carry it, where it shows, the largest first; bars are too narrow."""
    own = {face.solid.name for face in mine}
    needed = LETTERED * text_width(words, SMALL_TEXT) * line_height(SMALL_TEXT)
    boards = [face for face in mine if face.solid.ridge < 0]
    for face in sorted(boards, key=lambda each: -each.area):
        if face.area * scale**2 < needed:
            return
        reach = text_width(words, SMALL_TEXT) / 2 / scale
        spots = list(_spots(face))
        hidden = painted.covers([(x + shift, y) for x, y in spots for shift in (-reach, 0.0, reach)], own)
        for index, (x, y) in enumerate(spots):
            if not any(hidden[3 * index : 3 * index + 3]):
                yield Text(
                    (x * scale, y * scale + SMALL_TEXT / 2), words, SMALL_TEXT, "middle", style="iso-mark"
                )


def _spots(face: VisibleFace) -> Iterator[Point]:
    """The middle of a face, then places farther and farther from it."""
    (x0, y0), (x1, y1), _, (x3, y3) = face.corners
    grid = sorted(product(SPOTS, SPOTS), key=lambda spot: abs(spot[0] - 0.5) + abs(spot[1] - 0.5))
    for u, v in grid:
        yield (x0 + u * (x1 - x0) + v * (x3 - x0), y0 + u * (y1 - y0) + v * (y3 - y0))


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


def _hides_new(text: Text, painted: Painted, scale: float) -> bool:
    """Whether a label covers what is added: it would be taken for the name of the piece below it."""
    box = text.extent()
    places = (box.left, box.centre[0], box.right)
    return any(painted.shows_new((x / scale, box.centre[1] / scale)) for x in places)


def _description(step: Step, moving: Sequence[DrawnMotion]) -> str:
    names = ", ".join(move.motion.name for move in moving)
    where = f" in the {step.assembly}" if step.assembly else ""
    direction = f" {step.direction[0].upper()}{step.direction[1:]}." if step.direction else ""
    return f"Added{where}: {names}.{direction}"
