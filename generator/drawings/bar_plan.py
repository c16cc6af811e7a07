"""The bars of one material as scaled strips: pieces in the order of the saw, kerfs, running marks, the off-cut."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from generator.drawings.canvas import Canvas, Drawing
from generator.drawings.dimensions import Ruler
from generator.drawings.extent import Extent
from generator.drawings.letter_sizes import SMALL_TEXT, TEXT
from generator.drawings.shapes import Text
from generator.figures.rows.cutting import BarRow
from generator.names import slug

PLAN_LENGTH = 232.0
"""Length on the paper of the longest bar, in mm: with its lettering it fits a page on its long side."""
BARS_A_PAGE = 6
"""This many bars fit below each other on such a page."""
BAR_HEIGHT = 11.0
BAR_PITCH = 26.0
"""From one bar to the next, in mm: room for running marks below and the bar's name above."""

NO_LINKS: Mapping[str, str] = {}


def draw_bar_plans(
    material: str, bars: Sequence[BarRow], ruler: Ruler, made_of: str, links: Mapping[str, str] = NO_LINKS
) -> list[Drawing]:
    """All bars of a material below each other, to one scale, the datum end at the left; a page of paper each.

    `made_of` says what the material is.
    """
    scale = PLAN_LENGTH / float(max(bar.stock_length for bar in bars))
    drawings = []
    for first in range(0, len(bars), BARS_A_PAGE):
        canvas, shown = Canvas(), bars[first : first + BARS_A_PAGE]
        for number, bar in enumerate(shown):
            _draw_bar(canvas, first + number + 1, bar, number * BAR_PITCH, scale, ruler, links)
        more = f"-{first // BARS_A_PAGE + 1}" if first else ""
        title = f"Bar plan, {made_of}" + (f", from bar {first + 1}" if first else "")
        drawings.append(
            canvas.finish(f"bar-plan-{slug(material)}{more}", title, _describe(shown, ruler, first + 1))
        )
    return drawings


def _draw_bar(
    canvas: Canvas, number: int, bar: BarRow, top: float, scale: float, ruler: Ruler, links: Mapping[str, str]
) -> None:
    lot = f", lot {bar.lot}" if bar.lot else ""
    hand = ", on hand" if bar.on_hand else ""
    canvas.text(
        (0.0, top - 2.0), f"Bar {number}: {ruler.text(bar.stock_length)}{lot}{hand}", TEXT, style="mark"
    )
    width = float(bar.stock_length) * scale
    canvas.rect(0.0, top, width, BAR_HEIGHT, "thin")
    start = float(bar.trim) * scale
    canvas.hatch(Extent(0.0, top, start, top + BAR_HEIGHT), 1.5)
    for mark, length, end in zip(bar.pieces, bar.lengths, bar.running, strict=True):
        _draw_piece(canvas, bar, mark, length, end, top, scale, ruler, links)
    last = start + float(bar.running[-1] + bar.kerf) * scale
    rest = Extent(min(last, width), top, width, top + BAR_HEIGHT)
    if rest.width > 0.5:
        canvas.hatch(rest, 2.5)
    note = Text(
        (rest.centre[0], top + BAR_HEIGHT + 4.0), f"off-cut {ruler.rest(bar.offcut)}", SMALL_TEXT, "middle"
    )
    canvas.text_if_free(note, Extent(rest.left, top, max(width, rest.left + 40.0), top + BAR_PITCH))


def _draw_piece(
    canvas: Canvas,
    bar: BarRow,
    mark: str,
    length: Fraction,
    end: Fraction,
    top: float,
    scale: float,
    ruler: Ruler,
    links: Mapping[str, str],
) -> None:
    right = float(bar.trim + end) * scale
    left = right - float(length) * scale
    corners = ((left, top), (right, top), (right, top + BAR_HEIGHT), (left, top + BAR_HEIGHT))
    canvas.polygon(corners, "fill-bar")
    middle, room = (left + right) / 2, Extent(left, top, right, top + BAR_HEIGHT)
    canvas.text_if_free(
        Text((middle, top + 4.8), mark, TEXT, "middle", style="mark", link=links.get(mark, "")), room
    )
    canvas.text_if_free(Text((middle, top + 9.3), ruler.text(length), SMALL_TEXT, "middle"), room)
    canvas.line((right, top + BAR_HEIGHT), (right, top + BAR_HEIGHT + 1.5), "thin")
    below = Extent(left - 20.0, top, right + 20.0, top + BAR_PITCH)
    label = Text((right, top + BAR_HEIGHT + 4.0), ruler.text(end), SMALL_TEXT, "middle", style="note")
    if not canvas.text_if_free(label, below):
        lower = Text((right, top + BAR_HEIGHT + 7.5), ruler.text(end), SMALL_TEXT, "middle", style="note")
        canvas.text_if_free(lower, below)


def _describe(bars: Sequence[BarRow], ruler: Ruler, first: int) -> str:
    lines = []
    for number, bar in enumerate(bars, first):
        cuts = ", ".join(
            f"{mark} {ruler.text(length)}" for mark, length in zip(bar.pieces, bar.lengths, strict=True)
        )
        lines.append(
            f"Bar {number} of {ruler.text(bar.stock_length)}: {cuts}; off-cut {ruler.rest(bar.offcut)}."
        )
    return " ".join(lines)
