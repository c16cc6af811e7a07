"""Nuts that must be in a slot before it closes: each at its place along the bar, and a window into one of them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import hypot

from generator.calculators.bodies import Body
from generator.drawings.canvas import Canvas
from generator.drawings.extent import Extent, Point, around, shifted
from generator.drawings.eye import Eye
from generator.drawings.joint_views import (
    ABOUT_SCREW,
    LOOKS,
    CutOpen,
    JointView,
    long_axis,
    width_of,
)
from generator.drawings.scene import scaled
from generator.drawings.step_arrows import bounds
from generator.drawings.step_motions import DrawnMotion, moved
from generator.drawings.step_take import NUTS, nuts_in
from generator.figures.model import Figures
from generator.figures.rows.assembly import Step

#: A nut's mark along its slot and across it, and the clear paper between two (mm).
LONG, WIDE, GAP = 2.0, 1.4, 0.7
#: The rim of paper about a filled one (mm).
RIM = 0.3
#: Beside so many windows there is none into a nut: marks and words say enough.
MOST_BESIDE = 1
#: What the window into one is called.
NUT = "nut"
#: The styles of a mark on a face that shows, and on one that does not.
FILLED, OPEN = "nut", "hole"
#: No nut is nearer to the middle of its bar than this part of the bar's width.
CORE = 0.125
#: The slot that a step loads which does nothing else.
BELOW = "bottom"


@dataclass(frozen=True)
class NutPlace:
    """Nuts at one place (mm) in the slot of a bar that opens to a face: `count` with the spare ones."""

    bar: str
    face: str
    body: Body
    count: int

    @property
    def into(self) -> tuple[float, ...]:
        """The way into the slot, as a direction."""
        axis, sign = LOOKS[self.face]
        return tuple(-float(sign) if i == axis else 0.0 for i in range(3))


def nut_places(figures: Figures, step: Step, moving: Sequence[DrawnMotion]) -> Iterator[NutPlace]:
    """Where the nuts are that a step's bars get in it: those for plates in a step of their own."""
    bars = {body.name: body for body in figures.assembly.solids if body.kind == "bar"}
    for move in moving:
        bar = bars.get(move.motion.called)
        if bar is None:
            continue
        inside = {BELOW: 0} if step.key == NUTS else nuts_in(figures, bar.name)
        for face, count in inside.items():
            own = [nut for nut in figures.assembly.nuts if _in_slot(nut, bar, face)]
            spare = max(0, count - len(own))
            for number, nut in enumerate(own):
                # the spare ones are beside those that are used, as evenly as they can
                more = spare // len(own) + (number < spare % len(own))
                yield NutPlace(bar.name, face, nut, 1 + more)


def _in_slot(nut: Body, bar: Body, face: str) -> bool:
    axis, sign = LOOKS[face]
    inside = all(bar.bounds[i] < nut.centre[i] < bar.bounds[i + 3] for i in range(3))
    # the core of the bar is between its slots
    core = CORE * (bar.bounds[axis + 3] - bar.bounds[axis])
    return inside and (nut.centre[axis] - bar.centre[axis]) * sign > core


def nut_views(
    step: Step, shown: CutOpen, places: Sequence[NutPlace], joints: Sequence[JointView]
) -> list[JointView]:
    """A look into a nut of each bar, where there is room for one more window."""
    if len({joint.kind for joint in joints}) > MOST_BESIDE:
        return []
    count: Counter[tuple[str, str]] = Counter()
    for place in places:
        count[place.bar, place.face] += place.count
    faces = {face for _, face in count}
    listed = ", ".join(f"{many} in {bar}" for (bar, _), many in count.items())
    slots = "; ".join(f"{many} in {bar}: {face} slot" for (bar, face), many in count.items())
    all_of_them = f"{listed}: into the slot below" if faces == {BELOW} else slots
    found: list[JointView] = []
    for place in sorted(places, key=lambda each: _off_the_middle(each, shown)):
        bar = shown.bodies.get(place.bar)
        if bar is not None:
            words = (NUT, all_of_them, f"here in {place.bar}")
            axis = long_axis(bar)
            reach, on = ABOUT_SCREW * width_of(bar, axis), (place.bar,)
            middle = place.body.centre
            found.append(JointView(middle, axis, reach, words, on=on, way=place.into, kind=NUT, marked=True))
    return found


def _off_the_middle(place: NutPlace, shown: CutOpen) -> float:
    """How far a nut is from the middle of its bar (mm): at an end an arrow may be."""
    bar = shown.bodies[place.bar]
    return abs(place.body.centre[long_axis(bar)] - bar.centre[long_axis(bar)])


def draw_nuts(
    canvas: Canvas, places: Sequence[NutPlace], moving: Sequence[DrawnMotion], view: Eye, scale: float
) -> list[Extent]:
    """A mark for each nut, along its slot: filled where the slot shows. The room that each row of them takes."""
    moves = {move.motion.called: move for move in moving}
    rows: dict[tuple[str, str], list[NutPlace]] = {}
    for place in places:
        rows.setdefault((place.bar, place.face), []).append(place)
    rooms = []
    for (bar, face), own in rows.items():
        axis, sign = LOOKS[face]
        box = bounds([moved(each, moves[bar].offset) for each in moves[bar].shapes[0].whole])
        length = max(range(3), key=lambda i: box[i + 3] - box[i])
        x, y = view.point([float(i == length) for i in range(3)])
        ahead = (x / hypot(x, y), y / hypot(x, y))
        at = []
        for place in _in_order(own, length):
            point = [a + b for a, b in zip(place.body.centre, moves[bar].offset, strict=True)]
            point[axis] = box[axis + 3] if sign > 0 else box[axis]
            at += [scaled(view.point(point), scale)] * place.count
        style = FILLED if view.sees(own[0].into) else OPEN
        rooms += [_draw_mark(canvas, middle, ahead, style) for middle in _spread(at, ahead)]
    return rooms


def _in_order(places: Sequence[NutPlace], axis: int) -> list[NutPlace]:
    return sorted(places, key=lambda each: each.body.centre[axis])


def _spread(points: Sequence[Point], ahead: Point) -> Iterator[Point]:
    """Points along a line with room for a mark between each two: those that are nearer are moved apart."""
    least = LONG + GAP
    groups: list[list[Point]] = []
    for point in points:
        if groups and _far(groups[-1], point, ahead) < least:
            groups[-1].append(point)
        else:
            groups.append([point])
    for group in groups:
        middle = (sum(x for x, _ in group) / len(group), sum(y for _, y in group) / len(group))
        for number in range(len(group)):
            off = (number - (len(group) - 1) / 2) * least
            yield shifted(middle, ahead[0] * off, ahead[1] * off)


def _far(group: Sequence[Point], point: Point, ahead: Point) -> float:
    """How far a point is along the line beyond what a group takes of it when it is spread."""
    first = sum(x * ahead[0] + y * ahead[1] for x, y in group) / len(group)
    own = point[0] * ahead[0] + point[1] * ahead[1]
    return abs(own - first) - (len(group) - 1) / 2 * (LONG + GAP)


def _draw_mark(canvas: Canvas, middle: Point, ahead: Point, style: str) -> Extent:
    """A bar along the slot, in a rim of paper where it is filled."""
    for rim, look in ((RIM, "paper"), (0.0, FILLED)) if style == FILLED else ((0.0, style),):
        long, wide = LONG / 2 + rim, WIDE / 2 + rim
        corners = [
            shifted(middle, ahead[0] * u - ahead[1] * v, ahead[1] * u + ahead[0] * v)
            for u, v in ((-long, -wide), (long, -wide), (long, wide), (-long, wide))
        ]
        canvas.polygon(corners, look)
    return around(corners)


def nut_words(step: Step, places: Sequence[NutPlace], view: Eye) -> str:
    """What the marks are, in sentences; nothing without any."""
    if not places:
        return ""
    hidden = any(not view.sees(place.into) for place in places)
    said = f"Each small bar is a nut{', an empty one behind' if hidden else ''}."
    return said if step.key == NUTS else f"{said} Put each in before its slot closes."
