"""A story stick: a bar with ticks, absolute distances and an X on the side where a member is."""

from __future__ import annotations

from itertools import pairwise

from generator.drawings.canvas import Canvas, Drawing
from generator.drawings.dimensions import Row, Ruler, Tick, overall, running
from generator.drawings.letter_sizes import SMALL_TEXT
from generator.drawings.lettering import fitting, notes
from generator.figures.model import Figures
from generator.figures.rows.setting_out import Mark, Stick
from generator.names import slug

STICK_LENGTH = 165.0
"""Greatest length of a stick on the paper, in mm."""
STICK_HEIGHT = 14.0

BESIDE = 5.0
"""Room in mm for the X beside an edge whose member has no second edge on the stick."""

LEAST_CROSS = 1.5
"""Stretches shorter than this (mm) get no X."""

#: Words of an edge's label that say on which side of the tick its member is.
BEGINS = frozenset({"left", "front", "bottom", "lower", "low", "underside", "under", "start"})
ENDS = frozenset({"right", "rear", "back", "top", "upper", "high"})
FILLERS = frozenset({"edge", "face", "side"})


def all_sticks(figures: Figures) -> list[Stick]:
    """Every stick of a manual, the height rod last."""
    return [*figures.sticks, *([figures.height_rod] if figures.height_rod else [])]


def draw_stick(stick: Stick, ruler: Ruler) -> Drawing:
    """One stick to scale along its length, its datum end at the left."""
    return fitting(lambda length: stick_drawing(stick, ruler, length), STICK_LENGTH)


def stick_drawing(stick: Stick, ruler: Ruler, length: float) -> Drawing:
    """The stick `length` mm long on the paper."""
    canvas = Canvas()
    scale = length / float(stick.length)
    canvas.rect(0.0, 0.0, length, STICK_HEIGHT, "fill-wood")
    for low, high in members(stick, scale):
        cross(canvas, low, high)
    for mark in stick.marks:
        x = float(mark.at) * scale
        if mark.kind == "centre":
            canvas.line((x, -1.5), (x, STICK_HEIGHT + 1.5), "centre")
        else:
            canvas.line((x, 0.0), (x, STICK_HEIGHT), "outline")
    canvas.polygon(((0.0, STICK_HEIGHT), (-3.0, STICK_HEIGHT + 4.5), (3.0, STICK_HEIGHT + 4.5)), "arrow")
    canvas.text((4.5, STICK_HEIGHT + 4.5), f"datum: {stick.datum}", SMALL_TEXT, style="note")
    labels = [Tick(float(mark.at) * scale, ruler.text(mark.at), mark.label) for mark in stick.marks]
    running(canvas, Row("x", -5.0, -1), 0.0, labels, 0.0, zero_note=stick.datum)
    overall(canvas, Row("x", STICK_HEIGHT + 15.0, 1), 0.0, length, ruler.text(stick.length), STICK_HEIGHT)
    against = f"Hold it against {stick.lies_on}. " if stick.lies_on else ""
    lines = [f"{against}All distances are from the {stick.datum}.", f"{ruler.note} X: the member is here."]
    notes(canvas, (0.0, canvas.extents().bottom + 8.0), f"Story stick {stick.name}", lines)
    return canvas.finish(f"stick-{slug(stick.name)}", f"Story stick {stick.name}", describe(stick, ruler))


def member(mark: Mark) -> str:
    """What an edge's label says apart from its side, so that both edges of one member agree."""
    return " ".join(word for word in words(mark) if word not in BEGINS | ENDS | FILLERS)


def words(mark: Mark) -> list[str]:
    """A label's words in small letters."""
    return mark.label.lower().replace(",", " ").split()


def side(mark: Mark) -> int:
    """1 when the member is beyond the tick, -1 when before it, 0 when the label does not say."""
    for word in reversed(words(mark)):
        if word in BEGINS | ENDS:
            return 1 if word in BEGINS else -1
    return 0


def is_pair(first: Mark, second: Mark) -> bool:
    """True when two edges bound one member: they have the same name, or the first begins it and the second ends it."""
    if first.label == second.label:
        return bool(first.label)
    return member(first) == member(second) and (side(first), side(second)) == (1, -1)


def members(stick: Stick, scale: float) -> list[tuple[float, float]]:
    """The stretches (mm of paper) that get an X: between both edges of a member, or beside its only edge.

    A member that begins or ends with the stick has its other edge there, under the name of the stick's end.
    """
    edges = sorted((mark for mark in stick.marks if mark.kind == "edge"), key=lambda mark: mark.at)
    pairs: list[tuple[Mark, Mark]] = []
    for first, second in pairwise(edges):
        if first.at < second.at and is_pair(first, second) and not (pairs and first is pairs[-1][1]):
            pairs.append((first, second))
    paired = {mark.at for pair in pairs for mark in pair}
    ends = [(edges[0], edges[1]), (edges[-2], edges[-1])] if len(edges) > 3 else []
    for first, second in ends:
        inner, end = (second, first) if first.at == 0 else (first, second)
        if end.at in (0, stick.length) and not ({inner.at, end.at} & paired) and not side(inner):
            pairs.append((first, second))
            paired |= {first.at, second.at}
    found = [(float(first.at) * scale, float(second.at) * scale) for first, second in pairs]
    for mark in edges:
        if mark.at not in paired and side(mark) and 0 < mark.at < stick.length:
            at = float(mark.at) * scale
            found.append((at, at + BESIDE) if side(mark) > 0 else (at - BESIDE, at))
    end_at = float(stick.length) * scale
    within = ((max(low, 0.0), min(high, end_at)) for low, high in found)
    return [(low, high) for low, high in within if high - low > LEAST_CROSS]


def cross(canvas: Canvas, low: float, high: float) -> None:
    """An X in the middle of a stretch, as large as it allows."""
    half = min(2.6, (high - low) * 0.4)
    x, y = (low + high) / 2, STICK_HEIGHT / 2
    canvas.line((x - half, y - half), (x + half, y + half), "thin")
    canvas.line((x - half, y + half), (x + half, y - half), "thin")


def describe(stick: Stick, ruler: Ruler) -> str:
    """The drawing in words."""
    marks = "; ".join(f"{ruler.text(mark.at)} {mark.label} ({mark.kind})" for mark in stick.marks)
    return f"From the {stick.datum}: {marks}. Length {ruler.text(stick.length)}."
