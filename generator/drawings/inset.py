"""A round window into a joint of a step picture: the true section through the bodies, with the key that tightens it.

The plane is across the bar that has the slot, through the middle of the screw or of the tongue.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from math import cos, hypot, pi, sin

from generator.bench.fillings.screw_rules import FIXED_IN_BAY
from generator.calculators.bodies import Body
from generator.calculators.sections import section
from generator.drawings.canvas import Canvas
from generator.drawings.extent import Point, shifted
from generator.drawings.inset_screw import draw_screw
from generator.drawings.inset_webs import webs
from generator.drawings.joint_views import LOOKS, RADIUS, CutOpen, JointView
from generator.drawings.letter_sizes import ASCENDER, BOLD, SMALL_TEXT, TEXT, font_size, line_height
from generator.drawings.lettering import wrapped

#: Corners of the polygon that stands for a window, the room for words beside it, and what of it is clear (mm).
CORNERS, WORDS = 36, 50.0
#: A point so near to the middle is within every side of the polygon.
WITHIN = RADIUS * cos(pi / CORNERS)
#: Scales: the first in which what is to be seen fits.
SCALES = (1, 2, 5)
GAP = 1.5
#: The radius of an arrow that turns (mm).
TURN = 3.4
#: How thick the sheet of a channel is drawn (mm). Common practice, no source.
SHEET = 2.0
TINTS = {
    "bar": "bar",
    "board": "wood",
    "strip": "wood",
    "clip": "dark",
    "plate": "dark",
    "trim": "bar",
    "screw": "dark",
}


def draw_inset(canvas: Canvas, at: Point, view: JointView, shown: CutOpen) -> None:
    """What is in the window with its upper left corner at `at`."""
    scale = _scale(view)
    first, second = (i for i in range(3) if i != view.axis)
    centre = (at[0] + RADIUS, at[1] + RADIUS)

    def paper(point: Sequence[float]) -> Point:
        """A point of the section on paper: the second axis up."""
        return (
            centre[0] + (point[0] - view.middle[first]) / scale,
            centre[1] - (point[1] - view.middle[second]) / scale,
        )

    window = [
        (centre[0] + RADIUS * cos(2 * pi * n / CORNERS), centre[1] + RADIUS * sin(2 * pi * n / CORNERS))
        for n in range(CORNERS)
    ]
    canvas.circle(centre, RADIUS, "paper")
    for body in shown.bodies.values():
        if not _shows(body, view, RADIUS * scale):
            continue
        if parts := list(_channel(body, view, first, second)):
            for part in parts:
                if inside := _within([paper(point) for point in part], window, centre):
                    canvas.polygon(inside, "iso-new-left-edged")
            continue
        across = section(body.blocks, view.axis, view.middle[view.axis])
        tint = "new" if body.name in shown.new else TINTS.get(body.kind, "dark")
        if body.kind == "bar":
            for web in webs(across.areas):
                sides = [paper(point) for point in web]
                if inside := _within(sides, window, centre):
                    canvas.polygon(inside, f"iso-{tint}-left")
                for start, end in (sides[1:3], (sides[3], sides[0])):
                    if all(hypot(x - centre[0], y - centre[1]) < RADIUS for x, y in (start, end)):
                        canvas.line(start, end, "thin")
        for x0, y0, x1, y1 in across.areas:
            corners = [paper(point) for point in ((x0, y0), (x1, y0), (x1, y1), (x0, y1))]
            if inside := _within(corners, window, centre):
                canvas.polygon(inside, f"iso-{tint}-left")
        for start, end in across.edges:
            if line := _clipped(paper(start), paper(end), centre):
                canvas.line(*line, "thin")
    for screw in view.driven:
        start, end = (paper((point[first], point[second])) for point in (screw.head, screw.point))
        draw_screw(canvas, screw, start, end, scale, lambda corners: _within(corners, window, centre))
    if view.turned:
        x, y = paper([view.middle[i] + view.turned[i] for i in (first, second)])
        far = hypot(x - centre[0], y - centre[1]) or 1.0
        ahead = ((x - centre[0]) / far, (y - centre[1]) / far)
        # about the clip's axis, as near its head as the window has room
        off = min(far + TURN + 1.0, RADIUS - TURN - 1.5)
        _draw_turn(canvas, shifted(centre, ahead[0] * off, ahead[1] * off))
    if view.key:
        _draw_key(canvas, view, paper, centre, scale)


def draw_rim(canvas: Canvas, at: Point) -> None:
    """The ring about a window with its upper left corner at `at`."""
    canvas.circle((at[0] + RADIUS, at[1] + RADIUS), RADIUS, "outline")


def _channel(body: Body, view: JointView, first: int, second: int) -> Iterator[list[Point]]:
    """Of what runs in two halves the one that a screw of the view holds: a channel, open to the driver.

    The other half is not there yet when it is screwed on, and no driver would come through it.
    """
    for screw in view.driven if body.kind == FIXED_IN_BAY else ():
        if body.name not in screw.joins:
            continue
        axis = max(range(3), key=lambda i: abs(screw.way[i]))
        across = first + second - axis
        held, other = (axis + 3, axis) if screw.way[axis] > 0 else (axis, axis + 3)
        web, lip = list(body.bounds), list(body.bounds)
        web[other] = web[held] - SHEET * (1 if held > other else -1)
        lip[other] = (body.bounds[axis] + body.bounds[axis + 3]) / 2
        upper, lower = list(lip), list(lip)
        upper[across] = lip[across + 3] - SHEET
        lower[across + 3] = lip[across] + SHEET
        for low_x, low_y, high_x, high_y in (
            (box[first], box[second], box[first + 3], box[second + 3]) for box in (upper, lower, web)
        ):
            yield [(low_x, low_y), (high_x, low_y), (high_x, high_y), (low_x, high_y)]
        return


def _scale(view: JointView) -> int:
    return next((each for each in SCALES if view.reach <= RADIUS * each), SCALES[-1])


def draw_words(canvas: Canvas, at: Point, view: JointView, widest: float) -> None:
    """What a window shows, right of it."""
    rows = _rows(view, widest)
    # many rows begin higher, so that they end with the window where they can
    free = 2 * RADIUS - words_height(view, widest)
    x, y = (
        at[0] + 2 * RADIUS + 3.0,
        at[1] + ASCENDER * font_size(rows[0][1]) + min(RADIUS / 4, max(0.0, free)),
    )
    for style, size, line in rows:
        canvas.text((x, y), line, size, style=style)
        y += line_height(size)


def words_height(view: JointView, widest: float) -> float:
    """How high (mm) the words beside a window are."""
    return sum(line_height(height) for _, height, _ in _rows(view, widest))


def _rows(view: JointView, widest: float) -> list[tuple[str, float, str]]:
    """Style, height and text of the lines beside a window."""
    title, *words = view.words
    # beside a narrow one the next window begins
    room = widest - GAP if widest < WORDS else widest * BOLD
    rows = [("mark", TEXT, line) for line in wrapped(title, room / BOLD, TEXT)]
    rows += [("text", SMALL_TEXT, line) for text in words for line in wrapped(text, room, SMALL_TEXT)]
    return [*rows, ("note", SMALL_TEXT, f"section 1 : {_scale(view)}")]


def _draw_key(
    canvas: Canvas, view: JointView, paper: Callable[[Sequence[float]], Point], centre: Point, scale: int
) -> None:
    """The key from outside to the screw's head, and which way it turns."""
    assert view.key and view.screw
    axis, sign = LOOKS[view.key.face]
    first, second = (i for i in range(3) if i != view.axis)
    if axis == view.axis:
        return
    head = view.screw.bounds[axis + 3] if sign > 0 else view.screw.bounds[axis]
    half = float(view.key.key) / 2 / scale
    tip = paper(
        (head if axis == first else view.middle[first], head if axis == second else view.middle[second])
    )
    ahead = (-sign if axis == first else 0.0, sign if axis == second else 0.0)
    tip = shifted(tip, ahead[0] * half, ahead[1] * half)
    far = RADIUS - 0.3
    start = (
        centre[0] - ahead[0] * far if ahead[0] else tip[0],
        centre[1] - ahead[1] * far if ahead[1] else tip[1],
    )
    side = (-ahead[1] * half, ahead[0] * half)
    canvas.polygon(
        [
            shifted(start, *side),
            shifted(tip, *side),
            shifted(tip, -side[0], -side[1]),
            shifted(start, -side[0], -side[1]),
        ],
        "hole",
    )
    _draw_turn(canvas, shifted(start, ahead[0] * 5.5, ahead[1] * 5.5))


def _draw_turn(canvas: Canvas, at: Point) -> None:
    """An arrow round the key, the way that tightens a screw."""
    radius, first, last = TURN, -150.0, 120.0
    points = [
        shifted(at, radius * cos(angle * pi / 180), radius * sin(angle * pi / 180))
        for angle in (first + (last - first) * n / 12 for n in range(13))
    ]
    canvas.polyline(points, "iso-halo")
    canvas.polyline(points, "outline")
    (x0, y0), tip = points[-2], points[-1]
    length = hypot(tip[0] - x0, tip[1] - y0)
    ahead = ((tip[0] - x0) / length, (tip[1] - y0) / length)
    canvas.polygon(
        [
            shifted(tip, 2.2 * ahead[0], 2.2 * ahead[1]),
            shifted(tip, -1.1 * ahead[1], 1.1 * ahead[0]),
            shifted(tip, 1.1 * ahead[1], -1.1 * ahead[0]),
        ],
        "arrow",
    )


def _shows(body: Body, view: JointView, reach: float) -> bool:
    """Whether a body reaches the plane of the cut within `reach` (mm) of the middle."""
    low, high = body.bounds[:3], body.bounds[3:]
    if view.alone and body.name not in view.alone:
        return False
    return all(
        low[i] < view.middle[i] + off and view.middle[i] - off < high[i]
        for i, off in ((i, 0.0 if i == view.axis else reach) for i in range(3))
    )


def _within(corners: Sequence[Point], window: Sequence[Point], centre: Point) -> list[Point]:
    """What of a polygon is within the window (Sutherland and Hodgman); empty when nothing is."""
    found = list(corners)
    xs, ys = zip(*corners, strict=True)
    if min(max(xs) - centre[0], centre[0] - min(xs), max(ys) - centre[1], centre[1] - min(ys)) < -RADIUS:
        return []
    if max(hypot(x - centre[0], y - centre[1]) for x, y in corners) < WITHIN:
        return found
    for a, b in zip(window, (*window[1:], window[0]), strict=True):

        def side(point: Point, a: Point = a, b: Point = b) -> float:
            return (b[0] - a[0]) * (point[1] - a[1]) - (b[1] - a[1]) * (point[0] - a[0])

        given, found = found, []
        for p, q in zip(given, (*given[1:], *given[:1]), strict=True):
            s, t = side(p), side(q)
            if s >= 0:
                found.append(p)
            if (s >= 0) != (t >= 0):
                share = s / (s - t)
                found.append((p[0] + share * (q[0] - p[0]), p[1] + share * (q[1] - p[1])))
        if not found:
            return []
    return found


def _clipped(start: Point, end: Point, centre: Point) -> tuple[Point, Point] | None:
    """What of an upright or level line is within the window."""
    (x0, y0), (x1, y1) = start, end
    upright = abs(x1 - x0) < abs(y1 - y0)
    off, low, high = (x0 - centre[0], y0, y1) if upright else (y0 - centre[1], x0, x1)
    middle = centre[1] if upright else centre[0]
    if abs(off) >= RADIUS:
        return None
    half = (RADIUS**2 - off**2) ** 0.5
    low, high = max(min(low, high), middle - half), min(max(low, high), middle + half)
    if low >= high:
        return None
    return ((x0, low), (x0, high)) if upright else ((low, y0), (high, y0))
