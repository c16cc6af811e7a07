"""Section through a tongued edge, enlarged: thickness, tongue, rabbets and lengths."""

from __future__ import annotations

from generator.drawings.canvas import Canvas
from generator.drawings.dimensions import Row, Ruler, Stretch, chain, overall
from generator.drawings.extent import Extent
from generator.drawings.letter_sizes import SMALL_TEXT, TEXT
from generator.figures.rows.parts import PartRow

DETAIL_SCALE = 2.2
"""Scale of the section, for a sheet of up to DETAIL_HEIGHT / DETAIL_SCALE mm."""
DETAIL_HEIGHT = 27.0


def draw_tongue(canvas: Canvas, row: PartRow, ruler: Ruler) -> None:
    """Section through one tongued edge in its bar: thickness, tongue, rabbets and lengths."""
    tongue = max(row.tongues.values())
    thickness, thin = row.thickness, row.tongue_thickness or row.thickness
    rabbet = row.rabbet_depth if row.rabbet_depth is not None else (thickness - thin) / 2
    shoulder = row.rabbet_length if row.rabbet_length is not None else tongue
    scale = min(DETAIL_SCALE, DETAIL_HEIGHT / float(thickness))
    t, r, e, s = (float(v) * scale for v in (thickness, rabbet, tongue, shoulder))
    body = s + 14.0
    low = t - r
    edge = [(0.0, r), (s, r), (s, 0.0), (body, 0.0), (body, t), (s, t), (s, low), (0.0, low)]
    canvas.polygon(edge, "fill-wood")
    canvas.hatch(Extent(s, 0.0, body, t), 2.5)
    canvas.hatch(Extent(0.0, r, s, low), 2.5)
    canvas.line((e, -6.0), (e, t + 6.0), "centre")
    canvas.text((0.0, -21.0), "A–A, enlarged", TEXT, style="mark")
    line = "bar's face" if rabbet else "goes in to here"
    canvas.text((e - 1.0, t + 5.5), line, SMALL_TEXT, "end", style="note")
    if rabbet:
        chain(canvas, Row("x", -11.0, -1), (Stretch(0.0, s, ruler.fine(shoulder)),), 0.0)
    chain(canvas, Row("x", t + 16.0, 1), (Stretch(0.0, e, ruler.fine(tongue)),), t)
    if not rabbet:
        # a board that goes in as it is: one thickness, and no cut to call
        overall(canvas, Row("y", body + 9.0, 1), 0.0, t, ruler.fine(thickness), foot=body)
        return
    chain(canvas, Row("y", -6.0, -1), (Stretch(r, low, ruler.fine(thin)),), 0.0)
    rabbets = (Stretch(0.0, r, ruler.fine(rabbet)), Stretch(low, t, ruler.fine(rabbet)))
    # the short ones outside: their numbers are longer than they are, and the whole one's lines would strike them out
    reach = overall(canvas, Row("y", body + 9.0, 1), 0.0, t, ruler.fine(thickness), foot=body)
    chain(canvas, Row("y", body + 15.0 + reach, 1), rabbets, body)
