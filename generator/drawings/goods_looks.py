"""Bought goods at full size, to lay the real thing on the paper: each by the sizes of its card or of the list.

What is larger than its place is drawn smaller, at a scale that is written beside it.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from generator.calculators.screw_heads import BUTTON, COUNTERSUNK, NONE
from generator.drawings.canvas import Canvas
from generator.drawings.dimensions import ROW, Row, Ruler, overall
from generator.drawings.extent import Extent, Point
from generator.drawings.letter_sizes import BOLD, SMALL_TEXT, TEXT, line_height, text_width
from generator.drawings.lettering import wrapped
from generator.drawings.paper import TRUE_SCALE, Scale
from generator.figures.rows.hardware import HardwareRow
from generator.spec.item import Look, Outline, ScrewOutline

SCALES = (1, 2, 5, 10, 20)
"""One to so many: the first at which goods fit their place."""
LONGEST, HIGHEST = 150.0, 40.0
"""What is drawn at most, in mm; goods that are not screws have half of the width."""
GAP = 7.0
"""Clear mm between two goods."""
LEAST_WIDTH = 34.0
"""Width of the words above goods, at least."""
BAR = {"mm": (Fraction(100), 10), "in": (Fraction(508, 5), 4)}
"""Length of the scale bar (mm), and its parts."""
THREAD_LEFT = 1.0
"""The least shank without thread lines below a head, in shanks."""
WOOD_PITCH = 0.45
"""A turn of a wood screw's thread, in shanks: only for the look of it."""
CROSS = 1.2
"""Half of the cross at the middle of a hole whose diameter no card gives."""


BESIDE = 18.0
"""What the widest picture leaves of its sheet, for its sizes."""

Goods = tuple[str, Look]
"""Names of what looks the same, and its look."""


def goods_of(rows: Sequence[HardwareRow]) -> list[Goods]:
    """What can be drawn of a hardware list, in its order; what looks the same has one picture."""
    found: dict[Look, list[str]] = {}
    for row in rows:
        for look in row.looks:
            names = found.setdefault(look, [])
            if row.kind not in names:
                names.append(row.kind)
    return [(", ".join(names), look) for look, names in found.items()]


def draw_goods(
    goods: Sequence[Goods], ruler: Ruler, free: Extent, true: Scale = TRUE_SCALE, *, bar: bool = False
) -> list[tuple[Canvas, list[Goods]]]:
    """Pictures of goods on as many sheets as they take, each with what is on it; a scale `bar` below each.

    `true` is by how much the paper is drawn larger for its printer.
    """
    sheets: list[tuple[Canvas, list[Goods]]] = []
    left = top = line = 0.0
    bottom = free.bottom - (_bar_height() if bar else 0.0)
    for each in goods:
        canvas, box = _block(*each, ruler, true, free.width)
        if left > free.left and left + box.width > free.right:
            left, top = free.left, top + line + GAP
            line = 0.0
        if not sheets or top + box.height > bottom:
            sheets.append((Canvas(), []))
            left, top, line = free.left, free.top, 0.0
        sheets[-1][0].place(canvas, left - box.left, top - box.top)
        sheets[-1][1].append(each)
        left += box.width + GAP
        line = max(line, box.height)
    for sheet, _ in sheets if bar else ():
        _scale_bar(sheet, ruler, (free.left, sheet.extents().bottom + GAP), true)
    return sheets


def _block(name: str, look: Look, ruler: Ruler, true: Scale, most: float) -> tuple[Canvas, Extent]:
    """One picture below its words, at most so wide (mm), and what it takes."""
    canvas, picture = Canvas(), Canvas()
    part = _scale(look, true, min(LONGEST, most - BESIDE))
    said = look.sold if isinstance(look, ScrewOutline) else look.view
    if isinstance(look, ScrewOutline):
        _screw(picture, look, ruler, (true.x / part, true.y / part))
    else:
        _outline(picture, look, ruler, (true.x / part, true.y / part))
    if part > 1:
        said = f"{said}, 1:{part}" if said else f"1:{part}"
    box = picture.extents()
    width = max(LEAST_WIDTH, box.width)
    y = TEXT
    for line in wrapped(name, width / BOLD, TEXT):
        canvas.text((0.0, y), line, TEXT, style="mark")
        y += line_height(TEXT)
    for line in wrapped(said, width, SMALL_TEXT):
        canvas.text((0.0, y - 0.4), line, SMALL_TEXT)
        y += line_height(SMALL_TEXT)
    canvas.place(picture, -box.left, y - box.top)
    own = canvas.extents()
    return canvas, Extent(0.0, own.top, max(own.right, width), own.bottom)


def _scale(look: Look, true: Scale, longest: float) -> int:
    """One to how much it is drawn; a screw is at most so long (mm)."""
    if isinstance(look, ScrewOutline):
        size, most = (look.length + look.head[1], look.head[0]), (longest, HIGHEST)
    else:
        size, most = look.size, (longest / 2, HIGHEST)
    fits = (
        part
        for part in SCALES
        if float(size[0]) * true.x / part <= most[0] and float(size[1]) * true.y / part <= most[1]
    )
    return next(fits, SCALES[-1])


def _screw(canvas: Canvas, look: ScrewOutline, ruler: Ruler, scale: tuple[float, float]) -> None:
    """Head at the left; its length is measured as it is sold: below the head, with the head where that is sunk."""
    across, up = scale
    length, half = float(look.length) * across, float(look.shank) * up / 2
    wide, high = float(look.head[0]) * up / 2, float(look.head[1]) * across
    start = 0.0
    if look.sort == COUNTERSUNK:
        canvas.polygon(((0.0, -wide), (0.0, wide), (high, half), (high, -half)), "fill-dark")
        start = high
    elif look.sort == BUTTON:
        # a segment of a sphere, flat on top: its chord is its width
        rim = (
            (-high, -wide * 0.45),
            (-high * 0.85, -wide * 0.62),
            (-high * 0.45, -wide * 0.88),
            (0.0, -wide),
        )
        canvas.polygon((*rim, *((x, -y) for x, y in reversed(rim))), "fill-dark")
    elif look.sort == NONE:
        canvas.line((0.0, -half - 1.5), (0.0, half + 1.5), "hidden")
    else:
        canvas.rect(-high, -wide, high, 2 * wide, "fill-dark")
    tip = length - 2 * half if look.wood else length
    body: list[Point] = [(start, -half), (tip, -half)]
    body += [(length, 0.0)] if look.wood else []
    canvas.polygon((*body, (tip, half), (start, half)), "fill-bar")
    turn = float(look.pitch) * across or float(look.shank) * WOOD_PITCH * across
    at = max(start, THREAD_LEFT * 2 * half if length > 8 * half else start) + turn
    while at + turn / 2 < tip:
        canvas.line((at, half), (at + turn / 2, -half), "thin")
        at += turn
    low = max(wide, half)
    overall(canvas, Row("x", low + ROW - 2.0, 1), 0.0, length, ruler.text(look.length), foot=half)


def _outline(canvas: Canvas, look: Outline, ruler: Ruler, scale: tuple[float, float]) -> None:
    """A side of a thing with its two sizes."""
    across, up = scale
    wide, high = float(look.size[0]) * across, float(look.size[1]) * up
    if look.disc:
        canvas.circle((wide / 2, -high / 2), wide / 2, "fill-bar")
    elif look.leg is not None:
        thick, tall = float(look.leg) * across, float(look.leg) * up
        corners = ((0.0, 0.0), (wide, 0.0), (wide, -tall), (thick, -tall), (thick, -high), (0.0, -high))
        canvas.polygon(corners, "fill-bar")
    elif look.guessed:
        canvas.line((0.0, -high), (wide, -high))
        canvas.line((0.0, 0.0), (wide, 0.0))
        canvas.line((0.0, -high), (0.0, 0.0), "hidden")
        canvas.line((wide, -high), (wide, 0.0), "hidden")
    else:
        canvas.rect(0.0, -high, wide, high, "fill-bar")
    for x, y, diameter in look.holes:
        at = (float(x) * across, -float(y) * up)
        if diameter:
            canvas.circle(at, float(diameter) * across / 2, "hole")
        else:
            canvas.line((at[0] - CROSS, at[1]), (at[0] + CROSS, at[1]), "thin")
            canvas.line((at[0], at[1] - CROSS), (at[0], at[1] + CROSS), "thin")
    if look.disc:
        size = ruler.diameter(look.size[0])
        overall(canvas, Row("x", ROW - 2.0, 1), 0.0, wide, size, foot=-high / 2)
        return
    if not look.guessed:
        overall(canvas, Row("x", ROW - 2.0, 1), 0.0, wide, ruler.text(look.size[0]), foot=0.0)
    overall(canvas, Row("y", wide + ROW - 2.0, 1), -high, 0.0, ruler.text(look.size[1]), foot=wide)


def _bar_height() -> float:
    return GAP + 3.0 + 2 * line_height(SMALL_TEXT)


def _scale_bar(canvas: Canvas, ruler: Ruler, at: Point, true: Scale) -> None:
    """A ruled line to lay a ruler on."""
    length, parts = BAR[ruler.units]
    long, (x, y) = float(length) * true.x, at
    canvas.line((x, y + 2.0), (x + long, y + 2.0))
    for number in range(parts + 1):
        high = 2.0 if number in (0, parts) else 1.2
        canvas.line((x + long * number / parts, y + 2.0 - high), (x + long * number / parts, y + 2.0), "thin")
    says = f"This line is {ruler.text(length)} {ruler.units}. If it is not, print again at 100 %."
    assert text_width(says, SMALL_TEXT) < LONGEST
    canvas.text((x, y + 3.0 + line_height(SMALL_TEXT)), says, SMALL_TEXT)
