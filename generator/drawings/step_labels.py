"""Labels and arrows of a step picture: what each thing is called and how large it is, and which way it goes."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import permutations, product
from math import hypot

from generator.drawings.callouts import Callout
from generator.drawings.canvas import Canvas
from generator.drawings.dimensions import Ruler
from generator.drawings.extent import Extent, Point, shifted
from generator.drawings.eye import Eye
from generator.drawings.iso_dimensions import Fact
from generator.drawings.isometric import VisibleFace
from generator.drawings.painted import Painted
from generator.drawings.scene import scaled
from generator.drawings.step_arrows import CLEAR, DISC, arrow, curved, end_centre, reach, travel
from generator.drawings.step_counts import unequal_screws
from generator.drawings.step_groups import box_of, stacked
from generator.drawings.step_motions import DrawnMotion
from generator.drawings.step_places import STRIP, placed_lines
from generator.drawings.step_take import nuts_in, spaces_in
from generator.figures.model import Figures
from generator.figures.rows.assembly import Shape, Step
from generator.figures.rows.parts import PartRow

#: Where on a face a leader may end, as parts of its two sides.
SPOTS = (0.5, 0.3, 0.7, 0.15, 0.85)
#: All pairs of them, the middle first.
GRID = sorted(product(SPOTS, SPOTS), key=lambda spot: abs(spot[0] - 0.5) + abs(spot[1] - 0.5))
#: More arrows than this show nothing more.
MOST_ARROWS = 12
#: What goes in less far (mm) is only put on.
LEAST_TRAVEL = 15


def draw_arrows(
    canvas: Canvas, moving: Sequence[DrawnMotion], painted: Painted, view: Eye, scale: float
) -> list[Extent]:
    """From each piece that is drawn off its place, towards it: at its leading end, or behind it where that hides."""
    groups = stacked(moving, view)[:MOST_ARROWS]
    shown = [move for moves in groups for move in moves]
    numbered = len({move.motion.way for move in shown}) > 1 or _follow(shown)
    rooms = []
    starts: list[Point] = []
    for number, moves in enumerate(groups, 1):
        first, box = moves[0], box_of(moves)
        axis, high = "xyz".index(first.motion.way[1]), first.motion.way[0] == "+"
        ahead, length = reach(scaled(view.point([-value for value in first.offset]), scale))
        front, back = (view.point(end_centre(box, axis, high=end)) for end in (high, not high))
        hidden = painted.covers([front, back], {mark for move in moves for mark in move.motion.marks})
        if len(moves) > 1 or (hidden[0] and not hidden[1]):
            # one arrow for all of a stack is outside, where it hides none of them
            start = shifted(scaled(back, scale), -ahead[0] * length, -ahead[1] * length)
        else:
            clear = CLEAR + DISC if numbered else CLEAR
            start = shifted(scaled(front, scale), ahead[0] * clear, ahead[1] * clear)
        while any(hypot(start[0] - x, start[1] - y) < 2 * DISC for x, y in starts):
            # two pieces of one place: side by side
            start = shifted(start, -2 * DISC * ahead[1], 2 * DISC * ahead[0])
        starts.append(start)
        drawn = arrow if first.motion.straight else curved
        rooms.append(drawn(canvas, start, ahead, length, str(number) if numbered else ""))
    return rooms


def _follow(moves: Sequence[DrawnMotion]) -> bool:
    """Whether two bars come into one slot from one side: the place of the first is behind that of the next."""
    bars = (move for move in moves if any(shape.is_frame for shape in move.shapes))
    ways = [(move.motion.way, [block for shape in move.shapes for block in shape.whole]) for move in bars]
    return any(
        way == other and travel(way, own, rest) >= LEAST_TRAVEL
        for (way, own), (other, rest) in permutations(ways, 2)
    )


@dataclass(frozen=True)
class Told:
    """What a label says of a thing, and where in the scene (mm) the thing shows."""

    name: str
    lines: tuple[str, ...]
    strong: str
    has_size: bool
    spots: Sequence[Point]
    brief: tuple[str, ...]


def labels(
    told: Sequence[Told],
    scale: float,
    arrows: Sequence[Extent],
    links: Mapping[str, str],
    stacks: Mapping[str, int],
) -> Iterable[Callout]:
    """The label of each thing on a paper of a scale; its leader ends where no arrow is.

    `stacks` has the number of the stack of each thing that is in one.
    """
    found: dict[str, Callout] = {}
    for each in told:
        at = [scaled(spot, scale) for spot in each.spots]
        clear = at
        for left, top, right, bottom in arrows:
            clear = [(x, y) for x, y in clear if not (left <= x <= right and top <= y <= bottom)]
        label = Callout(
            each.name,
            each.lines,
            tuple(clear or at),
            links.get(each.name, ""),
            each.strong,
            each.has_size,
            brief=each.brief,
            stack=stacks.get(each.name),
        )
        # a pair that belongs to one thing has one label
        before = found.get(each.name)
        found[each.name] = replace(label, points=before.points + label.points) if before else label
    return found.values()


def told(
    figures: Figures,
    step: Step,
    moving: Sequence[DrawnMotion],
    painted: Painted,
    ruler: Ruler,
    drawn: Collection[Fact] = (),
) -> Iterator[Told]:
    """What each thing is called, how large it is, how far it goes in, and where it shows; not what is `drawn`."""
    rows = {mark: row for row in figures.parts for mark in row.marks}
    shapes = {shape.mark: shape for shape in figures.assembly.shapes}
    there = [shapes[mark] for mark in step.standing if mark in shapes]
    screws = unequal_screws(figures, step)
    made = {
        motion.into: other.n
        for other in figures.assembly.steps
        for motion in other.motions
        if other.n < step.n
    }
    for move in moving:
        name = move.motion.called
        lines: tuple[str, ...] = ()
        strong = ""
        brief: tuple[str, ...] = ()
        at_place = tuple(placed_lines(figures, move, there, ruler, drawn))
        if move.lines:
            lines, brief = move.lines, move.brief
        elif row := rows.get(name):
            size = (*_set_apart(figures, name), part_size(row, ruler))
            lines, brief = (row.group, *size, *at_place), (*size, *at_place)
            if move.shapes[0].kind == STRIP and at_place:
                brief = at_place
            if far := _travel(move, there):
                strong = f"slides {ruler.text(far)}"
            lines += (screws[name],) if name in screws else ()
            inside = nuts_in(figures, name)
            spaces = f", {spaces_in(figures, name)}" if len(inside) == 1 and spaces_in(figures, name) else ""
            lines += tuple(f"{nut} nuts in its {face} slot{spaces}" for face, nut in inside.items())
        else:
            kind = move.motion.name.split(f" {name}")[0]
            several = sum(other.motion.called == name for other in moving)
            what = () if kind == move.motion.name else (f"pair of {kind}s" if several > 1 else kind,)
            lines, brief = (*what, *at_place), at_place or what
        if not move.lines and (built := made.get(move.motion.name)):
            _, *rest = move.motion.name.split(f"{name} ")
            lines += (f"{' '.join(rest)} from step {built}".strip(),)
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
        showing = [spot for spot, no in zip(spots, hidden, strict=True) if not no]
        by_length = any(not line.startswith(("on ", "in ")) for line in at_place)
        sized = move.has_size or by_length or (name in rows and not move.lines)
        yield Told(name, lines, strong, sized, showing, brief)


def _set_apart(figures: Figures, mark: str) -> Iterator[str]:
    """What is said of what stands below a piece, where it differs from its like."""
    yield from (
        picture.says for picture in figures.stand.facts.pictures if picture.on == mark and picture.says
    )


def part_size(row: PartRow, ruler: Ruler) -> str:
    """The length of a bar, both sizes of a board."""
    return ruler.text(row.length) if row.width == row.thickness else ruler.size(row.length, row.width)


def _travel(move: DrawnMotion, there: Sequence[Shape]) -> Fraction:
    """How far what is drawn off its place goes in (mm); nothing for what is only put down."""
    if not any(move.offset) or not move.motion.straight:
        return Fraction(0)
    own, others = ([block for shape in shapes for block in shape.whole] for shapes in (move.shapes, there))
    far = Fraction(round(travel(move.motion.way, own, others)))
    return far if far >= LEAST_TRAVEL else Fraction(0)


def _spots(face: VisibleFace) -> Iterator[Point]:
    """Places all over a face, its middle first."""
    (x0, y0), (x1, y1), _, (x3, y3) = face.corners
    for u, v in GRID:
        yield (x0 + u * (x1 - x0) + v * (x3 - x0), y0 + u * (y1 - y0) + v * (y3 - y0))
