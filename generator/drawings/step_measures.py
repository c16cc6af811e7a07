"""What a step picture measures with a line, one datum each: strips on a wall, posts along a rail, plates below it."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace

from generator.drawings.dimensions import Ruler
from generator.drawings.eye import Eye
from generator.drawings.iso_dimensions import Fact, Measurement, Side, Station
from generator.drawings.step_arrows import bounds
from generator.drawings.step_motions import DrawnMotion
from generator.drawings.step_places import STRIP, far_text, frame_of, holds
from generator.figures.model import Figures
from generator.figures.rows.assembly import Shape

Box = Sequence[float]
#: How far out one is tried that meets something nearer (mm of paper).
FARTHER = 8.5
#: How far out a dimension is that passes what is drawn below its place (mm of paper).
PAST = (20.0, 23.0, 27.0)
#: What a story stick calls the posts that it sets.
POST = "post "
#: Edges nearer than this are one (mm).
SAME = 0.5


def measures(
    figures: Figures, moving: Sequence[DrawnMotion], standing: Sequence[Shape], view: Eye, ruler: Ruler
) -> Iterator[Measurement]:
    """All that could be measured with a line, what matters most first."""
    yield from _on_walls(moving, standing, view, ruler)
    yield from _below(figures, moving, view, ruler)
    yield from _by_stick(figures, moving, view, ruler)


def footprints(moving: Sequence[DrawnMotion], standing: Sequence[Shape]) -> Iterator[tuple[str, list[Box]]]:
    """Where strips that are drawn off their wall go on it: the wall's mark, and the four edges of each (mm)."""
    for box, axis, way, wall in _strips(moving, standing):
        own = bounds(wall.whole)
        flat = own[axis + 3] if way == "-" else own[axis]
        first, second = (i for i in range(3) if i != axis)
        corners: list[Box] = []
        for i, j in ((0, 0), (3, 0), (3, 3), (0, 3)):
            corner = [flat] * 3
            corner[first], corner[second] = box[first + i], box[second + j]
            corners.append(corner)
        yield wall.mark, corners


def _strips(
    moving: Sequence[DrawnMotion], standing: Sequence[Shape]
) -> Iterator[tuple[Box, int, str, Shape]]:
    """Each strip that is drawn off the wall that holds it: its box, its way in, the wall."""
    there = list(standing)
    for move in moving:
        if any(move.offset) and len(move.shapes) == 1 and move.shapes[0].kind == STRIP:
            box, axis = bounds(move.shapes[0].whole), "xyz".index(move.motion.way[1])
            wall = next((each for each in there if holds(each, box, axis)), None)
            if wall:
                yield box, axis, move.motion.way[0], wall
        there += move.shapes


def _on_walls(
    moving: Sequence[DrawnMotion], standing: Sequence[Shape], view: Eye, ruler: Ruler
) -> Iterator[Measurement]:
    """Strips from the first edges of their wall, in the plane of the face that they go on."""
    marks = {bounds(move.shapes[0].whole): move.motion.called for move in moving if len(move.shapes) == 1}
    on: dict[tuple[str, int, str], list[Box]] = {}
    walls: dict[str, Box] = {}
    for box, normal, way, wall in _strips(moving, standing):
        on.setdefault((wall.mark, normal, way), []).append(box)
        walls[wall.mark] = bounds(wall.whole)
    for (mark, normal, way), boxes in on.items():
        wall_box = walls[mark]
        flat = wall_box[normal + 3] if way == "-" else wall_box[normal]
        for axis in (i for i in range(3) if i != normal):
            places = [(box[axis], marks[tuple(box)]) for box in boxes]
            across = 3 - normal - axis
            near, far = _sides(wall_box, across, {normal: flat}, view)
            sides = (near, replace(near, reach=FARTHER), far)
            yield from _measure(axis, wall_box[axis], places, sides, ruler)


def _below(figures: Figures, moving: Sequence[DrawnMotion], view: Eye, ruler: Ruler) -> Iterator[Measurement]:
    """Plates below one rail, from an end of the frame, in the plane of its underside."""
    plates = {bolt.plate for bolt in figures.stand.facts.bolts}
    boxes = {body.name: body.bounds for body in figures.assembly.solids if body.name in plates}
    shown = [move.motion.called for move in moving if move.motion.called in boxes]
    if not shown:
        return
    frame = frame_of(figures)
    rows: dict[float, list[str]] = {}
    for mark in shown:
        rows.setdefault(round(boxes[mark][1], 1), []).append(mark)
    for own in reversed(rows.values()):
        for side in _sides(frame, 1, {2: frame[2]}, view):
            if not all(_near_edge(boxes[mark], frame, side) for mark in own):
                continue
            # from the end towards which lines lead out: then they pass the plates, which are drawn off
            away, along = (
                view.point([float(i == axis) * sign for i in range(3)]) for axis, sign in (side.out, (0, 1))
            )
            end = 3 if away[0] * along[0] > 0 else 0
            inner = (mark for mark in own if all(abs(boxes[mark][i] - frame[i]) > SAME for i in (0, 3)))
            places = [(boxes[mark][end], mark) for mark in inner]
            sides = (side, *(replace(side, reach=far) for far in PAST))
            yield from _measure(0, frame[end], places, sides, ruler)
            return


def _by_stick(
    figures: Figures, moving: Sequence[DrawnMotion], view: Eye, ruler: Ruler
) -> Iterator[Measurement]:
    """Posts by the marks of a story stick that is shown, from its left end."""
    sticks = {stick.name: stick for stick in figures.sticks}
    for move in moving:
        stick = sticks.get(move.shapes[0].mark) if len(move.shapes) == 1 else None
        if stick:
            box = bounds(move.shapes[0].whole)
            first: dict[str, float] = {}
            for mark in stick.marks:
                if mark.kind == "edge" and POST in mark.label:
                    first.setdefault(mark.label, float(mark.at))
            places = [(box[0] + at, stick.name) for at in first.values()]
            near, _ = _sides(box, 1, {2: box[2]}, view)
            yield from _measure(0, box[0], places, (near, replace(near, reach=FARTHER)), ruler)


def _near_edge(plate: Box, frame: Box, side: Side) -> bool:
    """Whether a plate is below the half of the frame that is on this side."""
    axis, sign = side.out
    middle, centre = (frame[axis] + frame[axis + 3]) / 2, (plate[axis] + plate[axis + 3]) / 2
    return (centre - middle) * sign > 0


def _measure(
    axis: int, datum: float, places: Collection[tuple[float, str]], sides: tuple[Side, ...], ruler: Ruler
) -> Iterator[Measurement]:
    """Stations by their place: pieces at the same one share a figure."""
    found: dict[float, set[Fact]] = {}
    for at, mark in places:
        if abs(at - datum) < SAME:
            # what is flush needs no line
            continue
        found.setdefault(round(at, 3), set()).add((mark, axis))
    stations = tuple(
        Station(at, far_text(abs(at - datum), ruler), frozenset(facts)) for at, facts in found.items()
    )
    if stations:
        yield Measurement(axis, datum, stations, sides)


def _sides(box: Box, across: int, fixed: dict[int, float], view: Eye) -> Iterator[Side]:
    """Both edges of a face across an axis, the one towards the eye first."""
    for sign in (1, -1) if not view.sees([float(i == across) for i in range(3)]) else (-1, 1):
        foot = [0.0, 0.0, 0.0]
        foot[across] = box[across + 3] if sign > 0 else box[across]
        for axis, value in fixed.items():
            foot[axis] = value
        yield Side(tuple(foot), (across, sign))
