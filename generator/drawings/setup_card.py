"""A set-up card: one setting of one machine on a page, with a box for what was measured and a signature."""

from __future__ import annotations

from generator.drawings.canvas import Canvas
from generator.drawings.caution import draw_cautions, in_full
from generator.drawings.dimensions import Ruler
from generator.drawings.extent import Extent
from generator.drawings.letter_sizes import SMALL_TEXT, TEXT
from generator.drawings.setup_sketch import draw_sketch
from generator.drawings.sheet import Table, draw_table, heading_line, paragraph, row_heights
from generator.figures.rows.setting_out import Setting, Setup

INSET = 3.0
NUMBER_TEXT = 10.0
TICK = 8.0
"""Side of a box to tick, in mm."""
SIGN_HEIGHT = 13.0
"""Height of the boxes for the measured value, the date and the signature."""
SETTING_WIDTHS = (118.0, 56.0)
MEASURE = "These are typical values. Measure yours, write them in the spec and print this card again."
MEASURE_WIDTHS = (34.0, 40.0)
"""Widths of the typical values and of the boxes for the reader's own."""
HALF_NAMES, HALF_WIDTH = 44.0, 20.0
"""Widths of the half-step table: its names, and each pair of values."""


def draw_setup(card: Setup, parts: str, ruler: Ruler, free: Extent) -> list[Canvas]:
    """The card on a sheet; further sheets when its settings are too many."""
    canvas = Canvas()
    left, width = free.left + INSET, free.width - 2 * INSET
    y = measure_first(canvas, card, ruler, left, card_head(canvas, card, parts, free), width)
    table = setting_table(card, ruler)
    foot = free.bottom - SIGN_HEIGHT - INSET
    below = steps_height(card, ruler, width) + INSET
    sheets = [canvas]
    while table.rows:
        count = rows_within(table, foot - y - 8.0 - below)
        if not count:
            break
        y = draw_table(sheets[-1], (left, y), table.taken(0, count), TEXT) + INSET
        table = table.taken(count, len(table.rows))
        if table.rows:
            sheets.append(Canvas())
            y = card_head(sheets[-1], card, parts, free)
    write_steps(sheets[-1], card, ruler, left, y, width)
    for sheet in sheets:
        sign_boxes(sheet, left, foot, width)
    return sheets


def rows_within(table: Table, room: float) -> int:
    """How many rows of a table fit in a height `room` (mm), at least one."""
    taken, count = 0.0, 0
    for height in row_heights(table, TEXT):
        taken += height
        if taken > room and count:
            break
        count += 1
    return count


def card_head(canvas: Canvas, card: Setup, parts: str, free: Extent) -> float:
    """Number, title, tool, the parts that this setting is for, cautions. Returns where the settings may begin."""
    left, top = free.left + INSET, free.top + INSET
    canvas.text((left, top + NUMBER_TEXT), str(card.n), NUMBER_TEXT, style="mark")
    beside, width = left + 24.0, free.width - 2 * INSET - 24.0
    y = heading_line(canvas, (beside, top - 1.0), card.title, width)
    y = paragraph(canvas, (beside, y), f"Tool: {card.tool}.", width)
    y = paragraph(canvas, (beside, y), f"For {parts}.", width, SMALL_TEXT)
    y = max(y, top + NUMBER_TEXT) + INSET
    canvas.line((free.left, y), (free.right, y), "thin")
    return draw_cautions(canvas, (left, y + 1.6), in_full(card.cautions, free.width - 2 * INSET)) + 1.0


def measure_first(canvas: Canvas, card: Setup, ruler: Ruler, left: float, top: float, width: float) -> float:
    """A band that holds the card back, with a box for each value to measure. Returns where the settings may begin."""
    if not card.unmeasured:
        return top
    y = heading_line(canvas, (left + INSET, top + 1.0), "Measure before you cut", width - 2 * INSET)
    y = paragraph(canvas, (left + INSET, y), MEASURE, width - 2 * INSET, SMALL_TEXT)
    rows = tuple(
        (each.name, f"{ruler.fine(each.value)} {ruler.units}" if each.unit == "mm" else str(each.value), "")
        for each in card.unmeasured
    )
    columns = (width - 2 * INSET - sum(MEASURE_WIDTHS), *MEASURE_WIDTHS)
    y = draw_table(canvas, (left + INSET, y + 1.0), Table(("What", "Typical", "Yours"), rows, columns), TEXT)
    for edge in (0.0, 0.9):  # a double frame
        canvas.rect(left + edge, top + edge, width - 2 * edge, y + INSET - top - 2 * edge, "outline")
    return y + 2 * INSET


def setting_table(card: Setup, ruler: Ruler) -> Table:
    """Names and values of the settings."""
    rows = tuple((setting.name, value(setting, ruler)) for setting in card.settings)
    return Table(("Setting", ruler.units), rows, SETTING_WIDTHS)


def value(setting: Setting, ruler: Ruler) -> str:
    """The lengths of a setting, and its text."""
    write = ruler.fine if setting.fine else ruler.text
    return "; ".join(part for part in (", ".join(write(v) for v in setting.values), setting.text) if part)


def steps_height(card: Setup, ruler: Ruler, width: float) -> float:
    """Room that the steps, the gauge and the half-step table take."""
    scratch = Canvas()
    return write_steps(scratch, card, ruler, 0.0, 0.0, width)


def write_steps(canvas: Canvas, card: Setup, ruler: Ruler, left: float, y: float, width: float) -> float:
    """The test piece step by step with boxes to tick, the half-step table, and when it passes; its picture beside."""
    picture = draw_sketch(card, ruler)
    beside = width - (picture.width + INSET if picture else 0.0)
    foot = y + (picture.height if picture else 0.0)
    for shape in picture.shapes if picture else ():
        canvas.add(shape.moved(left + beside + INSET, y))
    for number, step in enumerate(card.steps, 1):
        canvas.rect(left, y + 0.6, TICK, TICK, "outline")
        y = (
            max(
                paragraph(canvas, (left + TICK + INSET, y), f"{number}. {step}", beside - TICK - INSET),
                y + TICK,
            )
            + 1.6
        )
    if card.half_steps:
        y = max(y, foot)
        errors, halves = zip(*card.half_steps, strict=True)
        table = Table(
            ("Too thick by", *map(ruler.fine, errors)),
            (("Raise cutter by", *map(ruler.fine, halves)),),
            (HALF_NAMES, *[HALF_WIDTH] * len(errors)),
            frozenset(range(1, len(errors) + 1)),
        )
        y = draw_table(canvas, (left, y + 1.0), table, TEXT) + INSET
    y = paragraph(canvas, (left, y), f"Passes when: {card.gauge}", beside if y < foot else width)
    return max(y, foot)


def sign_boxes(canvas: Canvas, left: float, top: float, width: float) -> None:
    """Boxes for the measured value, the date and a signature."""
    x = left
    for name, share in (("Measured on the test piece", 0.4), ("Date", 0.2), ("Signed", 0.4)):
        canvas.rect(x, top, width * share, SIGN_HEIGHT, "outline")
        canvas.text((x + 1.2, top + 3.6), name, SMALL_TEXT, style="note")
        x += width * share
