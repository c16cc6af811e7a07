"""Benches that are bolted together: both from above, and the holes in this one as seen from the other."""

from __future__ import annotations

from generator.drawings.canvas import Canvas, Drawing
from generator.drawings.dimensions import Row, Ruler, Tick, overall, running
from generator.drawings.extent import Point
from generator.drawings.lettering import fitting, notes
from generator.figures.model import Figures
from generator.figures.rows.joins import JoinRow

PLAN_SIZE, FACE_SIZE = 140.0, 110.0
"""Longest side of both benches, and of the frame at the joint, on the paper in mm."""
MIDDLE = 1.6
"""From the middle of a member to the foot of its lettering, in mm."""
HOLE = 1.2
"""Radius of a bolt on the paper, in mm: at scale it would be a dot."""


def draw_plan(figures: Figures, row: JoinRow, ruler: Ruler) -> Drawing:
    """Both frames from above, front edge of this one below."""
    return fitting(lambda size: plan_drawing(figures, row, ruler, size), PLAN_SIZE)


def plan_drawing(figures: Figures, row: JoinRow, ruler: Ruler, size: float) -> Drawing:
    """The plan, its longest side `size` mm on the paper."""
    canvas, layout = Canvas(), figures.layout
    other = [float(each) for each in row.outline]
    own = [0.0, 0.0, float(layout.length), float(layout.depth)]
    wide = max(own[2], other[2]) - min(own[0], other[0])
    deep = max(own[3], other[3]) - min(own[1], other[1])
    scale = size / max(wide, deep)
    for number, (a, b, c, d) in enumerate((own, other), 1):
        canvas.rect(a * scale, -d * scale, (c - a) * scale, (d - b) * scale, "fill-bar")
        canvas.text(
            ((a + c) / 2 * scale, -(b + d) / 2 * scale + MIDDLE), str(number), anchor="middle", style="mark"
        )
    for bolt in row.bolts:
        canvas.polyline(_through(figures, row, float(bolt.from_corner), scale), "frame")
    _plan_sizes(canvas, figures, row, ruler, scale)
    lines = plan_facts(figures, row, ruler)
    notes(canvas, (canvas.extents().left, canvas.extents().bottom + 8.0), "Both benches, from above", lines)
    return canvas.finish(f"join-{row.side}", "Both benches, from above", " ".join(lines))


def _through(figures: Figures, row: JoinRow, at: float, scale: float) -> tuple[Point, Point]:
    """A bolt from above: a stroke across the joint."""
    layout, beyond = figures.layout, 60.0
    whole = float(layout.length if row.side in ("left", "right") else layout.depth)
    face = whole if row.side in ("right", "rear") else 0.0
    out = float(row.apart) if row.side in ("right", "rear") else -float(row.apart)
    ends = (min(face, face + out) - beyond, max(face, face + out) + beyond)
    if row.side in ("left", "right"):
        return (ends[0] * scale, -at * scale), (ends[1] * scale, -at * scale)
    return (at * scale, -ends[0] * scale), (at * scale, -ends[1] * scale)


def _plan_sizes(canvas: Canvas, figures: Figures, row: JoinRow, ruler: Ruler, scale: float) -> None:
    """The whole row, and where the other frame begins along the side."""
    around = canvas.extents()
    ends = [float(each) for each in row.outline]
    if row.side in ("left", "right"):
        low, high = min(0.0, ends[0]), max(float(figures.layout.length), ends[2])
        overall(
            canvas, Row("x", around.bottom + 6.0, 1), low * scale, high * scale, ruler.text(row.row_length)
        )
        if row.begins:
            span = sorted((0.0, -ends[1] * scale))
            overall(canvas, Row("y", around.right + 6.0, 1), span[0], span[1], ruler.text(abs(row.begins)))
        return
    low, high = min(0.0, ends[1]), max(float(figures.layout.depth), ends[3])
    overall(canvas, Row("y", around.right + 6.0, 1), -high * scale, -low * scale, ruler.text(row.row_length))
    if row.begins:
        span = sorted((0.0, ends[0] * scale))
        overall(canvas, Row("x", around.bottom + 6.0, 1), span[0], span[1], ruler.text(abs(row.begins)))


def plan_facts(figures: Figures, row: JoinRow, ruler: Ruler) -> list[str]:
    """Notes below the plan."""
    other = "another bench of this spec" if row.same_spec else row.other
    between = (
        f"Between the frames {ruler.text(row.apart)}, between the tops {ruler.text(row.gap)}."
        if row.apart
        else "The frames touch, and so do the tops."
    )
    return [
        f"1: this bench, its front edge below. 2: {other}, its {row.other_side} side at the joint.",
        f"{between} Bold strokes: bolts. {ruler.note}",
    ]


def draw_face(row: JoinRow, ruler: Ruler) -> Drawing:
    """The members of this frame at the joint, as one sees them from the other bench."""
    return fitting(lambda size: face_drawing(row, ruler, size), FACE_SIZE)


def face_drawing(row: JoinRow, ruler: Ruler, size: float) -> Drawing:
    """The face, its longest side `size` mm on the paper. The left and rear sides are turned round."""
    canvas = Canvas()
    corners = [tuple(float(value) for value in each.at) for each in row.members]
    wide, high = max(each[2] for each in corners), max(each[3] for each in corners)
    scale = size / max(wide, high)
    # seen from outside, the front corner of the left end and the left corner of the rear are at the right
    turned = row.side in ("left", "rear")

    def across(value: float) -> float:
        return (wide - value if turned else value) * scale

    for member, (a, b, c, d) in zip(row.members, corners, strict=True):
        left = min(across(a), across(c))
        canvas.rect(left, -d * scale, (c - a) * scale, (d - b) * scale, "fill-bar")
        long, mark = (c - a) * scale, member.mark
        if long > (d - b) * scale:
            canvas.text((left + long / 2, -(b + d) / 2 * scale + MIDDLE), mark, anchor="middle", style="mark")
        else:
            canvas.text(
                (left + long / 2 + MIDDLE, -(b + d) / 2 * scale),
                mark,
                anchor="middle",
                upward=True,
                style="mark",
            )
    for bolt in row.bolts:
        canvas.circle((across(float(bolt.from_corner)), -float(bolt.up) * scale), HOLE, "hole")
    places = sorted({bolt.from_corner for bolt in row.bolts})
    heights = sorted({bolt.up for bolt in row.bolts})
    datum = across(0.0)
    running(
        canvas, Row("x", canvas.extents().bottom + 5.0, 1), datum,
        [Tick(across(float(at)), ruler.text(at)) for at in places], foot=0.0,
    )  # fmt: skip
    running(
        canvas, Row("y", canvas.extents().left - 5.0, -1), 0.0,
        [Tick(-float(at) * scale, ruler.text(at)) for at in heights], foot=min(across(0.0), across(wide)),
    )  # fmt: skip
    corner = "front" if row.side in ("left", "right") else "left"
    lines = [
        f"As seen from the other bench. Places from the {corner} corner and from the underside of the frame.",
        f"Every hole Ø {ruler.text(row.hole)}. {ruler.note}",
    ]
    title = f"Joining holes, {row.side} side"
    notes(canvas, (canvas.extents().left, canvas.extents().bottom + 8.0), title, lines)
    return canvas.finish(f"join-holes-{row.side}", title, " ".join(lines))
