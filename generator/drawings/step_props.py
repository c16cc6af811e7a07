"""Acts of a step in small pictures before and after the large one: battens, straps, what is lowered, the order.

Each is drawn from what stands there in that step; a prop is a block beside it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import partial

from generator.bench import acts
from generator.bench.acts import Act
from generator.drawings.act_scenes import ActScene, batten, draw_scene, levels, lowered, stood_up, strapped
from generator.drawings.act_sections import draw_hung, draw_measured, draw_order, draw_paint
from generator.drawings.act_work import draw_brush, draw_pockets, draw_tap
from generator.drawings.callouts import BESIDE, BETWEEN
from generator.drawings.canvas import Canvas, Drawing
from generator.drawings.extent import Extent, Point
from generator.drawings.letter_sizes import SMALL_TEXT, TEXT, line_height
from generator.drawings.lettering import MARGIN, PAGE_WIDTH, wrapped
from generator.drawings.shapes import Again
from generator.drawings.slim import SLIM_WIDTH
from generator.drawings.stands import with_stands
from generator.figures.model import Figures
from generator.figures.rows.assembly import Shape, Step

#: A small picture with its frame, clear paper in that, and below the word above it (mm).
WIDTH, HIGH, INSET, UNDER = 44.0, 30.0, 1.5, 2.0
#: From line to line of the words beside one (mm).
LINE = 1.05 * line_height(SMALL_TEXT)
#: What the groups of small pictures are called, before their numbers.
GROUP = "act-"

Shapes = Mapping[str, Shape]
Draw = Callable[[Canvas], None]
SCENES: Mapping[str, Callable[[Figures, Step, Shapes], ActScene | None]] = {
    acts.BATTEN_ON: partial(batten, on=True),
    acts.BATTEN_OFF: partial(batten, on=False),
    acts.STAND_UP: stood_up,
    acts.STRAP: strapped,
    acts.LOWER: lowered,
    acts.LEVELS: levels,
}
SECTIONS: Mapping[str, Callable[[Figures, Step, Shapes, float, float], Canvas | None]] = {
    acts.PAINT: draw_paint,
    acts.CENTRE_OUT: draw_order,
    acts.MEASURE: draw_measured,
    acts.HANG: draw_hung,
    acts.POCKETS: draw_pockets,
    acts.SEAL: draw_brush,
    acts.TAP: draw_tap,
}


def draw_acts(figures: Figures, step: Step, *, first: bool) -> tuple[Drawing, Drawing] | None:
    """Small pictures of the acts that come before the pieces of a step, or of the others; and those for a phone."""
    if not step.acts:
        return None
    shapes = with_stands(figures)
    drawn = [each for each in _drawn(figures, step, shapes) if (each[0].when == acts.FIRST) is first]
    if not drawn:
        return None
    wide = _finished(step, drawn, None, first=first)
    return wide, _finished(step, drawn, wide, first=first)


def acts_names(figures: Figures, step: Step) -> tuple[str, str]:
    """What the pictures of the acts before and after a step's pieces are called; empty where there is none."""
    whens = [act.when for act, _ in _drawn(figures, step, with_stands(figures))] if step.acts else []
    before = _name(step, first=True) if acts.FIRST in whens else ""
    return before, _name(step, first=False) if any(when != acts.FIRST for when in whens) else ""


def _name(step: Step, *, first: bool) -> str:
    return f"picture-{step.key}-{'first' if first else 'then'}"


def _finished(
    step: Step, drawn: Sequence[tuple[Act, Draw]], slim_of: Drawing | None, *, first: bool
) -> Drawing:
    canvas, y, room = Canvas(), 0.0, (SLIM_WIDTH if slim_of else PAGE_WIDTH) - 2 * MARGIN
    # a phone and a page have all of their width for it, so that its letters are as large as those of other pictures
    canvas.rect(0.0, 0.0, room, UNDER, "paper")
    in_a_row = 1 if slim_of else 2
    own = list(enumerate(drawn))
    for row in (own[at : at + in_a_row] for at in range(0, len(own), in_a_row)):
        words = room / len(row) - WIDTH - BESIDE
        for column, (number, (act, draw)) in enumerate(row):
            left = column * (WIDTH + BESIDE + words)
            canvas.text((left, y + TEXT), act.when, TEXT, style="mark")
            top = y + TEXT + UNDER
            _draw(canvas, Extent(left, top, left + WIDTH, top + HIGH), draw, number, slim_of)
            for line, text in enumerate(wrapped(act.words, words - BESIDE, SMALL_TEXT)):
                canvas.text((left + WIDTH + BESIDE, top + SMALL_TEXT + line * LINE), text, SMALL_TEXT)
        y += max(_height(act, words) for _, (act, _) in row) + BETWEEN
    name = slim_of.id + "-slim" if slim_of else _name(step, first=first)
    said = " ".join(act.words for act, _ in drawn)
    return canvas.finish(name, f"Step {step.n}: {step.title}", said, MARGIN)


def _height(act: Act, words: float) -> float:
    return TEXT + UNDER + max(HIGH, LINE * len(wrapped(act.words, words - BESIDE, SMALL_TEXT)))


def _draw(canvas: Canvas, frame: Extent, draw: Draw, number: int, slim_of: Drawing | None) -> None:
    if slim_of:
        for name, first, _ in slim_of.groups:
            if name == f"{GROUP}{number}":
                own = slim_of.shapes[first].extent()
                again = Again(f"{slim_of.id}-{name}", (0.0, 0.0), 1.0, own)
                canvas.add(again.moved(frame.left - own.left, frame.top - own.top))
        return
    first = len(canvas.shapes)
    canvas.rect(frame.left, frame.top, frame.width, frame.height, "thin", 1.0)
    inner = Extent(frame.left + INSET, frame.top + INSET, frame.right - INSET, frame.bottom - INSET)
    canvas.later(inner, partial(_centred, draw=draw, centre=inner.centre))
    canvas.group(f"{GROUP}{number}", first)


def _centred(canvas: Canvas, draw: Draw, centre: Point) -> None:
    small = Canvas()
    draw(small)
    middle = small.extents().centre
    canvas.place(small, centre[0] - middle[0], centre[1] - middle[1])


def _drawn(figures: Figures, step: Step, shapes: Shapes) -> Iterator[tuple[Act, Draw]]:
    """The acts that can be shown, each with what draws it about any point."""
    width, high = WIDTH - 2 * INSET, HIGH - 2 * INSET
    for act in step.acts:
        if act.kind in SCENES:
            scene = SCENES[act.kind](figures, step, shapes)
            if scene:
                yield act, partial(draw_scene, scene=scene, width=width, high=high)
        else:
            section = SECTIONS[act.kind](figures, step, shapes, width, high)
            if section:
                yield act, partial(_copied, section)


def _copied(section: Canvas, canvas: Canvas) -> None:
    canvas.place(section, 0.0, 0.0)
