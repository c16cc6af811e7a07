"""Section through the tray's edge and its trim, enlarged: which leg stands, which lies, and which side is out."""

from __future__ import annotations

from fractions import Fraction

from generator.drawings.canvas import Canvas
from generator.drawings.dimensions import Row, Ruler, Stretch, chain, overall
from generator.drawings.extent import Extent
from generator.drawings.letter_sizes import SMALL_TEXT, TEXT
from generator.figures.rows.parts import PartRow

SECTION_SCALE, SECTION_HEIGHT = 3.0, 45.0
"""Largest scale of the section, and its greatest height on the paper in mm."""
TRAY_SHOWN = 16.0
"""How far the tray is drawn beyond the trim, in mm of paper."""
IN_WORDS = (
    "Section: one leg is in front of the tray's edge, flush with the posts. The other is below the tray."
)


def draw_trim(row: PartRow, tray: Fraction, ruler: Ruler) -> Canvas:
    """One leg upright before the tray's edge, flush with the posts, the other below a tray `tray` mm thick."""
    canvas = Canvas()
    scale = min(SECTION_SCALE, SECTION_HEIGHT / float(row.width))
    leg, thin, sheet = (float(size) * scale for size in (row.width, row.thickness, tray))
    inside = leg + TRAY_SHOWN
    canvas.rect(thin, -thin - sheet, inside - thin, sheet, "fill-wood")
    canvas.hatch(Extent(thin, -thin - sheet, inside, -thin), 2.5)
    canvas.polygon(((0, 0), (0, -leg), (thin, -leg), (thin, -thin), (leg, -thin), (leg, 0)), "fill-dark")
    screw = (thin + leg) / 2
    canvas.line((screw, 5.0), (screw, -thin - sheet * 0.9), "centre")
    top = -max(leg, thin + sheet)
    canvas.line((0.0, 10.0), (0.0, top - 9.0), "centre")
    canvas.text((0.0, top - 28.0), "Section, enlarged", TEXT, style="mark")
    canvas.text((-1.5, 5.0), "posts' face", SMALL_TEXT, "end", style="note")
    canvas.text((-1.5, 9.0), "outside", SMALL_TEXT, "end", style="note")
    canvas.text((inside + 2.0, -thin - sheet / 2 + SMALL_TEXT / 2), "tray", SMALL_TEXT, style="note")
    canvas.text((screw + 2.0, 5.0), "screw", SMALL_TEXT, style="note")
    chain(canvas, Row("x", top - 12.0, -1), (Stretch(0.0, thin, ruler.fine(row.thickness)),), top)
    overall(canvas, Row("x", 17.0, 1), 0.0, leg, ruler.text(row.width), foot=0.0)
    overall(canvas, Row("y", -7.0, -1), -leg, 0.0, ruler.text(row.width), foot=0.0)
    return canvas
