"""The ends of a strip with mitres from above, enlarged: which way each slope runs, and the length of both faces."""

from __future__ import annotations

from generator.drawings.canvas import Canvas
from generator.drawings.dimensions import Row, Ruler, overall
from generator.drawings.letter_sizes import SMALL_TEXT, TEXT
from generator.figures.rows.parts import PartRow
from generator.geometry import FACES

LARGEST_SCALE, MOST_THICK = 3.0, 14.0
"""Largest scale of the thickness, and the most that it takes on the paper (mm)."""
END_SHOWN, BROKEN = 44.0, 8.0
"""How much of each end is drawn, and the gap of what is left out between them (mm of paper)."""


def draw_mitres(row: PartRow, ruler: Ruler) -> Canvas:
    """Both ends, the outer face below: a mitred end is longest there, a square one is the same at both faces."""
    canvas = Canvas()
    deep = min(float(row.thickness) * LARGEST_SCALE, MOST_THICK)
    whole = 2 * END_SHOWN + BROKEN
    ends = FACES[row.along]
    off = [deep if end in row.mitres else 0.0 for end in ends]
    left = ((0.0, 0.0), (END_SHOWN, 0.0), (END_SHOWN, -deep), (off[0], -deep))
    right = (
        (whole, 0.0),
        (whole - END_SHOWN, 0.0),
        (whole - END_SHOWN, -deep),
        (whole - off[1], -deep),
    )
    for shape in (left, right):
        canvas.polygon(shape, "fill-wood")
    middle = -deep / 2 + SMALL_TEXT / 2
    for x, end, anchor in ((off[0] + 3.0, ends[0], "start"), (whole - off[1] - 3.0, ends[1], "end")):
        words = f"{end}, 45°" if end in row.mitres else f"{end}, square"
        canvas.text((x, middle), words, SMALL_TEXT, anchor, style="note")
    canvas.text((whole / 2, 5.0), "outer face", SMALL_TEXT, "middle", style="note")
    inner = row.length - len(row.mitres) * row.thickness
    overall(canvas, Row("x", 12.0, 1), 0.0, whole, ruler.text(row.length), foot=0.0)
    reach = overall(canvas, Row("x", -deep - 7.0, -1), off[0], whole - off[1], ruler.text(inner), foot=-deep)
    overall(canvas, Row("y", whole + 7.0, 1), -deep, 0.0, ruler.fine(row.thickness), foot=whole)
    canvas.text((0.0, -deep - 14.0 - reach), "Both ends, seen along the mitre, enlarged", TEXT, style="mark")
    return canvas
