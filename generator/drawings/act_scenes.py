"""Small scenes of acts: what stands there, in blocks, with a prop that is new, arrows and numbers."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from math import hypot

from generator.bench.frames.bars import MIDDLE_END_RAIL
from generator.bench.role import Role
from generator.drawings.canvas import Canvas
from generator.drawings.extent import Point, shifted
from generator.drawings.eye import CORNERS
from generator.drawings.letter_sizes import SMALL_TEXT
from generator.drawings.scene import paint, piece_solid, scaled, seen
from generator.drawings.step_arrows import CLEAR, DISC, SHORTEST, arrow, bounds
from generator.figures.model import Figures
from generator.figures.rows.assembly import Shape, Step

Shapes = Mapping[str, Shape]
#: All of them are seen from there; a face smaller than a 200th of the picture is not missed.
VIEW, CELLS = CORNERS["front right"], 200
#: Each try to fit a scene into its room makes it this much smaller.
SMALLER = 0.9
#: A batten (mm): its thickness, its height, how far below the tops of the posts, how far it reaches beyond them, and
#: how far off it is drawn when it comes off; a clamp on it.
BATTEN, TALL, BELOW, BEYOND, AWAY, CLAMP = 25.0, 60.0, 60.0, 120.0, 260.0, 30.0
#: It is drawn no shorter than this (mm).
LEAST = 900.0
#: A strap (mm): its thickness and its height; its lock.
STRAP, BAND, LOCK = 16.0, 55.0, 45.0
#: What a frame is strapped to: how far off, how thick and how much wider and higher than the frame (mm).
FIRM, FIRM_THICK, WIDER = 420.0, 60.0, 120.0
#: A strap to it is in this part of the frame's height.
HIGH_UP = 0.9
#: Blocks below a bench (mm): their length, and how much higher than what it stands on.
BLOCK, OFF_FLOOR = 120.0, 110.0
#: The arrows at the ends of what is lowered are so far off it (mm).
ASIDE = 260.0
#: Members nearer than this in height are one level (mm).
ONE_LEVEL = 90.0


@dataclass(frozen=True)
class ActScene:
    """What is shown: pieces and whether each is new; arrows with tip, way and number; discs with numbers."""

    pieces: tuple[tuple[Shape, bool], ...]
    arrows: tuple[tuple[tuple[float, ...], str, str], ...] = ()
    discs: tuple[tuple[tuple[float, ...], str], ...] = ()


def draw_scene(canvas: Canvas, scene: ActScene, width: float, high: float) -> None:
    """The scene, as large as a room has space for it with its arrows."""
    solids = [
        piece_solid(shape, block, VIEW, new=new)
        for shape, new in scene.pieces
        for block in (shape.seated or shape.whole)
    ]
    faces = seen(solids, VIEW, CELLS)
    share = 1.0
    while True:
        small = Canvas()
        scale = paint(small, faces, VIEW, width * share, high * share, fine=False)
        for tip, way, number in scene.arrows:
            _arrow(small, scaled(VIEW.point(tip), scale), way, number)
        for at, number in scene.discs:
            _disc(small, scaled(VIEW.point(at), scale), number)
        room = small.extents()
        if share < 0.3 or (room.width <= width and room.height <= high):
            break
        share *= SMALLER
    canvas.place(small, 0.0, 0.0)


def _arrow(canvas: Canvas, tip: Point, way: str, number: str) -> None:
    step = [0.0, 0.0, 0.0]
    step["xyz".index(way[1])] = 1.0 if way[0] == "+" else -1.0
    x, y = VIEW.point(step)
    ahead = (x / hypot(x, y), y / hypot(x, y))
    back = SHORTEST + CLEAR
    arrow(canvas, shifted(tip, -ahead[0] * back, -ahead[1] * back), ahead, SHORTEST, number)


def _disc(canvas: Canvas, at: Point, number: str) -> None:
    canvas.circle(at, DISC, "hole")
    canvas.text(shifted(at, 0.0, SMALL_TEXT / 2), number, SMALL_TEXT, "middle", style="mark")


def _block(name: str, block: Sequence[float], kind: str = "board") -> Shape:
    return Shape(name, kind, (tuple(block),), (tuple(block),))


def _there(step: Step, shapes: Shapes) -> list[Shape]:
    """What stands before the step and what it adds."""
    marks = dict.fromkeys((*step.standing, *(mark for move in step.motions for mark in move.marks)))
    return [shapes[mark] for mark in marks if mark in shapes]


def _grouped(figures: Figures, there: Iterable[Shape], *named: Role | str) -> list[Shape]:
    groups = {mark: row.group for row in figures.parts for mark in row.marks}
    names = {each.value if isinstance(each, Role) else each for each in named}
    return [shape for shape in there if groups.get(shape.mark) in names]


def _members(there: Iterable[Shape]) -> list[Shape]:
    return [shape for shape in there if shape.is_frame]


def batten(figures: Figures, step: Step, shapes: Shapes, *, on: bool) -> ActScene | None:
    """A batten across the front posts, clamped to the first and the last of them, or off them."""
    there = [shapes[mark] for mark in step.standing if mark in shapes]
    posts = [bounds(s.whole) for s in _grouped(figures, there, Role.INNER_POST, Role.KNEE_POST)]
    if not posts:
        return None
    front, top = min(box[1] for box in posts), min(box[5] for box in posts) - BELOW
    row = sorted(box for box in posts if box[1] == front)
    off = 0.0 if on else AWAY
    y = front - off
    beyond = max(BEYOND, (LEAST - row[-1][3] + row[0][0]) / 2)
    board = (row[0][0] - beyond, y - BATTEN, top - TALL, row[-1][3] + beyond, y, top)
    clamps = []
    for box in dict.fromkeys((row[0], row[-1])):
        middle = (box[0] + box[3]) / 2
        low, high = y - BATTEN - 2 * CLAMP, y - BATTEN
        z = top - TALL / 2
        clamp = (middle - CLAMP / 2, low, z - CLAMP / 2, middle + CLAMP / 2, high, z + CLAMP / 2)
        clamps.append((_block(f"clamp {middle}", clamp, "plate"), False))
    tip = ((board[0] + board[3]) / 2, y - BATTEN - (0.0 if on else AWAY), top - TALL / 2)
    pieces = [(shape, False) for shape in _members(there)]
    return ActScene(
        (*pieces, (_block("batten", board), True), *(clamps if on else ())),
        ((tip, "+y" if on else "-y", ""),),
    )


def stood_up(figures: Figures, step: Step, shapes: Shapes) -> ActScene | None:
    """The end frame upright, strapped to something firm beside it."""
    own = _there(step, shapes)
    if not own:
        return None
    x0, y0, z0, _, y1, z1 = bounds([block for shape in own for block in shape.whole])
    wall = (x0 - FIRM - FIRM_THICK, y0 - WIDER, z0, x0 - FIRM, y1 + WIDER, z1 + WIDER)
    z = z0 + HIGH_UP * (z1 - z0)
    straps = []
    for number, y in enumerate((y0, y1 - BAND)):
        straps.append((_block(f"strap {number}", (x0 - FIRM, y, z - STRAP, x0, y + BAND, z)), True))
    del figures
    return ActScene((*((shape, False) for shape in own), (_block("wall", wall, "plate"), False), *straps))


def strapped(figures: Figures, step: Step, shapes: Shapes) -> ActScene | None:
    """A strap round the bench at the height of its tray, else of its middle end rails."""
    there = _there(step, shapes)
    held = _grouped(figures, there, Role.TRAY) or _grouped(
        figures, there, Role.TRAY_END_RAIL, MIDDLE_END_RAIL
    )
    members = _members(there)
    if not held or not members:
        return None
    x0, y0, _, x1, y1, _ = bounds([block for shape in members for block in shape.whole])
    box = bounds([block for shape in held for block in shape.whole])
    z = (box[2] + box[5]) / 2
    low, high = z - BAND / 2, z + BAND / 2
    loop = (
        (x0 - STRAP, y0 - STRAP, low, x1 + STRAP, y0, high),
        (x1, y0, low, x1 + STRAP, y1, high),
        (x0 - STRAP, y1, low, x1 + STRAP, y1 + STRAP, high),
        (x0 - STRAP, y0, low, x0, y1, high),
    )
    middle = (x0 + x1) / 2
    lock = (middle - LOCK, y0 - 2 * STRAP, low - STRAP, middle + LOCK, y0 - STRAP, high + STRAP)
    straps = [(_block(f"strap {number}", block), True) for number, block in enumerate(loop)]
    return ActScene(
        (*((shape, False) for shape in (*members, *held)), *straps, (_block("lock", lock, "plate"), False))
    )


def lowered(figures: Figures, step: Step, shapes: Shapes) -> ActScene | None:
    """The bench above the floor on blocks, those of its left end lower; its ends come down one after the other."""
    there = _there(step, shapes)
    members = _members(there)
    if not members:
        return None
    on = {picture.on for picture in figures.stand.facts.pictures}
    stands = [shape for shape in there if shape.mark in on]
    whole = [block for shape in (*members, *stands) for block in shape.whole]
    low = bounds(whole)[2]
    x0, y0, z0, x1, y1, _ = bounds([block for shape in members for block in shape.whole])
    blocks = []
    for end, at in (("left", x0 + BLOCK), ("right", x1 - 2 * BLOCK)):
        top = z0 - (OFF_FLOOR if end == "left" else 0.0)
        for side, y in (("front", y0), ("rear", y1 - BLOCK / 2)):
            block = (at, y, low - OFF_FLOOR, at + BLOCK, y + BLOCK / 2, max(top, low - OFF_FLOOR + STRAP))
            blocks.append((_block(f"{end} {side} block", block), True))
    middle = (y0 + y1) / 2
    arrows = (((x0 - ASIDE, middle, low), "-z", "1"), ((x1 + ASIDE, middle, low), "-z", "2"))
    plain = [
        (replace(s, seated=(bounds(s.whole),)), False) if s in members and s not in stands else (s, False)
        for s in (*members, *(s for s in stands if s not in members))
    ]
    return ActScene((*plain, *blocks), arrows)


def levels(figures: Figures, step: Step, shapes: Shapes) -> ActScene | None:
    """The heights at which members of the frame lie, numbered from the lowest up."""
    members = _members(_there(step, shapes))
    boxes = [bounds(shape.whole) for shape in members]
    lying = [box for box in boxes if box[5] - box[2] < max(box[3] - box[0], box[4] - box[1])]
    if not lying:
        return None
    heights: list[float] = []
    for box in sorted(lying, key=lambda box: box[2]):
        z = (box[2] + box[5]) / 2
        if not heights or z - heights[-1] > ONE_LEVEL:
            heights.append(z)
    x0, y0, _, x1, _, _ = bounds(boxes)
    del figures
    # one after the other at either end, so that near ones do not cover each other
    discs = tuple(((x1 if number % 2 else x0, y0, z), str(number)) for number, z in enumerate(heights, 1))
    return ActScene(tuple((shape, False) for shape in members), (), discs)
