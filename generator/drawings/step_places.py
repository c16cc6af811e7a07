"""Where a piece goes that no slot and no mark of its own places: how far from the edges of what it is fixed to."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from fractions import Fraction

from generator.bench.fillings.screw_rules import FACE_OF_A_BOX, FIXED_IN_BAY
from generator.bench.role import Role
from generator.drawings.dimensions import Ruler
from generator.drawings.iso_dimensions import Fact
from generator.drawings.mark_runs import by_number, runs
from generator.drawings.step_arrows import bounds
from generator.drawings.step_motions import DrawnMotion, touch
from generator.figures.model import Figures
from generator.figures.rows.assembly import Shape

#: What an edge or face is called by the axis along which it is the first.
FIRST_EDGE = ("left", "front", "bottom")
#: The sides of a piece that lies on a frame, or is screwed to a box from the front: axis, and whether the last face.
OF_A_TOP = {"left": (0, False), "right": (0, True), "front": (1, False), "rear": (1, True)}
OF_A_FACE = {"left": (0, False), "right": (0, True), "below": (2, False), "above": (2, True)}
#: The kind of shapes that lie on a wall.
STRIP = "strip"
#: Of fewer than these each says for itself how far in it is.
LEAST_COMMON = 3
#: Nearer than this is touching (mm).
TOUCH = 1.0


def placed_lines(
    figures: Figures,
    move: DrawnMotion,
    there: Sequence[Shape],
    ruler: Ruler,
    drawn: Collection[Fact] = (),
) -> Iterator[str]:
    """`226 from front` and `12 from bottom` of a strip on a wall; height and setback of what is in a bay.

    The strips that a piece rests on; how a top lies on the frame, and a plate below it. What is `drawn` is left out.
    """
    if not move.motion.way or not move.shapes:
        return
    box = bounds([block for shape in move.shapes for block in shape.whole])
    groups = {mark: row.group for row in figures.parts for mark in row.marks}
    group = groups.get(move.motion.called, "")
    if group == Role.TOP.value and list(groups.values()).count(group) == 1:
        yield from _on_frame(box, frame_of(figures), ruler)
    board = next((each for each in move.shapes if each.mark == move.motion.called), None)
    if board and board.kind == "board" and (bars := list(_entered(board, there))):
        yield f"in {runs(sorted(bars, key=by_number))}"
    if hangs_in_bay(move, there):
        yield f"on its {FIXED_IN_BAY}s"
        yield from _above_rail(figures, box, ruler)
    if group == Role.EXTRA_PANEL.value:
        yield from _from_frame(figures, box, ruler)
    if len(move.shapes) != 1:
        return
    shape, axis = move.shapes[0], "xyz".index(move.motion.way[1])
    if shape.kind == STRIP:
        wall = next((bounds(each.whole) for each in there if holds(each, box, axis)), None)
        for across in (i for i in range(3) if i != axis and wall):
            assert wall
            if (shape.mark, across) in drawn:
                continue
            yield f"{far_text(box[across] - wall[across], ruler)} from {FIRST_EDGE[across]}"
    if shape.kind == FIXED_IN_BAY:
        yield from _in_bay(figures, move, box, ruler, drawn)
    # a member of the frame is held by its joints, whatever is below it
    strips = [each for each in there if each.kind == STRIP and not shape.is_frame]
    if held := [each for each in strips if _rests(shape, each)]:
        held.sort(key=lambda each: bounds(each.whole))
        yield f"on {', '.join(each.mark for each in held)}"
        if shape.kind == "board":
            yield from _above_rail(figures, box, ruler)
    if shape.kind == "board" and move.motion.way == "-z" and group != Role.TOP.value:
        walls = [each for each in there if each.kind == shape.kind and _rests(shape, each)]
        yield from [f"on {runs(sorted((each.mark for each in walls), key=by_number))}"] if walls else ()
    if shape.mark in {bolt.plate for bolt in figures.stand.facts.bolts}:
        yield from _below_frame(figures, shape.mark, ruler, drawn)


def hangs_in_bay(move: DrawnMotion, there: Collection[Shape]) -> bool:
    """Whether pieces that were put together before hang between things that are fixed in their bay."""
    if len(move.shapes) < 2 or not move.motion.way:
        return False
    fixed = [block for shape in there if shape.kind == FIXED_IN_BAY for block in shape.whole]
    return any(touch(block, other) for shape in move.shapes for block in shape.whole for other in fixed)


def faces_placed(figures: Figures, moving: Sequence[DrawnMotion], ruler: Ruler) -> Iterator[str]:
    """How far a face is beyond its box, in a sentence: a label has no room for it."""
    groups = {mark: row.group for row in figures.parts for mark in row.marks}
    face = [move for move in moving if groups.get(move.motion.called) == FACE_OF_A_BOX]
    rest = [block for move in moving if move not in face for shape in move.shapes for block in shape.whole]
    for move in face if rest else ():
        own = bounds([block for shape in move.shapes for block in shape.whole])
        sides = _sides(own, bounds(rest), OF_A_FACE, ruler)
        far = ", ".join(f"{length} {names}" for length, names in sides.items())
        yield f"{move.motion.called} reaches beyond its box: {far}."


def _from_frame(figures: Figures, box: Sequence[float], ruler: Ruler) -> Iterator[str]:
    """How far a piece that the spec places by itself is from the left, front and lower faces of the frame."""
    frame = frame_of(figures)
    for axis, edge in enumerate(FIRST_EDGE):
        face = "underside" if edge == "bottom" else f"{edge} face"
        yield f"{far_text(box[axis] - frame[axis], ruler)} from the frame's {face}"


def _on_frame(box: Sequence[float], frame: Sequence[float], ruler: Ruler) -> Iterator[str]:
    """`flush with the frame`, or by its sides how far a top overhangs it or is set back."""
    sides = _sides(box, frame, OF_A_TOP, ruler)
    if len(sides) == 1 and far_text(0, ruler) in sides:
        yield "flush with the frame"
        return
    for far, names in sides.items():
        if far == far_text(0, ruler):
            yield f"flush {names}"
        else:
            yield f"set back {far[1:]} {names}" if far.startswith("-") else f"overhangs {far} {names}"


def _sides(
    outer: Sequence[float], inner: Sequence[float], sides: Mapping[str, tuple[int, bool]], ruler: Ruler
) -> dict[str, str]:
    """How far a box is beyond another, each length with the sides that it is for."""
    found: dict[str, list[str]] = {}
    for name, (axis, last) in sides.items():
        far = outer[axis + 3] - inner[axis + 3] if last else inner[axis] - outer[axis]
        found.setdefault(far_text(far if abs(far) >= TOUCH else 0, ruler), []).append(name)
    return {far: _and(names) for far, names in found.items()}


def _and(names: Sequence[str]) -> str:
    """`left, right and front`."""
    return " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))


def _rests(shape: Shape, strip: Shape) -> bool:
    """Whether a piece lies on a strip: with its underside, or with its rim."""
    on = bounds(strip.whole)
    return any(
        abs(block[2] - on[5]) < TOUCH and all(block[i] < on[i + 3] and on[i] < block[i + 3] for i in range(2))
        for block in shape.whole
    )


def _entered(board: Shape, there: Sequence[Shape]) -> Iterator[str]:
    """The members of the frame that a board goes into: their slots or grooves."""
    for each in there:
        bar = bounds(each.whole)
        if each.is_frame and any(
            all(box[i] < bar[i + 3] - TOUCH and bar[i] < box[i + 3] - TOUCH for i in range(3))
            for box in board.whole
        ):
            yield each.mark


def _below_frame(figures: Figures, mark: str, ruler: Ruler, drawn: Collection[Fact]) -> Iterator[str]:
    """How far a plate is from the nearer outer faces of the frame."""
    plate = next((body.bounds for body in figures.assembly.solids if body.name == mark), None)
    frame, flush, away = frame_of(figures), [], []
    for axis, (first, last) in enumerate((("left", "right"), ("front", "rear"))) if plate else ():
        assert plate
        low, high = plate[axis] - frame[axis], frame[axis + 3] - plate[axis + 3]
        far, side = (low, first) if low <= high + TOUCH else (high, last)
        if abs(far) < TOUCH:
            flush.append(side)
        elif (mark, axis) not in drawn:
            away.append(f"{far_text(far, ruler)} from {side}")
    yield from away
    if flush:
        yield f"flush {', '.join(flush)}"


def holds(wall: Shape, box: Sequence[float], axis: int) -> bool:
    """Whether a board has a box on one of its faces across an axis."""
    own = bounds(wall.whole)
    beside = all(own[i] < box[i + 3] and box[i] < own[i + 3] for i in range(3) if i != axis)
    return (
        wall.kind == "board"
        and beside
        and min(abs(own[axis] - box[axis + 3]), abs(own[axis + 3] - box[axis])) < TOUCH
    )


def _in_bay(
    figures: Figures, move: DrawnMotion, box: Sequence[float], ruler: Ruler, drawn: Collection[Fact]
) -> Iterator[str]:
    """How far it is above the rail that the bay's height begins on, the block below it, and how far in it is."""
    yield from _above_rail(figures, box, ruler)
    for each in figures.spacers:
        # who rests on it is listed by bay and number
        if move.motion.called.replace(".", "/") in each.label.partition(": ")[2].split(", "):
            yield f"spacer block {ruler.text(each.length)}"
    if (move.motion.called, 1) not in drawn:
        yield f"{far_text(_setback(figures, move, box), ruler)} behind face"


def _setback(figures: Figures, move: DrawnMotion, box: Sequence[float]) -> float:
    """How far something is behind the face that it comes in by (mm)."""
    frame = frame_of(figures)
    return box[1] - frame[1] if move.motion.way == "+y" else frame[4] - box[4]


def common_setback(figures: Figures, moving: Sequence[DrawnMotion]) -> tuple[float, frozenset[Fact]] | None:
    """How far all that is fixed in bays is behind its face (mm), and what that says; None where they differ."""
    fixed = [move for move in moving if len(move.shapes) == 1 and move.shapes[0].kind == FIXED_IN_BAY]
    far = [_setback(figures, move, bounds(move.shapes[0].whole)) for move in fixed]
    if len(fixed) < LEAST_COMMON or max(far) - min(far) > TOUCH / 2:
        return None
    return far[0], frozenset((move.motion.called, 1) for move in fixed)


def _above_rail(figures: Figures, box: Sequence[float], ruler: Ruler) -> Iterator[str]:
    below = [float(bay.bottom) for bay in figures.layout.bays if float(bay.bottom) <= box[2] + TOUCH]
    if below:
        yield f"{far_text(box[2] - max(below), ruler)} above rail"


def frame_of(figures: Figures) -> tuple[float, ...]:
    """The outer faces of the frame."""
    return bounds([block for shape in figures.assembly.shapes if shape.is_frame for block in shape.whole])


def far_text(length: float, ruler: Ruler) -> str:
    """A length of the scene (mm) as it is written."""
    return ruler.text(Fraction(length).limit_denominator(1000))
