"""A step of the assembly in isometric: what is there already in neutral tints, what is added in its own, with arrows.

New pieces also have bolder outlines, so that they differ in grey print too. Small things in slots are left out.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import product
from math import hypot

from generator.drawings.callouts import BESIDE, BETWEEN, Callout, draw_callouts
from generator.drawings.canvas import Canvas, Drawing
from generator.drawings.dimensions import Ruler
from generator.drawings.extent import Extent, Point, shifted, union
from generator.drawings.eye import BELOW, CORNERS, Axis, Eye, lying
from generator.drawings.inset import (
    RADIUS,
    WORDS,
    JointView,
    draw_inset,
    draw_leader,
    draw_rings,
    joint_views,
)
from generator.drawings.isometric import DrawnBlock, VisibleFace, faces_of
from generator.drawings.letter_sizes import SMALL_TEXT, line_height
from generator.drawings.lettering import fitting, wrapped
from generator.drawings.orientation import draw_place, draw_signpost
from generator.drawings.painted import Painted
from generator.drawings.scene import paint, piece_solid, scaled, seen
from generator.drawings.slim import SLIM, SLIM_LABEL, SLIM_WIDTH, again, place_again
from generator.drawings.stands import with_stands
from generator.drawings.step_arrows import CLEAR, DISC, arrow, bounds, end_centre, reach, travel
from generator.figures.model import Figures
from generator.figures.rows.assembly import MotionRow, Shape, Step

NO_LINKS: Mapping[str, str] = {}

#: How far a piece is drawn off its place: this part of its size, within these bounds (mm of the bench). What is
#: lowered in stands off by more, so that it does not lie on what is below it.
STAND_OFF, NEAREST, LOWERED, FARTHEST = 0.45, 110.0, 200.0, 330.0
#: Pieces nearer than this touch (mm).
TOUCH = 1.5
#: The picture between its columns of labels (mm of paper).
WIDTH, HEIGHT = 96.0, 84.0
#: A block that an end frame lies on, and how far from the ends of a member one lies, as part of its length (mm).
BLOCK, NEAR_END = 60.0, 0.2
#: What is this many times as long as thick lies on blocks.
SLENDER = 4.0
#: Where on a face a leader may end, as parts of its two sides.
SPOTS = (0.5, 0.3, 0.7, 0.15, 0.85)
#: Corners that a step may be seen from, the usual one first.
VIEWS_TRIED = ("front right", "rear left", "front left", "rear right")
#: Of a piece this part of what it would show alone is enough; another corner must show this much of a piece more.
ENOUGH, BETTER = 0.4, 0.25
#: Which face of a wall is up when an axis of the bench points up.
UPWARD = {"+x": "right", "-x": "left", "+y": "rear", "-y": "front"}
#: A window into a joint with its words (mm).
INSET_WIDTH = 2 * RADIUS + 3.0 + WORDS
#: More arrows than this show nothing more.
MOST_ARROWS = 12
#: A picture that shows this part of all pieces needs no other to say where in the bench it is.
OF_THE_BENCH = 0.3


@dataclass(frozen=True)
class DrawnMotion:
    """A motion as drawn: its pieces' blocks, moved off their place, and by how much."""

    motion: MotionRow
    shapes: tuple[Shape, ...]
    offset: tuple[float, float, float]


def draw_step(
    figures: Figures,
    step: Step,
    ruler: Ruler,
    links: Mapping[str, str] = NO_LINKS,
    slim_of: Drawing | None = None,
) -> Drawing | None:
    """The picture of a step; None for one that adds nothing to be seen. `links` lead from a mark to its sheet.

    The slim one of a picture is for a phone: its labels are marks, and what is beside the other one is below it.
    """
    shapes = with_stands(figures)
    moves = shown_motions(step, shapes)
    if not moves:
        return None
    standing = [shapes[mark] for mark in step.standing if mark in shapes]
    if moves[0].motion.into not in ("bench", step.assembly):
        standing = []
    views = tuple(_views(step, moves, standing))
    moving = list(_apart(moves, standing, views[0].up))
    on_blocks = list(_blocks(step, standing, moving))
    view, faces = _best_view([*standing, *on_blocks], moving, views)
    from_where = _caption(step, view, bool(standing), bool(on_blocks))
    joints = joint_views(figures, step, ruler)
    if step.tools and not any(joint.key for joint in joints):
        from_where = f"{from_where} With: {', '.join(step.tools)}.".strip()
    title = f"Step {step.n}: {step.title}"
    words = f"{_description(step, moving)} {from_where}".rstrip()

    def drawn(width: float) -> Drawing:
        canvas, arrows = Canvas(), Canvas()
        scale = paint(canvas, faces, view, width, HEIGHT)
        canvas.group("base", 0)
        if slim_of:
            canvas = again(slim_of, canvas, faces[0], scale)
        painted = Painted(faces)
        rooms = _arrows(arrows, moving, painted, view, scale)
        picture = union((canvas.extents(), *rooms))
        labels = list(_labels(figures, step, moving, painted, scale, rooms, ruler, links))
        top = picture.top
        if slim_of:
            labels = [replace(label, lines=(), widest=SLIM_LABEL) for label in labels]
        elif len(standing) < OF_THE_BENCH * len(shapes):
            top = _place(canvas, (picture.right + BESIDE, top), shapes, step, moving, view)
        draw_callouts(canvas, labels, picture, top, rooms)
        canvas.place(arrows, 0.0, 0.0)
        foot = canvas.extents().bottom + BETWEEN
        if slim_of:
            place_again(canvas, slim_of, (max(picture.right, picture.left + SLIM_WIDTH / 2), foot))
        note = ruler.note if any(label.has_size for label in labels) else ""
        rings = draw_rings(canvas, joints, lambda point: scaled(view.point(point), scale), rooms)
        _foot(canvas, view, f"{from_where} {note}".strip(), _Window(figures, step, joints, rings), foot)
        if slim_of:
            return canvas.finish(f"{slim_of.id}-slim", title, words)
        return canvas.finish(f"picture-{step.key}", title, words)

    return fitting(drawn, SLIM, SLIM_WIDTH) if slim_of else fitting(drawn, WIDTH)


def _place(
    canvas: Canvas,
    at: Point,
    shapes: Mapping[str, Shape],
    step: Step,
    moving: Sequence[DrawnMotion],
    view: Eye,
) -> float:
    """Where in the bench the work is; where what is below it begins."""
    first = len(canvas.shapes)
    own = {mark for move in moving for mark in move.motion.marks if not shapes[mark].is_small}
    corner = view.name if view.name in CORNERS else VIEWS_TRIED[0]
    place = draw_place(canvas, at, shapes.values(), own or set(step.standing), corner)
    canvas.group("place", first)
    return place.bottom + BETWEEN


def _views(step: Step, moves: Sequence[DrawnMotion], standing: Sequence[Shape]) -> Iterator[Eye]:
    """Where the step may be seen from, the usual place first: as the work lies or stands."""
    if step.lies:
        yield from lying(step.lies)
        return
    from_below = bool(standing) and all(move.motion.way == "+z" for move in moves)
    corners = BELOW if from_below else CORNERS
    yield from (corners[name] for name in VIEWS_TRIED)


def _blocks(step: Step, standing: Sequence[Shape], moving: Sequence[DrawnMotion]) -> Iterator[Shape]:
    """What an end frame lies on: two blocks under each of its members that are in their place, near their ends."""
    if not step.lies:
        return
    placed = [*standing, *(each for move in moving if not any(move.offset) for each in move.shapes)]
    for shape in placed:
        x0, y0, z0, x1, y1, z1 = bounds(shape.whole)
        if shape.is_frame and y1 - y0 > SLENDER * max(x1 - x0, z1 - z0):
            x0, x1 = (x0 - BLOCK, x0) if step.lies == "+x" else (x1, x1 + BLOCK)
            for y in (y0 + NEAR_END * (y1 - y0), y1 - NEAR_END * (y1 - y0)):
                block = (x0, y - BLOCK / 2, z0, x1, y + BLOCK / 2, z1)
                yield Shape("block", "strip", (block,), (block,))


def _caption(step: Step, view: Eye, standing: bool, on_blocks: bool) -> str:
    if step.lies and on_blocks:
        return "Seen from above. The frame is flat on blocks, its outer face down."
    if step.lies:
        how = f"{step.standing[0]} is turned over" if step.standing else "The wall is laid flat"
        return f"Seen from above. {how}: its {UPWARD[step.lies]} face is up."
    if view.below:
        return f"Seen from below, from the {view.name}."
    return f"Seen from the {view.name}." if standing else ""


@dataclass(frozen=True)
class _Window:
    """The joints that a picture may look into, and where on paper each has a ring."""

    figures: Figures
    step: Step
    joints: Sequence[JointView]
    rings: Sequence[Point | None]

    def draw(self, canvas: Canvas, right: float, top: float) -> float:
        """One joint in a round window below the picture, the first that a line can lead to; its lower edge."""
        if not self.joints:
            return top
        at = (right - INSET_WIDTH, top)
        led = (
            joint
            for joint, ring in zip(self.joints, self.rings, strict=True)
            if ring and draw_leader(canvas, ring, at)
        )
        return draw_inset(canvas, at, next(led, self.joints[0]), self.figures, self.step).bottom


def _foot(canvas: Canvas, view: Eye, words: str, window: _Window, top: float) -> None:
    """Below the picture: what lies which way, a joint in its section, and where all is seen from."""
    room = canvas.extents()
    signs = draw_signpost(canvas, (room.left, top), view)
    # what is beside the signpost already leaves no room there
    beside = room.bottom < top
    right = max(room.right, signs.right + BESIDE + INSET_WIDTH) if beside else room.left + INSET_WIDTH
    below = window.draw(canvas, right, top if beside else canvas.extents().bottom + BETWEEN)
    edge = max(signs.bottom, below) + BETWEEN
    for number, line in enumerate(wrapped(words, room.width, SMALL_TEXT), 1):
        canvas.text((room.left, edge + number * line_height(SMALL_TEXT) * 1.05), line, SMALL_TEXT)


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


def _apart(moves: Sequence[DrawnMotion], standing: Sequence[Shape], up: Axis) -> Iterator[DrawnMotion]:
    """Each motion moved off its place; what comes first and touches nothing stays where it belongs."""
    around_it = [block for shape in standing for block in shape.whole]
    for move in moves:
        own = [block for shape in move.shapes for block in shape.whole]
        held = move.shapes[0].is_small or any(_touch(one, other) for one in own for other in around_it)
        if move.motion.way and around_it and held:
            axis, sign = "xyz".index(move.motion.way[1]), 1 if move.motion.way[0] == "-" else -1
            size = max(b[axis + 3] for b in own) - min(b[axis] for b in own)
            offset = [0.0, 0.0, 0.0]
            offset[axis] = sign * min(max(STAND_OFF * size, LOWERED if axis == up[0] else NEAREST), FARTHEST)
            move = replace(move, offset=(offset[0], offset[1], offset[2]))
        around_it += own
        yield move


def _best_view(
    standing: Sequence[Shape], moving: Sequence[DrawnMotion], views: Sequence[Eye]
) -> tuple[Eye, list[VisibleFace]]:
    """The first of the views, unless what is added shows better from another one."""
    best: tuple[float, Eye, list[VisibleFace]] | None = None
    for view in views:
        faces = seen(list(_solids(standing, moving, view)), view)
        shown = _shown(moving, view, faces)
        if best is None or shown > best[0] + BETTER:
            best = shown, view, faces
        if shown > len(moving) - BETTER:
            break
    assert best is not None
    return best[1], best[2]


def _shown(moving: Sequence[DrawnMotion], view: Eye, faces: Sequence[VisibleFace]) -> float:
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


def _solids(standing: Sequence[Shape], moving: Sequence[DrawnMotion], view: Eye) -> Iterator[DrawnBlock]:
    for shape in standing:
        for block in shape.seated:
            yield piece_solid(shape, block, view, new=False)
    for move in moving:
        for shape in move.shapes:
            # nothing is round the ends of a member that is only laid down
            alone = any(move.offset) or shape.is_small or shape.is_frame
            blocks = shape.whole if alone else shape.seated
            for block in blocks:
                yield piece_solid(shape, _moved(block, move.offset), view, new=True)


def _arrows(
    canvas: Canvas, moving: Sequence[DrawnMotion], painted: Painted, view: Eye, scale: float
) -> list[Extent]:
    """From each piece that is drawn off its place, towards it: at its leading end, or behind it where that hides."""
    shown = [move for move in moving if any(move.offset)][:MOST_ARROWS]
    numbered = len({move.motion.way for move in shown}) > 1
    rooms = []
    starts: list[Point] = []
    for number, move in enumerate(shown, 1):
        box = bounds([_moved(block, move.offset) for shape in move.shapes for block in shape.whole])
        axis, high = "xyz".index(move.motion.way[1]), move.motion.way[0] == "+"
        ahead, length = reach(scaled(view.point([-value for value in move.offset]), scale))
        front, back = (view.point(end_centre(box, axis, high=end)) for end in (high, not high))
        hidden = painted.covers([front, back], set(move.motion.marks))
        if hidden[0] and not hidden[1]:
            start = shifted(scaled(back, scale), -ahead[0] * length, -ahead[1] * length)
        else:
            clear = CLEAR + DISC if numbered else CLEAR
            start = shifted(scaled(front, scale), ahead[0] * clear, ahead[1] * clear)
        while any(hypot(start[0] - x, start[1] - y) < 2 * DISC for x, y in starts):
            # two pieces of one place: side by side
            start = shifted(start, -2 * DISC * ahead[1], 2 * DISC * ahead[0])
        starts.append(start)
        rooms.append(arrow(canvas, start, ahead, length, str(number) if numbered else ""))
    return rooms


def _labels(
    figures: Figures,
    step: Step,
    moving: Sequence[DrawnMotion],
    painted: Painted,
    scale: float,
    arrows: Sequence[Extent],
    ruler: Ruler,
    links: Mapping[str, str],
) -> Iterable[Callout]:
    """What each thing is called, how large it is, how far it goes in, and where it shows."""
    rows = {mark: row for row in figures.parts for mark in row.marks}
    shapes = {shape.mark: shape for shape in figures.assembly.shapes}
    there = [shapes[mark] for mark in step.standing if mark in shapes]
    found: dict[str, Callout] = {}
    for move in moving:
        name = move.motion.called
        lines: tuple[str, ...] = ()
        strong = ""
        if row := rows.get(name):
            size = ruler.text(row.length) if row.width == row.thickness else ruler.size(row.length, row.width)
            lines = (row.group, size)
            if far := _travel(move, there):
                strong = f"slides {ruler.text(far)}"
        there += move.shapes
        own = set(move.motion.marks)
        called = {name} & own or own
        spots = [
            spot
            for face in painted.faces
            if face.solid.name in called and face.solid.new
            for spot in _spots(face)
        ]
        hidden = painted.covers(spots, own)
        at = [scaled(spot, scale) for spot, no in zip(spots, hidden, strict=True) if not no]
        clear = [point for point in at if not any(_within(point, room) for room in arrows)]
        label = Callout(name, lines, tuple(clear or at), links.get(name, ""), strong, bool(row))
        # a pair that belongs to one thing has one label
        found[name] = replace(label, points=found[name].points + label.points) if name in found else label
    return found.values()


def _travel(move: DrawnMotion, there: Sequence[Shape]) -> Fraction:
    """How far what is drawn off its place goes in (mm); nothing for what is only put down."""
    if not any(move.offset) or not move.motion.straight:
        return Fraction(0)
    own, others = ([block for shape in shapes for block in shape.whole] for shapes in (move.shapes, there))
    return Fraction(round(travel(move.motion.way, own, others)))


def _within(point: Point, room: Extent) -> bool:
    return room.left <= point[0] <= room.right and room.top <= point[1] <= room.bottom


def _spots(face: VisibleFace) -> Iterator[Point]:
    """Places all over a face, its middle first."""
    (x0, y0), (x1, y1), _, (x3, y3) = face.corners
    grid = sorted(product(SPOTS, SPOTS), key=lambda spot: abs(spot[0] - 0.5) + abs(spot[1] - 0.5))
    for u, v in grid:
        yield (x0 + u * (x1 - x0) + v * (x3 - x0), y0 + u * (y1 - y0) + v * (y3 - y0))


def _description(step: Step, moving: Sequence[DrawnMotion]) -> str:
    names = ", ".join(move.motion.name for move in moving)
    where = f" in the {step.assembly}" if step.assembly else ""
    direction = f" {step.direction[0].upper()}{step.direction[1:]}." if step.direction else ""
    return f"Added{where}: {names}.{direction}"
