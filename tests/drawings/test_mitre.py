"""The mitred ends of an edging on its part sheet: the slope, and the length of both faces."""

from __future__ import annotations

from generator.drawings.dimensions import Ruler
from generator.drawings.part import draw_part
from generator.drawings.shapes import Polyline
from generator.figures.compute import compute
from generator.spec.samples import sample_text
from tests.bench.benches import part, solved


def test_the_slope_of_a_mitred_edging_is_drawn() -> None:
    """The desk's front strip is 1900 long outside and mitred at both ends, those of the sides at the front only."""
    bench = solved(sample_text("desk"))
    figures = compute(bench)[0]
    for row in (each for each in figures.parts if each.group == "top edging"):
        piece = part(bench, row.mark)
        drawing = draw_part(figures, row, Ruler())
        written = [text.text for text in drawing.texts()]
        slopes = [
            (abs(b[0] - a[0]), abs(b[1] - a[1]))
            for shape in drawing.shapes
            if isinstance(shape, Polyline) and shape.style == "fill-wood"
            for a, b in zip(shape.points, [*shape.points[1:], shape.points[0]], strict=True)
            if abs(b[0] - a[0]) > 0.01 and abs(b[1] - a[1]) > 0.01
        ]
        # equal legs are 45 degrees
        assert len(slopes) == len(piece.mitres) and all(abs(x - y) < 0.01 for x, y in slopes)
        assert [f"{end}, 45°" in written for end in piece.mitres] == [True] * len(piece.mitres)
        inner = piece.length - len(piece.mitres) * piece.thickness
        assert {Ruler().text(piece.length), Ruler().text(inner)} <= set(written)
    assert "1860" in [
        t.text for r in figures.parts if r.mark == "TE1" for t in draw_part(figures, r, Ruler()).texts()
    ]
