"""What a step shows that moves no piece into the bench: what it works on, where, and which way the tool goes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import hypot

from generator.bench.fillings.joins import KEY as JOINING
from generator.drawings.canvas import Canvas
from generator.drawings.dimensions import Ruler
from generator.drawings.extent import Extent, Point, shifted
from generator.drawings.eye import Eye
from generator.drawings.mark_runs import runs
from generator.drawings.painted import Painted
from generator.drawings.scene import scaled
from generator.drawings.step_arrows import CLEAR, LONGEST, SHORTEST, arrow, bounds, end_centre
from generator.drawings.step_joins import joined
from generator.drawings.step_labels import part_size
from generator.drawings.step_motions import DrawnMotion, moved
from generator.drawings.step_sticks import STICK, shown_stick
from generator.drawings.step_work import example
from generator.figures.model import Figures
from generator.figures.rows.assembly import MotionRow, Shape, Step
from generator.figures.rows.parts import PartRow
from generator.units.sizes import KG_PER_LB

Place = tuple[float, ...]
NOWHERE = (0.0, 0.0, 0.0)
#: Within this of a flat rectangle a bar belongs to it (mm).
NEAR = 1.0
#: A spirit level on the bars (mm): its length, thickness and height.
LEVEL = (600.0, 30.0, 60.0)
#: An arrow begins so far off what it points at (mm of the bench), and how far out what opens stands.
OFF, PULLED = 160.0, 320.0
#: Bars that are not joined yet are drawn so far apart (mm), those in this part of the frame at each side.
APART, OUTER = 240.0, 0.25
#: An arrow that pushes a nut in takes so much beyond its bar's end, and to each side of the bar's middle (mm).
ARROW, ASIDE = 220.0, 50.0
#: A frame has so many corners; a label names so many sizes.
CORNERS, MOST_SIZES = 4, 2
#: The dot at the end of what is measured (mm of paper).
END_POINT = 0.9


@dataclass(frozen=True)
class Push:
    """An arrow that ends at `at` (mm) and goes along a signed axis; `number` says the order."""

    at: Place
    way: str
    number: str = ""
    below: str = ""
    """The piece that it lifts; left out where that does not show."""


@dataclass(frozen=True)
class Still:
    """What stands there, what is worked on with its words, arrows, lines from corner to corner; from below or not."""

    standing: tuple[Shape, ...]
    moves: tuple[DrawnMotion, ...]
    pushes: tuple[Push, ...] = ()
    lines: tuple[tuple[Place, Place], ...] = ()
    below: bool = False
    work: PartRow | None = None
    """Of parts that are cut one for an example."""
    names: str = ""
    """What these are called, in a sentence."""


def still(figures: Figures, step: Step, shapes: Mapping[str, Shape], ruler: Ruler) -> Still | None:
    """What the picture of a step without motions shows; None where nothing can be seen of it."""
    there = tuple(shapes[mark] for mark in step.standing if mark in shapes)
    if step.squares:
        return _squared(figures, step, there, ruler)
    if step.key == "nuts":
        return _nuts(figures, shapes)
    if step.key == "level":
        return _level(figures, there)
    if step.key == "load":
        return _load(figures, there, ruler)
    if step.places and there:
        return _screwed(figures, step, there, ruler)
    if step.key == JOINING and there:
        both = joined(figures, there, ruler)
        return Still(both.standing, both.moves, tuple(Push(*each) for each in both.pushes), both.bolts)
    marks = tuple(mark for mark in step.parts if mark in shapes)
    return _made(figures, marks, shapes, ruler, is_cut="saw" in step.tools) if marks else None


def _on(
    shapes: Sequence[Shape], name: str, *lines: str, has_size: bool = False, brief: tuple[str, ...] = ()
) -> DrawnMotion:
    """Pieces that are worked on together, with what is said of them."""
    marks = tuple(shape.mark for shape in shapes)
    motion = MotionRow(name, marks, "", "bench", called=name)
    return DrawnMotion(motion, tuple(shapes), NOWHERE, lines, has_size, brief)


def _made(
    figures: Figures, marks: Sequence[str], shapes: Mapping[str, Shape], ruler: Ruler, *, is_cut: bool
) -> Still:
    """Parts that are cut or coated: each kind and size in its places, with how many; boards within the frame's bars.

    Of parts that are cut one is for an example.
    """
    rows = {mark: row for row in figures.parts for mark in row.marks}
    groups: dict[str, list[str]] = {}
    for mark in marks:
        groups.setdefault(rows[mark].group, []).append(mark)
    moves, names = [], list[str]()
    for group, own in groups.items():
        sizes: dict[str, list[str]] = {}
        for mark in own:
            sizes.setdefault(part_size(rows[mark], ruler), []).append(mark)
        # of two sizes each says whose it is
        each = [f"{runs(marked)} {size}" if len(sizes) > 1 else size for size, marked in sizes.items()]
        size = tuple(each) if len(sizes) <= MOST_SIZES else ()
        said = (f"{len(own)} × {group}", *size)
        few = (size if len(size) > 1 else (f"{len(own)} × {size[0]}",)) if size else said[:1]
        if is_cut:
            # there are many: what they are called is said below
            names.append(f"{runs(own)} {group}")
            said = few
        drawn = [_plain(shapes[mark]) for mark in own]
        moves.append(_on(drawn, runs(own), *said, has_size=bool(size), brief=few))
    around = (
        ()
        if shapes[marks[0]].is_frame
        else tuple(s for s in shapes.values() if s.is_frame and s.mark not in marks)
    )
    work = example([rows[mark] for mark in dict.fromkeys(marks)]) if is_cut else None
    return Still(around, tuple(moves), work=work, names=f"{', '.join(names)}." if names else "")


def _plain(shape: Shape) -> Shape:
    """A member without what is cut into it: in a picture of all of them that is too small to be seen."""
    box = (bounds(shape.whole),)
    return replace(shape, seated=box, whole=box) if shape.is_frame else shape


def _screwed(figures: Figures, step: Step, there: Sequence[Shape], ruler: Ruler) -> Still | None:
    """What is screwed to the tops of walls that stand: it lies on them."""
    rows = {mark: row for row in figures.parts for mark in row.marks}
    walls = [bounds(shape.whole) for shape in there for place in step.places if shape.mark == place.part]
    on = [
        shape
        for shape in there
        if any(_lies(bounds(shape.whole), wall) for wall in walls) and shape.mark in rows
    ]
    moves = tuple(
        _on([shape], shape.mark, rows[shape.mark].group, part_size(rows[shape.mark], ruler), has_size=True)
        for shape in on
    )
    return Still(tuple(shape for shape in there if shape not in on), moves) if on else None


def _lies(box: Sequence[float], wall: Sequence[float]) -> bool:
    """Whether a board lies on a wall's upper edge, and beyond it on all sides."""
    over = all(box[i] <= wall[i] + NEAR and box[i + 3] >= wall[i + 3] - NEAR for i in range(2))
    return over and abs(box[2] - wall[5]) < NEAR


def _squared(figures: Figures, step: Step, there: Sequence[Shape], ruler: Ruler) -> Still | None:
    """The bars of each rectangle that is squared, with its two diagonals."""
    flats = {row.name: row.flat for row in figures.diagonals}
    taken: set[str] = set()
    moves: list[DrawnMotion] = []
    lines: list[tuple[Place, Place]] = []
    for square in step.squares:
        flat = flats.get(square.name, ())
        own = [
            s for s in there if s.is_frame and flat and _within(bounds(s.whole), flat) and s.mark not in taken
        ]
        if not own:
            continue
        taken |= {shape.mark for shape in own}
        both = f"both diagonals {ruler.text(Fraction(round(square.value, 1)).limit_denominator(10))}"
        moves.append(_on(own, square.name, both, has_size=True))
        lines += _diagonals(flat)
    standing = tuple(shape for shape in there if shape.mark not in taken)
    if any(STICK in line for line in step.shown):
        moves += shown_stick(figures, there)
    return Still(standing, tuple(moves), (), tuple(lines)) if moves else None


def squared_with(
    figures: Figures, step: Step, there: Sequence[Shape], view: Eye
) -> list[tuple[Place, Place]]:
    """The diagonals of what a step squares when all of its members are in: on the side that shows.

    `there` are the shapes in their places; the rectangle is the one about the members with the sides that are squared.
    """
    wanted = {row.name: sorted(map(float, row.sides)) for row in figures.diagonals}
    members = [box for shape in there if shape.is_frame for box in shape.whole]
    found: list[tuple[Place, Place]] = []
    for square in step.squares if members else ():
        box = bounds(members)
        for axis in range(3):
            sides = sorted(box[i + 3] - box[i] for i in range(3) if i != axis)
            if all(abs(a - b) < NEAR for a, b in zip(sides, wanted.get(square.name, ()), strict=False)):
                unit = tuple(float(i == axis) for i in range(3))
                far = view.sees(tuple(-value for value in unit))
                flat = list(box)
                flat[axis] = flat[axis + 3] = box[axis + 3] if far else box[axis]
                found += _diagonals(flat)
    return found


def _within(box: Sequence[float], flat: Sequence[float]) -> bool:
    """Whether a bar lies in a rectangle or along its edge."""
    return all(
        box[axis] <= flat[axis + 3] + NEAR and box[axis + 3] >= flat[axis] - NEAR for axis in range(3)
    ) and any(
        flat[axis] == flat[axis + 3] and box[axis + 3] - box[axis] < hypot(*_sizes(flat)) / 4
        for axis in range(3)
    )


def _sizes(flat: Sequence[float]) -> tuple[float, ...]:
    return tuple(flat[axis + 3] - flat[axis] for axis in range(3))


def _diagonals(flat: Sequence[float]) -> Iterator[tuple[Place, Place]]:
    first, second = (axis for axis in range(3) if flat[axis] != flat[axis + 3])
    low, high = list(flat[:3]), list(flat[3:])
    yield tuple(low), tuple(high)
    low[second], high[second] = high[second], low[second]
    yield tuple(low), tuple(high)
    assert first != second


def _nuts(figures: Figures, shapes: Mapping[str, Shape]) -> Still | None:
    """The bars whose lower slots get nuts, from below and apart: how many each, and the end at which they go in."""
    plates: dict[str, Counter[str]] = {}
    for bolt in figures.stand.facts.bolts:
        if bolt.member in shapes:
            plates.setdefault(bolt.member, Counter())[bolt.plate] += 1
    if not plates:
        return None
    frame = bounds([bounds(shapes[mark].whole) for mark in plates])
    moves = []
    for mark, own in plates.items():
        bar, count = shapes[mark], set(own.values())
        at_each = (f"{count.pop()} in each of {len(own)} places",) if len(count) == 1 < len(own) else ()
        box = bounds(bar.whole)
        across = min(range(2), key=lambda i: box[i + 3] - box[i])
        share = (box[across] - frame[across]) / max(1.0, frame[across + 3] - frame[across])
        off = [0.0, 0.0, 0.0]
        # the bars are not joined yet: those of the outer faces are drawn off the others
        off[across] = -APART if share < OUTER else APART if share > 1 - OUTER else 0.0
        nuts = f"{sum(own.values())} nuts"
        move = _on([bar], mark, nuts, *at_each, "still loose", brief=(nuts, *at_each))
        moves.append(replace(move, offset=(off[0], off[1], off[2])))
    boxes = [moved(bounds(move.shapes[0].whole), move.offset) for move in moves]
    return Still((), tuple(moves), tuple(_into_slots(boxes)), below=True)


def _into_slots(bars: Sequence[Sequence[float]]) -> Iterator[Push]:
    """Into the slot below each bar, from its end at the front or left; from the other one where that is in the way."""
    taken = [tuple(box) for box in bars]
    for box in bars:
        axis = max(range(3), key=lambda each: box[each + 3] - box[each])
        ways = [(_room_of_arrow(box, axis, high=high), high) for high in (False, True)]
        room, high = min(ways, key=lambda way: sum(_overlaps(way[0], each) for each in taken))
        taken.append(room)
        end = list(end_centre(box, axis, high=high))
        end[2] = box[2]
        yield Push(tuple(end), ("-" if high else "+") + "xyz"[axis])


def _room_of_arrow(box: Sequence[float], axis: int, *, high: bool) -> tuple[float, ...]:
    """What an arrow at the end of a bar takes, seen from below."""
    middle = [(box[i] + box[i + 3]) / 2 for i in range(3)]
    room = [*(value - ASIDE for value in middle), *(value + ASIDE for value in middle)]
    room[axis], room[axis + 3] = (
        (box[axis + 3] + 1, box[axis + 3] + ARROW) if high else (box[axis] - ARROW, box[axis] - 1)
    )
    return tuple(room)


def _overlaps(one: Sequence[float], other: Sequence[float]) -> bool:
    return all(one[i] < other[i + 3] and other[i] < one[i + 3] for i in range(2))


def _level(figures: Figures, there: Sequence[Shape]) -> Still | None:
    """Spirit levels on the highest bars, along and across; arrows at what it stands on, corners first."""
    frame = bounds([block for shape in there if shape.is_frame for block in shape.whole])
    length, thick, high = LEVEL
    x0, y0, _, x1, y1, z1 = frame
    middle = ((x0 + x1) / 2, (y0 + y1) / 2)
    along = (middle[0] - length / 2, y0, z1, middle[0] + length / 2, y0 + thick, z1 + high)
    across = (x1 - thick, middle[1] - length / 2, z1, x1, middle[1] + length / 2, z1 + high)
    levels = [Shape("spirit level", "board", (block,), (block,)) for block in (along, across)]
    centres = {
        picture.on: end_centre(bounds(picture.blocks), 2, high=False)
        for picture in figures.stand.facts.pictures
    }
    ends = sorted(centres, key=lambda mark: -abs(centres[mark][0] - middle[0]))
    pushes = tuple(
        Push(centres[mark], "+z", ("1" if n < CORNERS else "2") if len(ends) > CORNERS else "", below=mark)
        for n, mark in enumerate(ends)
    )
    said = "corners first (1), then the middle (2)" if len(ends) > CORNERS else "along and across"
    low = figures.stand.facts.words.low
    return Still(tuple(there), (_on(levels, "spirit level", said, *([low] if low else ())),), pushes)


def _load(figures: Figures, there: Sequence[Shape], ruler: Ruler) -> Still | None:
    """The weight of the spec comes down on the top; what opens is pulled out, one after the other."""
    by_mark = {shape.mark: shape for shape in there}
    high = max(bounds(shape.whole)[5] for shape in there)
    tops = [shape for shape in there if bounds(shape.whole)[5] > high - NEAR]
    kilograms = float(figures.assembly.test_load)
    weight = ruler.either(f"{kilograms:.0f} kg", f"{kilograms / KG_PER_LB:.0f} lb")
    moves, pushes = (
        [_on(tops, "load", f"{weight} on the top, in steps" if kilograms else "on the top, in steps")],
        [],
    )
    box = bounds([block for shape in tops for block in shape.whole])
    pushes.append(Push(end_centre(box, 2, high=True), "-z"))
    motions = [motion for each in figures.assembly.steps for motion in each.motions]
    made = {motion.into for motion in motions}
    # an end panel with its strips goes into its frame, never out of the bench
    pulled = [m for m in motions if m.name in made and m.into == "bench" and m.way in ("+y", "-y")]
    pulled = [
        motion for motion in pulled if set(motion.marks) <= set(by_mark) and not _has_bars(motion, by_mark)
    ]
    for motion in _heaviest(pulled, by_mark):
        own = tuple(by_mark[mark] for mark in motion.marks if mark in by_mark)
        out = (0.0, -PULLED if motion.way == "+y" else PULLED, 0.0)
        moves.append(DrawnMotion(motion, own, out, ("open one at a time", "heaviest first")))
        far = bounds([moved(block, out) for shape in own for block in shape.whole])
        front = list(end_centre(far, 1, high=out[1] > 0))
        front[1] += OFF if out[1] > 0 else -OFF
        pushes.append(Push(tuple(front), "+y" if out[1] > 0 else "-y"))
    taken = {mark for move in moves for mark in move.motion.marks}
    return Still(tuple(shape for shape in there if shape.mark not in taken), tuple(moves), tuple(pushes))


def _heaviest(pulled: Sequence[MotionRow], shapes: Mapping[str, Shape]) -> Sequence[MotionRow]:
    """Of what opens to one face the piece that holds most: the one with the largest room, the last of alike ones."""

    def room(motion: MotionRow) -> float:
        box = bounds([block for mark in motion.marks if mark in shapes for block in shapes[mark].whole])
        return round((box[3] - box[0]) * (box[4] - box[1]) * (box[5] - box[2]))

    return [max(reversed(pulled), key=room)] if pulled else []


def _has_bars(motion: MotionRow, shapes: Mapping[str, Shape]) -> bool:
    return any(shapes[mark].is_frame for mark in motion.marks if mark in shapes)


def draw_pushes(
    canvas: Canvas, pushes: Sequence[Push], painted: Painted, view: Eye, scale: float
) -> list[Extent]:
    """Each arrow with its tip just off what it points at; the rooms that they take."""
    rooms = []
    showing = {"", *(face.solid.name for face in painted.faces)}
    for push in pushes:
        if push.below not in showing or _lost(push, painted, view):
            continue
        way = [0.0, 0.0, 0.0]
        way["xyz".index(push.way[1])] = OFF if push.way[0] == "+" else -OFF
        x, y = scaled(view.point(way), scale)
        ahead, length = (x / hypot(x, y), y / hypot(x, y)), min(max(hypot(x, y), SHORTEST), LONGEST)
        tip = scaled(view.point(push.at), scale)
        back = length + CLEAR
        rooms.append(
            arrow(canvas, shifted(tip, -ahead[0] * back, -ahead[1] * back), ahead, length, push.number)
        )
    return rooms


def _lost(push: Push, painted: Painted, view: Eye) -> bool:
    """Whether all of an arrow that lifts would be over what hides the piece: it would point at nothing."""
    axis, sign = "xyz".index(push.way[1]), 1 if push.way[0] == "+" else -1
    along = [[at - sign * far * OFF * (i == axis) for i, at in enumerate(push.at)] for far in (0.0, 0.5, 1.0)]
    others = {face.solid.name for face in painted.faces} - {push.below}
    return bool(push.below) and not any(painted.covers([view.point(each) for each in along], others))


def draw_lines(canvas: Canvas, lines: Sequence[tuple[Place, Place]], view: Eye, scale: float) -> None:
    """What is measured, from corner to corner."""
    for start, end in lines:
        ends: list[Point] = [scaled(view.point(point), scale) for point in (start, end)]
        canvas.line(ends[0], ends[1], "iso-halo")
        canvas.line(ends[0], ends[1], "break-down")
        for end in ends:
            canvas.circle(end, END_POINT, "hole")
