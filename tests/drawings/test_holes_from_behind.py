"""A hole that goes in from the face that the drawing does not show is dashed, and a note says which face it is."""

from __future__ import annotations

import pytest

from generator.bench.solve import solve
from generator.drawings.dimensions import Ruler
from generator.drawings.panel import draw_panel
from generator.drawings.shapes import Circle
from generator.figures.compute import compute
from generator.resources import bundled
from generator.spec.load import read_spec

DEMO = (bundled("specs") / "demo.yml").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("bay", "style", "note"),
    [
        ("B1", "hidden", "Drill the dashed holes into the rear face: turn the board over."),
        ("F2", "hole", ""),
    ],
)
def test_hinge_holes_of_a_door(bay: str, style: str, note: str) -> None:
    """Doors at the rear have their hinges on the rear face; boards are drawn as seen from the front."""
    text = DEMO.replace(f"{{name: {bay},", f"{{name: {bay}, door: {{hinge: left}},")
    done = compute(solve(read_spec(text, "bench.yml")))[0]
    (door,) = [row for row in done.parts if row.group == "door"]
    drawing = draw_panel(door, Ruler())
    circles = [shape.style for shape in drawing.shapes if isinstance(shape, Circle)]
    assert {each for each in circles if each in ("hole", "hidden")} == {style}
    said = " ".join(words for words, _ in drawing.text_boxes())
    assert ("dashed holes" in said) is bool(note)
    assert note in said
